"""Rows of paintings, passages and their colours, as cells and back."""

from collections.abc import Sequence

from sqlalchemy import RowMapping

from studio.catalogue.painting import Painting, Passage, PassageColour
from studio.catalogue.swatch import Application
from studio.colour.lab import Lab
from studio.storage.measurement_files import file_of
from studio.storage.removals import removal_of


def painting_values(painting: Painting) -> dict[str, object]:
    """The cells of a painting but its id and its mark."""
    return {
        "code": painting.code,
        "title": painting.title,
        "paper_id": painting.paper_id,
        "width_mm": painting.width_mm,
        "height_mm": painting.height_mm,
        "tolerance_delta_e": painting.tolerance,
        "started_on": painting.started_on,
        "file_id": painting.reference.id if painting.reference else None,
        "reference_path": painting.reference_path,
        "finished_on": painting.finished_on,
        "note": painting.note,
    }


def passage_values(passage: Passage) -> dict[str, object]:
    """The cells of a passage that are told of itself: without place and painting."""
    return {
        "name": passage.name,
        "technique": passage.technique,
        "share": passage.share,
        "layers": passage.layers,
        "dry_before_next": int(passage.dry_before_next),
        "over_id": passage.over,
        "note": passage.note,
    }


def painting_of(row: RowMapping, passages: Sequence[Passage]) -> Painting:
    """A painting from its row, read with `file_columns`, and its passages in order."""
    return Painting(
        id=row["id"],
        code=row["code"],
        title=row["title"],
        paper_id=row["paper_id"],
        width_mm=row["width_mm"],
        height_mm=row["height_mm"],
        tolerance=row["tolerance_delta_e"],
        started_on=row["started_on"],
        passages=tuple(passages),
        reference=file_of(row),
        reference_path=row["reference_path"],
        finished_on=row["finished_on"],
        note=row["note"],
        removed=removal_of(row),
    )


def passage_of(row: RowMapping, colours: Sequence[PassageColour]) -> Passage:
    """A passage from its row and its colours in order."""
    return Passage(
        id=row["id"],
        name=row["name"],
        technique=Application(row["technique"]),
        colours=tuple(colours),
        share=row["share"],
        layers=row["layers"],
        dry_before_next=bool(row["dry_before_next"]),
        over=row["over_id"],
        note=row["note"],
    )


def colour_of(row: RowMapping, tries: Sequence[int]) -> PassageColour:
    """A colour from its row, read with `file_columns`, and the ids of its tries."""
    return PassageColour(
        id=row["id"],
        lab=Lab(row["lightness"], row["a"], row["b"]),
        given=row["given"],
        place=row["place"],
        at=None if row["at_x"] is None else (row["at_x"], row["at_y"]),
        spread=row["spread_delta_e"],
        tries=tuple(tries),
        picture=file_of(row),
    )

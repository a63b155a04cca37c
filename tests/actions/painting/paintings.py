"""Paintings as values, for what plans them without reading them from a database."""

from collections.abc import Sequence
from datetime import date

from studio.catalogue.painting import Painting, Passage, PassageColour
from studio.catalogue.paper import Paper
from studio.catalogue.swatch import Application
from studio.colour.lab import Lab

Numbers = tuple[float, float, float]


def colour(number: int, lab: Lab | Numbers, tries: Sequence[int] = ()) -> PassageColour:
    """A colour that was typed."""
    own = lab if isinstance(lab, Lab) else Lab(*lab)
    return PassageColour(number, own, "typed", tries=tuple(tries))


def passage(
    number: int,
    *labs: Lab | Numbers,
    name: str | None = None,
    technique: Application = Application.FLAT_WASH,
    share: float | None = None,
    layers: int = 1,
    dry: bool = True,
    over: int | None = None,
    tries: Sequence[int] = (),
) -> Passage:
    """A passage; its tries are those of each of its colours."""
    colours = tuple(colour(10 * number + at, lab, tries) for at, lab in enumerate(labs))
    called = name or f"passage {number}"
    return Passage(number, called, technique, colours, share, layers, dry, over)


def painting(paper: Paper, *passages: Passage, tolerance: float = 3.0) -> Painting:
    """A painting of half an imperial sheet, less its margins."""
    return Painting(
        id=1,
        code="P1",
        title="Ebb at Saltings Yard",
        paper_id=paper.id,
        width_mm=500.0,
        height_mm=340.0,
        tolerance=tolerance,
        started_on=date(2026, 11, 20),
        passages=passages,
    )

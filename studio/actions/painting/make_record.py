"""Gather what it takes to mix each colour of a painting again, as it is on this day."""

from collections.abc import Mapping
from dataclasses import dataclass

from studio.actions.painting.tries import Try
from studio.catalogue.paint import Paint
from studio.catalogue.painting import Painting, Passage, PassageColour
from studio.catalogue.painting_record import (
    PaintingRecord,
    RecordedColour,
    RecordedContainer,
    RecordedMix,
    RecordedPaint,
    RecordedPassage,
)
from studio.catalogue.paper import Paper
from studio.catalogue.reading import representative
from studio.catalogue.swatch import Swatch
from studio.colour.reflectance import Reflectance
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork


@dataclass(frozen=True, slots=True)
class FinalTry:
    """What was laid for a colour in the end.

    Args:
        chosen: the try.
        named: whether the painter named it.
        tries: how many there were.
    """

    chosen: Try
    named: bool
    tries: int


def make_record(
    work: UnitOfWork,
    painting: Painting,
    laid: Mapping[int, FinalTry | None],
    used: Mapping[int, float],
    paper_used: float | None,
) -> PaintingRecord:
    """The record of a painting.

    Args:
        work: the studio, before anything is booked.
        painting: with the day it was finished.
        laid: what was laid for each colour, by the colour's id.
        used: ml of each paint by its id.
        paper_used: sheets, or mm of a roll.

    Raises:
        BadInput: the day is missing.
    """
    if painting.finished_on is None:
        msg = f"{painting.code} is not finished yet"
        raise BadInput(msg)
    paper = work.papers.by_id(painting.paper_id)
    names = {each.id: each.name for each in painting.passages}
    return PaintingRecord(
        painting=painting.code,
        title=painting.title,
        width_mm=painting.width_mm,
        height_mm=painting.height_mm,
        tolerance=painting.tolerance,
        paper=paper_text(paper),
        white=representative(paper.white)[1] if paper.white else None,
        picture=painting.reference.name if painting.reference else None,
        picture_sha256=painting.reference.sha256 if painting.reference else None,
        started_on=painting.started_on,
        finished_on=painting.finished_on,
        note=painting.note,
        used=tuple(
            _paint(work, work.paints.by_id(key), used_ml=amount) for key, amount in used.items()
        ),
        paper_used=paper_used,
        passages=tuple(_passage(work, each, names, laid) for each in painting.passages),
    )


def paper_text(paper: Paper) -> str:
    """A paper in words: code, maker, name, surface and weight."""
    facts = paper.facts
    parts = [f"{facts.code} {facts.full_name}"]
    parts += [str(facts.surface)] if facts.surface else []
    parts += [] if facts.weight_gsm is None else [f"{facts.weight_gsm:g} g/m²"]
    return ", ".join(parts)


def _passage(
    work: UnitOfWork,
    passage: Passage,
    names: Mapping[int, str],
    laid: Mapping[int, FinalTry | None],
) -> RecordedPassage:
    return RecordedPassage(
        name=passage.name,
        technique=str(passage.technique),
        share=passage.share,
        layers=passage.layers,
        dry_before_next=passage.dry_before_next,
        over=None if passage.over is None else names[passage.over],
        note=passage.note,
        colours=tuple(_colour(work, each, laid[each.id]) for each in passage.colours),
    )


def _colour(work: UnitOfWork, colour: PassageColour, final: FinalTry | None) -> RecordedColour:
    return RecordedColour(
        lab=colour.lab,
        given=colour.given,
        place=colour.place,
        picture=colour.picture.name if colour.picture else None,
        mix=None if final is None else _mix(work, final),
        tries=len(colour.tries),
    )


def _mix(work: UnitOfWork, final: FinalTry) -> RecordedMix:
    swatch, mix, recipe, paper = final.chosen.row
    facts = swatch.facts
    counted = [each for each in swatch.readings if each.state is swatch.state]
    return RecordedMix(
        mix=mix.code,
        paints=tuple(_paint(work, each.paint, parts=each.parts) for each in recipe),
        water=facts.water,
        layers=facts.layers,
        application=str(facts.application),
        swatch=facts.code,
        kept_at=facts.kept_at,
        made_on=facts.made_on,
        paper=paper_text(paper),
        lab=swatch.lab,
        method=", ".join(dict.fromkeys(str(each.method) for each in counted)),
        spectrum=_spectrum(swatch),
        delta_e=final.chosen.delta_e,
        passes=final.chosen.passes,
        named=final.named,
        tries=final.tries,
    )


def _spectrum(swatch: Swatch) -> Reflectance | None:
    """The last spectrum that was read in the state that counts."""
    return next(
        (
            each.spectrum
            for each in reversed(swatch.readings)
            if each.state is swatch.state and each.spectrum is not None
        ),
        None,
    )


def _paint(
    work: UnitOfWork, paint: Paint, *, parts: int = 0, used_ml: float = 0.0
) -> RecordedPaint:
    facts = paint.facts
    shelf = [each for each in work.containers.of_paint(paint.id) if each.on_shelf and each.left > 0]
    begun = [each for each in shelf if each.is_open]
    return RecordedPaint(
        code=facts.code,
        maker=facts.maker,
        name=facts.name,
        form=str(facts.form),
        lot=facts.lot,
        pigments=tuple(facts.pigments),
        containers=tuple(RecordedContainer(each.code, each.lot) for each in begun or shelf),
        parts=parts,
        used_ml=used_ml,
    )

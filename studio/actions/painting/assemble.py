"""Puts a plan together from the mixes that were chosen for its colours."""

from collections.abc import Iterable, Sequence

from studio.actions.fade_results import FadeResult, own_tests
from studio.actions.painting.amounts import (
    Areas,
    areas_of,
    assumptions,
    paint_and_water,
    wash_ml,
    with_rest,
)
from studio.actions.painting.palette import Choice
from studio.actions.painting.plan import (
    Basis,
    Candidate,
    PaintNeed,
    Plan,
    PlannedColour,
    PlannedMix,
)
from studio.actions.painting.remarks import remarks_on
from studio.actions.painting.retired import never_remarks, retired_remarks
from studio.actions.painting.times import ASSUMED, drying_steps, minutes
from studio.actions.painting.weigh import Search, Weighed
from studio.catalogue.care import Work
from studio.catalogue.care_points import Care, care_of
from studio.catalogue.paint import Paint
from studio.catalogue.swatch import Application
from studio.colour.words import separation
from studio.storage.unit_of_work import UnitOfWork

Wells = dict[tuple[object, ...], PlannedMix]
"""The mixes of a plan by their wells."""


def plan_of(search: Search, weighed: Sequence[Weighed], choice: Choice) -> Plan:
    """The plan that follows from a choice among what was weighed."""
    painting = search.painting
    areas = areas_of(painting)
    options = iter(choice.options)
    picked = [each.candidates[next(options)] if each.candidates else None for each in weighed]
    washes = [_wash(each, areas) for each in weighed]
    mixes = _mixes(picked, washes)
    colours = tuple(
        _planned(each, one, mixes, wash, areas)
        for each, one, wash in zip(weighed, picked, washes, strict=True)
    )
    palette = _needs(mixes.values())
    passages = painting.passages
    laid = sum(mix.basis is Basis.RECORDED for mix in mixes.values())
    untested = len(mixes) - laid + sum(each.mix is None for each in colours)
    paints = [need.paint for need in palette]
    return Plan(
        painting=painting,
        paper=search.paper,
        colours=colours,
        mixes=tuple(mixes.values()),
        palette=palette,
        fewest_proven=choice.proven,
        remarks=(
            *never_remarks(search),
            *retired_remarks(search, colours),
            *remarks_on(passages, colours),
        ),
        assumptions=(
            *areas.remarks,
            *assumptions(
                (each.technique for each in passages),
                water_unknown=any(mix.water is None for mix in mixes.values()),
            ),
            ASSUMED,
        ),
        drying_steps=drying_steps(passages),
        minutes=minutes(passages, laid, untested),
        own_tests=_own_tests(search.work, mixes.values(), paints),
        cares=_cares(paints, colours),
    )


def _wash(each: Weighed, areas: Areas) -> float:
    return wash_ml(each.passage, areas.mm2[each.passage.id] / len(each.passage.colours))


def _mixes(picked: Sequence[Candidate | None], washes: Sequence[float]) -> Wells:
    """The wells of a plan, each once with the amount for all it serves."""
    total: dict[tuple[object, ...], float] = {}
    first: dict[tuple[object, ...], Candidate] = {}
    for one, wash in zip(picked, washes, strict=True):
        if one is not None:
            total[one.well] = total.get(one.well, 0.0) + wash
            first.setdefault(one.well, one)
    mixes: Wells = {}
    for place, (well, one) in enumerate(first.items()):
        paint, water = paint_and_water(with_rest(total[well]), one.water)
        mixes[well] = PlannedMix(
            letter=letter_of(place),
            recipe=one.recipe,
            mix=one.mix,
            water=one.water,
            layers=one.layers,
            basis=one.basis,
            swatch=one.swatch,
            lab=one.lab,
            error=one.error,
            paint_ml=paint,
            water_ml=water,
        )
    return mixes


def letter_of(place: int) -> str:
    """What the n-th mix is called, from 0: A, B, … Z, AA."""
    letters = ""
    place += 1
    while place:
        place, digit = divmod(place - 1, 26)
        letters = chr(ord("A") + digit) + letters
    return letters


def _planned(
    each: Weighed,
    one: Candidate | None,
    mixes: Wells,
    wash: float,
    areas: Areas,
) -> PlannedColour:
    lab = each.colour.lab.coordinates
    return PlannedColour(
        passage=each.passage,
        number=each.number,
        colour=each.colour,
        mix=None if one is None else mixes[one.well],
        delta_e=each.delta_e if one is None else one.delta_e,
        separation=each.separation if one is None else separation(lab, one.lab.coordinates),
        needed=each.needed,
        area_mm2=areas.mm2[each.passage.id] / len(each.passage.colours),
        wash_ml=wash,
        chosen=one,
    )


def _needs(mixes: Iterable[PlannedMix]) -> tuple[PaintNeed, ...]:
    """What each paint gives, most first."""
    needs: dict[int, tuple[Paint, float]] = {}
    for mix in mixes:
        parts = sum(part.parts for part in mix.recipe)
        for part in mix.recipe:
            own = mix.paint_ml * part.parts / parts
            _, before = needs.get(part.paint.id, (part.paint, 0.0))
            needs[part.paint.id] = part.paint, before + own
    every = sorted(needs.values(), key=lambda need: (-need[1], need[0].facts.code))
    return tuple(PaintNeed(paint, ml, paint.stock.left) for paint, ml in every)


def _own_tests(
    work: UnitOfWork, mixes: Iterable[PlannedMix], paints: Sequence[Paint]
) -> tuple[FadeResult, ...]:
    """The owner's fade tests of the paints and of their mixes, each once."""
    found = [*own_tests(work, paints, None)]
    for mix in mixes:
        found += own_tests(work, (), mix.mix)
    return tuple({result.test.id: result for result in found}.values())


def _cares(paints: Sequence[Paint], colours: Sequence[PlannedColour]) -> tuple[Care, ...]:
    """What to mind with the palette by brush, and with what of it is spattered."""
    spattered = {
        part.paint.id
        for each in colours
        if each.mix is not None and each.passage.technique is Application.SPATTER
        for part in each.mix.recipe
    }
    cares = [care_of(paints, Work.BRUSH)] if paints else []
    if spattered:
        some = [paint for paint in paints if paint.id in spattered]
        cares.append(care_of(some, Work.SPATTER))
    return tuple(cares)

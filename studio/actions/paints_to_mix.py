"""Which paints recipes may be formulated with, and why others take no part."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from studio.actions.match_colour import Wanted, barred
from studio.actions.model_inputs import UnknownPaint
from studio.actions.paint_model import PaintModel
from studio.catalogue.paint import Paint, Status, never_text
from studio.errors import BadInput


@dataclass(frozen=True, slots=True)
class PaintsToMix:
    """The paints that recipes may hold.

    Args:
        paints: in the order of the model.
        unknown: paints that pass every filter but are not known well enough to be predicted.
        retired: paints that were named and are retired.
        never: paints in use that are never to be used, so that no recipe holds them.
    """

    paints: tuple[Paint, ...]
    unknown: tuple[UnknownPaint, ...]
    retired: tuple[Paint, ...]
    never: tuple[Paint, ...] = ()


def paints_to_mix(model: PaintModel, wanted: Wanted) -> PaintsToMix:
    """The paints that pass the filters and are known well enough.

    A paint that is named by `only` or `using` may be out of stock; a retired one never takes part.

    Raises:
        BadInput: none is left, or one that every recipe is to hold cannot take part.
    """
    named = {paint.id for paint in (*wanted.only, *wanted.using)}
    every = model.inputs.paints
    but_stock = Wanted(
        only=[*wanted.only, *wanted.using] if wanted.only else (),
        without=wanted.without,
        lightfast=wanted.lightfast,
        hazards=wanted.hazards,
    )
    out = barred(every, but_stock)
    in_use = [paint for paint in every if paint.facts.status is Status.IN_USE]
    never = tuple(paint for paint in in_use if paint.never_use)
    out |= {paint.id for paint in never}
    if wanted.in_stock:
        out |= {paint.id for paint in every if not paint.in_stock and paint.id not in named}
    passing = [paint for paint in in_use if paint.id not in out]
    unknown = {each.paint.id: each for each in model.inputs.unknown}
    retired = tuple(p for p in every if p.id in named and p.facts.status is Status.RETIRED)
    for paint in wanted.using:
        _check_using(paint, out, unknown.get(paint.id))
    left = tuple(paint for paint in model.offered if paint.id not in out)
    if not left:
        raise BadInput(_none_left(passing, list(unknown.values()), retired, every, wanted.only))
    among = tuple(unknown[paint.id] for paint in passing if paint.id in unknown)
    return PaintsToMix(left, among, retired, never)


def unknown_text(each: UnknownPaint) -> str:
    """Why a paint is left out, and the swatch that would change it."""
    return f"{each.paint.facts.name}: {each.why}; make {each.missing}"


def _check_using(paint: Paint, out: Iterable[int], unknown: UnknownPaint | None) -> None:
    if paint.facts.status is Status.RETIRED:
        msg = f"{paint.facts.name} is retired, so no recipe is offered with it; name another paint"
        raise BadInput(msg)
    if paint.never_use:
        msg = f"{never_text(paint)}, so no recipe is offered with it; name another paint"
        raise BadInput(msg)
    if paint.id in out:
        msg = f"{paint.facts.name} is asked for, but another filter leaves it out; take one away"
        raise BadInput(msg)
    if unknown is not None:
        msg = f"nothing can be predicted yet of {unknown_text(unknown)}"
        raise BadInput(msg)


def _none_left(
    passing: Sequence[Paint],
    unknown: Sequence[UnknownPaint],
    retired: Sequence[Paint],
    every: Sequence[Paint],
    only: Sequence[Paint],
) -> str:
    """Why there is no paint to formulate with, and what to do."""
    if not every:
        return "no paint is on record yet; record one first with: studio paint add"
    kept = {paint.id for paint in passing}
    if kept:
        lacking = next(each for each in unknown if each.paint.id in kept)
        others = len(kept) - 1
        more = "" if others == 0 else f"; so it is with {others} more"
        return f"nothing can be predicted yet of {unknown_text(lacking)}{more}"
    if retired:
        name = retired[0].facts.name
        return f"{name} is retired, so no recipe is offered with it; name another paint"
    if only and all(paint.never_use for paint in only):
        return f"{never_text(only[0])}, so no recipe is offered with it; name another paint"
    return "no paint passes these filters; take one away, or name paints with --only"

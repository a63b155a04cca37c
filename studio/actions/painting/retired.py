"""Where a plan would rest on paint that is retired or never to be used, and had to go without."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from studio.actions.match_colour import ingredients
from studio.actions.painting.candidates import recorded
from studio.actions.painting.plan import Basis, PlannedColour
from studio.actions.painting.weigh import Search
from studio.catalogue.paint import Paint, Status, never_text


def retired_remarks(search: Search, colours: Sequence[PlannedColour]) -> list[str]:
    """A sentence for each colour whose own try, or whose only past mix, holds a retired paint.

    Args:
        search: where its mixes were looked for.
        colours: what was planned.
    """
    found = []
    for planned in colours:
        remark = _try(search, planned) or _past_mix(search, planned)
        if remark is not None:
            found.append(remark)
    return list(dict.fromkeys(found))


def never_remarks(search: Search) -> list[str]:
    """A sentence for each paint in use that no mix holds, because it is never to be used."""
    return [
        f"Left out of every mix: {never_text(paint)}."
        for paint in search.work.paints.all()
        if paint.never_use and paint.facts.status is Status.IN_USE
    ]


def _try(search: Search, planned: PlannedColour) -> str | None:
    """A try that passed, and whose paint was retired since."""
    if planned.chosen is not None and planned.chosen.is_try:
        return None
    work = search.work
    swatches = work.swatches.by_ids(planned.colour.tries)
    mixes = work.mixes.by_ids({swatch.mix_id for swatch in swatches.values()})
    for swatch in swatches.values():
        paints = (part.paint for part in ingredients(work, mixes[swatch.mix_id]))
        gone = _retired(paints)
        if gone and swatch.removed is None:
            return (
                f"{planned.number} {planned.passage.name} was tried with {gone} (swatch "
                f"{swatch.facts.code}), retired since: planned anew without it."
            )
    return None


def _past_mix(search: Search, planned: PlannedColour) -> str | None:
    """A past mix that would pass, where the plan found none without a retired paint."""
    if planned.chosen is not None and planned.chosen.basis is Basis.RECORDED:
        return None
    kept = [each for each in search.wanted.without if each.facts.status is not Status.RETIRED]
    wanted = replace(search.wanted, without=kept)
    here = search.paper, search.painting.tolerance
    laid = recorded(search.work, planned.passage, planned.colour.lab, wanted, here)
    for one in sorted(laid, key=lambda each: each.delta_e):
        gone = _retired(part.paint for part in one.recipe)
        if gone and one.mix is not None:
            return (
                f"{planned.number} {planned.passage.name}: {one.mix.code} would pass, but holds "
                f"{gone}, which is retired."
            )
    return None


def _retired(paints: Iterable[Paint]) -> str:
    return ", ".join(p.facts.name for p in paints if p.facts.status is Status.RETIRED)

"""What may be mixed for a colour: its own tries, past mixes, tints between them, predictions."""

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Final

from studio.actions.between_tints import TintStudy, between_tints
from studio.actions.formulate_colour import FormulateResult
from studio.actions.match_colour import (
    ANOTHER_COLOUR,
    Wanted,
    allowed_swatches,
    barred,
    ingredients,
)
from studio.actions.paint_model import PaintModel
from studio.actions.painting.plan import Basis, Candidate
from studio.actions.proposed_mix import ProposedMix
from studio.actions.read_target import Target
from studio.catalogue.paint import Status
from studio.catalogue.painting import Passage, PassageColour
from studio.catalogue.paper import Paper
from studio.catalogue.reading import State
from studio.catalogue.swatch import Application, Swatch
from studio.colour.difference import CIEDE2000, ciede2000
from studio.colour.lab import Lab
from studio.colour.nearest import nearest
from studio.storage.unit_of_work import UnitOfWork

EVERY: Final = 1_000_000
"""More than any tolerance holds: all that lies within is weighed."""
TINTS: Final = 20
"""Tints between recorded ones that are weighed for a colour."""
PREDICTED: Final = 40
"""Predicted recipes that are weighed for a colour."""
Here = tuple[Paper, float]
"""The paper of a painting, and the ΔE00 that passes for a colour of it."""
NEAR: Final = ANOTHER_COLOUR
"""ΔE00 within which a recorded mix is near enough to be taken before anything predicted, where
wells are small: what lies further off is another colour, and what does not has a card that a child
can hold beside the wash, which no prediction has."""
SURENESS: Final = 0.5
"""ΔE00 by which predictions beyond tolerance may be less sure than the surest."""
_WATER_DIGITS: Final = 2
"""Decimals of a tint's water: what a spoon can measure, and what tells one well from the next."""


def in_use(work: UnitOfWork, wanted: Wanted) -> Wanted:
    """What is wanted of a plan: without the paints that are retired or never to be used."""
    retired = [paint for paint in work.paints.all() if paint.facts.status is Status.RETIRED]
    return replace(wanted, paper=None, without=[*wanted.without, *retired], proposing=True)


def tries(
    work: UnitOfWork, colour: PassageColour, wanted: Wanted, within: float
) -> tuple[Candidate, ...]:
    """The test swatches of a colour that are dry, within tolerance and of paints that are wanted.

    Args:
        work: the studio.
        colour: the colour, with its tries.
        wanted: what may be mixed.
        within: the tolerance, ΔE00.
    """
    out = barred(work.paints.all(), wanted)
    found = work.swatches.by_ids(colour.tries).values()
    dry = [each for each in found if each.removed is None and each.state is State.DRY]
    every = _of_swatches(work, dry, colour.lab)
    return tuple(
        replace(each, is_try=True)
        for each in sorted(every, key=lambda each: each.delta_e)
        if each.delta_e <= within and not each.paints & out
    )


def recorded(
    work: UnitOfWork, passage: Passage, lab: Lab, wanted: Wanted, here: Here
) -> tuple[Candidate, ...]:
    """Every past mix within tolerance by its dry swatches, nearest first; the search is exact.

    Of a mix that was laid on the painting's paper only the swatches there count. What is lifted
    is held against lifted swatches alone.

    Args:
        work: the studio.
        passage: where the colour stands.
        lab: the colour.
        wanted: what may be mixed.
        here: what the painting asks of all its mixes.
    """
    paper, within = here
    allowed = allowed_swatches(work, Target(lab, "planned"), wanted)
    there = work.swatches.searched(allowed, each_its_own=True)
    found = nearest(lab.coordinates, there, CIEDE2000, EVERY, within=within)
    swatches = work.swatches.by_ids(near.key for near in found)
    if is_lifted(passage):
        lifted = Application.LIFTED
        swatches = {key: s for key, s in swatches.items() if s.facts.application is lifted}
    on_it = {each.mix_id for each in swatches.values() if each.paper_id == paper.id}
    kept = [
        swatches[near.key]
        for near in found
        if near.key in swatches
        and (swatches[near.key].paper_id == paper.id or swatches[near.key].mix_id not in on_it)
    ]
    return _of_swatches(work, kept, lab)


def is_lifted(passage: Passage) -> bool:
    """Whether a passage is made by taking paint away from another."""
    return passage.technique is Application.LIFTED and passage.over is not None


def in_small_parts(candidates: Iterable[Candidate], together: int) -> tuple[Candidate, ...]:
    """Candidates that a child measures out: so many parts of paint at most, water in halves.

    Args:
        candidates: recorded or predicted.
        together: parts of paint in one of them at most.
    """
    return tuple(
        each
        for each in candidates
        if sum(part.parts for part in each.recipe) <= together
        and (each.water is None or (2.0 * each.water).is_integer())
    )


def tints(
    work: UnitOfWork, known: tuple[PaintModel, TintStudy], lab: Lab, wanted: Wanted, here: Here
) -> tuple[Candidate, ...]:
    """The tints of recorded mixes that were not laid and are predicted within tolerance.

    Args:
        work: the studio.
        known: its paints, and their tint series.
        lab: the colour.
        wanted: what may be mixed.
        here: what the painting asks; another paper counts only where a mix has no tint on its own.
    """
    (model, study), (paper, within) = known, here
    between = between_tints(work, model, Target(lab, "planned"), wanted, TINTS, study=study)
    found = [each for each in between.tints if each.delta_e <= within and not each.is_too_uncertain]
    on_it = {each.mix.id for each in found if each.paper.id == paper.id}

    def apart(swatch: Swatch) -> float:
        return ciede2000(lab.coordinates, swatch.lab.coordinates)

    return tuple(
        Candidate(
            recipe=each.recipe,
            mix=each.mix,
            water=round(each.water, _WATER_DIGITS),
            layers=each.like.facts.layers,
            basis=Basis.TINT,
            swatch=min(each.beside, key=apart),
            paper=each.paper,
            lab=each.lab,
            delta_e=each.delta_e,
            error=each.error,
        )
        for each in found
        if each.paper.id == paper.id or each.mix.id not in on_it
    )


def predicted(
    result: FormulateResult, layers: int, paper: Paper, within: float
) -> tuple[Candidate, ...]:
    """The recipes of a prediction that are within tolerance and not too uncertain."""
    every = {
        each.recipe: each
        for each in (result.nearest, *result.proposals)
        if not each.is_too_uncertain
    }.values()
    near = sorted(every, key=lambda each: math.hypot(each.delta_e, each.expected_error))
    return tuple(_of_proposed(each, layers, paper) for each in near if each.delta_e <= within)


def sure_enough(candidates: Sequence[Candidate], within: float) -> tuple[Candidate, ...]:
    """Candidates without the predictions that may well miss.

    Where the ΔE00 to expect is within tolerance a prediction stays; beyond it, only where it is
    about as sure as the surest there is, so that no paint is saved by a gamble.

    Args:
        candidates: of one colour.
        within: the tolerance, ΔE00.
    """
    surest = min((each.expected for each in candidates), default=0.0)
    limit = max(within, surest + SURENESS)
    return tuple(
        each for each in candidates if each.basis is Basis.RECORDED or each.expected <= limit
    )


def for_others(
    colours: Sequence[Lab],
    layers: Sequence[int],
    every: Sequence[Sequence[Candidate]],
    within: float,
) -> list[tuple[Candidate, ...]]:
    """What is predicted for one colour, offered to each other that it is within tolerance of.

    A prediction for so many layers serves passages of as many, and none that has a past mix; a
    tint between past mixes serves all.

    Args:
        colours: the colours.
        layers: of the passage of each.
        every: the candidates of each.
        within: the tolerance, ΔE00.
    """
    unlaid = [[each for each in own if each.basis is not Basis.RECORDED] for own in every]
    result = []
    for at, own in enumerate(every):
        known = any(each.basis is Basis.RECORDED for each in own)
        more: dict[tuple[object, ...], Candidate] = {}
        wells = {each.well for each in own}
        for other in (place for place in range(len(every)) if place != at):
            for each in unlaid[other]:
                fits = each.basis is Basis.TINT or (not known and layers[at] == each.layers)
                if not fits or each.well in wells:
                    continue
                apart = ciede2000(colours[at].coordinates, each.lab.coordinates)
                if apart <= within:
                    more.setdefault(each.well, replace(each, delta_e=apart))
        result.append((*own, *more.values()))
    return result


def _of_swatches(work: UnitOfWork, swatches: Iterable[Swatch], lab: Lab) -> tuple[Candidate, ...]:
    """Swatches as candidates for a colour, of several from one well the nearest."""
    every = list(swatches)
    mixes = work.mixes.by_ids({swatch.mix_id for swatch in every})
    wells: dict[tuple[object, ...], list[Candidate]] = defaultdict(list)
    for swatch in every:
        mix = mixes[swatch.mix_id]
        candidate = Candidate(
            recipe=ingredients(work, mix),
            mix=mix,
            water=swatch.facts.water,
            layers=swatch.facts.layers,
            basis=Basis.RECORDED,
            swatch=swatch,
            paper=work.papers.by_id(swatch.paper_id),
            lab=swatch.lab,
            delta_e=ciede2000(lab.coordinates, swatch.lab.coordinates),
        )
        wells[candidate.well].append(candidate)
    return tuple(min(of, key=lambda each: each.delta_e) for of in wells.values())


def _of_proposed(mix: ProposedMix, layers: int, paper: Paper) -> Candidate:
    return Candidate(
        recipe=mix.recipe,
        mix=mix.mix,
        water=float(mix.water),
        layers=layers,
        basis=Basis.PREDICTED,
        swatch=None,
        paper=paper,
        lab=mix.lab,
        delta_e=mix.delta_e,
        error=mix.expected_error,
    )

"""Tints of recorded mixes that lie between their swatches, or one step beyond them."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from studio.actions.match_colour import (
    ANOTHER_COLOUR,
    Ingredient,
    Wanted,
    allowed_swatches,
    ingredients,
)
from studio.actions.model_inputs import Patch
from studio.actions.paint_model import PaintModel
from studio.actions.read_target import Target
from studio.catalogue.mix import Mix
from studio.catalogue.paint import Paint
from studio.catalogue.paper import Paper
from studio.catalogue.reading import Backing
from studio.catalogue.swatch import Swatch
from studio.colour.difference import ciede2000
from studio.colour.lab import Lab
from studio.colour.words import Separation, separation
from studio.mixing.observation import Observation
from studio.mixing.ranges import FloatArray
from studio.mixing.settings import is_too_uncertain
from studio.mixing.tint_series import left_out_errors, nearest_tint, tint_error
from studio.storage.unit_of_work import UnitOfWork

TELLING = 0.3
"""ΔE00 by which a tint has to come nearer than the swatches of its mix."""

Series = Sequence[tuple[Patch, Observation]]


@dataclass(frozen=True, slots=True)
class TintBetween:
    """A tint of a recorded mix that was not laid.

    Args:
        rank: 1 for the nearest.
        mix: the mix.
        recipe: its paints and parts.
        water: parts of water to one of paint.
        like: the swatch it shares layers, application and paper with.
        paper: that paper.
        lab: predicted.
        delta_e: predicted ΔE00 from the target.
        error: about 68 % of such tints lie within this ΔE00 of the prediction.
        separation: how it looks beside the target.
        beside: the two swatches it lies between, or the last one that it lies beyond.
        nearest_delta_e: ΔE00 of the nearest swatch of this series.
        estimated: a spectrum it rests on was estimated from Lab.
    """

    rank: int
    mix: Mix
    recipe: tuple[Ingredient, ...]
    water: float
    like: Swatch
    paper: Paper
    lab: Lab
    delta_e: float
    error: float
    separation: Separation
    beside: tuple[Swatch, ...]
    nearest_delta_e: float
    estimated: bool

    @property
    def is_too_uncertain(self) -> bool:
        """Whether it is no ground to act on."""
        return is_too_uncertain(self.error)

    @property
    def is_between(self) -> bool:
        """Whether it lies between two swatches."""
        return len(self.beside) > 1


@dataclass(frozen=True, slots=True)
class TintsBetween:
    """What lies between recorded tints.

    Args:
        tints: nearest first.
        series: how many mixes have swatches of several waters that could be looked between.
        left_out: how many inner swatches the expected error is from.
        never: paints of series that were not looked between, because they are never to be used.
    """

    tints: tuple[TintBetween, ...]
    series: int
    left_out: int
    never: tuple[Paint, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class TintStudy:
    """The tint series of a studio, looked into once for any number of targets.

    Args:
        series: every series.
        errors: by how much each inner swatch was missed when it was left out, ΔE00.
    """

    series: tuple[Series, ...]
    errors: FloatArray


def study_tints(model: PaintModel) -> TintStudy:
    """The tint series of a studio, and how well its inner swatches are told from the others."""
    every = _every_series(model)
    if model.known is None or not every:
        return TintStudy((), np.zeros(0))
    errors = left_out_errors(model.known, ([seen for _, seen in series] for series in every))
    return TintStudy(tuple(every), errors)


def between_tints(  # noqa: PLR0913 - what is looked for, and where
    work: UnitOfWork,
    model: PaintModel,
    target: Target,
    wanted: Wanted,
    count: int,
    *,
    study: TintStudy | None = None,
) -> TintsBetween:
    """The tints nearest a target that recorded mixes would have at waters that were not laid.

    A series is a mix's dry swatches on one paper, laid alike in as many layers, of two waters or
    more. A tint is named where it comes nearer than every swatch of its series by `TELLING`, and
    within `ANOTHER_COLOUR`.

    Args:
        work: the studio.
        model: its paints.
        target: the wanted colour, dry.
        wanted: what may be answered.
        count: how many to return.
        study: what `study_tints` found of the same model; looked into anew without it.
    """
    study = study or study_tints(model)
    every, errors = study.series, study.errors
    if model.known is None or not every:
        return TintsBetween((), 0, 0)
    known = model.known
    wanted = replace(wanted, proposing=True)
    held = {key for series in every for key in series[0][0].mix.recipe.paints}
    never = tuple(paint for paint in work.paints.all() if paint.never_use and paint.id in held)
    allowed = {
        key for key, *_ in work.swatches.searched(allowed_swatches(work, target, wanted)).all()
    }
    reference = target.lab.coordinates
    found: list[TintBetween] = []
    open_to = [
        kept
        for series in every
        if len(_waters(kept := [pair for pair in series if pair[0].swatch.id in allowed])) > 1
    ]
    for series in open_to:
        tint = nearest_tint(known, [seen for _, seen in series], np.array(reference))
        if tint is None:
            continue
        labs = (patch.swatch.lab.coordinates for patch, _ in series)
        nearest = min(ciede2000(reference, lab) for lab in labs)
        if tint.delta_e > min(ANOTHER_COLOUR, nearest - TELLING):
            continue
        beside = [series[place] for place in tint.beside]
        like = beside[0][0]
        found.append(
            TintBetween(
                rank=0,
                mix=like.mix,
                recipe=ingredients(work, like.mix),
                water=tint.water,
                like=like.swatch,
                paper=work.papers.by_id(like.swatch.paper_id),
                lab=Lab(*tint.lab),
                delta_e=tint.delta_e,
                error=tint_error(errors, between=tint.is_between),
                separation=separation(reference, tint.lab),
                beside=tuple(patch.swatch for patch, _ in beside),
                nearest_delta_e=nearest,
                estimated=any(seen.estimated for _, seen in beside),
            )
        )
    found.sort(key=lambda each: each.delta_e)
    ranked = (replace(each, rank=rank) for rank, each in enumerate(found[:count], start=1))
    return TintsBetween(tuple(ranked), len(open_to), len(errors), never)


def _every_series(model: PaintModel) -> list[Series]:
    groups: dict[tuple[object, ...], list[tuple[Patch, Observation]]] = defaultdict(list)
    for patch, seen in zip(model.inputs.patches, model.observations, strict=True):
        facts = patch.swatch.facts
        if facts.water is not None and patch.readings[0].backing is not Backing.BLACK:
            alike = patch.mix.id, patch.swatch.paper_id, facts.layers, facts.application
            groups[alike].append((patch, seen))
    return [series for series in groups.values() if len(_waters(series)) > 1]


def _waters(series: Iterable[tuple[Patch, Observation]]) -> set[float | None]:
    return {seen.water for _, seen in series}

"""How far the model can be trusted: this studio's own mixes, predicted without themselves."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from studio.actions.match_colour import Ingredient
from studio.actions.model_inputs import Patch
from studio.actions.paint_model import PaintModel
from studio.catalogue.paint import Paint
from studio.colour.lab import Lab
from studio.errors import BadInput
from studio.mixing.characterise import LeftOutColours, left_out
from studio.mixing.ranges import FloatArray


@dataclass(frozen=True, slots=True)
class Errors:
    """How far some predictions lie from what was measured, ΔE00.

    Args:
        count: of the swatches.
        mean: of their differences.
        median: of the same.
        ninety: what 90 % of them stay within.
        within: share of them within their expected error; about 0.68 where it is honest.
        expected: mean of the expected errors.
    """

    count: int
    mean: float
    median: float
    ninety: float
    within: float
    expected: float


@dataclass(frozen=True, slots=True)
class Foretold:
    """A swatch and what the others predict of it.

    Args:
        patch: the swatch.
        measured: its colour as the model sees it.
        predicted: its colour from the swatches that hold other sets of paints.
        delta_e: ΔE00 between the two.
        expected: the ΔE00 that about 68 % of such predictions stay within.
    """

    patch: Patch
    measured: Lab
    predicted: Lab
    delta_e: float
    expected: float


@dataclass(frozen=True, slots=True)
class PaintTrust:
    """The errors of the mixes that hold one paint."""

    paint: Paint
    errors: Errors


@dataclass(frozen=True, slots=True)
class Trust:
    """The model's errors on this studio's own swatches.

    Args:
        model: the model.
        mixes: each mix left out with all its dilutions.
        sets: all mixes of the same paints left out together, such as every mix of a pair.
        paints: the latter for each paint, the worst first.
        foretold: every swatch that was left out with its paints, the worst first.
        staying: mixes that could not be left out, as a paint in them would have no swatch left.
    """

    model: PaintModel
    mixes: Errors
    sets: Errors
    paints: tuple[PaintTrust, ...]
    foretold: tuple[Foretold, ...]
    staying: int


def trust(model: PaintModel) -> Trust:
    """The errors of a model on the swatches that it was computed from, leaving them out.

    Raises:
        BadInput: there is no model, or no mix of which anything else tells.
    """
    known, patches = model.known, model.inputs.patches
    if known is None:
        raise BadInput(nothing_known(model))
    by_set = left_out(model.observations, known, pairs=True)
    by_mix = left_out(model.observations, known, pairs=False)
    told = np.isfinite(by_set.delta_e)
    if not told.any():
        msg = (
            "no mix can be left out yet: log washes of two paints alone and a mix of both, so that "
            "the mix can be predicted without itself"
        )
        raise BadInput(msg)
    seen = known.light.lab(np.array([each.spectrum for each in model.observations]))
    foretold = [
        Foretold(
            patches[row],
            _lab(seen[row]),
            _lab(by_set.lab[row]),
            float(by_set.delta_e[row]),
            float(by_set.expected[row]),
        )
        for row in np.flatnonzero(told)
    ]
    mixed = {patch.mix.id for patch in patches if len(patch.mix.recipe.paints) > 1}
    return Trust(
        model,
        _errors(by_mix, np.isfinite(by_mix.delta_e)),
        _errors(by_set, told),
        _of_paints(model, patches, by_set, told),
        tuple(sorted(foretold, key=lambda each: -each.delta_e)),
        len(mixed - {each.patch.mix.id for each in foretold}),
    )


def recipe_of(model: PaintModel, patch: Patch) -> tuple[Ingredient, ...]:
    """The paints of a patch with their parts."""
    paints = {paint.id: paint for paint in model.inputs.paints}
    return tuple(Ingredient(paints[key], parts) for key, parts in patch.mix.recipe.parts)


def nothing_known(model: PaintModel) -> str:
    """Why a studio has no model, and what would change it, as one sentence."""
    unknown = model.inputs.unknown
    if not unknown:
        return "there is no paint yet; record one with: studio paint add"
    return (
        f"no paint has enough dry swatches to predict mixes by; log flat washes of each paint "
        f"alone, such as {unknown[0].paint.facts.name} with water 3:1 (studio swatch log)"
    )


def _of_paints(
    model: PaintModel,
    patches: Sequence[Patch],
    found: LeftOutColours,
    told: npt.NDArray[np.bool_],
) -> tuple[PaintTrust, ...]:
    of_paint = []
    for paint in model.inputs.paints:
        rows = told & np.array([paint.id in patch.mix.recipe.paints for patch in patches])
        if rows.any():
            of_paint.append(PaintTrust(paint, _errors(found, rows)))
    return tuple(sorted(of_paint, key=lambda each: -each.errors.mean))


def _errors(found: LeftOutColours, rows: npt.NDArray[np.bool_]) -> Errors:
    away, expected = found.delta_e[rows], found.expected[rows]
    return Errors(
        len(away),
        float(away.mean()),
        float(np.median(away)),
        float(np.quantile(away, 0.9)),
        float((away <= expected).mean()),
        float(expected.mean()),
    )


def _lab(lab: FloatArray) -> Lab:
    """A predicted colour; extrapolated beyond white or black it is cut back."""
    lightness, a, b = lab.tolist()
    return Lab(min(max(lightness, 0.0), 100.0), a, b)

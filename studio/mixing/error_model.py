"""How far off a prediction may be, calibrated on swatches that were left out.

The variance of the parameters gives the form, how much surer one recipe is than another; left-out
swatches give the size. With few of them, the usual size of watercolours counts as `USUAL_COUNT`
more, so that a studio of three mixes is not taken at its word.
"""

from typing import Final

import numpy as np

from studio.mixing.characterisation import ErrorModel
from studio.mixing.ranges import FloatArray

USUAL: Final = ErrorModel(share=1.0, floor=1.25, scale=1.25, swatches=0)
USUAL_COUNT: Final = 20

COVERED: Final = 0.68
"""The share of predictions within the error that is shown (one standard deviation of a normal)."""

RATIOS: Final = (0.025, 0.05, 0.1, 0.2, 0.4, 0.64, 1.0, 1.6, 3.2, 6.4)
"""What is tried for share / floor², 1/ΔE00²."""
FREEDOM: Final = 5.0
"""Degrees of freedom of the Student distribution: some swatches slip."""
ROUNDS: Final = 20


def calibrated(distance: FloatArray, variance: FloatArray) -> ErrorModel:
    """The error model under which left-out swatches are most likely.

    Args:
        distance: ΔE00 of each from its prediction; not a number where none was left out.
        variance: of each prediction from the parameters, ΔE00².
    """
    there = np.isfinite(distance)
    squared, variance = distance[there] ** 2, variance[there]
    count = len(squared)
    if count == 0:
        return USUAL
    trust = count / (count + USUAL_COUNT)
    best = (np.inf, 0.0, 0.0)
    for ratio in RATIOS:
        form = 1.0 + ratio * variance
        size = _size(squared / form)
        loss = 1.5 * np.log(size * form) + _tail(squared / (size * form))
        away = np.log(ratio * USUAL.floor**2 / USUAL.share) ** 2
        best = min(best, (float(loss.sum() + away), ratio, size))
    _, ratio, size = best
    floor = float(np.exp(trust * np.log(size) / 2.0 + (1.0 - trust) * np.log(USUAL.floor)))
    root = floor * np.sqrt(1.0 + ratio * variance)
    own = float(np.log(np.quantile(np.sqrt(squared) / root, COVERED)))
    scale = np.exp(trust * own + (1.0 - trust) * np.log(USUAL.scale))
    return ErrorModel(ratio * floor**2, floor, float(scale), count)


def bound(model: ErrorModel, variance: FloatArray) -> FloatArray:
    """The ΔE00 that about 68 % of predictions of such a variance stay within."""
    return np.asarray(model.scale * np.sqrt(model.share * variance + model.floor**2))


def _tail(squared: FloatArray) -> FloatArray:
    """The part of Student's log-likelihood in three dimensions that is due to distance."""
    return np.asarray((FREEDOM + 3.0) / 2.0 * np.log1p(3.0 * squared / FREEDOM))


def _size(squared: FloatArray) -> float:
    """The mean square of Student's distribution, by expectation and maximisation."""
    size = float(squared.mean()) + 1e-6
    for _ in range(ROUNDS):
        weight = (FREEDOM + 3.0) / (FREEDOM + 3.0 * squared / size)
        size = float((weight * squared).mean()) + 1e-6
    return size

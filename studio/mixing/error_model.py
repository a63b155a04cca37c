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

SHARES: Final = (0.25, 0.5, 1.0, 2.0, 4.0, 8.0)
FLOORS: Final = (0.75, 1.0, 1.25, 1.5, 1.75, 2.0, 2.5)


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
    best = (np.inf, USUAL.share, USUAL.floor)
    for share in SHARES:
        for floor in FLOORS:
            expected = share * variance + floor**2
            # Student's t with 5 degrees of freedom in three dimensions: some swatches slip.
            loss = np.sum(1.5 * np.log(expected) + 4.0 * np.log1p(squared / expected * 0.6))
            away = np.log(share / USUAL.share) ** 2 + 4.0 * np.log(floor / USUAL.floor) ** 2
            best = min(best, (float(loss + away), share, floor))
    _, share, floor = best
    ratio = np.sqrt(squared / (share * variance + floor**2))
    own = float(np.log(np.quantile(ratio, COVERED)))
    usual = float(np.log(USUAL.scale))
    scale = np.exp((count * own + USUAL_COUNT * usual) / (count + USUAL_COUNT))
    return ErrorModel(share, floor, float(scale), count)


def bound(model: ErrorModel, variance: FloatArray) -> FloatArray:
    """The ΔE00 that about 68 % of predictions of such a variance stay within."""
    return np.asarray(model.scale * np.sqrt(model.share * variance + model.floor**2))

"""The most probable parameters by damped least squares (Levenberg and Marquardt).

Sources: K. Levenberg, Quart. Appl. Math. 2 (1944) 164; D. W. Marquardt, J. SIAM 11 (1963) 431.
"""

from typing import Final, NamedTuple

import numpy as np

from studio.mixing.misfit import Equations, Measured, equations, misfit
from studio.mixing.parameters import Parameters, wash_slopes
from studio.mixing.ranges import FloatArray
from studio.mixing.unknowns import Layout, Prior

STEPS: Final = 40
TRIES: Final = 8
ENOUGH: Final = 2e-4
"""A step that lowers the cost by less than this share of it is the last."""
LONGEST: Final = 1.5
"""No unknown moves further than this in one step; most are logarithms."""


class Fit(NamedTuple):
    """Where the descent ended.

    Args:
        vector: the unknowns, (size,).
        ln_extra: of each swatch, how much thicker its film is than its water tells, in ln.
        cost: misfit and distance from the prior.
        influence: weight of each swatch in the last equations, (swatches,).
        last: the equations there, without the prior.
    """

    vector: FloatArray
    ln_extra: FloatArray
    cost: float
    influence: FloatArray
    last: Equations


def descend(layout: Layout, data: Measured, known: Prior, start: FloatArray) -> Fit:
    """The unknowns of the lowest cost that is found from a start.

    Args:
        layout: of the unknowns.
        data: the measured swatches.
        known: the prior.
        start: unknowns to begin with, (size,).
    """
    from scipy.linalg import cho_factor, cho_solve  # noqa: PLC0415 - heavy, and few need it

    vector, extra = start.copy(), np.zeros(len(data.weight))
    cost, influence = _cost(layout, data, known, vector, extra)
    damping, lowered = 1e-2, True
    for _ in range(STEPS):
        now = equations(layout.parameters(vector), data, extra, influence)
        if not lowered:
            break
        matrix = now.matrix + known.precision
        gradient = now.gradient + known.precision @ (vector - known.mean)
        diagonal = np.arange(layout.size)
        level = np.diag(matrix).copy()
        before, lowered = cost, False
        for _ in range(TRIES):
            matrix[diagonal, diagonal] = level * (1.0 + damping)
            step = -cho_solve(cho_factor(matrix, check_finite=False), gradient, check_finite=False)
            step = np.clip(step, -LONGEST, LONGEST)
            tried, moved = vector + step, extra + np.clip(now.thickness_step(step), -1.0, 1.0)
            tried_cost, tried_influence = _cost(layout, data, known, tried, moved)
            if tried_cost < cost:
                vector, extra, cost, influence = tried, moved, tried_cost, tried_influence
                damping = max(damping / 5.0, 1e-7)
                lowered = before - cost > ENOUGH * before
                break
            damping *= 6.0
    return Fit(vector, extra, cost, influence, now)


def _cost(
    layout: Layout, data: Measured, known: Prior, vector: FloatArray, extra: FloatArray
) -> tuple[float, FloatArray]:
    found = misfit(data, _reflectance(layout.parameters(vector), data, extra), extra)
    cost = found.cost + known.misfit(vector)
    return (cost if np.isfinite(cost) else np.inf), found.influence


def _reflectance(parameters: Parameters, data: Measured, extra: FloatArray) -> FloatArray:
    with np.errstate(over="ignore", invalid="ignore"):
        return wash_slopes(parameters, data.batch, extra).R

"""Amounts and water of many combinations of paints, each brought as near a goal as it comes.

All combinations of the same number of paints descend together by damped least squares, each with
its own damping (`least_squares` names the sources); bounds are kept by freezing what would leave
them.
"""

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import Final, NamedTuple

import numpy as np

from studio.colour.tristimulus import Tristimulus
from studio.mixing.goal import Goal
from studio.mixing.parameters import Parameters
from studio.mixing.ranges import FloatArray
from studio.mixing.recipe_space import Equations, Limits, Places, RecipeSpace, shares_of_vector

STEPS: Final = 14
FIRST_STEPS: Final = 5
KEPT: Final = 400
"""Combinations that go on after the first steps."""
NEAR: Final = 0.05
"""What comes this near needs no further step."""
ENOUGH: Final = 2e-3
"""A step that lowers the square of the distance by less than this share of it is the last."""
LONGEST: Final = 1.5
STIFFEST: Final = 1e4
START_RATIO: Final = 4.0
START_LOADS: Final = 4
PROBED: Final = 60
PROBE: Final = 0.2
PROBES: Final = 7
"""Far from the goal ΔE00 is no quadratic form, so the nearest there probe around themselves."""
FAR: Final = 1.0
THREADS: Final = 2


class Reached(NamedTuple):
    """How near combinations came.

    Args:
        columns: the paints of each by their place, (combinations, paints of each).
        shares: of each of them, (combinations, paints of each).
        load: paint in a layer, (combinations,).
        distance: from the goal, (combinations,), as `Goal.away`.
    """

    columns: Places
    shares: FloatArray
    load: FloatArray
    distance: FloatArray


def approach(  # noqa: PLR0913 - a search and who is told of it
    parameters: Parameters,
    light: Tristimulus,
    goal: Goal,
    columns: Places,
    limits: Limits,
    *,
    tell: Callable[[float], None],
) -> Reached:
    """The nearest recipe of each combination.

    After a few steps only the nearest combinations go on; the others keep the recipe they have
    reached, which may not be their nearest.

    Args:
        parameters: of the paints.
        light: from spectra to Lab.
        goal: what to come near.
        columns: the paints of each combination by their place, (combinations, paints of each).
        limits: what a recipe may be.
        tell: is told after each step which share of the work is done, 0 to 1.
    """
    with ThreadPoolExecutor(THREADS) as pool:
        space = RecipeSpace(parameters, light, goal, limits, pool)
        vector, distance = _descend(space, columns, _start(space, columns), tell)
        _probe(space, columns, vector, distance)
    return Reached(columns, shares_of_vector(vector), np.exp(vector[:, 0]), distance)


def _start(space: RecipeSpace, columns: Places) -> FloatArray:
    """The best of a coarse grid, around mixes of which no paint drowns the others."""
    limits, size = space.limits, columns.shape[1]
    strength = np.log(space.K.mean(axis=1))[columns]
    even = strength[:, :1] - strength[:, 1:]
    tilts = [np.zeros(size - 1)]
    if size > 1:
        tilts += [np.full(size - 1, -np.log(START_RATIO))]
        tilts += list(np.log(START_RATIO) * np.eye(size - 1))
    edge = np.log(limits.ratio)
    loads = np.linspace(np.log(limits.least_load), np.log(limits.most_load), START_LOADS + 2)
    tried = [
        np.column_stack([np.full(len(columns), load), np.clip(even + tilt, -edge, edge)])
        for load in loads[1:-1]
        for tilt in tilts
    ]
    best = np.stack([space.distances(columns, each) for each in tried]).argmin(axis=0)
    return np.asarray(np.stack(tried)[best, np.arange(len(columns))])


def _descend(
    space: RecipeSpace, columns: Places, start: FloatArray, tell: Callable[[float], None]
) -> tuple[FloatArray, FloatArray]:
    """Vectors and distances of the nearest recipes that are found from a start."""
    vector, now = start.copy(), space.equations(columns, start)
    damping = np.full(len(columns), 1e-2)
    rows = np.flatnonzero(now.cost > NEAR**2)
    for number in range(STEPS):
        tell(min(1.0, (number + 1) / (FIRST_STEPS + 1)))
        if number == FIRST_STEPS:
            rows = rows[np.argsort(now.cost[rows], kind="stable")[:KEPT]]
        if not len(rows):
            break
        here = Equations(*(each[rows] for each in now))
        tried = _step(space.limits, vector[rows], here, damping[rows])
        found = space.equations(columns[rows], tried)
        lower = found.cost < here.cost
        small = lower & (here.cost - found.cost < ENOUGH * here.cost)
        vector[rows[lower]] = tried[lower]
        for old, new in zip(now, found, strict=True):
            old[rows[lower]] = new[lower]
        damping[rows] = np.where(lower, damping[rows] / 5.0, damping[rows] * 8.0)
        done = small | (damping[rows] > STIFFEST) | (now.cost[rows] <= NEAR**2)
        rows = rows[~done]
    return vector, np.sqrt(now.cost)


def _probe(space: RecipeSpace, columns: Places, vector: FloatArray, distance: FloatArray) -> None:
    """Bring the nearest of those that stay far nearer still, an unknown at a time, in place."""
    rows = np.argsort(distance, kind="stable")[:PROBED]
    rows = rows[distance[rows] > FAR]
    if not len(rows):
        return
    low, high = space.limits.bounds(vector.shape[1])
    unit = np.eye(vector.shape[1])
    size = np.full(len(rows), PROBE)
    for _ in range(PROBES):
        tried = np.stack(
            [
                np.clip(vector[rows] + sign * size[:, np.newaxis] * along, low, high)
                for along in unit
                for sign in (-1.0, 1.0)
            ]
        )
        found = np.stack([space.distances(columns[rows], each) for each in tried])
        best = found.argmin(axis=0), np.arange(len(rows))
        lower = found[best] < distance[rows]
        vector[rows[lower]] = tried[best][lower]
        distance[rows[lower]] = found[best][lower]
        size[~lower] /= 3.0


def _step(limits: Limits, vector: FloatArray, here: Equations, damping: FloatArray) -> FloatArray:
    """Vectors after a damped step within the bounds."""
    low, high = limits.bounds(vector.shape[1])
    matrix, gradient = here.matrix, here.gradient
    frozen = ((vector <= low) & (gradient > 0.0)) | ((vector >= high) & (gradient < 0.0))
    free = ~frozen
    gradient = gradient * free
    matrix = matrix * free[:, :, np.newaxis] * free[:, np.newaxis]
    size = np.arange(vector.shape[1])
    level = matrix[:, size, size] * (1.0 + damping[:, np.newaxis])
    matrix[:, size, size] = np.where(frozen, 1.0, level + 1e-6 + 1e-3 * damping[:, np.newaxis])
    move = -np.linalg.solve(matrix, gradient[:, :, np.newaxis])[:, :, 0]
    return np.asarray(np.clip(vector + np.clip(move, -LONGEST, LONGEST), low, high))

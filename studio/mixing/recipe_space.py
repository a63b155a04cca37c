"""Recipes as vectors of unknowns: how far they lie from a goal, and the slopes towards it.

The unknowns of a recipe are ln of the paint in a layer, and ln of each paint's ratio to the first,
so that no step makes an amount negative.
"""

from collections.abc import Callable
from concurrent.futures import Executor
from dataclasses import dataclass
from typing import Final, NamedTuple, TypeVar

import numpy as np
from numpy.typing import NDArray

from studio.colour.tristimulus import Tristimulus, ciede2000_root
from studio.mixing.goal import SPECTRAL, Goal
from studio.mixing.observation import Batch
from studio.mixing.parameters import Parameters, wash_slopes
from studio.mixing.predict import film_of, washes
from studio.mixing.ranges import FloatArray
from studio.mixing.settings import LAW

TOGETHER: Final = 256
"""Recipes computed together: their arrays stay in the cache of a processor."""
LEVELLING: Final = LAW.index("levelling")

Places = NDArray[np.intp]
"""Paints by their place in the parameters."""

T_ = TypeVar("T_")


@dataclass(frozen=True, slots=True)
class Limits:
    """What a recipe may be.

    Args:
        least_load: paint in a layer, as a multiple of that at the usual water, with the most water.
        most_load: the same with the least water.
        ratio: no paint is more than this many times the first.
        layers: how many of the film lie on each other.
    """

    least_load: float
    most_load: float
    ratio: float
    layers: float

    def bounds(self, paints: int) -> tuple[FloatArray, FloatArray]:
        """The lowest and the highest vector of so many paints."""
        edge = np.full(paints - 1, np.log(self.ratio))
        return (
            np.concatenate([[np.log(self.least_load)], -edge]),
            np.concatenate([[np.log(self.most_load)], edge]),
        )


class Equations(NamedTuple):
    """Squared distances of recipes, and the normal equations of the next step.

    Args:
        cost: (recipes,).
        matrix: (recipes, unknowns, unknowns).
        gradient: (recipes, unknowns).
    """

    cost: FloatArray
    matrix: FloatArray
    gradient: FloatArray


class RecipeSpace:
    """The recipes of some paints before a goal.

    Args:
        parameters: of the paints.
        light: from spectra to Lab.
        goal: what to come near.
        limits: what a recipe may be.
        pool: computes the parts of a batch side by side.
    """

    def __init__(
        self,
        parameters: Parameters,
        light: Tristimulus,
        goal: Goal,
        limits: Limits,
        pool: Executor,
    ) -> None:
        self.parameters, self.light, self.goal, self.limits = parameters, light, goal, limits
        self.K, self.S, self._pool = parameters.K, parameters.S, pool

    def distances(self, columns: Places, vector: FloatArray) -> FloatArray:
        """How far recipes lie from the goal, (recipes,).

        Args:
            columns: the paints of each, (recipes, paints of each).
            vector: the unknowns of each, (recipes, paints of each).
        """
        return np.concatenate(self._in_parts(self._distances, columns, vector))

    def equations(self, columns: Places, vector: FloatArray) -> Equations:
        """How far recipes lie from the goal, and where it is; arguments of `distances`."""
        parts = self._in_parts(self._equations, columns, vector)
        return Equations(*(np.concatenate(each) for each in zip(*parts, strict=True)))

    def _in_parts(
        self, of: Callable[[Places, FloatArray], T_], columns: Places, vector: FloatArray
    ) -> list[T_]:
        starts = range(0, len(columns), TOGETHER)
        rows = [slice(first, first + TOGETHER) for first in starts]
        return list(self._pool.map(lambda part: of(columns[part], vector[part]), rows))

    def _batch(self, columns: Places, vector: FloatArray) -> Batch:
        dense = np.zeros((len(columns), len(self.K)))
        np.put_along_axis(dense, columns, shares_of_vector(vector), axis=1)
        layers = np.full(len(columns), self.limits.layers)
        return Batch(dense, np.exp(vector[:, 0]), layers, self.goal.paper[np.newaxis])

    def _distances(self, columns: Places, vector: FloatArray) -> FloatArray:
        batch = self._batch(columns, vector)
        spectra = washes(self.parameters, film_of(self.parameters, batch), batch)
        return self.goal.away(self.light, spectra)

    def _equations(self, columns: Places, vector: FloatArray) -> Equations:
        goal, light = self.goal, self.light
        spectra, rise = self._rise(columns, vector)
        lab = light.lab(spectra)
        # ΔE00 weighs a difference by the mean of the two colours.
        root = ciede2000_root((lab + goal.lab) / 2.0)
        error = root @ (lab - goal.lab)[:, :, np.newaxis]
        by_vector = root @ (light.lab_slopes(spectra) @ rise)
        turned = np.swapaxes(by_vector, 1, 2)
        matrix, gradient = turned @ by_vector, turned @ error
        if goal.spectrum is not None:
            turned = SPECTRAL**2 / len(goal.paper) * np.swapaxes(rise, 1, 2)
            matrix += turned @ rise
            gradient += turned @ (spectra - goal.spectrum)[:, :, np.newaxis]
        return Equations(goal.away(light, spectra) ** 2, matrix, gradient[:, :, 0])

    def _rise(self, columns: Places, vector: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Reflectance, and how it changes with the unknowns, (recipes, wavelengths, unknowns)."""
        p, batch = self.parameters, self._batch(columns, vector)
        slopes = wash_slopes(p, batch, np.zeros(len(columns)))
        shares = shares_of_vector(vector)[:, :, np.newaxis]
        along = (
            slopes.by_K[:, np.newaxis] * self.K[columns]
            + slopes.by_S[:, np.newaxis] * self.S[columns]
        )
        by_ratio = shares * (along - (shares * along).sum(axis=1, keepdims=True))
        amount = (batch.layers * batch.load)[:, np.newaxis]
        levelled = slopes.by_law[:, :, LEVELLING] * p.levelling * amount
        by_ratio[:, 0] = p.dilution * slopes.by_thickness + levelled / (
            (1.0 + amount) * np.log1p(amount)
        )
        return slopes.R, np.swapaxes(by_ratio, 1, 2)


def shares_of_vector(vector: FloatArray) -> FloatArray:
    """Shares of the paints of recipes, (recipes, paints of each), rows sum to 1."""
    amounts = np.exp(np.column_stack([np.zeros(len(vector)), vector[:, 1:]]))
    return np.asarray(amounts / amounts.sum(axis=1, keepdims=True))

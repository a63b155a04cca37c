"""A swatch as the model sees it: what was mixed, how it was laid, and the spectrum it has."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from studio.mixing.ranges import FloatArray, coefficient, fraction
from studio.mixing.settings import USUAL_WATER


@dataclass(frozen=True, slots=True, eq=False)
class Observation:
    """A dry swatch with its spectrum, on the wavelengths of all the others.

    Args:
        parts: parts of each paint by its id, above 0; only their ratios count.
        spectrum: measured reflectance, 0 to 1, (wavelengths,).
        paper: reflectance of what it was laid on, 0 to 1, (wavelengths,): the bare paper, a dry
            wash, or black where it was read so.
        water: parts of water to one part of paint, 0 upwards; None where it was not recorded.
        layers: how many of that film lie on each other.
        weight: how much it counts beside other mixes, above 0.
        estimated: the spectrum was estimated from its Lab.
        name: how messages name it, such as `S12`.

    Raises:
        ValueError: a number out of its range, no paint, or two grids of wavelengths.
    """

    parts: Mapping[int, float]
    spectrum: FloatArray
    paper: FloatArray
    water: float | None = None
    layers: float = 1.0
    weight: float = 1.0
    estimated: bool = False
    name: str = ""

    def __post_init__(self) -> None:
        named = f" of {self.name}" if self.name else ""
        if not self.parts or not min(self.parts.values()) > 0.0:
            msg = f"the mix{named} needs paints with parts above 0"
            raise ValueError(msg)
        fraction(self.spectrum, f"spectrum{named}")
        fraction(self.paper, f"spectrum of the paper{named}")
        if np.ndim(self.spectrum) != 1 or np.shape(self.spectrum) != np.shape(self.paper):
            msg = f"the spectrum{named} and its paper need the same wavelengths"
            raise ValueError(msg)
        coefficient([self.water or 0.0, self.weight, *self.parts.values()], f"numbers{named}")
        if not (self.layers > 0.0 and self.weight > 0.0):
            msg = f"the layers and the weight{named} must be above 0"
            raise ValueError(msg)


class Batch(NamedTuple):
    """Recipes laid on their grounds, as arrays.

    Args:
        shares: share of each paint in the paint of the mix, (recipes, paints), rows sum to 1.
        load: paint in a layer, as a multiple of that at the usual water, above 0, (recipes,).
        layers: number of layers, 0 upwards, (recipes,).
        paper: reflectance of the ground, (recipes, wavelengths) or (1, wavelengths).
    """

    shares: FloatArray
    load: FloatArray
    layers: FloatArray
    paper: FloatArray


def load_of_water(water: FloatArray) -> FloatArray:
    """Paint in a layer of a mix with so many parts of water, 1 at the usual water."""
    return np.asarray((1.0 + USUAL_WATER) / (1.0 + coefficient(water, "water")))


def shares_of(recipes: Sequence[Mapping[int, float]], paints: Sequence[int]) -> FloatArray:
    """Shares of each paint, (recipes, paints).

    Raises:
        KeyError: a recipe has a paint that is not among them.
    """
    column = {paint: place for place, paint in enumerate(paints)}
    shares = np.zeros((len(recipes), len(column)))
    for row, parts in enumerate(recipes):
        for paint, amount in parts.items():
            shares[row, column[paint]] = amount
    return np.asarray(shares / shares.sum(axis=1, keepdims=True))


def batch_of(observations: Sequence[Observation], paints: Sequence[int]) -> Batch:
    """The recipes of some swatches; unrecorded water counts as the usual."""
    water = [USUAL_WATER if each.water is None else each.water for each in observations]
    return Batch(
        shares_of([each.parts for each in observations], paints),
        load_of_water(np.array(water)),
        np.array([float(each.layers) for each in observations]),
        np.array([each.paper for each in observations]),
    )

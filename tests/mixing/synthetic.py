"""A studio of made-up paints whose K and S are known."""

from collections.abc import Mapping, Sequence
from itertools import combinations
from typing import Final

import numpy as np

from studio.colour.science import tristimulus
from studio.mixing.observation import Batch, Observation, load_of_water, shares_of
from studio.mixing.parameters import Parameters, wash_slopes
from studio.mixing.ranges import FloatArray
from studio.mixing.settings import DEFAULT

WAVELENGTHS: Final = np.arange(400.0, 701.0, 20.0)
LIGHT: Final = tristimulus(WAVELENGTHS.tolist())
PAPER: Final = np.full(len(WAVELENGTHS), 0.88)
BLUE, YELLOW, RED, WHITE = IDS = (3, 5, 8, 13)


def _bump(centre: float, width: float) -> FloatArray:
    return np.asarray(np.exp(-(((WAVELENGTHS - centre) / width) ** 2)))


LN_K: Final = np.array(
    [
        -2.5 + 4.5 * _bump(620.0, 90.0),
        -3.0 + 5.0 * _bump(400.0, 80.0),
        -2.8 + 4.8 * _bump(520.0, 60.0),
        np.full(len(WAVELENGTHS), -3.0),
    ]
)
LEVEL_S: Final = np.array([[0.0], [0.8], [0.3], [2.2]])
TRUTH: Final = Parameters(
    LN_K, LEVEL_S + np.zeros_like(LN_K), np.array((-3.9, 0.7, 0.85, 0.4, 0.2, -0.8))
)


def spectrum(
    parts: Mapping[int, float],
    water: float,
    layers: float = 1.0,
    paper: FloatArray = PAPER,
    ln_extra: float = 0.0,
) -> FloatArray:
    """What an instrument would read of a recipe."""
    batch = Batch(
        shares_of([parts], IDS), load_of_water(np.array([water])), np.array([layers]), paper[None]
    )
    return np.asarray(wash_slopes(TRUTH, batch, np.array([ln_extra])).R[0])


def swatch(
    parts: Mapping[int, float],
    water: float = 3.0,
    *,
    layers: float = 1.0,
    paper: FloatArray = PAPER,
    ln_extra: float = 0.0,
    name: str = "",
) -> Observation:
    """A recipe with its own spectrum."""
    read = spectrum(parts, water, layers, paper, ln_extra)
    return Observation(parts, read, paper, water, layers, name=name)


def washes(waters: Sequence[float] = (1.0, 3.0, 8.0)) -> list[Observation]:
    """Each paint alone."""
    return [swatch({paint: 1.0}, water) for paint in IDS for water in waters]


def mixes(pairs: Sequence[tuple[int, int]] | None = None) -> list[Observation]:
    """Every pair in three ratios, or some pairs."""
    return [
        swatch({one: a, other: b}, water)
        for one, other in (combinations(IDS, 2) if pairs is None else pairs)
        for a, b, water in ((1.0, 1.0, 3.0), (2.0, 1.0, 1.0), (1.0, 2.0, 6.0))
    ]


assert len(DEFAULT.law) == len(TRUTH.law)

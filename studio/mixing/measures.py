"""Recipes that a painter can measure: small whole parts of paint, water in simple ratios."""

import math
from collections.abc import Sequence
from fractions import Fraction
from functools import cache
from itertools import product
from typing import Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

from studio.mixing.observation import load_of_water
from studio.mixing.ranges import FloatArray

LARGEST: Final = {1: 1, 2: 10, 3: 10, 4: 6}
"""The most parts of one paint, by the number of paints."""

WATERS: Final = (
    *(Fraction(halves, 2) for halves in range(1, 9)),
    *(Fraction(whole) for whole in (5, 6, 7, 8, 10, 12, 15, 20)),
)
"""Parts of water to one part of paint that are measured easily."""

RATIOS_TRIED: Final = 16
WATERS_TRIED: Final = 5
FEWER_PARTS: Final = 0.01
"""What a part counts, as a distance in ln ratio, when ratios near a recipe are looked for."""

AS_NEAR: Final = 0.2
"""Up to this ΔE00 further from the target a recipe of fewer parts is taken (no eye tells them)."""

Parts = NDArray[np.int64]


class Measurable(NamedTuple):
    """Roundings of one recipe.

    Args:
        parts: parts of each paint, whole and in lowest terms, (roundings, paints).
        water: parts of water to one of paint, by its place among the waters, (roundings,).
    """

    parts: Parts
    water: NDArray[np.intp]


def largest(paints: int, together: int | None = None) -> int:
    """The most parts of one paint in a recipe.

    Args:
        paints: how many it has, 1 to 4.
        together: parts of all of them at most; None for what `LARGEST` lets.
    """
    return LARGEST[paints] if together is None else min(LARGEST[paints], together - paints + 1)


@cache
def small_ratios(paints: int, together: int | None = None) -> Parts:
    """Every ratio of so many paints in whole parts up to `largest`, in lowest terms, once.

    Args:
        paints: 1 to 4.
        together: parts of all of them at most; None for any number.

    Returns:
        (ratios, paints), fewest parts first.
    """
    whole = range(1, largest(paints, together) + 1)
    found = [
        parts
        for parts in product(whole, repeat=paints)
        if math.gcd(*parts) == 1 and (together is None or sum(parts) <= together)
    ]
    return np.array(sorted(found, key=lambda parts: (sum(parts), parts)), dtype=np.int64)


def roundings(
    shares: FloatArray,
    load: float,
    waters: Sequence[Fraction] = WATERS,
    together: int | None = None,
) -> Measurable:
    """The measurable recipes nearest one recipe.

    Args:
        shares: of each paint, above 0, (paints,).
        load: paint in a layer, as a multiple of that at the usual water.
        waters: parts of water that may be measured.
        together: parts of paint in one recipe at most; None for any number.
    """
    ratios = small_ratios(len(shares), together)
    apart = np.log(ratios) - np.log(shares)
    apart -= apart.mean(axis=1, keepdims=True)
    away = np.linalg.norm(apart, axis=1) + FEWER_PARTS * ratios.sum(axis=1)
    near = np.argsort(away, kind="stable")[:RATIOS_TRIED]
    loads = load_of_water(np.array([float(water) for water in waters]))
    wet = np.argsort(np.abs(np.log(loads / load)), kind="stable")[:WATERS_TRIED]
    return Measurable(np.repeat(ratios[near], len(wet), axis=0), np.tile(wet, len(near)))


def choose(distance: FloatArray, parts: Parts) -> int:
    """The place of the rounding to take: the fewest parts that are `AS_NEAR` the best.

    Args:
        distance: of each from the target, ΔE00, (roundings,).
        parts: of each, (roundings, paints).
    """
    good = np.flatnonzero(distance <= distance.min() + AS_NEAR)
    total = parts[good].sum(axis=1)
    return int(good[np.lexsort((distance[good], total))[0]])

"""Proposed recipes, and the order they stand in.

They are ranked by what is to be expected of them: the root of the squared ΔE00 and the squared
expected error, and `EACH_PAINT` for every paint beyond the first. So a recipe of more paints stands
before one of fewer only where it may be expected to come nearer by more than that for each.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from studio.mixing.measures import WATERS
from studio.mixing.ranges import FloatArray
from studio.mixing.settings import is_too_uncertain

EACH_PAINT: Final = 0.5
"""ΔE00 that each further paint has to be worth."""
MOST_PAINTS: Final = 4


@dataclass(frozen=True, slots=True)
class Choice:
    """What recipes may be made of.

    Args:
        paints: ids of the paints.
        most: paints in one recipe, 1 to 4.
        using: ids of paints that every recipe holds.
        layers: how many of the film lie on each other.
        waters: parts of water to one of paint, rising.
        together: parts of paint in one recipe at most, as many as `most` or more; None for any
            number that can be measured.
    """

    paints: tuple[int, ...]
    most: int = 3
    using: frozenset[int] = frozenset()
    layers: float = 1.0
    waters: tuple[Fraction, ...] = WATERS
    together: int | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Proposal:
    """A recipe that was predicted.

    Args:
        parts: paint ids with whole parts in lowest terms, most first.
        water: parts of water to one of paint.
        layers: how many of the film lie on each other.
        spectrum: predicted reflectance, (wavelengths,).
        lab: its L*a*b*.
        distance: from the goal as it was searched: ΔE00, and the spectral difference where wanted.
        expected: the ΔE00 that about 68 % of such predictions stay within.
    """

    parts: tuple[tuple[int, int], ...]
    water: Fraction
    layers: float
    spectrum: FloatArray
    lab: tuple[float, float, float]
    distance: float
    expected: float

    @property
    def paints(self) -> frozenset[int]:
        """Ids of its paints."""
        return frozenset(paint for paint, _ in self.parts)

    @property
    def is_too_uncertain(self) -> bool:
        """Whether it is no ground to act on."""
        return is_too_uncertain(self.expected)

    @property
    def rank(self) -> float:
        """What proposals are ordered by, ΔE00: lower stands first."""
        return rank_of(self.distance, self.expected, len(self.parts))


@dataclass(frozen=True, slots=True, eq=False)
class Formulation:
    """What a search found.

    Args:
        proposals: ranked, the best first; none is too uncertain.
        nearest: the measurable recipe that is predicted nearest the goal, whatever its rank; one
            that is too uncertain only where every one is.
        doubtful: what would stand among the proposals if it were not too uncertain.
        reached: how near any amounts and any water come, before they are rounded.
        combinations: how many combinations of paints were searched.
    """

    proposals: tuple[Proposal, ...]
    nearest: Proposal
    doubtful: tuple[Proposal, ...]
    reached: float
    combinations: int


def rank_of(distance: float, expected: float, paints: int) -> float:
    """What recipes are ordered by, ΔE00: lower stands first.

    Args:
        distance: predicted from the goal.
        expected: error of the prediction, ΔE00.
        paints: how many it has.
    """
    return math.hypot(distance, expected) + EACH_PAINT * (paints - 1)


def ranked(proposals: Iterable[Proposal]) -> list[Proposal]:
    """In order, without those that only add paints to one that stands before them."""
    kept: list[Proposal] = []
    for each in sorted(proposals, key=lambda proposal: (proposal.rank, proposal.parts)):
        if not any(other.paints <= each.paints for other in kept):
            kept.append(each)
    return kept

"""What can be done about a test patch: nothing can be taken out of a puddle, only added to it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import product
from typing import Final, NamedTuple

AMOUNTS: Final = (
    *(0.0625, 0.125, 0.25, 0.5, 0.75, 1.0, 1.5, 2.0, 3.0),
    *(4.0, 6.0, 8.0, 12.0, 16.0, 24.0, 32.0, 48.0, 64.0),
)
"""Parts that can be told apart with a brush, a dropper or a palette knife."""

LEAST_SHARE: Final = 1.0 / 40.0
"""A smaller addition, as a share of the paint in the puddle, cannot be measured out."""
MOST_SHARE: Final = 1.0
"""More than once the paint in the puddle is another mix."""
THINNEST: Final = 4.0
"""A puddle is thinned at most so many times."""

AGAIN: Final = (0.25, 0.5, 1.0)
"""How much of the whole recipe is added again, without its water."""
STRONGER: Final = (0.75, 0.5, 1.0 / 3.0)
"""Water of a fresh mix, as a share of that of the patch."""
LIFTED: Final = (0.75, 0.5)
"""What is left of a film that is blotted or lifted."""
GLAZE_WATERS: Final = (4.0, 6.0, 8.0, 12.0, 16.0, 24.0)
"""Parts of water to one of paint in a glaze."""


class Way(StrEnum):
    """How a patch is corrected."""

    ADD = "add"
    FRESH = "fresh mix"
    LAYER = "another layer"
    GLAZE = "glaze"
    LIFT = "lift"


class Puddle(NamedTuple):
    """What is left of the mix that a patch was laid from.

    Args:
        parts: parts of each paint by its id.
        water: parts of water to one part of paint.
    """

    parts: Mapping[int, float]
    water: float

    @property
    def paint(self) -> float:
        """All parts of paint."""
        return sum(self.parts.values())


@dataclass(frozen=True, slots=True)
class Change:
    """One thing to do about a patch, and what lies on the paper after it.

    Args:
        way: how.
        parts: of each paint by id in what is laid: the puddle after the addition, or the glaze.
        water: parts of water to one of paint in it.
        layers: how many of it lie on each other; for a lifted film what is left of it. A glaze is
            one layer over the patch.
        added: parts of paint that were added to the puddle, by id.
        added_water: parts of water that were added to it.
    """

    way: Way
    parts: tuple[tuple[int, float], ...]
    water: float
    layers: float
    added: tuple[tuple[int, float], ...] = ()
    added_water: float = 0.0

    @property
    def kind(self) -> tuple[Way, tuple[int, ...], bool]:
        """What is done, whatever the amounts."""
        touched = self.parts if self.way is Way.GLAZE else self.added
        return self.way, tuple(sorted(paint for paint, _ in touched)), self.added_water > 0.0

    @property
    def steps(self) -> int:
        """How many things are measured out or laid."""
        if self.way is Way.ADD:
            return len(self.added) + (self.added_water > 0.0)
        return {Way.LAYER: 1, Way.GLAZE: 2, Way.LIFT: 2, Way.FRESH: 2}[self.way]


def addition(
    puddle: Puddle, layers: float, added: Mapping[int, float], added_water: float
) -> Change:
    """The puddle with some paint and water added, laid afresh."""
    parts = dict(puddle.parts)
    for paint, amount in added.items():
        parts[paint] = parts.get(paint, 0.0) + amount
    water = puddle.water * puddle.paint + added_water
    return Change(
        Way.ADD,
        tuple(parts.items()),
        water / sum(parts.values()),
        layers,
        tuple(added.items()),
        added_water,
    )


def amounts(puddle: Puddle) -> tuple[float, ...]:
    """Parts of a paint that may be added to a puddle."""
    return tuple(
        each for each in AMOUNTS if puddle.paint * LEAST_SHARE <= each <= puddle.paint * MOST_SHARE
    )


def waters(puddle: Puddle) -> tuple[float, ...]:
    """Parts of water that may be added to a puddle, and none."""
    whole = puddle.paint * (1.0 + puddle.water)
    most = whole * (THINNEST - 1.0)
    return (0.0, *(each for each in AMOUNTS if whole * LEAST_SHARE <= each <= most))


def additions(puddle: Puddle, layers: float, may_add: Sequence[int]) -> list[Change]:
    """A net of additions over a puddle: water, one paint, and two of which one is in it already.

    Amounts of two paints are every other one; `around` fills in the rest.

    Args:
        puddle: what is left of the mix.
        layers: as the patch was laid.
        may_add: ids of the paints that may be added.
    """
    every, thinning = amounts(puddle), waters(puddle)
    paints: list[dict[int, float]] = [{}]
    paints += [{paint: amount} for paint in may_add for amount in every]
    inside = [paint for paint in may_add if paint in puddle.parts]
    if len(puddle.parts) > 2 and len(inside) == len(puddle.parts):  # noqa: PLR2004 - beyond pairs
        paints += [{paint: part * more for paint, part in puddle.parts.items()} for more in AGAIN]
    rough, thin = every[::2], (0.0, *thinning[1::2])
    pairs = {tuple(sorted((one, other))) for one, other in product(inside, may_add) if one != other}
    found = [
        addition(puddle, layers, added, water)
        for added in paints
        for water in thinning
        if added or water
    ]
    found += [
        addition(puddle, layers, {one: a, other: b}, water)
        for one, other in sorted(pairs)
        for a, b in product(rough, rough)
        for water in thin
    ]
    return found


def around(puddle: Puddle, change: Change) -> list[Change]:
    """An addition and those whose amounts lie one step beside its own."""
    every, thinning = amounts(puddle), waters(puddle)
    paints = [paint for paint, _ in change.added]
    near = [_beside(every, amount) for _, amount in change.added]
    if len(near) > 2:  # noqa: PLR2004 - the whole recipe again
        near = [(amount,) for _, amount in change.added]
    thin = _beside(thinning, change.added_water) if change.added_water else (0.0,)
    return [
        addition(puddle, change.layers, dict(zip(paints, parts, strict=True)), water)
        for *parts, water in product(*near, thin)
        if parts or water
    ]


def over_the_patch(puddle: Puddle, layers: float, may_add: Sequence[int]) -> list[Change]:
    """What can be done to the dry patch itself: another layer, a thin glaze, lifting."""
    parts = tuple(puddle.parts.items())
    found = [
        Change(Way.LAYER, parts, puddle.water, layers + more)
        for more in (1.0, 2.0)
        if set(puddle.parts) <= set(may_add)
    ]
    glazes: list[tuple[tuple[int, float], ...]] = [((paint, 1.0),) for paint in may_add]
    if set(puddle.parts) <= set(may_add) and len(parts) > 1:
        glazes.append(parts)
    found += [Change(Way.GLAZE, glaze, water, 1.0) for glaze in glazes for water in GLAZE_WATERS]
    return found + [Change(Way.LIFT, parts, puddle.water, layers * left) for left in LIFTED]


def fresh_mixes(puddle: Puddle, layers: float) -> list[Change]:
    """The same recipe mixed anew with less water."""
    parts = tuple(puddle.parts.items())
    less = (round(puddle.water * share * 4.0) / 4.0 for share in STRONGER)
    return [Change(Way.FRESH, parts, water, layers) for water in less if puddle.water >= 1.0]


def _beside(values: Sequence[float], value: float) -> Sequence[float]:
    if value not in values:
        return (value,)
    place = values.index(value)
    return tuple(values[max(place - 1, 0) : place + 2])

"""Tell whether a colour lies outside what the studio's own paint on paper has reached so far."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from studio.actions.match_colour import Match, Wanted, match_colour
from studio.actions.read_target import Target
from studio.colour.box import Box
from studio.colour.difference import ciede2000
from studio.colour.lab import Lab
from studio.colour.words import NEUTRAL_CHROMA
from studio.storage.search import SwatchFilter
from studio.storage.unit_of_work import UnitOfWork

HUE_WINDOW: Final = 15.0
"""Degrees of h_ab to either side within which a swatch says how intense a hue can be."""

LIGHTNESS_WINDOW: Final = 10.0
"""L* to either side, one step of Munsell value: paint is most intense at one lightness of a hue."""


JUST_SEEN: Final = 1.0
"""ΔE00 that is just seen side by side (common practice, no source); less is not called outside."""


class Limit(StrEnum):
    """Which way a colour lies outside."""

    DARKER = "darker"
    LIGHTER = "lighter"
    MORE_INTENSE = "more intense"


@dataclass(frozen=True, slots=True)
class Beyond:
    """One way in which a colour lies outside.

    Args:
        limit: which way.
        asked: L* of the colour, or its C*ab where it is more intense.
        reached: the L* or C*ab that was reached.
        by: the code of the swatch, or of the paper for `lighter`, that reached it.
    """

    limit: Limit
    asked: float
    reached: float
    by: str


@dataclass(frozen=True, slots=True)
class Reach:
    """A colour against what was reached.

    Args:
        lab: the colour.
        beyond: the ways in which it lies outside, none where it lies inside.
        neighbours: dry swatches of its hue and lightness, by the two windows, that are not grey
            themselves; None for a colour near grey (C*ab below 5), whose hue says nothing.
        nearest: the nearest value that was reached: L* brought to the darkest swatch or lightest
            white first, then C*ab to the most intense of the neighbours, at the same hue.
        swatches: dry swatches on record.
    """

    lab: Lab
    beyond: tuple[Beyond, ...]
    neighbours: int | None
    nearest: Lab
    swatches: int

    @property
    def is_known(self) -> bool:
        """Whether the swatches say anything of its hue and lightness."""
        return self.swatches > 0 and self.neighbours != 0


@dataclass(frozen=True, slots=True)
class _Extreme:
    value: float
    key: int


def reach_of(work: UnitOfWork, labs: Sequence[Lab]) -> tuple[Reach, ...]:
    """Each colour against the recorded dry swatches: how dark and, near its hue, how intense.

    Darker than the darkest swatch, or lighter than the lightest white of a paper that was read, is
    outside; so is what is more chromatic than every swatch within 15 degrees of hue and 10 L*,
    where there are any; both only from ΔE00 1 on, which is just seen.
    The swatches are streamed, never held; what is said is of this studio's records, not of paint.
    """
    darkest, swatches = _darkest(work)
    white = _lightest_white(work)
    return tuple(_reach(work, lab, darkest, swatches, white) for lab in labs)


def nearest_swatch(work: UnitOfWork, lab: Lab) -> Match | None:
    """The recorded mix nearest a colour, by the exact search; None without dry swatches."""
    return match_colour(work, Target(lab, "picked"), Wanted(), count=1).nearest


def _darkest(work: UnitOfWork) -> tuple[_Extreme | None, int]:
    """The darkest dry swatch, and how many dry ones there are."""
    found = work.swatches.darkest()
    return (None if found is None else _Extreme(found[1], found[0])), work.swatches.count_dry()


def _lightest_white(work: UnitOfWork) -> tuple[float, str] | None:
    whites = [
        (reading.lab.lightness, paper.facts.code)
        for paper in work.papers.all()
        for reading in paper.white
    ]
    return max(whites, default=None)


def _reach(
    work: UnitOfWork,
    lab: Lab,
    darkest: _Extreme | None,
    swatches: int,
    white: tuple[float, str] | None,
) -> Reach:
    beyond: list[Beyond] = []
    lightness = lab.lightness
    if darkest is not None and lightness < darkest.value:
        lightness = darkest.value
        beyond.append(Beyond(Limit.DARKER, lab.lightness, lightness, _code(work, darkest)))
    if white is not None and lightness > white[0]:
        lightness = white[0]
        beyond.append(Beyond(Limit.LIGHTER, lab.lightness, *white))
    if lab.chroma < NEUTRAL_CHROMA:
        return _judged(lab, beyond, None, Lab(lightness, lab.a, lab.b), swatches)
    intense, neighbours = _most_intense(work, lightness, lab.hue)
    scale = 1.0
    if intense is not None and lab.chroma > intense.value:
        scale = intense.value / lab.chroma
        beyond.append(Beyond(Limit.MORE_INTENSE, lab.chroma, intense.value, _code(work, intense)))
    nearest = Lab(lightness, lab.a * scale, lab.b * scale)
    return _judged(lab, beyond, neighbours, nearest, swatches)


def _judged(
    lab: Lab, beyond: Sequence[Beyond], neighbours: int | None, nearest: Lab, swatches: int
) -> Reach:
    """A reach that calls nothing outside which the eye would not part from the nearest value."""
    if ciede2000(lab.coordinates, nearest.coordinates) <= JUST_SEEN:
        return Reach(lab, (), neighbours, lab, swatches)
    return Reach(lab, tuple(beyond), neighbours, nearest, swatches)


def _most_intense(work: UnitOfWork, lightness: float, hue: float) -> tuple[_Extreme | None, int]:
    """The swatch of the highest C*ab within the two windows, and how many lie in them."""
    found = []
    low, high = lightness - LIGHTNESS_WINDOW, lightness + LIGHTNESS_WINDOW
    window = Box(low, high, -math.inf, math.inf, -math.inf, math.inf)
    for key, _, light, a, b in work.swatches.searched(SwatchFilter()).inside(window):
        swatch = Lab(light, a, b)
        if swatch.chroma < NEUTRAL_CHROMA:
            continue
        if abs((swatch.hue - hue + 180.0) % 360.0 - 180.0) <= HUE_WINDOW:
            found.append((-swatch.chroma, abs(light - lightness), key))
    if not found:
        return None, 0
    chroma, _, key = min(found)
    return _Extreme(-chroma, key), len(found)


def _code(work: UnitOfWork, extreme: _Extreme) -> str:
    return work.swatches.by_ids([extreme.key])[extreme.key].facts.code

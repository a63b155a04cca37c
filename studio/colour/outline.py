"""How intense some colours get: the highest chroma near each hue and near each value."""

import math
from collections.abc import Iterable, Sequence
from typing import Final

from studio.colour.difference import Triple
from studio.colour.words import NEUTRAL_CHROMA

_DEGREES: Final = 360
_STEPS: Final = 100


def chroma_by_hue(labs: Iterable[Triple], window: int) -> tuple[float, ...]:
    """The highest C*ab within so many degrees of each whole degree of h_ab; 0 where there is none.

    Colours near grey, whose hue says nothing, do not count; hues are taken to the degree.

    Args:
        labs: (L*, a*, b*) of each.
        window: degrees to either side.
    """
    most = [0.0] * _DEGREES
    for _, a, b in labs:
        chroma = math.hypot(a, b)
        if chroma >= NEUTRAL_CHROMA:
            place = round(math.degrees(math.atan2(b, a))) % _DEGREES
            most[place] = max(most[place], chroma)
    around = most[-window:] + most + most[:window]
    return tuple(max(around[hue : hue + 2 * window + 1]) for hue in range(_DEGREES))


def chroma_by_lightness(labs: Iterable[Triple], window: int) -> tuple[float, ...]:
    """The highest C*ab within so many units of each whole L* from 0 to 100; 0 where there is none.

    Args:
        labs: (L*, a*, b*) of each.
        window: units of L* to either side.
    """
    most = [0.0] * (_STEPS + 1)
    for lightness, a, b in labs:
        place = round(lightness)
        most[place] = max(most[place], math.hypot(a, b))
    return tuple(max(most[max(0, step - window) : step + window + 1]) for step in range(_STEPS + 1))


def near_hue(labs: Iterable[Triple], hue: float, window: float) -> list[Triple]:
    """Those that are not grey and within so many degrees of a hue."""
    return [
        (lightness, a, b)
        for lightness, a, b in labs
        if math.hypot(a, b) >= NEUTRAL_CHROMA
        and abs((math.degrees(math.atan2(b, a)) - hue + 180.0) % 360.0 - 180.0) <= window
    ]


def near_lightness(labs: Sequence[Triple], lightness: float, window: float) -> list[Triple]:
    """Those within so many units of an L*."""
    return [lab for lab in labs if abs(lab[0] - lightness) <= window]

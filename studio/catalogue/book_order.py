"""The orders of a swatch book, and the parts that it falls into by each."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import groupby, pairwise
from typing import Final

from studio.colour.lab import Lab
from studio.colour.words import NEUTRAL_CHROMA


class Order(StrEnum):
    """What a swatch book is ordered by."""

    HUE = "hue"
    CHROMA = "chroma"
    VALUE = "value"


_HUES: Final = (
    (340.0, "Magentas and roses"),
    (20.0, "Reds"),
    (40.0, "Oranges and browns"),
    (70.0, "Yellows and ochres"),
    (100.0, "Greens"),
    (180.0, "Blue-greens"),
    (230.0, "Blues"),
    (300.0, "Violets"),
)
"""Where each part of the circle of h_ab begins, degrees (common practice, no source)."""
NEUTRALS: Final = "Neutrals"
HUE_STEP: Final = 10.0
"""Within so many degrees colours pass for one hue and stand from light to dark: in strict order of
their angles pale and deep ones would alternate (common practice, no source)."""

_CHROMAS: Final = (60.0, 40.0, 25.0, 15.0, NEUTRAL_CHROMA, 0.0)
"""The least C*ab of each part, the most intense first."""

_VALUE_STEP: Final = 10.0
"""The depth of a part in L*."""


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a book.

    Args:
        title: what its colours have in common.
        places: which colours it holds, in order, as indexes.
    """

    title: str
    places: tuple[int, ...]


def parts_by(order: Order, labs: Sequence[Lab]) -> tuple[Part, ...]:
    """Some colours in an order, in parts; what is equal stays in the order it was given in.

    By hue: around the circle from magenta over red, yellow, green and blue in steps of `HUE_STEP`,
    each from light to dark; neutrals (C*ab below `NEUTRAL_CHROMA`, where a hue angle says little)
    last, from light to dark too. By chroma: the most intense first. By value: from light to dark.
    """
    keys: dict[Order, Callable[[Lab], tuple[float, ...]]] = {
        Order.HUE: _hue_place,
        Order.CHROMA: lambda lab: (-lab.chroma,),
        Order.VALUE: lambda lab: (-lab.lightness,),
    }
    titles = {Order.HUE: _hue_title, Order.CHROMA: _chroma_title, Order.VALUE: _value_title}
    key, title = keys[order], titles[order]
    placed = sorted(range(len(labs)), key=lambda place: key(labs[place]))
    return tuple(
        Part(name, tuple(places)) for name, places in groupby(placed, lambda at: title(labs[at]))
    )


def is_neutral(lab: Lab) -> bool:
    """Whether a hue angle says little of a colour."""
    return lab.chroma < NEUTRAL_CHROMA


def _hue_place(lab: Lab) -> tuple[float, float]:
    """The step of the hue, neutrals behind all; within it light before dark."""
    step = math.inf if is_neutral(lab) else _turned(lab.hue) // HUE_STEP
    return step, -lab.lightness


def _hue_title(lab: Lab) -> str:
    if is_neutral(lab):
        return NEUTRALS
    step = _turned(lab.hue) // HUE_STEP * HUE_STEP
    return [title for start, title in _HUES if _turned(start) <= step][-1]


def _turned(hue: float) -> float:
    """Degrees from where the first part of the circle begins, 0 up to but not including 360."""
    return (hue - _HUES[0][0]) % 360.0 % 360.0


def _chroma_title(lab: Lab) -> str:
    if lab.chroma >= _CHROMAS[0]:
        return f"C* {_CHROMAS[0]:g} and above"
    upper, lower = next(
        (upper, lower) for upper, lower in pairwise(_CHROMAS) if lab.chroma >= lower
    )
    return f"C* {lower:g} to {upper:g}"


def _value_title(lab: Lab) -> str:
    low = min(math.floor(lab.lightness / _VALUE_STEP) * _VALUE_STEP, 100.0 - _VALUE_STEP)
    return f"L* {low:g} to {low + _VALUE_STEP:g}"

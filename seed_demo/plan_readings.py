"""How each swatch of the demo was read, decided by its number so that every way occurs."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from seed_demo.plan_paints import DRYING
from seed_demo.plan_swatches import Swatch


@dataclass(frozen=True, slots=True)
class Method:
    """What one way of reading gives.

    Args:
        instrument: what was used.
        error_de: stated error, ΔE*ab.
        illuminant: illuminant of its Lab; empty for a spectrum.
        observer: observer of its Lab, degrees; 0 for a spectrum.
        step: Lab is given in multiples of this.
    """

    instrument: str
    error_de: str
    illuminant: str = ""
    observer: int = 0
    step: float = 0.0


METHODS: Final = {
    "spectrophotometer": Method("45/0 spectrophotometer", "0.3"),
    "colorimeter": Method("45/0 colorimeter", "0.5", "D65", 10, 0.01),
    "scanner": Method("flatbed with a 24-patch chart", "2.5", "D50", 2, 0.5),
    "camera": Method("camera with a 24-patch chart", "4", "D50", 2, 1.0),
    "by eye": Method("chip fan by the north window", "6", "D50", 2, 2.0),
}

# Of every so many swatches, the one with this remainder; the first line that fits decides.
_COLOUR_ONLY: Final = (
    (60, 30, "by eye"),
    (24, 14, "camera"),
    (8, 5, "scanner"),
    (15, 7, "colorimeter"),
)
_CONDITIONS: Final = ((29, 0, ""), (10, 3, "M0"), (10, 6, "M2"), (1, 0, "M1"))
_WET_THEN_DRY: Final = ((21, 4), (17, 2))
_TURNED: Final = (33, 11)
_WET_ONLY: Final = (82, 50)

_TURNED_THICKNESS: Final = 1.04

_WETNESS: Final = (0.0, 0.4, -0.3, 0.2, -0.4, 0.1, -0.1, 0.3, -0.2)
"""L* by which a wash rises more or less than its paints do on average: how wet it still was."""


@dataclass(frozen=True, slots=True)
class Reading:
    """One reading: `place` is the thickness where it was taken, as a share of the mean."""

    method: str
    condition: str
    state: str = "dry"
    place: float = 1.0
    note: str = ""


def readings(swatch: Swatch) -> Iterator[Reading]:
    """The readings of one swatch in the order they were taken."""
    number = swatch.number
    for cycle, turn, method in _COLOUR_ONLY:
        if number % cycle == turn:
            yield Reading(method, "", note=swatch.note)
            return
    method = "spectrophotometer"
    condition = next(name for cycle, turn, name in _CONDITIONS if number % cycle == turn)
    if _is(number, _WET_ONLY):
        yield Reading(method, condition, state="wet", note="washed off before it was dry")
    elif any(_is(number, turn) for turn in _WET_THEN_DRY):
        yield Reading(method, condition, state="wet", note="read at once")
        yield Reading(method, condition, note="same place an hour later")
    else:
        yield Reading(method, condition)
        if _is(number, _TURNED):
            note = "card turned a quarter and moved"
            yield Reading(method, condition, place=_TURNED_THICKNESS, note=note)


def rise(swatch: Swatch, recipe: Mapping[str, float]) -> float:
    """Rise of L* while a swatch dries: the mean of its paints by parts, and how wet it was.

    Args:
        swatch: which it is.
        recipe: parts by paint code.
    """
    of_paints = sum(amount * DRYING[code] for code, amount in recipe.items())
    return of_paints / sum(recipe.values()) + _WETNESS[swatch.number % len(_WETNESS)]


def _is(number: int, turn: tuple[int, int]) -> bool:
    return number % turn[0] == turn[1]

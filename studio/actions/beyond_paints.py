"""What fails where no recipe comes near a colour: its value, its hue or its chroma."""

import math
from dataclasses import dataclass
from enum import StrEnum

from studio.colour.difference import Triple
from studio.colour.words import NEUTRAL_CHROMA, Separation, separation


class Failing(StrEnum):
    """What of a colour cannot be reached."""

    VALUE = "value"
    HUE = "hue"
    CHROMA = "chroma"


@dataclass(frozen=True, slots=True)
class BeyondPaints:
    """A colour that no recipe comes near.

    Args:
        failing: what fails most, by its term of CIEDE2000.
        more: the nearest recipe is lighter, or more intense, than asked; of a hue, it lies
            anticlockwise.
        separation: how the nearest recipe looks beside the colour.
    """

    failing: Failing
    more: bool
    separation: Separation


def beyond_paints(wanted: Triple, nearest: Triple) -> BeyondPaints:
    """What fails of a wanted colour whose nearest recipe is another.

    Of a colour near grey, or one that only greys come near, the hue says nothing; there it is the
    chroma that fails.

    Args:
        wanted: (L*, a*, b*).
        nearest: the same of the nearest recipe.
    """
    apart = separation(wanted, nearest)
    numbers = apart.numbers
    l_50 = ((wanted[0] + nearest[0]) / 2.0 - 50.0) ** 2
    chromas = math.hypot(*wanted[1:]), math.hypot(*nearest[1:])
    middle = sum(chromas) / 2.0
    terms = {
        Failing.VALUE: numbers.lightness / (1.0 + 0.015 * l_50 / math.sqrt(20.0 + l_50)),
        Failing.HUE: numbers.hue / (1.0 + 0.015 * middle),
        Failing.CHROMA: numbers.chroma / (1.0 + 0.045 * middle),
    }
    if min(chromas) < NEUTRAL_CHROMA:
        size = math.hypot(terms.pop(Failing.HUE), terms[Failing.CHROMA])
        terms[Failing.CHROMA] = math.copysign(size, numbers.chroma)
    failing = max(terms, key=lambda each: abs(terms[each]))
    return BeyondPaints(failing, terms[failing] > 0.0, apart)

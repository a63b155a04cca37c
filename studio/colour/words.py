"""What separates two colours, in the order and the words a painter corrects in.

Value first, then hue, then chroma (common practice, no source). The size of each step is judged by
its CIEDE2000 term (ΔL'/S_L, ΔH'/S_H, ΔC'/S_C), so that "a little" looks alike in every colour.

A hue moves towards one of the four unique hues: red, yellow, green, blue as the eye finds them,
which are not the axes of the a*b* plane.
"""

import math
from dataclasses import dataclass
from typing import Final

from studio.colour.difference import Components, Triple, components

NEUTRAL_CHROMA: Final = 5.0
"""Below this C*ab a hue angle says little: from such a reference the difference is named by a* and
b*, and to such a sample by chroma, unless it is mostly one of hue."""

UNIQUE_HUES: Final = {"redder": 22.0, "yellower": 88.0, "greener": 164.0, "bluer": 250.0}
"""h_ab of the unique hues under D50/2°, in degrees.

They are the hue angles 20.14, 90.00, 164.25 and 237.53 of CIECAM02 (CIE 159:2004, as colour-science
carries them) at J 50 and C 40, seen by white D50, L_A 64 cd/m², Y_b 20, average surround. Over J 30
to 85 and C 10 to 60 the h_ab of one of them varies by up to 9 degrees. Fairchild, "Color Appearance
Models", gives 24, 90, 162 and 246 for daylight (from memory).
"""

_STEPS: Final = ((0.5, ""), (1.2, "a trace "), (3.0, "a little "), (6.0, ""))


@dataclass(frozen=True, slots=True)
class Separation:
    """How a sample differs from a reference: words in correcting order, and the numbers behind."""

    words: tuple[str, ...]
    numbers: Components
    lean: tuple[float, float] | None = None
    """(Δa*, Δb*) where a colour is near grey and the words name the lean."""

    @property
    def sentence(self) -> str:
        """The words as one phrase; "the same to the eye" when no step is worth a word."""
        return ", ".join(self.words) if self.words else "the same to the eye"


def separation(reference: Triple, sample: Triple) -> Separation:
    """How a sample looks beside a reference: `lighter` means that the sample is the lighter one.

    Args:
        reference: (L*, a*, b*) of the colour that is wanted.
        sample: (L*, a*, b*) of the colour that is judged, under the same white.
    """
    numbers = components(reference, sample)
    l_mean = (reference[0] + sample[0]) / 2
    c_mean = (math.hypot(*reference[1:]) + math.hypot(*sample[1:])) / 2
    l_50 = (l_mean - 50.0) ** 2
    s_l = 1.0 + 0.015 * l_50 / math.sqrt(20.0 + l_50)
    s_c, s_h = 1.0 + 0.045 * c_mean, 1.0 + 0.015 * c_mean

    words = [_sized(numbers.lightness / s_l, "lighter", "darker")]
    lean = None
    chroma = _sized(numbers.chroma / s_c, "more intense", "duller")
    to_grey = math.hypot(*sample[1:]) < NEUTRAL_CHROMA
    across = to_grey and abs(numbers.hue) > abs(numbers.chroma)
    if math.hypot(*reference[1:]) < NEUTRAL_CHROMA or across:
        lean = (sample[1] - reference[1], sample[2] - reference[2])
        words += _neutral_words(lean)
    elif to_grey:
        words.append(chroma)
    else:
        towards = _towards(_hue(reference), _hue(sample))
        words += [_sized(abs(numbers.hue) / s_h, towards, ""), chroma]
    return Separation(tuple(word for word in words if word), numbers, lean)


def _sized(step: float, more: str, less: str) -> str:
    """A step as words: nothing, a trace, a little, plain, or much."""
    size = abs(step)
    direction = more if step > 0 else less
    if size < _STEPS[0][0]:
        return ""
    for limit, degree in _STEPS[1:]:
        if size < limit:
            return degree + direction
    return "much " + direction


def _hue(colour: Triple) -> float:
    """h_ab in degrees."""
    return math.degrees(math.atan2(colour[2], colour[1])) % 360.0


def _apart(one: float, other: float) -> float:
    """Degrees between two hues, at most 180."""
    return abs((one - other + 180.0) % 360.0 - 180.0)


def _towards(reference: float, sample: float) -> str:
    """The word for the unique hue that a hue moves towards.

    It is the nearest to the sample of those it has come nearer to. One that was passed counts only
    where it was passed by less than a third of the way, unless there is no other. The way back has
    another word, since it leads nearer to none of the same.

    Args:
        reference: h_ab in degrees.
        sample: h_ab in degrees; of the same hue there is no word.
    """
    gained = {
        word: _apart(reference, hue) - _apart(sample, hue) for word, hue in UNIQUE_HUES.items()
    }
    enough = _apart(reference, sample) / 3.0
    return min(
        (word for word, gain in gained.items() if gain > 0.0),
        key=lambda word: (gained[word] < enough, _apart(sample, UNIQUE_HUES[word])),
        default="",
    )


def _neutral_words(lean: tuple[float, float]) -> list[str]:
    """Near grey: which way the colour leans, the stronger of a* and b* first."""
    steps = [(lean[0], "redder", "greener"), (lean[1], "yellower", "bluer")]
    steps.sort(key=lambda step: -abs(step[0]))
    return [_sized(*step) for step in steps]

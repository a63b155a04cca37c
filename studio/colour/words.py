"""What separates two colours, in the order and the words a painter corrects in.

Value first, then hue, then chroma (common practice, no source). The size of each step is judged by
its CIEDE2000 term (ΔL'/S_L, ΔH'/S_H, ΔC'/S_C), so that "a little" looks alike in every colour.
"""

import math
from dataclasses import dataclass
from typing import Final

from studio.colour.difference import Components, Triple, components

NEUTRAL_CHROMA: Final = 5.0
"""Below this C*ab a hue angle says little: from such a reference the difference is named by a* and
b*, and to such a sample by chroma alone."""

_STEPS: Final = ((0.5, ""), (1.2, "a trace "), (3.0, "a little "), (6.0, ""))
_TOWARDS: Final = ("redder", "yellower", "greener", "bluer")


@dataclass(frozen=True, slots=True)
class Separation:
    """How a sample differs from a reference: words in correcting order, and the numbers behind."""

    words: tuple[str, ...]
    numbers: Components
    lean: tuple[float, float] | None = None
    """(Δa*, Δb*) where the reference is near grey and the words name the lean."""

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
    if math.hypot(*reference[1:]) < NEUTRAL_CHROMA:
        lean = (sample[1] - reference[1], sample[2] - reference[2])
        words += _neutral_words(lean)
    elif math.hypot(*sample[1:]) < NEUTRAL_CHROMA:
        words.append(chroma)
    else:
        words += [_sized(numbers.hue / s_h, *_hue_directions(reference)), chroma]
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


def _hue_directions(reference: Triple) -> tuple[str, str]:
    """The names of the anticlockwise and clockwise neighbours of a hue on the a*b* plane."""
    hue = math.degrees(math.atan2(reference[2], reference[1])) % 360.0
    quarter = int(hue // 90.0)
    anticlockwise = _TOWARDS[(quarter + 1) % 4]
    clockwise = _TOWARDS[quarter if hue % 90.0 else (quarter - 1) % 4]
    return anticlockwise, clockwise


def _neutral_words(lean: tuple[float, float]) -> list[str]:
    """Near grey: which way the colour leans, the stronger of a* and b* first."""
    steps = [(lean[0], "redder", "greener"), (lean[1], "yellower", "bluer")]
    steps.sort(key=lambda step: -abs(step[0]))
    return [_sized(*step) for step in steps]

"""Lab as the screen can show it: the nearest sRGB colour, and how far off that is."""

from dataclasses import dataclass
from functools import lru_cache
from itertools import product
from typing import Final

from studio.colour.difference import ciede2000
from studio.colour.lab import Lab
from studio.colour.srgb import lab_to_srgb, srgb_to_lab

NOTABLE: Final = 2.0
"""Above this ΔE00 a patch says by how much it differs from its colour (the project's scale: up to 2
is a difference that is seen side by side alone)."""
_TOLERANCE: Final = 5e-4
"""How far a channel may leave 0..1 and still count as inside: an eighth of an 8-bit step."""
_STRIDES: Final = (32, 16, 8, 4, 2, 1)
"""Steps of the search, in 8-bit values."""
_SLIGHT: Final = 1e-9
"""A ΔE00 must be lower by this to count, so that every maths library takes the same way."""
_WAYS: Final = tuple(way for way in product((-1, 0, 1), repeat=3) if any(way))

_Bytes = tuple[int, int, int]


@dataclass(frozen=True, slots=True)
class ScreenColour:
    """An sRGB colour for the screen.

    Args:
        rgb: three 8-bit channels.
        in_gamut: False when the true colour lies outside sRGB and the nearest one is shown.
        off: ΔE00 between the true colour and what is shown where it lies outside; inside, where
            nothing but rounding to 8 bits is lost, 0.
    """

    rgb: _Bytes
    in_gamut: bool
    off: float = 0.0

    @property
    def hex(self) -> str:
        """The colour as `#rrggbb`."""
        return "#{:02x}{:02x}{:02x}".format(*self.rgb)

    @property
    def mark(self) -> str:
        """Nothing inside sRGB, `*` outside, `*3.4` where what is shown is more than ΔE00 2 off."""
        if self.in_gamut:
            return ""
        return f"*{self.off:.1f}" if self.off > NOTABLE else "*"


def mark_of(*labs: Lab) -> str:
    """The mark of the one of some colours that is shown worst; none where all are inside."""
    return max(map(on_screen, labs), key=lambda shown: (not shown.in_gamut, shown.off)).mark


@lru_cache(maxsize=4096)
def on_screen(lab: Lab) -> ScreenColour:
    """The sRGB colour (IEC 61966-2-1, D65) that looks like a Lab colour.

    Outside sRGB it is the 8-bit colour of least ΔE00 that a descent finds from two starts: the
    channels clipped, and the chroma lowered at constant L* and hue. For colours that surfaces have
    it is the nearest there is (tests/colour/test_display.py holds it to a fine search); for some
    imaginary ones far outside a nearer one was missed by up to ΔE00 2.4.

    Raises:
        ValueError: the Lab is not under D50 for 2 degrees.
    """
    if not lab.is_standard:
        msg = f"only Lab under D50/2° can be shown, not {lab.illuminant}/{lab.observer}°"
        raise ValueError(msg)
    channels = lab_to_srgb(lab.coordinates)
    if _fits(channels):
        return ScreenColour(_to_bytes(channels), in_gamut=True)
    first, second = _descend(lab, _to_bytes(channels)), _descend(lab, _less_intense(lab))
    nearest = second if second[1] < first[1] - _SLIGHT else first
    return ScreenColour(nearest[0], in_gamut=False, off=nearest[1])


def _less_intense(lab: Lab) -> _Bytes:
    """The colour of the same L* and hue whose chroma just fits."""
    low, high = 0.0, 1.0
    for _ in range(20):
        middle = (low + high) / 2
        fits = _fits(lab_to_srgb((lab.lightness, lab.a * middle, lab.b * middle)))
        low, high = (middle, high) if fits else (low, middle)
    return _to_bytes(lab_to_srgb((lab.lightness, lab.a * low, lab.b * low)))


def _descend(lab: Lab, start: _Bytes) -> tuple[_Bytes, float]:
    """From a start to an 8-bit colour none of whose 26 neighbours is nearer, and its ΔE00."""
    best, least = start, _difference(lab, start)
    for stride in _STRIDES:
        moved = True
        while moved:
            moved = False
            middle = best
            for way in _WAYS:
                red, green, blue = (
                    min(255, max(0, value + stride * step))
                    for value, step in zip(middle, way, strict=True)
                )
                difference = _difference(lab, (red, green, blue))
                if difference < least - _SLIGHT:
                    best, least, moved = (red, green, blue), difference, True
    return best, least


def _difference(lab: Lab, rgb: _Bytes) -> float:
    red, green, blue = rgb
    return ciede2000(lab.coordinates, srgb_to_lab((red / 255.0, green / 255.0, blue / 255.0)))


def _to_bytes(channels: tuple[float, float, float]) -> _Bytes:
    red, green, blue = (round(255.0 * min(1.0, max(0.0, channel))) for channel in channels)
    return red, green, blue


def _fits(channels: tuple[float, float, float]) -> bool:
    return all(-_TOLERANCE <= channel <= 1.0 + _TOLERANCE for channel in channels)

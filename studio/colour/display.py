"""Lab as the screen can show it: sRGB, and whether the screen's gamut had to be left."""

from dataclasses import dataclass
from typing import Final

from studio.colour.lab import Lab
from studio.colour.srgb import lab_to_srgb

_TOLERANCE: Final = 5e-4
"""How far a channel may leave 0..1 and still count as inside: an eighth of an 8-bit step."""


@dataclass(frozen=True, slots=True)
class ScreenColour:
    """An sRGB colour for the screen.

    Args:
        rgb: three 8-bit channels.
        in_gamut: False when the true colour lies outside sRGB and its chroma was reduced.
    """

    rgb: tuple[int, int, int]
    in_gamut: bool

    @property
    def hex(self) -> str:
        """The colour as `#rrggbb`."""
        return "#{:02x}{:02x}{:02x}".format(*self.rgb)


def on_screen(lab: Lab) -> ScreenColour:
    """The sRGB colour (IEC 61966-2-1, D65) that looks like a Lab colour.

    Outside sRGB the chroma is lowered at constant L* and hue until the colour fits.

    Raises:
        ValueError: the Lab is not under D50 for 2 degrees.
    """
    if not lab.is_standard:
        msg = f"only Lab under D50/2° can be shown, not {lab.illuminant}/{lab.observer}°"
        raise ValueError(msg)
    channels = lab_to_srgb(lab.coordinates)
    inside = _fits(channels)
    if not inside:
        low, high = 0.0, 1.0
        for _ in range(20):
            middle = (low + high) / 2
            fits = _fits(lab_to_srgb((lab.lightness, lab.a * middle, lab.b * middle)))
            low, high = (middle, high) if fits else (low, middle)
        channels = lab_to_srgb((lab.lightness, lab.a * low, lab.b * low))
    red, green, blue = (round(255.0 * min(1.0, max(0.0, channel))) for channel in channels)
    return ScreenColour((red, green, blue), inside)


def _fits(channels: tuple[float, float, float]) -> bool:
    return all(-_TOLERANCE <= channel <= 1.0 + _TOLERANCE for channel in channels)

"""Lab as the screen can show it: sRGB, and whether the screen's gamut had to be left."""

import math
from dataclasses import dataclass
from typing import Final

from studio.colour.lab import Lab

D50_WHITE: Final = (0.3457 / 0.3585, 1.0, (1.0 - 0.3457 - 0.3585) / 0.3585)
"""XYZ of D50 for 2 degrees from x 0.3457, y 0.3585 (CSS Color 4, section 12)."""

_Matrix = tuple[tuple[float, float, float], tuple[float, float, float], tuple[float, float, float]]

# Bradford adaptation D50 -> D65, then XYZ -> linear sRGB: CSS Color 4, "Sample code for color
# conversions".
_D50_TO_D65: Final[_Matrix] = (
    (0.955473421488075, -0.02309845494876471, 0.06325924320057072),
    (-0.0283697093338637, 1.0099953980813041, 0.021041441191917323),
    (0.012314014864481998, -0.020507649298898964, 1.330365926242124),
)
_XYZ_TO_SRGB: Final[_Matrix] = (
    (12831 / 3959, -329 / 214, -1974 / 3959),
    (-851781 / 878810, 1648619 / 878810, 36519 / 878810),
    (705 / 12673, -2585 / 12673, 705 / 667),
)
_KAPPA: Final = 24389 / 27
_EPSILON: Final = 216 / 24389
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
    channels = _srgb(lab.coordinates)
    inside = _fits(channels)
    if not inside:
        low, high = 0.0, 1.0
        for _ in range(20):
            middle = (low + high) / 2
            fits = _fits(_srgb((lab.lightness, lab.a * middle, lab.b * middle)))
            low, high = (middle, high) if fits else (low, middle)
        channels = _srgb((lab.lightness, lab.a * low, lab.b * low))
    red, green, blue = (round(255.0 * min(1.0, max(0.0, channel))) for channel in channels)
    return ScreenColour((red, green, blue), inside)


def _fits(channels: tuple[float, float, float]) -> bool:
    return all(-_TOLERANCE <= channel <= 1.0 + _TOLERANCE for channel in channels)


def _srgb(lab: tuple[float, float, float]) -> tuple[float, float, float]:
    """Gamma-encoded sRGB, unclipped, of (L*, a*, b*) under D50."""
    lightness, a, b = lab
    f_y = (lightness + 16.0) / 116.0
    f_x, f_z = f_y + a / 500.0, f_y - b / 200.0
    x = _uncurve(f_x) * D50_WHITE[0]
    y = lightness / _KAPPA if lightness <= _KAPPA * _EPSILON else f_y**3
    z = _uncurve(f_z) * D50_WHITE[2]
    red, green, blue = _times(_XYZ_TO_SRGB, _times(_D50_TO_D65, (x, y, z)))
    return _encode(red), _encode(green), _encode(blue)


def _uncurve(f: float) -> float:
    return f**3 if f**3 > _EPSILON else (116.0 * f - 16.0) / _KAPPA


def _times(matrix: _Matrix, v: tuple[float, float, float]) -> tuple[float, float, float]:
    x, y, z = (row[0] * v[0] + row[1] * v[1] + row[2] * v[2] for row in matrix)
    return x, y, z


def _encode(linear: float) -> float:
    """The sRGB transfer curve, odd about zero as CSS Color 4 extends it."""
    size = abs(linear)
    if size <= 0.0031308:  # noqa: PLR2004 - limit of the sRGB curve
        return 12.92 * linear
    return math.copysign(1.055 * size ** (1 / 2.4) - 0.055, linear)

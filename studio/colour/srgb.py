"""sRGB and L*a*b* under D50, both ways, in plain math as CSS Color 4 computes them."""

import math
from typing import Final

from studio.colour.difference import Triple

D50_WHITE: Final = (0.3457 / 0.3585, 1.0, (1.0 - 0.3457 - 0.3585) / 0.3585)
"""XYZ of D50 for 2 degrees from x 0.3457, y 0.3585 (CSS Color 4, section 12)."""

_Matrix = tuple[Triple, Triple, Triple]

# CSS Color 4, "Sample code for color conversions": Bradford adaptation and linear sRGB (D65).
_D50_TO_D65: Final[_Matrix] = (
    (0.955473421488075, -0.02309845494876471, 0.06325924320057072),
    (-0.0283697093338637, 1.0099953980813041, 0.021041441191917323),
    (0.012314014864481998, -0.020507649298898964, 1.330365926242124),
)
_D65_TO_D50: Final[_Matrix] = (
    (1.0479297925449969, 0.022946870601609652, -0.05019226628920524),
    (0.02962780877005599, 0.9904344267538799, -0.017073799063418826),
    (-0.009243040646204504, 0.015055191490298152, 0.7518742814281371),
)
_XYZ_TO_SRGB: Final[_Matrix] = (
    (12831 / 3959, -329 / 214, -1974 / 3959),
    (-851781 / 878810, 1648619 / 878810, 36519 / 878810),
    (705 / 12673, -2585 / 12673, 705 / 667),
)
_SRGB_TO_XYZ: Final[_Matrix] = (
    (506752 / 1228815, 87881 / 245763, 12673 / 70218),
    (87098 / 409605, 175762 / 245763, 12673 / 175545),
    (7918 / 409605, 87881 / 737289, 1001167 / 1053270),
)
_KAPPA: Final = 24389 / 27
_EPSILON: Final = 216 / 24389


def lab_to_srgb(lab: Triple) -> Triple:
    """Gamma-encoded sRGB (IEC 61966-2-1), unclipped, of (L*, a*, b*) under D50 for 2 degrees."""
    lightness, a, b = lab
    f_y = (lightness + 16.0) / 116.0
    x = _uncurve(f_y + a / 500.0) * D50_WHITE[0]
    y = lightness / _KAPPA if lightness <= _KAPPA * _EPSILON else f_y**3
    z = _uncurve(f_y - b / 200.0) * D50_WHITE[2]
    red, green, blue = _times(_XYZ_TO_SRGB, _times(_D50_TO_D65, (x, y, z)))
    return _encode(red), _encode(green), _encode(blue)


def srgb_to_lab(rgb: Triple) -> Triple:
    """(L*, a*, b*) under D50 for 2 degrees of gamma-encoded sRGB, 0 to 1 a channel."""
    red, green, blue = map(_decode, rgb)
    x, y, z = _times(_D65_TO_D50, _times(_SRGB_TO_XYZ, (red, green, blue)))
    f_x, f_y, f_z = _curve(x / D50_WHITE[0]), _curve(y), _curve(z / D50_WHITE[2])
    return 116.0 * f_y - 16.0, 500.0 * (f_x - f_y), 200.0 * (f_y - f_z)


def _curve(t: float) -> float:
    return math.cbrt(t) if t > _EPSILON else (_KAPPA * t + 16.0) / 116.0


def _uncurve(f: float) -> float:
    return f**3 if f**3 > _EPSILON else (116.0 * f - 16.0) / _KAPPA


def _times(matrix: _Matrix, v: Triple) -> Triple:
    x, y, z = (row[0] * v[0] + row[1] * v[1] + row[2] * v[2] for row in matrix)
    return x, y, z


def _encode(linear: float) -> float:
    """The sRGB transfer curve, odd about zero as CSS Color 4 extends it."""
    size = abs(linear)
    if size <= 0.0031308:  # noqa: PLR2004 - limit of the sRGB curve
        return 12.92 * linear
    return math.copysign(1.055 * size ** (1 / 2.4) - 0.055, linear)


def _decode(encoded: float) -> float:
    if encoded <= 0.04045:  # noqa: PLR2004 - limit of the sRGB curve
        return encoded / 12.92
    return float(((encoded + 0.055) / 1.055) ** 2.4)

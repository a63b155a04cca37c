"""L*a*b* and XYZ of many colours at once, under D50 for 2 degrees, in numpy."""

from typing import Final

import numpy as np
import numpy.typing as npt

from studio.colour.difference import ciede2000
from studio.colour.srgb import D50_WHITE

Floats = npt.NDArray[np.float64]

_WHITE: Final = np.array(D50_WHITE)
_KAPPA: Final = 24389 / 27
_EPSILON: Final = 216 / 24389


def xyz_to_lab(xyz: Floats) -> Floats:
    """(..., 3) CIE 1976 L*a*b* of XYZ, Y = 1 for white."""
    t = xyz / _WHITE
    return roots_to_lab(np.where(t > _EPSILON, np.cbrt(t), (_KAPPA * t + 16.0) / 116.0))


def lab_to_xyz(lab: Floats) -> Floats:
    """(..., 3) XYZ of CIE 1976 L*a*b*, Y = 1 for white."""
    f = lab_to_roots(lab)
    xyz: Floats = np.where(f**3 > _EPSILON, f**3, (116.0 * f - 16.0) / _KAPPA) * _WHITE
    return xyz


def roots_to_lab(f: Floats) -> Floats:
    """(..., 3) L*a*b* of the cube roots f(X/Xn), f(Y/Yn), f(Z/Zn) of CIE 15."""
    x, y, z = f[..., 0], f[..., 1], f[..., 2]
    return np.stack([116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)], axis=-1)


def lab_to_roots(lab: Floats) -> Floats:
    """(..., 3) cube roots f(X/Xn), f(Y/Yn), f(Z/Zn) of CIE 15, of L*a*b*."""
    y = (lab[..., 0] + 16.0) / 116.0
    return np.stack([y + lab[..., 1] / 500.0, y, y - lab[..., 2] / 200.0], axis=-1)


def delta_e(one: Floats, other: Floats) -> Floats:
    """(n,) ΔE00 between the rows of two (n, 3) arrays of L*a*b*."""
    pairs = zip(one.tolist(), other.tolist(), strict=True)
    return np.array([ciede2000((a[0], a[1], a[2]), (b[0], b[1], b[2])) for a, b in pairs])

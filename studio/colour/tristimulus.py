"""Lab of many spectra at once, how it changes with them, and ΔE00 between many colours, in numpy.

A spectrum on a fixed grid gives XYZ by a weighted sum (ASTM E308), so that a batch of spectra is
one product of matrices and no colour library is loaded for it.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

from studio.colour.lab_arrays import Floats

_DELTA: Final = 6.0 / 29.0
_25_POW_7: Final = 25.0**7
_HALF_TURN: Final = 180.0


@dataclass(frozen=True, slots=True, eq=False)
class Tristimulus:
    """The weights that lead from reflectance on a grid to XYZ under one light, Y = 1 for white.

    Args:
        wavelengths: nm, (wavelengths,), rising in equal steps.
        weights: of each wavelength for X, Y and Z, (3, wavelengths).
        white: XYZ of the perfect diffuser, (3,).
        illuminant: CIE name of the light.
        observer: 2 or 10 degrees.
    """

    wavelengths: Floats
    weights: Floats
    white: Floats
    illuminant: str = "D50"
    observer: int = 2

    def lab(self, reflectance: Floats) -> Floats:
        """(..., 3) CIE 1976 L*a*b* of reflectances (..., wavelengths), CIE 15:2018, 8.2.1."""
        t = (reflectance @ self.weights.T) / self.white
        roots = np.cbrt(np.maximum(t, 0.0))
        f = np.where(t > _DELTA**3, roots, t / (3.0 * _DELTA**2) + 4.0 / 29.0)
        return _opponent(f, axis=-1)

    def lab_slopes(self, reflectance: Floats) -> Floats:
        """(..., 3, wavelengths): how L*, a*, b* change with the reflectance at each wavelength."""
        t = (reflectance @ self.weights.T) / self.white
        steep = np.maximum(t, _DELTA**3) ** (-2.0 / 3.0) / 3.0
        return _opponent(steep[..., :, np.newaxis] * (self.weights.T / self.white).T, axis=-2)


def _opponent(f: Floats, axis: int) -> Floats:
    x, y, z = np.moveaxis(f, axis, 0)
    offset = 16.0 if axis == -1 else 0.0
    return np.stack([116.0 * y - offset, 500.0 * (x - y), 200.0 * (y - z)], axis=axis)


def ciede2000(one: npt.ArrayLike, other: npt.ArrayLike) -> Floats:
    """ΔE00 between L*a*b* of shape (..., 3), by broadcasting, with k_L = k_C = k_H = 1.

    Source: Sharma, Wu, Dalal (2005), equations 2 to 22, as in `difference.ciede2000`.
    """
    (l1, a1, b1), (l2, a2, b2) = (
        np.moveaxis(np.asarray(lab, dtype=np.float64), -1, 0) for lab in (one, other)
    )
    c_bar_7 = ((np.hypot(a1, b1) + np.hypot(a2, b2)) / 2.0) ** 7
    g_1 = 1.5 - 0.5 * np.sqrt(c_bar_7 / (c_bar_7 + _25_POW_7))  # (4)
    c1, c2 = np.hypot(g_1 * a1, b1), np.hypot(g_1 * a2, b2)  # (5), (6)
    h1, h2 = (np.degrees(np.arctan2(b, g_1 * a)) % 360.0 for a, b in ((a1, b1), (a2, b2)))  # (7)
    turn = h2 - h1
    far = np.abs(turn) > _HALF_TURN
    d_h = np.where(far, turn - np.copysign(2.0 * _HALF_TURN, turn), turn)  # (10)
    d_h = 2.0 * np.sqrt(c1 * c2) * np.sin(np.radians(d_h) / 2.0)  # (11)
    h_sum = h1 + h2
    across = np.where(h_sum < 2.0 * _HALF_TURN, _HALF_TURN, -_HALF_TURN)
    h_bar = h_sum / 2.0 + np.where(far, across, 0.0)
    h_bar = np.where(c1 * c2 == 0.0, h_sum, h_bar)  # (14)
    theta = np.radians(h_bar)
    l_bar, c_bar = (l1 + l2) / 2.0, (c1 + c2) / 2.0
    t = (
        1.0
        - 0.17 * np.cos(theta - np.radians(30.0))
        + 0.24 * np.cos(2.0 * theta)
        + 0.32 * np.cos(3.0 * theta + np.radians(6.0))
        - 0.20 * np.cos(4.0 * theta - np.radians(63.0))
    )  # (15)
    from_blue = (h_bar - 275.0) / 25.0
    d_theta = np.radians(30.0) * np.exp(-(from_blue**2))  # (16)
    c_bar_7 = c_bar**7
    r_t = -np.sin(2.0 * d_theta) * 2.0 * np.sqrt(c_bar_7 / (c_bar_7 + _25_POW_7))  # (17), (21)
    l_50 = (l_bar - 50.0) ** 2
    x = (l2 - l1) / (1.0 + 0.015 * l_50 / np.sqrt(20.0 + l_50))  # (18)
    y = (c2 - c1) / (1.0 + 0.045 * c_bar)  # (19)
    z = d_h / (1.0 + 0.015 * c_bar * t)  # (20)
    return np.asarray(np.sqrt(np.maximum(0.0, x * x + y * y + z * z + r_t * y * z)))  # (22)


def ciede2000_root(lab: Floats) -> Floats:
    """W, (..., 3, 3), so that ΔE00 of a small change d of the colour is about the length of W d.

    The squared ΔE00 of colours close to one another is a quadratic form in their difference; its
    symmetric root is found from differences of 0.3 about the colour.

    Args:
        lab: L*a*b*, (..., 3).
    """
    size = 0.3
    steps = np.array(
        [[1, 0, 0], [0, 1, 0], [0, 0, 1], [1, 1, 0], [1, 0, 1], [0, 1, 1]], dtype=np.float64
    )
    centre = lab[..., np.newaxis, :]
    away = size / 2.0 * steps
    squares = (ciede2000(centre - away, centre + away) / size) ** 2
    form = np.zeros((*lab.shape[:-1], 3, 3))
    for axis in range(3):
        form[..., axis, axis] = squares[..., axis]
    for place, (i, j) in enumerate(((0, 1), (0, 2), (1, 2)), start=3):
        mixed = (squares[..., place] - squares[..., i] - squares[..., j]) / 2.0
        form[..., i, j] = form[..., j, i] = mixed
    values, axes = np.linalg.eigh(form)
    roots = np.sqrt(np.maximum(values, 1e-3))
    return np.asarray((axes * roots[..., np.newaxis, :]) @ np.swapaxes(axes, -1, -2))

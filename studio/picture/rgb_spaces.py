"""RGB spaces that a picture may be in: encoded to linear, and linear to XYZ under D50."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

import numpy as np

from studio.colour.lab_arrays import Floats, xyz_to_lab
from studio.colour.srgb import D50_WHITE

_D65: Final = (0.3127, 0.3290)
# Bradford cone responses (Lam 1985), as in ICC.1:2022, Annex E.
_BRADFORD: Final = np.array(
    [[0.8951, 0.2664, -0.1614], [-0.7502, 1.7135, 0.0367], [0.0389, -0.0685, 1.0296]]
)


@dataclass(frozen=True, slots=True, eq=False)
class RgbSpace:
    """An RGB space with a D65 white.

    Args:
        matrix: linear RGB to XYZ under D50 (Bradford), rows X, Y, Z.
        decode: encoded channels, 0 to 1, to linear ones.
    """

    matrix: Floats
    decode: Callable[[Floats], Floats]

    def lab(self, encoded: Floats) -> Floats:
        """(n, 3) Lab of (n, 3) encoded channels, 0 to 1."""
        return xyz_to_lab(self.decode(encoded) @ self.matrix.T)


def primaries_to_xyz(primaries: tuple[tuple[float, float], ...]) -> Floats:
    """Matrix from linear RGB to XYZ under D50, of primaries (x, y) whose white is D65.

    Source: SMPTE RP 177 for the matrix, linear Bradford for the adaptation (ICC.1, Annex E).
    """
    columns = np.array([_xyz_of(xy) for xy in primaries]).T
    white = _xyz_of(_D65)
    matrix = columns * np.linalg.solve(columns, white)
    gain = (_BRADFORD @ np.asarray(D50_WHITE)) / (_BRADFORD @ white)
    adapted = np.linalg.solve(_BRADFORD, gain[:, None] * _BRADFORD)
    return np.asarray(adapted @ matrix, dtype=np.float64)


def _xyz_of(xy: tuple[float, float]) -> Floats:
    x, y = xy
    return np.array([x / y, 1.0, (1.0 - x - y) / y])


def _decode_srgb(encoded: Floats) -> Floats:
    power: Floats = ((np.maximum(encoded, 0.04045) + 0.055) / 1.055) ** 2.4
    return np.where(encoded <= 0.04045, encoded / 12.92, power)  # noqa: PLR2004 - limit of the curve


def _decode_adobe(encoded: Floats) -> Floats:
    decoded: Floats = encoded ** (563 / 256)
    return decoded


SRGB: Final = RgbSpace(primaries_to_xyz(((0.64, 0.33), (0.30, 0.60), (0.15, 0.06))), _decode_srgb)
"""IEC 61966-2-1."""

ADOBE_RGB: Final = RgbSpace(
    primaries_to_xyz(((0.64, 0.33), (0.21, 0.71), (0.15, 0.06))), _decode_adobe
)
"""Adobe RGB (1998), which cameras mark by interoperability index R03 (DCF 2.0)."""

WIDE_RGB_TO_XYZ: Final = primaries_to_xyz(((0.708, 0.292), (0.170, 0.797), (0.131, 0.046)))
"""Linear RGB with the primaries of ITU-R BT.2020, wide enough for what phones record."""

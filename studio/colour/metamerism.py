"""Whether a match holds under another light: ΔE00 there, and the special metamerism index.

Sources: CIE 15:2018, section 9.2 (special metamerism index: change in illuminant); ISO 18314-4:2024
(metamerism index for pairs of samples for change of illuminant).
"""

import math
from dataclasses import dataclass
from typing import Final

from studio.colour.difference import Triple, cie76, ciede2000
from studio.colour.lab import Lab

PASSES: Final = 2.0
"""Up to this ΔE00 two colours pass for a match (common practice, no source)."""

_EPSILON: Final = 6.0 / 29.0


@dataclass(frozen=True, slots=True)
class UnderLight:
    """A pair of colours under another light than the one they were matched in.

    Args:
        light: the CIE illuminant.
        reference_delta_e: ΔE00 in the reference light.
        delta_e: ΔE00 under the other.
        index: special metamerism index, ΔE*ab under it after the additive correction in L*a*b*.
        index_by_xyz: the same after the multiplicative correction in XYZ; None where the sample is
            black.
    """

    light: str
    reference_delta_e: float
    delta_e: float
    index: float
    index_by_xyz: float | None

    @property
    def breaks(self) -> bool:
        """Whether the pair passes for a match in the reference light and not under the other."""
        return self.reference_delta_e <= PASSES < self.delta_e


def under_light(standard: Lab, sample: Lab, standard_there: Lab, sample_there: Lab) -> UnderLight:
    """How a pair that was judged in one light stands under another.

    Args:
        standard: the colour that is matched, in the reference light.
        sample: the colour that matches it, in the reference light.
        standard_there: the first under the other light.
        sample_there: the second under the other light.

    Raises:
        ValueError: the colours of a light are given under two whites.
    """
    if standard.white != sample.white or standard_there.white != sample_there.white:
        msg = "colours are compared under one white"
        raise ValueError(msg)
    corrected = additive(standard.coordinates, sample.coordinates, sample_there.coordinates)
    by_xyz = multiplicative(
        *(relative_xyz(each.coordinates) for each in (standard, sample, sample_there))
    )
    return UnderLight(
        light=sample_there.illuminant,
        reference_delta_e=ciede2000(standard.coordinates, sample.coordinates),
        delta_e=ciede2000(standard_there.coordinates, sample_there.coordinates),
        index=cie76(standard_there.coordinates, corrected),
        index_by_xyz=None
        if by_xyz is None
        else cie76(standard_there.coordinates, lab_of_relative_xyz(by_xyz)),
    )


def additive(standard: Triple, sample: Triple, sample_there: Triple) -> Triple:
    """A sample under the other light, less its difference from the standard in the reference light.

    What is left between it and the standard there is metamerism alone (ISO 18314-4, additive
    correction, recommended for L*a*b*).
    """
    one, two, three = (
        there - (here - wanted)
        for wanted, here, there in zip(standard, sample, sample_there, strict=True)
    )
    return one, two, three


def multiplicative(standard: Triple, sample: Triple, sample_there: Triple) -> Triple | None:
    """A sample under the other light, scaled as the standard is to it in the reference light.

    CIE 15, 9.2; ISO 18314-4, multiplicative correction, recommended for XYZ. None where a value of
    the sample is zero.
    """
    if 0.0 in sample:
        return None
    one, two, three = (
        there * (wanted / here)
        for wanted, here, there in zip(standard, sample, sample_there, strict=True)
    )
    return one, two, three


def relative_xyz(lab: Triple) -> Triple:
    """(X/Xn, Y/Yn, Z/Zn) of (L*, a*, b*), the inverse of CIE 15, 8.2.1."""
    f_y = (lab[0] + 16.0) / 116.0
    x, y, z = (_f_inverse(f) for f in (f_y + lab[1] / 500.0, f_y, f_y - lab[2] / 200.0))
    return x, y, z


def lab_of_relative_xyz(xyz: Triple) -> Triple:
    """(L*, a*, b*) of (X/Xn, Y/Yn, Z/Zn), CIE 15, 8.2.1."""
    f_x, f_y, f_z = (_f(ratio) for ratio in xyz)
    return 116.0 * f_y - 16.0, 500.0 * (f_x - f_y), 200.0 * (f_y - f_z)


def _f(ratio: float) -> float:
    if ratio > _EPSILON**3:
        return math.cbrt(ratio)
    return ratio / (3.0 * _EPSILON**2) + 4.0 / 29.0


def _f_inverse(value: float) -> float:
    return value**3 if value > _EPSILON else 3.0 * _EPSILON**2 * (value - 4.0 / 29.0)

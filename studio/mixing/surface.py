"""What the surface of a paint film adds and holds back: the Saunderson correction.

Kubelka-Munk reflectances hold inside the film. At the surface a share k1 of the incoming light is
turned back before it enters, and a share k2 of the diffuse light from inside is thrown back in.
For a refractive index of 1.5, k1 is 0.04 and k2 about 0.6; both are usually fitted.

Source: J. L. Saunderson, "Calculation of the color of pigmented plastics", J. Opt. Soc. Am. 32
(1942) 727.
"""
# ruff: noqa: N803, N806 - R keeps the case it has in the paper

import numpy as np
from numpy.typing import ArrayLike

from studio.mixing.ranges import ROUNDING, FloatArray, fraction


def measured_from_internal(
    Ri: ArrayLike, k1: float, k2: float, *, specular_included: bool = True
) -> FloatArray:
    """Reflectance as an instrument reads it: k1 + (1-k1)(1-k2) Ri / (1 - k2 Ri).

    Args:
        Ri: reflectance inside the film, 0 to 1, any shape.
        k1: share of the incident light reflected at the surface, 0 to below 1.
        k2: share of the diffuse light from inside reflected at the surface, 0 to below 1.
        specular_included: False leaves out the first term, the light mirrored by the surface.

    Returns:
        Measured reflectance, 0 to 1, same shape.

    Raises:
        ValueError: a number out of its range.
    """
    R = fraction(Ri, "internal reflectance")
    _check_surface(k1, k2)
    body = (1.0 - k1) * (1.0 - k2) * R / (1.0 - k2 * R)
    return np.asarray(np.minimum(body + k1 if specular_included else body, 1.0))


def internal_from_measured(
    Rm: ArrayLike, k1: float, k2: float, *, specular_included: bool = True
) -> FloatArray:
    """Reflectance inside the film, the inverse of `measured_from_internal`.

    Args:
        Rm: measured reflectance, 0 to 1, any shape.
        k1: as there.
        k2: as there.
        specular_included: whether Rm holds the light mirrored by the surface.

    Returns:
        Internal reflectance, 0 to 1, same shape.

    Raises:
        ValueError: a number out of its range, or an Rm that no internal reflectance gives: below
            k1 with the specular light included, above 1 - k1 without it.
    """
    R = fraction(Rm, "measured reflectance")
    _check_surface(k1, k2)
    body = R - k1 if specular_included else R
    Ri = body / ((1.0 - k1) * (1.0 - k2) + k2 * body)
    if np.any(body < -ROUNDING) or np.any(body > 1.0 - k1 + ROUNDING):
        msg = f"a measured reflectance lies outside what a surface with k1 = {k1:g} allows"
        raise ValueError(msg)
    return np.asarray(np.clip(Ri, 0.0, 1.0))


def _check_surface(k1: float, k2: float) -> None:
    if not (0.0 <= k1 < 1.0 and 0.0 <= k2 < 1.0):
        msg = "the surface reflections k1 and k2 must be 0 or more and below 1"
        raise ValueError(msg)

"""How the reflectance of a film changes with its K, its S and its substrate.

The derivatives of the hyperbolic solution of Kubelka (1948) as `film.film_reflectance` evaluates
it, so that paints can be characterised by least squares.
"""
# ruff: noqa: N803, N806 - K, S, X and R keep the case they have in the papers

from typing import NamedTuple

import numpy as np

from studio.mixing.film import decay
from studio.mixing.ranges import FloatArray

LEAST_DEPTH = 1e-9
"""Optical depths count as at least this: below it differences of near equals would be divided."""


class FilmSlopes(NamedTuple):
    """Reflectance of a film and its derivatives, all of one shape.

    Args:
        R: reflectance, 0 to 1.
        by_k: change with the optical depth KX.
        by_s: change with the optical depth SX.
        by_Rg: change with the reflectance of the substrate.
    """

    R: FloatArray
    by_k: FloatArray
    by_s: FloatArray
    by_Rg: FloatArray  # noqa: N815


def film_slopes(k: FloatArray, s: FloatArray, Rg: FloatArray) -> FilmSlopes:
    """Reflectance and derivatives of a film over a substrate.

    Args:
        k: optical depth KX, 0 upwards.
        s: optical depth SX, 0 upwards, same shape.
        Rg: reflectance of the substrate, 0 to 1, broadcast to that shape.
    """
    k, s = np.maximum(k, LEAST_DEPTH), np.maximum(s, LEAST_DEPTH)
    bsx, e, phi = decay(k, s)
    bsx_k, bsx_s = (k + s) / bsx, k / bsx
    phi_b = (e - phi) / bsx
    total = k + bsx + s
    R_inf = s / total
    R_inf_k = -R_inf / total * (1.0 + bsx_k)
    R_inf_s = (1.0 - R_inf * (1.0 + bsx_s)) / total
    open_to = 1.0 - Rg * R_inf
    rest = k + bsx + s * (1.0 - Rg)
    upper = Rg * e + phi * s * open_to
    lower = e + phi * rest
    R = upper / lower
    upper_b, lower_b = -2.0 * Rg * e + phi_b * s * open_to, -2.0 * e + phi_b * rest
    upper_k = upper_b * bsx_k - phi * s * Rg * R_inf_k
    upper_s = upper_b * bsx_s + phi * (open_to - s * Rg * R_inf_s)
    lower_k = lower_b * bsx_k + phi * (1.0 + bsx_k)
    lower_s = lower_b * bsx_s + phi * (bsx_s + 1.0 - Rg)
    return FilmSlopes(
        R,
        (upper_k - R * lower_k) / lower,
        (upper_s - R * lower_s) / lower,
        (e - phi * s * R_inf + R * phi * s) / lower,
    )

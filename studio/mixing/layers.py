"""Films by themselves and stacked: the composition of layers, as in glazing.

Sources:
    P. Kubelka, "New contributions to the optics of intensely light-scattering materials. Part I",
    J. Opt. Soc. Am. 38 (1948) 448; "Part II: nonhomogeneous layers", 44 (1954) 330.
"""
# ruff: noqa: N803, N806 - K, S, X, R and T keep the case they have in the papers

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from studio.mixing.film import decay, depths
from studio.mixing.ranges import ROUNDING, FloatArray, fraction


class Layer(NamedTuple):
    """A layer without substrate; it may reflect differently on its two sides (Kubelka 1954).

    Args:
        R: reflectance for light from above, 0 to 1.
        T: transmittance, 0 to 1; the same in both directions.
        R_below: reflectance for light from below, 0 to 1.
    """

    R: FloatArray
    T: FloatArray
    R_below: FloatArray


def film_layer(K: ArrayLike, S: ArrayLike, X: ArrayLike) -> Layer:
    """R0 and T of a homogeneous film by itself, Kubelka (1948).

    R0 = sinh bSX / (a sinh bSX + b cosh bSX), T = b / (a sinh bSX + b cosh bSX), evaluated as in
    `film.film_reflectance`.

    Args:
        K: absorption per unit of thickness, 0 upwards.
        S: scattering per unit of thickness, 0 upwards.
        X: thickness, 0 upwards.

    Returns:
        A layer with the same reflectance on both sides.

    Raises:
        ValueError: K, S or X negative or not finite.
    """
    k, s = depths(K, S, X)
    bsx, e, phi = decay(k, s)
    denominator = e + phi * (k + bsx + s)
    R0 = np.asarray(phi * s / denominator)
    return Layer(R0, np.asarray(np.exp(-bsx) / denominator), R0)


def compose(top: Layer, bottom: Layer) -> Layer:
    """The layer made of one layer on another, Kubelka (1948; two-sided form 1954).

    R = R1 + T1² R2 / (1 - R1 R2), T = T1 T2 / (1 - R1 R2), where R1 inside the fractions is the
    top layer seen from below; three and more layers follow by composing again.

    Raises:
        ValueError: a reflectance or transmittance outside 0 to 1, or R + T of a side above 1.
    """
    _check(top)
    _check(bottom)
    trapped = top.R_below * bottom.R
    R = top.R + _all_passes(top.T**2 * bottom.R, trapped)
    R_below = bottom.R_below + _all_passes(bottom.T**2 * top.R_below, trapped)
    return Layer(
        np.asarray(np.minimum(R, 1.0)),
        _all_passes(top.T * bottom.T, trapped),
        np.asarray(np.minimum(R_below, 1.0)),
    )


def over_substrate(layer: Layer, Rg: ArrayLike) -> FloatArray:
    """Reflectance of a layer over a substrate: R + T² Rg / (1 - R_below Rg), Kubelka (1948).

    Args:
        layer: one film or a composition of several.
        Rg: reflectance of the substrate, 0 to 1.

    Returns:
        Reflectance, 0 to 1, in the shape the arguments broadcast to.

    Raises:
        ValueError: as `compose`, or Rg outside 0 to 1.
    """
    _check(layer)
    ground = fraction(Rg, "reflectance of the substrate")
    through = _all_passes(layer.T**2 * ground, layer.R_below * ground)
    return np.asarray(np.minimum(layer.R + through, 1.0))


def _all_passes(light: FloatArray, trapped: FloatArray) -> FloatArray:
    """The light of all passes between two layers, light / (1 - R1 R2).

    Between two perfect reflectors nothing is transmitted, so nothing comes of it.
    """
    light, escaping = np.broadcast_arrays(light, 1.0 - trapped)
    return np.asarray(np.divide(light, escaping, out=np.zeros_like(light), where=escaping > 0.0))


def _check(layer: Layer) -> None:
    T = fraction(layer.T, "transmittance of a layer")
    for R in (layer.R, layer.R_below):
        if np.any(fraction(R, "reflectance of a layer") + T > 1.0 + ROUNDING):
            msg = "a layer cannot reflect and transmit more light than falls on it"
            raise ValueError(msg)

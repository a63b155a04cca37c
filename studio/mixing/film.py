"""Kubelka-Munk optics of paint films over a substrate.

The letters are those of the papers: K absorption and S scattering per unit of thickness, X the
thickness (K and S are in the reciprocal of its unit), R reflectance, Rg reflectance of the
substrate ("ground"), R∞ (`R_inf`) reflectance of a film so thick that the substrate no longer
shows. Reflectances are fractions 0 to 1 for diffuse light inside the film; `surface` leads to
what an instrument reads. Every function is pure and broadcasts its arguments by NumPy's rules,
usually with the wavelengths on the last axis.

Sources:
    P. Kubelka, F. Munk, "Ein Beitrag zur Optik der Farbanstriche", Z. techn. Physik 12 (1931) 593.
    P. Kubelka, "New contributions to the optics of intensely light-scattering materials. Part I",
    J. Opt. Soc. Am. 38 (1948) 448.
    D. R. Duncan, "The colour of pigment mixtures", Proc. Phys. Soc. 52 (1940) 390.
"""
# ruff: noqa: N803, N806 - K, S, X and R keep the case they have in the papers

import numpy as np
from numpy.typing import ArrayLike

from studio.mixing.ranges import ROUNDING, FloatArray, coefficient, fraction


def ratio_from_reflectance(R_inf: ArrayLike) -> FloatArray:
    """K/S = (1 - R∞)² / (2 R∞), the Kubelka-Munk function (1931).

    Args:
        R_inf: reflectance of an opaque film, 0 to 1, any shape.

    Returns:
        K/S, 0 upwards, same shape; infinite where R∞ is 0.

    Raises:
        ValueError: a reflectance outside 0 to 1.
    """
    R = fraction(R_inf, "reflectance of an opaque film")
    with np.errstate(divide="ignore", over="ignore"):
        return np.asarray((1.0 - R) ** 2 / (2.0 * R))


def reflectance_from_ratio(K_over_S: ArrayLike) -> FloatArray:
    """R∞ = 1 + K/S - √((K/S)² + 2 K/S), written without its cancellation at high K/S.

    Args:
        K_over_S: ratio of absorption to scattering, 0 upwards, any shape; infinity gives 0.

    Returns:
        Reflectance of an opaque film, 0 to 1, same shape.

    Raises:
        ValueError: a ratio that is negative or not a number.
    """
    q = np.asarray(K_over_S, dtype=np.float64)
    if not np.all(q >= 0.0):
        msg = "the ratio K/S must be 0 or more"
        raise ValueError(msg)
    return np.asarray(1.0 / (1.0 + q + np.sqrt(q) * np.sqrt(q + 2.0)))


def film_reflectance(K: ArrayLike, S: ArrayLike, X: ArrayLike, Rg: ArrayLike) -> FloatArray:
    """Reflectance of a film of thickness X over a substrate, Kubelka (1948).

    The hyperbolic solution R = (1 - Rg (a - b coth bSX)) / (a - Rg + b coth bSX), a = (S + K)/S,
    b = √(a² - 1), is evaluated with e = exp(-2bSX) so that no term is negative and none grows:
    it holds unchanged for S = 0 (Rg exp(-2KX)), K = 0 (((1-Rg)SX + Rg) / ((1-Rg)SX + 1)), X = 0
    (Rg) and for an opaque film (R∞).

    Args:
        K: absorption per unit of thickness, 0 upwards.
        S: scattering per unit of thickness, 0 upwards.
        X: thickness, 0 upwards.
        Rg: reflectance of the substrate, 0 to 1.

    Returns:
        Reflectance, 0 to 1, in the shape the arguments broadcast to.

    Raises:
        ValueError: K, S or X negative or not finite, or Rg outside 0 to 1.
    """
    k, s = depths(K, S, X)
    ground = fraction(Rg, "reflectance of the substrate")
    bsx, e, phi = decay(k, s)
    total = k + bsx + s
    # R∞; where neither K nor S acts its value has no weight.
    R_inf = np.divide(s, total, out=np.zeros_like(total), where=total > 0.0)
    numerator = ground * e + phi * s * (1.0 - ground * R_inf)
    denominator = e + phi * (k + bsx + s * (1.0 - ground))
    return np.asarray(np.minimum(numerator / denominator, 1.0))


def coefficients_over_two_grounds(
    R1: ArrayLike, R2: ArrayLike, Rg1: ArrayLike, Rg2: ArrayLike, X: ArrayLike = 1.0
) -> tuple[FloatArray, FloatArray]:
    """K and S of a film read over two substrates, the inverse of `film_reflectance`.

    With t = tanh(bSX) / b, u = t and v = a t, each reading gives one linear equation,
    u (1 + R Rg) - v (R + Rg) = R - Rg, from the solution of Kubelka (1948); S may be 0.

    Args:
        R1: reflectance of the film over the first substrate, 0 to 1.
        R2: reflectance of the film over the second substrate, 0 to 1.
        Rg1: reflectance of the first substrate, 0 to 1.
        Rg2: reflectance of the second substrate, 0 to 1, other than Rg1 (white and black, say).
        X: thickness, above 0.

    Returns:
        K and S per unit of thickness, each 0 upwards.

    Raises:
        ValueError: a number out of its range, or readings that no film of this kind can give
            (the substrate does not show through, or shows more than it can).
    """
    r1, r2 = (fraction(R, "reflectance of the film") for R in (R1, R2))
    g1, g2 = (fraction(Rg, "reflectance of the substrate") for Rg in (Rg1, Rg2))
    thickness = coefficient(X, "thickness X")
    determinant = (1.0 + r2 * g2) * (r1 + g1) - (1.0 + r1 * g1) * (r2 + g2)
    if np.any(thickness == 0.0) or np.any(g1 == g2):
        msg = "K and S need a thickness above 0 and readings over two different substrates"
        raise ValueError(msg)
    # Where the substrate does not show at all the two equations are one.
    determinant = np.where(np.abs(determinant) > ROUNDING, determinant, np.nan)
    u = ((r2 - g2) * (r1 + g1) - (r1 - g1) * (r2 + g2)) / determinant
    v = ((1.0 + r1 * g1) * (r2 - g2) - (1.0 + r2 * g2) * (r1 - g1)) / determinant
    squared = (v - u) * (v + u)
    if not np.all((u >= -ROUNDING) & (v - u >= -ROUNDING) & (squared < 1.0 - ROUNDING)):
        msg = "no Kubelka-Munk film gives these reflectances over these substrates"
        raise ValueError(msg)
    tanh = np.sqrt(np.maximum(squared, 0.0))
    stretch = np.divide(np.arctanh(tanh), tanh, out=np.ones_like(tanh), where=tanh > 0.0)
    K = np.maximum(v - u, 0.0) * stretch / thickness
    S = np.maximum(u, 0.0) * stretch / thickness
    return np.asarray(K), np.asarray(S)


def mix_coefficients(
    amounts: ArrayLike, K: ArrayLike, S: ArrayLike
) -> tuple[FloatArray, FloatArray]:
    """K and S of a mix: the sums over its paints, weighted by their shares, Duncan (1940).

    Args:
        amounts: parts of each paint, 0 upwards, shape (..., paints); only their ratios count.
        K: absorption of each paint, 0 upwards, shape (paints, wavelengths).
        S: scattering of each paint, 0 upwards, shape (paints, wavelengths).

    Returns:
        K and S of the mix per unit of thickness, shape (..., wavelengths).

    Raises:
        ValueError: a negative or non-finite number, or a mix of nothing.
    """
    parts = coefficient(amounts, "amount of paint")
    total = parts.sum(axis=-1, keepdims=True)
    if np.any(total == 0.0):
        msg = "a mix needs at least one paint with an amount above 0"
        raise ValueError(msg)
    shares = parts / total
    K_mix = shares @ coefficient(K, "absorption K")
    S_mix = shares @ coefficient(S, "scattering S")
    return np.asarray(K_mix), np.asarray(S_mix)


def depths(K: ArrayLike, S: ArrayLike, X: ArrayLike) -> tuple[FloatArray, FloatArray]:
    """The optical depths KX and SX, dimensionless and of one shape.

    Raises:
        ValueError: K, S or X negative or not finite, or a product beyond double precision.
    """
    thickness = coefficient(X, "thickness X")
    with np.errstate(over="ignore"):
        k = coefficient(K, "absorption K") * thickness
        s = coefficient(S, "scattering S") * thickness
        finite = np.isfinite(4.0 * (k + s))
    if not np.all(finite):
        msg = "K times X and S times X are too large to compute with"
        raise ValueError(msg)
    k, s = np.broadcast_arrays(k, s)
    return k, s


def decay(k: FloatArray, s: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
    """bSX, e = exp(-2bSX) and φ = (1 - e) / (2bSX), which is 1 where bSX is 0.

    Args:
        k: optical depth KX, 0 upwards.
        s: optical depth SX, 0 upwards, same shape.
    """
    # b S = √(K (K + 2S)) stays finite where a = (S + K)/S does not.
    bsx = np.sqrt(k) * np.sqrt(k + 2.0 * s)
    phi = np.divide(-np.expm1(-2.0 * bsx), 2.0 * bsx, out=np.ones_like(bsx), where=bsx > 0.0)
    return bsx, np.exp(-2.0 * bsx), phi

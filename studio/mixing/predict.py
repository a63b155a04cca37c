"""Spectra and colours of recipes from characterised paints, with their expected error."""
# ruff: noqa: N806 - K, S, X and R keep the case they have in the papers

from collections.abc import Mapping, Sequence
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from studio.colour.tristimulus import ciede2000_root
from studio.mixing.characterisation import Characterisation, cosines
from studio.mixing.error_model import bound
from studio.mixing.film import film_reflectance
from studio.mixing.misfit import colour_slopes
from studio.mixing.observation import Batch, load_of_water, shares_of
from studio.mixing.parameters import NODES, Parameters, wash_slopes
from studio.mixing.ranges import FloatArray, coefficient, fraction
from studio.mixing.surface import internal_from_measured, measured_from_internal

AT_ONCE: Final = 2000
"""Recipes whose errors are computed together, to bound memory."""


def predict(  # noqa: PLR0913, PLR0917 - a recipe and its ground
    known: Characterisation,
    shares: ArrayLike,
    water: ArrayLike,
    paper: ArrayLike,
    layers: ArrayLike = 1.0,
    ln_extra: ArrayLike = 0.0,
) -> FloatArray:
    """Reflectance of recipes as an instrument reads it, (recipes, wavelengths).

    Args:
        known: the paints.
        shares: parts of each paint, (recipes, paints) in the order of `known.paints`; only ratios
            count.
        water: parts of water to one part of paint, (recipes,) or one number.
        paper: reflectance of the ground, (wavelengths,) or (recipes, wavelengths).
        layers: how many of the film lie on each other; below 1 for a blotted wash, 0 for none.
        ln_extra: by how much each film is thicker than its water tells, in ln.

    Raises:
        ValueError: a number out of its range, or a recipe without paint.
    """
    batch = recipes(shares, water, paper, layers)
    film = film_of(known.parameters, batch, ln_extra)
    return washes(known.parameters, film, batch)


def recipes(
    shares: ArrayLike, water: ArrayLike, paper: ArrayLike, layers: ArrayLike = 1.0
) -> Batch:
    """Recipes as a batch, every number checked and given to every recipe.

    Raises:
        ValueError: a number out of its range, or a recipe without paint.
    """
    parts = np.atleast_2d(coefficient(shares, "amount of paint"))
    total = parts.sum(axis=1, keepdims=True)
    if np.any(total == 0.0):
        msg = "a mix needs at least one paint with an amount above 0"
        raise ValueError(msg)
    count = len(parts)
    return Batch(
        parts / total,
        np.broadcast_to(load_of_water(np.asarray(water, dtype=np.float64)), (count,)),
        np.broadcast_to(coefficient(layers, "number of layers"), (count,)),
        np.atleast_2d(fraction(paper, "reflectance of the paper")),
    )


def recipes_of(known: Characterisation, mixes: Sequence[Mapping[int, float]]) -> FloatArray:
    """Shares of recipes that are given by paint id, (recipes, paints).

    Raises:
        KeyError: a paint is not characterised.
    """
    return shares_of(mixes, known.paints)


def film_of(
    parameters: Parameters, batch: Batch, ln_extra: ArrayLike = 0.0
) -> tuple[FloatArray, FloatArray]:
    """Optical depths KX and SX of the even film of each recipe, (recipes, wavelengths)."""
    X = batch.layers * batch.load**parameters.dilution * np.exp(ln_extra)
    thickness = X[:, np.newaxis]
    K, S = batch.shares @ parameters.K, batch.shares @ parameters.S
    return thickness * K, thickness * S


def washes(parameters: Parameters, film: tuple[FloatArray, FloatArray], batch: Batch) -> FloatArray:
    """Measured reflectance of films over the grounds of a batch, uneven as washes are."""
    k, s = film
    p = parameters
    ground = _inside(p, batch.paper)
    amount = (batch.layers * batch.load)[:, np.newaxis]
    read = np.zeros(np.broadcast_shapes(k.shape, ground.shape))
    for deviate, weight in NODES:
        x = np.exp(deviate * p.unevenness - p.unevenness**2 / 2.0)
        inner = film_reflectance(k, s, x, ground)
        read += weight * _outside(p, inner, amount)
    return read


def glaze(
    known: Characterisation,
    upper: Batch,
    lower: Batch,
) -> FloatArray:
    """Reflectance of washes over dry washes, (recipes, wavelengths).

    The two films are uneven independently; both lie inside one surface.

    Args:
        known: the paints.
        upper: the washes laid last; their paper does not count.
        lower: the dry washes, on their paper.
    """
    p = known.parameters
    k, s = film_of(p, lower)
    ground = _inside(p, lower.paper)
    amount = (upper.layers * upper.load + lower.layers * lower.load)[:, np.newaxis]
    above = film_of(p, upper)
    read = np.zeros(np.broadcast_shapes(k.shape, above[0].shape, ground.shape))
    for deviate, weight in NODES:
        x = np.exp(deviate * p.unevenness - p.unevenness**2 / 2.0)
        painted = film_reflectance(k, s, x, ground)
        for other, share in NODES:
            y = np.exp(other * p.unevenness - p.unevenness**2 / 2.0)
            inner = film_reflectance(above[0], above[1], y, painted)
            read += weight * share * _outside(p, inner, amount)
    return read


def expected_error(
    known: Characterisation,
    shares: ArrayLike,
    water: ArrayLike,
    paper: ArrayLike,
    layers: ArrayLike = 1.0,
) -> FloatArray:
    """The ΔE00 that about 68 % of such predictions stay within, (recipes,).

    Args:
        known: the paints.
        shares: as for `predict`.
        water: as for `predict`.
        paper: as for `predict`.
        layers: as for `predict`, above 0.

    Raises:
        ValueError: as `predict`.
    """
    batch = recipes(shares, water, paper, layers)
    found = np.empty(len(batch.shares))
    for first in range(0, len(found), AT_ONCE):
        rows = slice(first, first + AT_ONCE)
        grounds = batch.paper if len(batch.paper) == 1 else batch.paper[rows]
        part = Batch(batch.shares[rows], batch.load[rows], batch.layers[rows], grounds)
        by_unknown, by_thickness = sensitivity(known, part)
        # One product of two matrices: many small ones wait for each other's threads.
        rows_of = by_unknown.reshape(-1, by_unknown.shape[-1])
        spread = (rows_of @ known.covariance).reshape(by_unknown.shape)
        variance = (spread * by_unknown).sum(axis=(1, 2))
        laid = known.thickness**2 * (by_thickness**2).sum(axis=1)
        found[rows] = bound(known.error, variance + laid)
    return found


def sensitivity(known: Characterisation, batch: Batch) -> tuple[FloatArray, FloatArray]:
    """How W Lab of recipes changes with the unknowns along the cosines, and with ln thickness.

    Returns:
        (recipes, 3, unknowns) and (recipes, 3).
    """
    slopes = wash_slopes(known.parameters, batch, np.zeros(len(batch.shares)))
    root = ciede2000_root(known.light.lab(slopes.R))
    basis = cosines(known.parameters.ln_K.shape[1])
    return colour_slopes(known.parameters, batch, slopes, root, known.light, basis)


def _inside(p: Parameters, paper: FloatArray) -> FloatArray:
    """Reflectance of grounds inside the film; darker than the surface itself counts as black."""
    return internal_from_measured(np.maximum(paper, p.k1), p.k1, p.k2)


def _outside(p: Parameters, inner: FloatArray, amount: FloatArray) -> FloatArray:
    k1 = p.k1 * (1.0 + amount) ** -p.levelling
    body = measured_from_internal(inner, 0.0, p.k2)
    return np.asarray(k1 + (1.0 - k1) * body)

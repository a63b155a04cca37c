"""Predictions held to patches that were measured: what a change of one does to its very colour.

The model's error at a patch is mostly its error beside it. So the film is first made as thick as
the patch shows, within what brush and water leave open; what then remains is kept as the ratio of
measured to predicted reflectance at each wavelength, and multiplies predictions nearby.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from studio.mixing.characterisation import Characterisation
from studio.mixing.observation import Observation, batch_of, load_of_water
from studio.mixing.predict import predict
from studio.mixing.ranges import FloatArray
from studio.mixing.settings import USUAL_WATER

WIDEST: Final = 0.7
"""The film of a patch is taken to be up to this much thicker or thinner, in ln."""
DOUBT: Final = 0.3
"""Standard deviation of ln thickness of one patch, as in a wash laid by hand."""
RATIO_LIMIT: Final = 3.0


@dataclass(frozen=True, slots=True, eq=False)
class Anchor:
    """How a measured patch differs from its prediction.

    Args:
        ln_extra: how much thicker its film is than its water tells, in ln.
        ln_ratio: ln of measured to then predicted reflectance, (wavelengths,).
        load: paint in a layer of the patch, 1 at the usual water.
    """

    ln_extra: float
    ln_ratio: FloatArray
    load: float


def anchored(known: Characterisation, patch: Observation) -> Anchor:
    """The difference of a patch from its prediction.

    Raises:
        KeyError: one of its paints is not characterised.
    """
    batch = batch_of([patch], known.paints)
    water = USUAL_WATER if patch.water is None else patch.water
    extra = np.linspace(-WIDEST, WIDEST, 57)
    shares = np.repeat(batch.shares, len(extra), axis=0)
    spectra = predict(known, shares, water, patch.paper, patch.layers, extra)
    away = known.light.lab(spectra) - known.light.lab(patch.spectrum)
    cost = (away**2).sum(axis=1) + (extra / DOUBT) ** 2
    best = int(np.argmin(cost))
    limit = np.log(RATIO_LIMIT)
    ratio = np.log(np.maximum(patch.spectrum, 1e-4) / np.maximum(spectra[best], 1e-4))
    return Anchor(float(extra[best]), np.clip(ratio, -limit, limit), float(batch.load[0]))


def predict_anchored(  # noqa: PLR0913, PLR0917 - a recipe and its ground
    known: Characterisation,
    anchor: Anchor,
    shares: ArrayLike,
    water: ArrayLike,
    paper: ArrayLike,
    layers: ArrayLike = 1.0,
) -> FloatArray:
    """Reflectance of recipes near a measured patch, as `predict`, (recipes, wavelengths)."""
    spectra = predict(known, shares, water, paper, layers, anchor.ln_extra)
    return np.asarray(np.minimum(spectra * np.exp(anchor.ln_ratio), 1.0))


def predict_between(
    known: Characterisation, one: Observation, other: Observation, water: ArrayLike
) -> FloatArray:
    """Reflectance of a mix at waters between two of its measured tints, (waters, wavelengths).

    What the tints differ by from their predictions goes over from one to the other with ln of the
    paint in a layer, so that both are met exactly as far as `Anchor` allows.

    Args:
        known: the paints.
        one: a tint of the mix with its water recorded.
        other: another of the same mix, ground and layers.
        water: parts of water to one of paint, (waters,), between those of the two.

    Raises:
        ValueError: the water of one is not recorded, or both have the same.
    """
    if one.water is None or other.water is None or one.water == other.water:
        msg = "a tint between two needs two recorded waters that differ"
        raise ValueError(msg)
    waters = np.atleast_1d(np.asarray(water, dtype=np.float64))
    first, last = anchored(known, one), anchored(known, other)
    load = load_of_water(waters)
    part = np.log(load / first.load) / np.log(last.load / first.load)
    shares = np.repeat(batch_of([one], known.paints).shares, len(waters), axis=0)
    extra = (1.0 - part) * first.ln_extra + part * last.ln_extra
    spectra = predict(known, shares, waters, one.paper, one.layers, extra)
    ratio = np.outer(1.0 - part, first.ln_ratio) + np.outer(part, last.ln_ratio)
    return np.asarray(np.minimum(spectra * np.exp(ratio), 1.0))

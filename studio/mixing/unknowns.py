"""Where each number of the parameters stands in one long vector of unknowns, and its prior."""
# ruff: noqa: N806 - K and S keep the case they have in the papers

from dataclasses import dataclass

import numpy as np

from studio.mixing.parameters import Parameters
from studio.mixing.ranges import FloatArray
from studio.mixing.settings import LAW, Settings


@dataclass(frozen=True, slots=True)
class Layout:
    """The order of unknowns: ln K of each paint by wavelength, then the part of ln S, then the law.

    Args:
        paints: number of paints.
        wavelengths: number of wavelengths.
    """

    paints: int
    wavelengths: int

    @property
    def spectral(self) -> int:
        """Number of unknowns that belong to a wavelength."""
        return 2 * self.paints * self.wavelengths

    @property
    def size(self) -> int:
        """Number of unknowns."""
        return self.spectral + len(LAW)

    def vector(self, parameters: Parameters) -> FloatArray:
        """The unknowns of some parameters, (size,)."""
        return np.concatenate(
            [parameters.ln_K.ravel(), parameters.ln_S_part.ravel(), parameters.law]
        )

    def parameters(self, vector: FloatArray) -> Parameters:
        """The parameters of some unknowns."""
        shape = (2, self.paints, self.wavelengths)
        ln_K, ln_S_part = vector[: self.spectral].reshape(shape)
        return Parameters(ln_K, ln_S_part, vector[self.spectral :])


@dataclass(frozen=True, slots=True, eq=False)
class Prior:
    """A normal distribution of the unknowns, as its mean and its precision.

    Args:
        mean: (size,).
        precision: (size, size).
    """

    mean: FloatArray
    precision: FloatArray

    def misfit(self, vector: FloatArray) -> float:
        """The squared distance from the mean, in standard deviations."""
        away = vector - self.mean
        return float(away @ self.precision @ away)


def prior(layout: Layout, step: float, settings: Settings) -> Prior:
    """Smooth spectra of usual level, and the usual law.

    Args:
        layout: of the unknowns.
        step: distance of two wavelengths, nm.
        settings: the weights.
    """
    count, grain = layout.wavelengths, 10.0 / step
    second = grain**3 * _squares(np.diff(np.eye(count), 2, axis=0))
    first = grain * _squares(np.diff(np.eye(count), 1, axis=0))
    level = np.eye(count) / count
    blocks = (
        settings.roughness_K**2 * second + settings.level_K**2 * level,
        settings.roughness_S**2 * second
        + settings.slope_S**2 * first
        + settings.level_S**2 * level,
    )
    precision = np.zeros((layout.size, layout.size))
    half = layout.spectral // 2
    for start, block in zip((0, half), blocks, strict=True):
        for place in range(start, start + half, count):
            precision[place : place + count, place : place + count] = block
    law = np.arange(layout.spectral, layout.size)
    precision[law, law] = 1.0 / np.square(settings.law_spread)
    mean = np.concatenate([np.zeros(half), np.full(half, settings.usual_S), settings.law])
    return Prior(mean, precision)


def _squares(differences: FloatArray) -> FloatArray:
    return np.asarray(differences.T @ differences)

"""Reflectance of papers on the model's wavelengths, and where it comes from."""

from collections.abc import Sequence
from enum import StrEnum
from typing import Final, NamedTuple

import numpy as np

from studio.actions.model_inputs import WAVELENGTHS
from studio.catalogue.reading import Reading
from studio.mixing.ranges import FloatArray

HIGHEST: Final = 0.99
"""Brightened papers reflect more than falls on them at some wavelengths; no film over them can."""


class GroundBasis(StrEnum):
    """Where the reflectance of a paper comes from."""

    MEASURED = "measured"
    ESTIMATED = "estimated from Lab"
    USUAL = "usual white"


class Ground(NamedTuple):
    """What a wash is laid on.

    Args:
        reflectance: 0 to 1, (wavelengths,).
        basis: where it comes from.
    """

    reflectance: FloatArray
    basis: GroundBasis


def ground_of(white: Sequence[Reading]) -> Ground:
    """The mean of the readings of a paper's white, or a usual white where there is none."""
    if not white:
        return Ground(usual_white(), GroundBasis.USUAL)
    return Ground(np.minimum(mean_spectrum(white), HIGHEST), basis_of(white))


def basis_of(white: Sequence[Reading]) -> GroundBasis:
    """Where the reflectance of a paper with such readings comes from."""
    if not white:
        return GroundBasis.USUAL
    return GroundBasis.MEASURED if white[0].spectrum else GroundBasis.ESTIMATED


def usual_white() -> FloatArray:
    """Reflectance of a white watercolour paper without brighteners (assumed, no source)."""
    return np.asarray(0.92 - 0.1 * np.exp((WAVELENGTHS[0] - np.array(WAVELENGTHS)) / 40.0))


def mean_spectrum(readings: Sequence[Reading]) -> FloatArray:
    """The mean spectrum of readings that all have one, or the estimate from their mean Lab."""
    # colour-science takes a second to load; a kept model does without it.
    from studio.colour.lab import Lab  # noqa: PLC0415
    from studio.colour.science import estimated_reflectance, resampled  # noqa: PLC0415

    spectra = [each.spectrum for each in readings if each.spectrum is not None]
    if spectra:
        return np.asarray(np.mean([resampled(each, WAVELENGTHS) for each in spectra], axis=0))
    lightness, a, b = np.mean([each.lab.coordinates for each in readings], axis=0).tolist()
    return estimated_reflectance(Lab(lightness, a, b), WAVELENGTHS)

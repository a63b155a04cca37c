"""What a recipe is to come near: a colour, or a spectrum, on a paper."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from studio.colour.tristimulus import Tristimulus, ciede2000
from studio.mixing.ranges import FloatArray
from studio.mixing.settings import DEFAULT

SPECTRAL: Final = DEFAULT.spectral
"""ΔE00 that a difference in reflectance of 1 at all wavelengths counts as, as in characterising."""


@dataclass(frozen=True, slots=True, eq=False)
class Goal:
    """A colour that is wanted on a paper.

    Args:
        lab: L*a*b* under the light of the characterisation, (3,).
        paper: reflectance of the paper, 0 to 1, (wavelengths,).
        spectrum: reflectance to come near as well, (wavelengths,), so that the colour holds under
            other lights; None where only the colour counts.
    """

    lab: FloatArray
    paper: FloatArray
    spectrum: FloatArray | None = None

    def away(self, light: Tristimulus, spectra: FloatArray) -> FloatArray:
        """How far spectra lie from it, (recipes,): ΔE00, with the spectral difference where wanted.

        Args:
            light: from spectra to Lab.
            spectra: reflectance, (recipes, wavelengths).
        """
        colour = ciede2000(light.lab(spectra), self.lab)
        if self.spectrum is None:
            return colour
        return np.asarray(np.hypot(colour, SPECTRAL * self.spectral_error(spectra)))

    def spectral_error(self, spectra: FloatArray) -> FloatArray:
        """Root mean square difference in reflectance, (recipes,).

        Raises:
            TypeError: there is no spectrum to come near.
        """
        if self.spectrum is None:
            msg = "this goal is a colour alone"
            raise TypeError(msg)
        return np.asarray(np.sqrt(((spectra - self.spectrum) ** 2).mean(axis=-1)))

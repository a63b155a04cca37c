"""A spectrum that has a given Lab: a near one, bent by smooth functions of the wavelength."""

from typing import Final

import numpy as np

from studio.colour.tristimulus import Tristimulus
from studio.mixing.ranges import FloatArray

ROUNDS: Final = 60
HALVINGS: Final = 12
NEAR: Final = 1e-6
"""Largest difference of L*, a* or b* that is left."""
LEAST: Final = 1e-4
"""Distance from 0 and 1 that a reflectance is given, so that it can be bent."""


def bent_to(light: Tristimulus, spectrum: FloatArray, lab: FloatArray) -> FloatArray | None:
    """The spectrum with a constant, a slope and a bend added to logit R, so that it has the Lab.

    It is found by Newton's method on L*a*b*, each step as far as it comes nearer.

    Args:
        light: from spectra to Lab.
        spectrum: reflectance, 0 to 1, (wavelengths,).
        lab: L*a*b* under that light, (3,).

    Returns:
        Reflectance, 0 to 1, (wavelengths,); None where no such spectrum has this colour.
    """
    inside = np.clip(spectrum, LEAST, 1.0 - LEAST)
    place = np.linspace(-1.0, 1.0, len(inside))
    basis = np.stack([np.ones_like(place), place, 1.5 * place**2 - 0.5])
    along = np.zeros(3)
    start = np.log(inside / (1.0 - inside))

    def bent(by: FloatArray) -> FloatArray:
        return np.asarray(1.0 / (1.0 + np.exp(-start - by @ basis)))

    now = bent(along)
    away = lab - light.lab(now)
    for _ in range(ROUNDS):
        if np.abs(away).max() < NEAR:
            return now
        slopes = light.lab_slopes(now) @ (basis * now * (1.0 - now)).T
        step = np.linalg.lstsq(slopes, away, rcond=None)[0]
        step /= max(1.0, float(np.abs(step).max()))
        for _ in range(HALVINGS):
            nearer = lab - light.lab(bent(along + step))
            if np.sum(nearer**2) < np.sum(away**2):
                break
            step = step / 2.0
        else:
            return None
        along, away = along + step, nearer
        now = bent(along)
    return None

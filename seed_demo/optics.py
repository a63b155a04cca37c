"""How the demo's reflectances are computed: a watercolour's K and S, a film on paper, a surface."""
# ruff: noqa: N803, N806 - K, S, X and R keep the case they have in the papers

import csv
from pathlib import Path
from typing import Final

import numpy as np
from numpy.typing import NDArray

from seed_demo.plan_paints import FILM, Film
from studio.colour.lab import Lab
from studio.colour.reflectance import Reflectance
from studio.colour.science import reflectance_to_lab
from studio.mixing.film import film_reflectance
from studio.mixing.surface import internal_from_measured, measured_from_internal

FloatArray = NDArray[np.float64]

START: Final = 380
STEP: Final = 10
WAVELENGTHS: Final = np.arange(START, 731, STEP)

THICKNESS: Final = 6.0
"""Thickness of one layer of undiluted paint, in the unit that Okumura's K refers to; with it a 1:1
wash of ultramarine on white paper has L* 42."""

K1: Final = 0.04
K2: Final = 0.6
"""Saunderson's surface reflections for a refractive index of 1.5. The surface term is included:
matte paint sends it in all directions, so that a 45/0 instrument sees it."""

LOAD: Final = {"graded wash": 0.8, "wet in wet": 0.85}
"""Share of the film that stays at the place read, where the application thins it."""

COVER: Final = {"dry brush": 0.65, "spatter": 0.4}
"""Share of the area read that paint covers; the rest is bare paper."""

_TINTS_BLIND_BELOW: Final = 410
_MIDDLE: Final = 555.0
_HALF_WIDTH: Final = 175.0
_S_AT: Final = 550.0


def paper_white(long_wave: float, loss: float, reach: float) -> FloatArray:
    """Reflectance of unbrightened cellulose: a plateau that falls off exponentially to the violet.

    Args:
        long_wave: reflectance at long wavelengths, 0 to 1.
        loss: what is missing of it at 380 nm.
        reach: wavelength distance in nm over which the loss falls to 1/e.
    """
    return np.asarray(np.round(long_wave - loss * np.exp((START - WAVELENGTHS) / reach), 4))


def coefficients(path: Path) -> dict[str, tuple[FloatArray, FloatArray]]:
    """K and S of each of the demo's paints, by its code, on the demo's wavelengths.

    Args:
        path: the table of Okumura (2005).
    """
    published = published_absorption(path)
    return {code: watercolour(published[film.published], film) for code, film in FILM.items()}


def published_absorption(path: Path) -> dict[str, FloatArray]:
    """K by paint from the table of Okumura (2005), relative to S = 1 of titanium white.

    The table rests on tints with titanium white, which absorbs below 410 nm and so leaves the
    scale of K and S undetermined there: S is held at its 410 nm value, K/S kept as published.
    """
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(line for line in file if not line.startswith("#")))
    table = {
        (row["paint"], row["coef"]): np.array([float(row[str(nm)]) for nm in WAVELENGTHS])
        for row in rows
    }
    blind = WAVELENGTHS < _TINTS_BLIND_BELOW
    found = {}
    for paint in dict.fromkeys(row["paint"] for row in rows):
        K, S = table[paint, "K"], table[paint, "S"]
        found[paint] = np.where(blind, K / S * S[~blind][0], K)
    return found


def watercolour(K: FloatArray, film: Film) -> tuple[FloatArray, FloatArray]:
    """K and S of a watercolour whose pigment has the absorption `K` in an acrylic medium.

    The S that the published table gives a strong pigment is small beside its white's and follows
    its K: tints with white leave it undetermined. A wash dries to pigment with little binder and
    much air and scatters more, fine grains the blue more than the red; so S is one of its own here.
    K is bent by a smooth factor, since at the ends of the range its scale rests on little light.

    Args:
        K: absorption of the acrylic paint, on the demo's wavelengths.
        film: what makes a watercolour of it.
    """
    u = (WAVELENGTHS - _MIDDLE) / _HALF_WIDTH
    bent = clumped(K * np.exp(sum(factor * u**n for n, factor in enumerate(film.bend, start=1))),
                   film.clumping)  # fmt: skip
    absorption = film.strength * (bent + film.grey * bent.max())
    scattering = film.scattering * (WAVELENGTHS / _S_AT) ** -film.fineness
    return np.asarray(absorption), np.asarray(scattering)


def clumped(K: FloatArray, density: float) -> FloatArray:
    """K of pigment whose grains lie in clumps, flatter than that of grains apart.

    What lies behind the first grains of a clump sees only the light that they let through, so K
    grows as 1 - exp(-density * K / max K); its greatest value stays.

    Args:
        K: absorption of the grains apart.
        density: absorbance (natural) of a clump where K is greatest; 0 for grains apart.

    Source: L. N. M. Duysens, "The flattening of the absorption spectrum of suspensions, as compared
    to that of solutions", Biochim. Biophys. Acta 19 (1956) 1.
    """
    if density == 0.0:
        return K
    highest = K.max()
    return np.asarray(highest * np.expm1(-density * K / highest) / np.expm1(-density))


def dry_reflectance(
    K: FloatArray, S: FloatArray, paper: FloatArray, *, X: float, application: str
) -> FloatArray:
    """Measured reflectance of a dry swatch.

    Args:
        K: absorption of the mix, on the demo's wavelengths.
        S: scattering of the mix, likewise.
        paper: measured reflectance of the paper, 0 to 1, likewise.
        X: thickness of the laid film, from `thickness`.
        application: a key of `LOAD` or `COVER`, or one that leaves a full film.
    """
    ground = internal_from_measured(paper, K1, K2)
    film = film_reflectance(K, S, X * LOAD.get(application, 1.0), ground)
    covered = COVER.get(application, 1.0)
    return np.asarray(covered * measured_from_internal(film, K1, K2) + (1.0 - covered) * paper)


def thickness(water: float, layers: int) -> float:
    """Thickness of a film of `layers` layers with `water` parts of water to one of paint."""
    return THICKNESS * layers / (1.0 + water)


def wet_reflectance(dry: FloatArray, rise: float) -> FloatArray:
    """The reflectance from which `dry` rose while it dried.

    A power of the dry reflectance, with the exponent that lowers L* (D50, 2 degrees) by the rise:
    like a deeper film it darkens the absorbing bands most, so chroma rises too, and it stays
    within 0 to 1.

    Args:
        dry: measured reflectance, 0 to 1, on the demo's wavelengths.
        rise: of L* from wet to dry, above 0.
    """
    goal = lab(dry).lightness - rise
    low, high = 1.0, 4.0
    for _ in range(40):
        middle = (low + high) / 2.0
        low, high = (middle, high) if lab(dry**middle).lightness > goal else (low, middle)
    return np.asarray(dry**high)


def lab(reflectance: FloatArray, illuminant: str = "D50", observer: int = 2) -> Lab:
    """Lab of a reflectance on the demo's wavelengths, ASTM E308."""
    values = tuple(map(float, reflectance))
    return reflectance_to_lab(Reflectance(START, STEP, values), illuminant, observer)

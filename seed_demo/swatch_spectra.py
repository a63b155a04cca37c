"""Dry reflectance of the demo's swatches, for files that name them."""

from pathlib import Path
from typing import Final

import numpy as np

from seed_demo import optics
from seed_demo.optics import FloatArray
from seed_demo.plan_mixes import MIXES, parts
from seed_demo.plan_paints import PAPER_WHITE
from seed_demo.plan_swatches import swatches
from studio.mixing.film import mix_coefficients

COEFFICIENTS: Final = (
    Path(__file__).resolve().parents[1] / "shared" / "okumura2005_k_s_27_acrylics.csv"
)


def paper(code: str) -> FloatArray:
    """Reflectance of a paper's white."""
    return optics.paper_white(*PAPER_WHITE[code])


def swatch(code: str) -> FloatArray:
    """Reflectance of a swatch, dry, such as S74."""
    made = next(each for each in swatches() if f"S{each.number}" == code)
    recipe = next(mix["recipe"] for mix in MIXES if mix["code"] == made.mix)
    return film(recipe, made.water, made.paper, made.layers, made.application)


def film(
    recipe: str, water: float, on: str = "ECP", layers: int = 1, application: str = "flat wash"
) -> FloatArray:
    """Reflectance of a recipe of the demo's paints laid on one of its papers, dry.

    Args:
        recipe: such as `2 FU + 1 BS`.
        water: parts to one part of paint.
        on: code of the paper.
        layers: how many, each dry before the next.
        application: as in `optics.dry_reflectance`.
    """
    paints = optics.coefficients(COEFFICIENTS)
    used = parts(recipe)
    absorption, scattering = mix_coefficients(
        list(used.values()),
        np.array([paints[code][0] for code in used]),
        np.array([paints[code][1] for code in used]),
    )
    thickness = optics.thickness(water, layers)
    return optics.dry_reflectance(
        absorption, scattering, paper(on), X=thickness, application=application
    )

"""A Lab carried to another white: Bradford, white stays white, and nothing is moved for nothing."""

import math
from itertools import product
from typing import Final

import colour
import numpy as np
import pytest

from studio.colour.difference import Triple
from studio.colour.lab import ILLUMINANTS, OBSERVERS, Lab
from studio.colour.science import adapted, white_point

WHITES: Final = list(product(ILLUMINANTS, OBSERVERS))

E308_WHITES: Final = {
    ("A", 2): (109.850, 100, 35.585),
    ("A", 10): (111.144, 100, 35.200),
    ("C", 2): (98.074, 100, 118.232),
    ("C", 10): (97.285, 100, 116.145),
    ("D50", 2): (96.422, 100, 82.521),
    ("D50", 10): (96.720, 100, 81.427),
    ("D55", 2): (95.682, 100, 92.149),
    ("D55", 10): (95.799, 100, 90.926),
    ("D65", 2): (95.047, 100, 108.883),
    ("D65", 10): (94.811, 100, 107.304),
    ("D75", 2): (94.972, 100, 122.638),
    ("D75", 10): (94.416, 100, 120.641),
    ("E", 2): (100, 100, 100),
    ("E", 10): (100, 100, 100),
    ("FL2", 2): (99.186, 100, 67.393),
    ("FL2", 10): (103.279, 100, 69.027),
    ("FL7", 2): (95.041, 100, 108.747),
    ("FL7", 10): (95.792, 100, 107.686),
    ("FL11", 2): (100.962, 100, 64.350),
    ("FL11", 10): (103.863, 100, 65.607),
}
"""XYZ of the whites as ASTM E308, Table 5, gives them (from memory)."""

OBSERVER_NAMES: Final = {
    2: "CIE 1931 2 Degree Standard Observer",
    10: "CIE 1964 10 Degree Standard Observer",
}

LINDBLOOM: Final = np.array(
    [
        [1.0478112, 0.0228866, -0.0501270],
        [0.0295424, 0.9904844, -0.0170491],
        [-0.0092345, 0.0150436, 0.7521316],
    ]
)
"""Bradford D65 -> D50 as B. Lindbloom, brucelindbloom.com, prints it (from memory)."""


def _anywhere(count: int) -> list[Triple]:
    rng = np.random.default_rng(13)
    rows = rng.uniform((10, -40, -40), (85, 40, 40), (count, 3))
    return [(float(lightness), float(a), float(b)) for lightness, a, b in rows]


@pytest.mark.parametrize("white", E308_WHITES)
def test_whites_have_the_published_xyz(white: tuple[str, int]) -> None:
    xyz = tuple(100 * value for value in white_point(*white))
    # Computed from the chromaticity that CIE 15 prints to four or five decimals.
    assert xyz == pytest.approx(E308_WHITES[white], abs=0.1)


@pytest.mark.parametrize("white", WHITES)
def test_every_white_has_the_chromaticity_of_its_published_spectrum(
    white: tuple[str, int],
) -> None:
    illuminant, observer = white
    spectrum = colour.SDS_ILLUMINANTS[illuminant]
    shape = colour.SpectralShape(380, 780, 5)
    power = spectrum.copy().align(shape).values
    functions = colour.MSDS_CMFS[OBSERVER_NAMES[observer]].copy().align(shape).values
    xyz = power @ functions
    found = np.array(white_point(*white))
    # CIE 15 prints chromaticities and spectra in tables of their own, to four decimals.
    assert (found / found.sum())[:2] == pytest.approx((xyz / xyz.sum())[:2], abs=3e-4)
    assert found[1] == 1.0


@pytest.mark.parametrize("white", WHITES)
def test_white_stays_white_black_black_and_grey_grey(white: tuple[str, int]) -> None:
    for lightness in (100.0, 50.0, 3.0, 0.0):
        moved = adapted(Lab(lightness, 0, 0, *white))
        assert moved.is_standard
        assert moved.coordinates == pytest.approx((lightness, 0, 0), abs=1e-6)


@pytest.mark.parametrize("white", WHITES)
def test_a_colour_already_under_the_wanted_white_is_not_touched(white: tuple[str, int]) -> None:
    lab = Lab(61.7, 12.3, -45.6, *white)
    assert adapted(lab, *white) is lab


@pytest.mark.parametrize("white", [white for white in WHITES if white != ("D50", 2)])
def test_it_is_the_bradford_transform_of_colour_science(white: tuple[str, int]) -> None:
    here, d50 = np.array(white_point(*white)), np.array(white_point("D50", 2))
    for coordinates in _anywhere(20):
        xyz = colour.Lab_to_XYZ(coordinates, colour.XYZ_to_xy(here))
        moved = colour.chromatic_adaptation(
            xyz, here, d50, method="Von Kries", transform="Bradford"
        )
        expected = colour.XYZ_to_Lab(moved, colour.XYZ_to_xy(d50))
        assert adapted(Lab(*coordinates, *white)).coordinates == pytest.approx(
            tuple(map(float, expected)), abs=1e-9
        )


def test_from_d65_it_is_the_published_bradford_matrix() -> None:
    d65, d50 = np.array([0.31271, 0.32902]), np.array([0.34567, 0.35850])
    for coordinates in _anywhere(50):
        xyz = LINDBLOOM @ colour.Lab_to_XYZ(coordinates, d65)
        expected = tuple(map(float, colour.XYZ_to_Lab(xyz, d50)))
        assert adapted(Lab(*coordinates, "D65")).coordinates == pytest.approx(expected, abs=0.05)


@pytest.mark.parametrize("white", [("D65", 10), ("A", 2), ("C", 2)])
def test_there_and_back_is_the_same_colour(white: tuple[str, int]) -> None:
    for coordinates in _anywhere(20):
        there = adapted(Lab(*coordinates), *white)
        assert there.white == white
        assert adapted(there).coordinates == pytest.approx(coordinates, abs=1e-6)


def test_the_coordinates_move_with_the_white() -> None:
    assert math.dist(adapted(Lab(50.0, 20.0, 30.0, "A")).coordinates, (50.0, 20.0, 30.0)) > 1.0


@pytest.mark.parametrize(
    "lab", [Lab(100, 10, 0, "D65", 10), Lab(97, 190, 10, "A", 2)], ids=["above white", "too vivid"]
)
def test_a_colour_that_leaves_the_range_is_refused(lab: Lab) -> None:
    with pytest.raises(ValueError, match=r"outside|run from -200 to 200"):
        adapted(lab)

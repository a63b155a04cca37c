"""Munsell notations: value is lightness, chroma is chroma, and hues stand in Munsell's order."""

import math
from itertools import pairwise
from typing import Final

import colour
import numpy as np
import pytest

from studio.colour.science import adapted, munsell_to_lab, white_point

HUES: Final = ("R", "YR", "Y", "GY", "G", "BG", "B", "PB", "P", "RP")


def _luminance(value: float) -> float:
    """Y of a Munsell value, white 100: polynomial of ASTM D1535 (from memory)."""
    return (
        1.1914 * value
        - 0.22533 * value**2
        + 0.23352 * value**3
        - 0.020484 * value**4
        + 0.00081939 * value**5
    )


@pytest.mark.parametrize(
    ("value", "luminance"),
    [(1, 1.18), (2, 3.05), (3, 6.39), (4, 11.70), (5, 19.27), (6, 29.30), (7, 42.00), (8, 57.62),
     (9, 76.70), (10, 100.0)],
)  # fmt: skip
def test_a_neutral_has_the_luminance_of_its_value(value: int, luminance: float) -> None:
    # ASTM D1535, table of Munsell value and luminous reflectance, from memory.
    assert _luminance(value) == pytest.approx(luminance, abs=0.03)
    lab = munsell_to_lab(f"N{value}/")
    assert 100 * ((lab.lightness + 16) / 116) ** 3 == pytest.approx(luminance, abs=0.03)
    assert lab.chroma < 1e-6
    assert lab.is_standard


@pytest.mark.parametrize("value", [0.5, 2.5, 4, 6.3, 8, 9.5])
def test_value_is_about_a_tenth_of_lightness(value: float) -> None:
    # Common practice, no source.
    assert munsell_to_lab(f"N{value:g}/").lightness / 10 == pytest.approx(value, abs=0.15)


def test_the_ends_of_the_value_scale_are_black_and_white() -> None:
    assert munsell_to_lab("N0/").coordinates == pytest.approx((0, 0, 0), abs=1e-6)
    assert munsell_to_lab("N10/").coordinates == pytest.approx((100, 0, 0), abs=1e-6)


def test_no_chroma_is_neutral_whatever_the_hue() -> None:
    neutral = munsell_to_lab("N6/").coordinates
    assert munsell_to_lab("5G 6/0").coordinates == pytest.approx(neutral, abs=1e-6)


def test_hues_follow_each_other_round_the_circle_in_munsells_order() -> None:
    hues = [munsell_to_lab(f"5{family} 5/6").hue for family in HUES]
    steps = [(after - before) % 360 for before, after in pairwise([*hues, hues[0]])]
    assert sum(steps) == pytest.approx(360)
    assert all(10 < step < 80 for step in steps), steps


@pytest.mark.parametrize("family", HUES)
def test_more_chroma_is_more_chroma_at_the_same_lightness(family: str) -> None:
    labs = [munsell_to_lab(f"5{family} 5/{chroma}") for chroma in (1, 2, 4, 6)]
    assert [lab.chroma for lab in labs] == sorted(lab.chroma for lab in labs)
    assert labs[3].chroma > 4 * labs[0].chroma
    assert max(lab.lightness for lab in labs) - min(lab.lightness for lab in labs) < 2


def test_colours_of_the_renotation_have_its_chromaticity() -> None:
    # Newhall, Nickerson, Judd (1943), the measured colours as colour-science carries them.
    rows = colour.MUNSELL_COLOURS["Munsell Colours Real"]
    white = np.array(white_point("C", 2))
    for (hue, value, chroma), (x, y, _) in rows[::67]:
        lab = munsell_to_lab(f"{hue} {value:g}/{chroma:g}")
        back = colour.Lab_to_XYZ(adapted(lab, "C", 2).coordinates, colour.XYZ_to_xy(white))
        found = colour.XYZ_to_xyY(back)
        assert found[:2] == pytest.approx([x, y], abs=2e-4), (hue, value, chroma)
        assert 100 * found[2] == pytest.approx(_luminance(value), abs=0.05)


def test_between_the_renotation_it_is_colour_science_carried_to_d50() -> None:
    for notation in ("3.7YR 5.3/4.4", "8.1PB 3.9/6.7", "1.2G 7.7/3.1"):
        xyz = colour.xyY_to_XYZ(colour.munsell_colour_to_xyY(notation))
        moved = colour.chromatic_adaptation(
            xyz,
            np.array(white_point("C", 2)),
            np.array(white_point("D50", 2)),
            method="Von Kries",
            transform="Bradford",
        )
        expected = colour.XYZ_to_Lab(moved, colour.XYZ_to_xy(np.array(white_point("D50", 2))))
        lab = munsell_to_lab(notation).coordinates
        assert math.dist(lab, tuple(map(float, expected))) < 1e-6


@pytest.mark.parametrize(
    "notation",
    ["N11/", "5R 5/50", "5R 0/4", "5R 10/4", "11R 5/4", "5R 0.5/2", "7.5GY 9/25.8", "tan", ""],
)
def test_what_lies_outside_the_renotation_is_refused(notation: str) -> None:
    with pytest.raises(ValueError, match=r"outside the Munsell renotation data|-200 to 200"):
        munsell_to_lab(notation)

"""sRGB and Lab lead to each other, and agree with CSS Color 4 and with colour-science."""

import colour
import numpy as np
import pytest
from coloraide import Color
from hypothesis import given
from hypothesis import strategies as st

from studio.colour.difference import Triple
from studio.colour.srgb import D50_WHITE, lab_to_srgb, srgb_to_lab

channels = st.floats(0.0, 1.0)


@given(st.tuples(channels, channels, channels))
def test_there_and_back_is_the_same_colour(rgb: Triple) -> None:
    assert lab_to_srgb(srgb_to_lab(rgb)) == pytest.approx(rgb, abs=1e-6)


@given(st.tuples(channels, channels, channels))
def test_both_ways_agree_with_coloraide(rgb: Triple) -> None:
    lab = Color("srgb", rgb).convert("lab").coords()
    assert srgb_to_lab(rgb) == pytest.approx(tuple(lab), abs=1e-8)
    assert lab_to_srgb((lab[0], lab[1], lab[2])) == pytest.approx(rgb, abs=1e-6)


@given(st.floats(0.0, 100.0), st.floats(-128.0, 128.0), st.floats(-128.0, 128.0))
def test_colours_outside_the_screen_agree_with_coloraide_unclipped(
    lightness: float, a: float, b: float
) -> None:
    theirs = Color("lab", [lightness, a, b]).convert("srgb").coords()
    assert lab_to_srgb((lightness, a, b)) == pytest.approx(tuple(theirs), abs=1e-6)


def test_lab_of_srgb_agrees_with_colour_science_and_its_exact_matrix() -> None:
    space = colour.RGB_COLOURSPACES["sRGB"].copy()
    space.use_derived_transformation_matrices(usage=True)
    rgb = np.random.default_rng(4).uniform(0, 1, (2000, 3))
    d50, d65 = np.array([0.3457, 0.3585]), np.array([0.3127, 0.3290])
    xyz = colour.chromatic_adaptation(
        colour.RGB_to_XYZ(rgb, space, apply_cctf_decoding=True),
        colour.xy_to_XYZ(d65),
        colour.xy_to_XYZ(d50),
        method="Von Kries",
        transform="Bradford",
    )
    ours = [srgb_to_lab((float(r), float(g), float(b))) for r, g, b in rgb]
    np.testing.assert_allclose(ours, colour.XYZ_to_Lab(xyz, d50), rtol=0, atol=1e-5)


@pytest.mark.parametrize("level", [0.0, 0.01, 0.2, 0.5, 0.9, 1.0])
def test_equal_channels_are_neutral(level: float) -> None:
    lightness, a, b = srgb_to_lab((level, level, level))
    assert abs(a) < 1e-9
    assert abs(b) < 1e-9
    assert 0.0 <= lightness <= 100.0 + 1e-9


def test_the_white_is_d50() -> None:
    # CIE 15 and CSS Color 4, from memory: D50 for 2 degrees is x 0.3457, y 0.3585.
    total = sum(D50_WHITE)
    assert D50_WHITE[0] / total == pytest.approx(0.3457)
    assert D50_WHITE[1] / total == pytest.approx(0.3585)
    assert srgb_to_lab((1.0, 1.0, 1.0))[0] == pytest.approx(100.0, abs=1e-9)

"""Lightness, chroma and hue differences add up, and their signs say which way."""

import math
from typing import Final

import colour
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.colour.difference import Components, Triple, cie76, components

axes = st.floats(-128.0, 128.0)
colours = st.tuples(st.floats(0.0, 100.0), axes, axes)

RED: Final = (50.0, 40.0, 0.0)
YELLOW: Final = (50.0, 0.0, 40.0)
GREEN: Final = (50.0, -40.0, 0.0)
BLUE: Final = (50.0, 0.0, -40.0)


@given(colours, colours)
def test_the_squares_add_up_to_that_of_cie76(reference: Triple, sample: Triple) -> None:
    # ΔE*ab² = ΔL*² + ΔC*ab² + ΔH*ab²: CIE 15.
    found = components(reference, sample)
    total = found.lightness**2 + found.chroma**2 + found.hue**2
    assert total == pytest.approx(cie76(reference, sample) ** 2, abs=1e-8)


@pytest.mark.parametrize(
    ("reference", "sample"), [(RED, YELLOW), (YELLOW, GREEN), (GREEN, BLUE), (BLUE, RED)]
)
def test_hue_is_positive_from_red_to_yellow_to_green_to_blue_to_red(
    reference: Triple, sample: Triple
) -> None:
    quarter_turn = 2 * 40 * math.sin(math.radians(45))
    assert components(reference, sample).hue == pytest.approx(quarter_turn)
    assert components(sample, reference).hue == pytest.approx(-quarter_turn)


def test_a_lighter_and_more_intense_sample_has_positive_differences() -> None:
    found = components((40.0, 3.0, 4.0), (45.5, 6.0, 8.0))
    assert found.lightness == 5.5
    assert found.chroma == pytest.approx(5.0)
    assert found.hue == pytest.approx(0.0, abs=1e-6)


def test_a_neutral_has_no_hue_to_differ_by() -> None:
    assert components((50.0, 0.0, 0.0), (50.0, 10.0, -20.0)).hue == 0.0
    assert components((50.0, 0.0, 0.0), (50.0, 0.0, 0.0)) == Components(0.0, 0.0, 0.0)


def test_opposite_hues_differ_by_the_sum_of_their_chromas() -> None:
    assert abs(components((50.0, 30.0, 0.0), (50.0, -30.0, 0.0)).hue) == pytest.approx(60.0)


@given(colours, colours)
def test_swapping_the_colours_turns_every_sign(reference: Triple, sample: Triple) -> None:
    there, back = components(reference, sample), components(sample, reference)
    assert there.lightness == -back.lightness
    assert there.chroma == -back.chroma
    assert abs(there.hue) == pytest.approx(abs(back.hue), abs=1e-9)
    assert there.hue * back.hue <= 0.0 or reference[1] * sample[2] == reference[2] * sample[1]


def test_they_equal_those_from_the_polar_coordinates_of_colour_science() -> None:
    rng = np.random.default_rng(15)
    low, high = (0.0, -128.0, -128.0), (100.0, 128.0, 128.0)
    first, second = rng.uniform(low, high, (3000, 3)), rng.uniform(low, high, (3000, 3))
    l1, c1, h1 = colour.models.Jab_to_JCh(first).T
    l2, c2, h2 = colour.models.Jab_to_JCh(second).T
    # ΔH*ab = 2·√(C*1·C*2)·sin(Δh/2), Δh taken the shorter way round: CIE 15.
    turn = (h2 - h1 + 180.0) % 360.0 - 180.0
    hue = 2 * np.sqrt(c1 * c2) * np.sin(np.radians(turn) / 2)
    found = [components(tuple(one), tuple(other)) for one, other in zip(first, second, strict=True)]
    np.testing.assert_allclose([each.lightness for each in found], l2 - l1, atol=1e-9)
    np.testing.assert_allclose([each.chroma for each in found], c2 - c1, atol=1e-9)
    np.testing.assert_allclose([each.hue for each in found], hue, atol=1e-5)

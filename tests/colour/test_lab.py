"""A Lab colour cannot be built impossible, and carries its white."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.colour.lab import ILLUMINANTS, OBSERVERS, Lab

axes = st.floats(-200.0, 200.0)


@given(st.floats(0.0, 100.0), axes, axes)
def test_chroma_and_hue_lead_back_to_a_and_b(lightness: float, a: float, b: float) -> None:
    lab = Lab(lightness, a, b)
    assert lab.coordinates == (lightness, a, b)
    angle = math.radians(lab.hue)
    assert lab.chroma * math.cos(angle) == pytest.approx(a, abs=1e-9)
    assert lab.chroma * math.sin(angle) == pytest.approx(b, abs=1e-9)


@given(axes, axes)
def test_a_hue_is_at_least_0_and_below_360(a: float, b: float) -> None:
    assert 0.0 <= Lab(50.0, a, b).hue < 360.0


@pytest.mark.parametrize(
    ("a", "b", "hue"), [(9, 0, 0), (0, 9, 90), (-9, 0, 180), (0, -9, 270), (0, 0, 0), (9, -9, 315)]
)
def test_hues_go_from_red_by_yellow_and_green_to_blue(a: float, b: float, hue: float) -> None:
    assert Lab(50.0, a, b).hue == pytest.approx(hue)


def test_a_hue_just_below_red_is_not_a_full_turn() -> None:
    assert Lab(50.0, 10.0, -1e-18).hue == 0.0


@pytest.mark.parametrize("bad", [math.nan, math.inf, -math.inf])
@pytest.mark.parametrize("place", [0, 1, 2])
def test_every_coordinate_must_be_finite(bad: float, place: int) -> None:
    lightness, a, b = (bad if each == place else 10.0 for each in range(3))
    with pytest.raises(ValueError, match="three finite numbers"):
        Lab(lightness, a, b)


@pytest.mark.parametrize("lightness", [-0.001, 100.001, 120.0, -50.0])
def test_lightness_stays_within_0_and_100(lightness: float) -> None:
    with pytest.raises(ValueError, match="runs from 0 to 100"):
        Lab(lightness, 0.0, 0.0)


@pytest.mark.parametrize(("a", "b"), [(200.1, 0.0), (-200.1, 0.0), (0.0, 200.1), (0.0, -200.1)])
def test_a_and_b_stay_within_200(a: float, b: float) -> None:
    with pytest.raises(ValueError, match="run from -200 to 200"):
        Lab(50.0, a, b)


def test_the_limits_themselves_are_allowed() -> None:
    assert Lab(0.0, 200.0, -200.0).coordinates == (0.0, 200.0, -200.0)
    assert Lab(100.0, -200.0, 200.0).lightness == 100.0


@pytest.mark.parametrize("illuminant", ["", "d50", "D51", "F2", "daylight"])
def test_an_unknown_illuminant_is_refused_with_the_known_ones(illuminant: str) -> None:
    with pytest.raises(ValueError, match="is not one of CIE 15, such as A, C, D50, D65, E, FL2"):
        Lab(50.0, 0.0, 0.0, illuminant)


@pytest.mark.parametrize("observer", [0, 1, 4, 20])
def test_an_unknown_observer_is_refused(observer: int) -> None:
    with pytest.raises(ValueError, match="2 or 10 degrees"):
        Lab(50.0, 0.0, 0.0, "D50", observer)


@pytest.mark.parametrize("illuminant", ILLUMINANTS)
@pytest.mark.parametrize("observer", OBSERVERS)
def test_only_d50_and_2_degrees_are_the_studios_own_white(illuminant: str, observer: int) -> None:
    lab = Lab(50.0, 1.0, 2.0, illuminant, observer)
    assert lab.white == (illuminant, observer)
    assert lab.is_standard == (illuminant == "D50" and observer == 2)


def test_a_colour_is_of_the_studios_own_white_unless_told_otherwise() -> None:
    assert Lab(50.0, 1.0, 2.0).is_standard


def test_equal_coordinates_under_another_white_are_another_colour() -> None:
    assert Lab(50.0, 1.0, 2.0) != Lab(50.0, 1.0, 2.0, "D65")

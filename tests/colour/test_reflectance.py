"""A spectrum cannot be built impossible, and knows its wavelengths."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.colour.reflectance import Reflectance

GREY = (0.5,) * 31


def test_each_value_has_its_wavelength() -> None:
    spectrum = Reflectance(380.0, 10.0, (0.5,) * 36)
    assert spectrum.end == 730.0
    assert spectrum.wavelengths[:3] == (380.0, 390.0, 400.0)
    assert spectrum.wavelengths[-1] == 730.0
    assert len(spectrum.wavelengths) == len(spectrum.values)


@given(st.integers(200, 400), st.floats(0.5, 20.0), st.integers(2, 900))
def test_a_spectrum_is_kept_where_it_reaches_from_400_to_680_and_refused_elsewhere(
    start: int, step: float, count: int
) -> None:
    values = (0.25,) * count
    if start + step * (count - 1) >= 680.0:
        assert Reflectance(start, step, values).end == start + step * (count - 1)
    else:
        with pytest.raises(ValueError, match="must cover 400 to 680 nm"):
            Reflectance(start, step, values)


@pytest.mark.parametrize("values", [(), (0.5,), (0.5,) * 28])
def test_too_few_values_do_not_cover_the_visible(values: tuple[float, ...]) -> None:
    with pytest.raises(ValueError, match="must cover 400 to 680 nm"):
        Reflectance(400.0, 10.0, values)


def test_a_late_start_does_not_cover_the_visible() -> None:
    with pytest.raises(ValueError, match="this one runs from 410 to 710"):
        Reflectance(410.0, 10.0, GREY)


@pytest.mark.parametrize("start", [199.9, 1000.1, -400.0, math.nan, math.inf])
def test_a_start_outside_200_to_1000_is_refused(start: float) -> None:
    with pytest.raises(ValueError, match="starts between 200 and 1000 nm"):
        Reflectance(start, 10.0, GREY)


@pytest.mark.parametrize("step", [0.0, -10.0, 20.1, math.nan, math.inf])
def test_a_step_that_is_not_above_0_and_at_most_20_is_refused(step: float) -> None:
    with pytest.raises(ValueError, match="above 0 and at most 20 nm"):
        Reflectance(400.0, step, GREY)


@pytest.mark.parametrize("value", [-0.001, math.nan, math.inf, -math.inf])
def test_an_impossible_value_is_named_by_its_wavelength(value: float) -> None:
    with pytest.raises(ValueError, match="reflectance at 420 nm"):
        Reflectance(400.0, 10.0, (0.5, 0.5, value, *GREY))


@pytest.mark.parametrize("value", [3.0, 3.001, 85.0])
def test_percent_are_refused(value: float) -> None:
    with pytest.raises(ValueError, match="not percent"):
        Reflectance(400.0, 10.0, (value, *GREY))


def test_a_brightened_paper_may_exceed_1() -> None:
    # Common practice, no source: optical brighteners lift blue reflectance above 1.
    assert max(Reflectance(400.0, 10.0, (1.5, *GREY)).values) == 1.5


def test_a_fluorescent_paint_may_exceed_1_by_more() -> None:
    # ISO 17972-1 (CxF3) lets reflectance factors run up to below 3.
    assert max(Reflectance(400.0, 10.0, (2.999, *GREY)).values) == 2.999

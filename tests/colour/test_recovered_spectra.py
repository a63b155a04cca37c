"""Spectra brought to other wavelengths, and spectra estimated from a colour."""

import numpy as np
import pytest

from studio.colour.lab import Lab
from studio.colour.reflectance import Reflectance
from studio.colour.science import estimated_reflectance, resampled, tristimulus
from studio.colour.tristimulus import ciede2000

GRID = tuple(400.0 + 10.0 * step for step in range(31))


def _quartic(nm: float) -> float:
    x = (nm - 550.0) / 200.0
    return 0.5 + 0.1 * x - 0.2 * x**2 + 0.1 * x**3 + 0.05 * x**4


def _read(start: float, step: float, end: float) -> Reflectance:
    count = int((end - start) / step + 1.5)
    return Reflectance(start, step, tuple(_quartic(start + step * i) for i in range(count)))


def test_what_was_read_at_these_wavelengths_is_taken_as_it_is() -> None:
    read = Reflectance(380.0, 10.0, tuple(0.01 * i for i in range(36)))
    np.testing.assert_array_equal(resampled(read, GRID), np.array(read.values)[2:33])


@pytest.mark.parametrize(
    ("start", "step"), [(380.0, 20.0), (377.0, 7.0), (395.0, 5.0), (390.0, 3.3)]
)
def test_between_the_readings_a_smooth_curve_is_met(start: float, step: float) -> None:
    """Sprague's fifth-degree polynomials carry a quartic exactly, but near the ends."""
    found = resampled(_read(start, step, 745.0), GRID)
    np.testing.assert_allclose(found, [_quartic(nm) for nm in GRID], atol=2e-4)


def test_beyond_the_ends_the_nearest_reading_holds_and_nothing_falls_below_zero() -> None:
    read = Reflectance(400.0, 20.0, (0.0, 0.0, 0.0, 0.9, 0.0, *[0.0] * 9, 0.3))
    found = resampled(read, GRID)
    np.testing.assert_allclose(found[-3:], 0.3, atol=1e-12)
    assert found.min() == 0.0


LABS = [
    (41, 2, -12), (62, 12, 30), (50, 55, 35), (60, -45, 10), (35, 20, -50), (82, 5, 75),
    (96, -0.3, 3), (20, 1, 1), (88, -8, 12),
]  # fmt: skip


@pytest.mark.parametrize("lab", LABS)
def test_an_estimated_spectrum_has_the_colour_and_lies_between_none_and_all(
    lab: tuple[float, float, float],
) -> None:
    found = estimated_reflectance(Lab(*lab), GRID)
    assert found.shape == (31,)
    assert found.min() >= 0.0
    assert found.max() <= 1.0
    assert ciede2000(tristimulus(GRID).lab(found), lab) < 0.3


def test_a_colour_that_no_surface_has_gets_one_that_comes_near() -> None:
    found = estimated_reflectance(Lab(50, 80, -80), GRID)
    assert np.all((found >= 0.0) & (found <= 1.0))
    assert ciede2000(tristimulus(GRID).lab(found), (50, 80, -80)) < 3.0

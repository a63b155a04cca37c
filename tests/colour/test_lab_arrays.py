"""Lab of many colours at once is the Lab of each."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.colour.difference import ciede2000
from studio.colour.lab_arrays import delta_e, lab_to_roots, lab_to_xyz, roots_to_lab, xyz_to_lab
from studio.colour.srgb import D50_WHITE

TRIPLES = st.tuples(st.floats(0, 100), st.floats(-120, 120), st.floats(-120, 120))


@given(TRIPLES)
def test_lab_comes_back_from_xyz_and_from_its_roots(lab: tuple[float, float, float]) -> None:
    given_lab = np.array([lab])
    np.testing.assert_allclose(xyz_to_lab(lab_to_xyz(given_lab)), given_lab, atol=1e-9)
    np.testing.assert_allclose(roots_to_lab(lab_to_roots(given_lab)), given_lab, atol=1e-9)


def test_white_and_the_dark_line() -> None:
    np.testing.assert_allclose(xyz_to_lab(np.array(D50_WHITE)), (100, 0, 0), atol=1e-12)
    # CIE 15: L* = 903.3 Y/Yn below Y/Yn = 0.008856.
    assert xyz_to_lab(np.array(D50_WHITE) * 0.001)[0] == pytest.approx(0.9033, abs=1e-4)


def test_differences_are_those_of_each_pair() -> None:
    one, other = np.array([[50.0, 10, 20], [70, -5, 3]]), np.array([[52.0, 8, 25], [70, -5, 3]])
    expected = ciede2000((50, 10, 20), (52, 8, 25))
    np.testing.assert_allclose(delta_e(one, other), [expected, 0.0])

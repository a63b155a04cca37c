"""Corners onto a square and back."""

import numpy as np
import pytest
from hypothesis import given, reject
from hypothesis import strategies as st

from studio.errors import BadInput
from studio.picture.homography import UNIT_SQUARE, from_corners, homography

SHIFTS = st.lists(st.floats(-0.3, 0.3), min_size=8, max_size=8)
POINTS = st.lists(st.tuples(st.floats(0, 1), st.floats(0, 1)), min_size=1, max_size=9)


@given(SHIFTS, st.floats(20, 20_000), POINTS)
def test_points_come_back(
    shifts: list[float], size: float, points: list[tuple[float, float]]
) -> None:
    corners = size * (UNIT_SQUARE + np.array(shifts).reshape(4, 2))
    try:
        onto = from_corners(corners)
    except BadInput:
        reject()
    np.testing.assert_allclose(onto(UNIT_SQUARE), corners, atol=1e-6 * size)
    given_points = np.array(points)
    np.testing.assert_allclose(onto.inverse(onto(given_points)), given_points, atol=1e-6)


def test_straight_lines_stay_straight() -> None:
    onto = from_corners(np.array([[10.0, 20], [400, 60], [350, 300], [40, 250]]))
    a, b, c = onto(np.array([[0.1, 0.2], [0.4, 0.5], [0.9, 1.0]]))
    assert np.cross([*(b - a), 0], [*(c - a), 0])[2] == pytest.approx(0, abs=1e-6)


def test_more_than_four_points_are_fitted() -> None:
    onto = from_corners(np.array([[10.0, 20], [400, 60], [350, 300], [40, 250]]))
    rng = np.random.default_rng(1)
    points = rng.uniform(size=(24, 2))
    found = homography(points, onto(points) + rng.normal(0, 0.3, (24, 2)))
    np.testing.assert_allclose(found(UNIT_SQUARE), onto(UNIT_SQUARE), atol=1.5)


def test_anticlockwise_corners_are_turned_round() -> None:
    corners = np.array([[0.0, 0], [0, 30], [40, 30], [40, 0]])
    np.testing.assert_allclose(from_corners(corners)(np.array([[1.0, 0.0]])), [[40, 0]], atol=1e-9)


@pytest.mark.parametrize(
    "corners",
    [
        [[0, 0], [40, 30], [40, 0], [0, 30]],
        [[0, 0], [20, 0], [40, 0], [0, 30]],
        [[5, 5], [5, 5], [40, 30], [0, 30]],
    ],
)
def test_corners_that_enclose_nothing_are_refused(corners: list[list[int]]) -> None:
    with pytest.raises(BadInput, match="enclose no chart; give them in order around it"):
        from_corners(np.array(corners, dtype=float))

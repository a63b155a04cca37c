"""Spots of a picture: where they lie, and the one colour that stands for their pixels."""

import math
import re
from collections.abc import Callable
from random import Random

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from hypothesis.extra import numpy as arrays
from scipy.optimize import minimize

from studio.colour.difference import ciede2000
from studio.errors import BadInput
from studio.picture.grid import Grid, Rectangle
from studio.picture.spots import (
    Spot,
    colour_of_spot,
    geometric_median,
    spot_at,
    spot_of_area,
    spot_of_cell,
)

Floats = npt.NDArray[np.float64]

labs = arrays.arrays(
    np.float64,
    st.tuples(st.integers(1, 60), st.just(3)),
    elements=st.integers(0, 100).map(float),
)


def _box(spot: Spot) -> tuple[int, int, int, int]:
    return spot.left, spot.top, spot.width, spot.height


@pytest.mark.parametrize(
    ("text", "size", "box", "place"),
    [
        ("40%,40%", "10%", (290, 210, 60, 60), "at 40%,40%"),
        ("320,240", "10%", (290, 210, 60, 60), "at 320,240 px"),
        (" 320px , 240 px ", "60", (290, 210, 60, 60), "at 320,240 px"),
        ("40%,240", "60px", (290, 210, 60, 60), "at 40%,240"),
        ("0%,0%", "9", (0, 0, 5, 5), "at 0%,0%"),
        ("100%,100%", "9", (795, 595, 5, 5), "at 100%,100%"),
        ("799,599", "1", (798, 598, 2, 2), "at 799,599 px"),
        ("400,300", "1", (399, 299, 3, 3), "at 400,300 px"),
        ("400,300", "0.1%", (399, 299, 3, 3), "at 400,300 px"),
    ],
)
def test_a_point_is_a_square_around_it_cut_off_at_the_edges(
    text: str, size: str, box: tuple[int, int, int, int], place: str
) -> None:
    spot = spot_at(text, size, 800, 600)
    assert _box(spot) == box
    assert spot.place == place


@pytest.mark.parametrize(
    "text", ["100.1%,5%", "-1%,5%", "800,5", "5,600", "-1,5", "5%,101%", "999999999999,5"]
)
def test_a_point_outside_is_told_how_far_the_picture_runs(text: str) -> None:
    with pytest.raises(BadInput, match="in pixels from 0,0 to 799,599"):
        spot_at(text, "2%", 800, 600)


@pytest.mark.parametrize("text", ["", "40%", "1,2,3", "left,top", "nan,4", "1e3,4", "4;5", "4,,5"])
def test_a_point_that_is_not_two_numbers_is_refused(text: str) -> None:
    with pytest.raises(BadInput, match=r"the point .* is not clear; write it like 40%,62%"):
        spot_at(text, "2%", 800, 600)


@pytest.mark.parametrize("size", ["0", "0%", "-2%", "101%", "700", "1000px"])
def test_a_size_out_of_range_is_refused(size: str) -> None:
    with pytest.raises(BadInput, match=re.escape(f"(600 pixels, 100%), not {size}")):
        spot_at("5,5", size, 800, 600)


@given(
    st.integers(1, 900), st.integers(1, 900), st.floats(0, 100), st.floats(0, 100),
    st.floats(0.5, 100),
)  # fmt: skip
def test_every_point_of_a_picture_has_a_spot_inside_it(
    width: int, height: int, x: float, y: float, size: float
) -> None:
    spot = spot_at(f"{x:.4f}%,{y:.4f}%", f"{size:.3f}%", width, height)
    assert spot.left >= 0
    assert spot.top >= 0
    assert spot.left + spot.width <= width
    assert spot.top + spot.height <= height
    pixel = min(width - 1, int(x / 100 * width)), min(height - 1, int(y / 100 * height))
    assert spot.left - 1 <= pixel[0] <= spot.left + spot.width
    assert spot.top - 1 <= pixel[1] <= spot.top + spot.height
    assert min(spot.width, spot.height) >= 1


@pytest.mark.parametrize(
    ("text", "box"),
    [
        ("80,60,8,6", (80, 60, 8, 6)),
        ("10%,10%,1%,1%", (80, 60, 8, 6)),
        ("0,0,800,600", (0, 0, 800, 600)),
        ("0%,0%,100%,100%", (0, 0, 800, 600)),
        ("0,0,0.2,0.2", (0, 0, 1, 1)),
        ("50%,60,8,1%", (400, 60, 8, 6)),
    ],
)
def test_an_area_is_given_in_pixels_or_percent(text: str, box: tuple[int, int, int, int]) -> None:
    assert _box(spot_of_area(text, 800, 600)) == box


@pytest.mark.parametrize("text", ["1,1,0,5", "1,1,5,0", "1%,1%,0%,5%", "1,1,-3,5"])
def test_an_empty_area_is_refused(text: str) -> None:
    with pytest.raises(BadInput, match="is empty; give a width and a height above 0"):
        spot_of_area(text, 800, 600)


@pytest.mark.parametrize("text", ["-1,1,5,5", "1,-1,5,5", "790,1,20,5", "1,1,5,600", "60%,0,60%,9"])
def test_an_area_that_reaches_beyond_the_picture_is_refused(text: str) -> None:
    with pytest.raises(BadInput, match="reaches beyond the picture, which is 800 x 600 pixels"):
        spot_of_area(text, 800, 600)


def test_an_area_of_three_numbers_is_refused() -> None:
    with pytest.raises(BadInput, match=r"the area '1,2,3' is not clear"):
        spot_of_area("1,2,3", 800, 600)


def test_a_cell_is_the_pixels_of_the_grid() -> None:
    grid = Grid(Rectangle(100.0, 0.0, 600.0, 600.0))
    spot = spot_of_cell("b3 top left", grid)
    assert _box(spot) == (250, 300, 75, 75)
    assert spot.place == "cell B3 top left"
    assert spot.middle == (287.5, 337.5)


def test_a_cell_below_a_pixel_is_refused() -> None:
    with pytest.raises(BadInput, match="A1 top top top is smaller than a pixel"):
        spot_of_cell("A1 top top top", Grid(Rectangle(0.0, 0.0, 20.0, 20.0)))


def test_one_pixel_is_its_own_colour() -> None:
    found = colour_of_spot(np.array([[41.0, 2.0, -12.0]]))
    assert found.lab == (41.0, 2.0, -12.0)
    assert found.spread == 0.0
    assert not found.is_varied


def test_fewer_than_half_of_the_pixels_carry_no_median_away() -> None:
    mud = np.random.default_rng(1).normal((38.0, 3.0, 12.0), 0.5, (60, 3))
    glints = np.full((40, 3), (97.0, 0.0, 1.0))
    found = geometric_median(np.concatenate([mud, glints]))
    assert math.dist(found, (38.0, 3.0, 12.0)) < 1.5
    # The mean is nowhere near either.
    assert np.concatenate([mud, glints]).mean(axis=0)[0] > 60


@given(labs, st.randoms(use_true_random=False))
def test_the_order_of_the_pixels_does_not_matter(pixels: Floats, random: Random) -> None:
    order = list(range(len(pixels)))
    random.shuffle(order)
    one, other = colour_of_spot(pixels), colour_of_spot(pixels[order])
    assert one.lab == pytest.approx(other.lab, abs=1e-9)
    assert one.spread == pytest.approx(other.spread, abs=1e-9)


@given(labs)
@example(np.array([[11.0, 96.0, 22.0], [45.0, 90.0, 4.0], [4.0, 79.0, 74.0]]))
@example(np.array([[2.0, 0.0, 10.0], [13.0, 0.0, 0.0], [16.0, 11.0, 79.0]]))
def test_the_median_has_the_least_sum_of_distances(pixels: Floats) -> None:
    """Held against a general minimiser of scipy, and against each pixel itself."""

    def total(place: Floats) -> float:
        return float(np.linalg.norm(pixels - place, axis=1).sum())

    found = total(np.array(geometric_median(pixels)))
    slack = 1e-4 * len(pixels)
    assert found <= min(map(total, pixels)) + slack
    searched = minimize(total, pixels.mean(axis=0), method="Nelder-Mead")
    assert found <= searched.fun + slack


@given(labs, st.floats(-50, 50), st.floats(0, 360))
def test_the_median_moves_and_turns_with_the_colours(
    pixels: Floats, shift: float, degrees: float
) -> None:
    angle = math.radians(degrees)
    turn = np.array(
        [
            [1.0, 0.0, 0.0],
            [0.0, math.cos(angle), -math.sin(angle)],
            [0.0, math.sin(angle), math.cos(angle)],
        ]
    )
    moved = pixels @ turn.T + shift
    place = np.array(geometric_median(pixels)) @ turn.T + shift
    found = np.array(geometric_median(moved))
    totals = [float(np.linalg.norm(moved - p, axis=1).sum()) for p in (place, found)]
    assert totals[0] == pytest.approx(totals[1], rel=1e-4, abs=1e-3)


def test_the_spread_is_the_mean_difference_from_the_colour() -> None:
    pixels = np.array([[50.0, 0.0, 0.0]] * 3 + [[60.0, 0.0, 0.0]])
    found = colour_of_spot(pixels)
    assert found.lab == pytest.approx((50.0, 0.0, 0.0), abs=1e-6)
    expected = ciede2000((50.0, 0.0, 0.0), (60.0, 0.0, 0.0)) / 4
    assert found.spread == pytest.approx(expected, abs=1e-6)
    assert not found.is_varied
    assert colour_of_spot(np.array([[50.0, 0.0, 0.0], [70.0, 0.0, 0.0]])).is_varied


typed = st.text(st.sampled_from("0123456789.,-%px \u0663\u00b2e"), max_size=40) | st.text(
    max_size=20
)


@given(typed, typed)
def test_whatever_is_typed_is_a_spot_or_a_sentence(place: str, size: str) -> None:
    grid = Grid(Rectangle(0.0, 0.0, 80.0, 60.0))
    calls: list[Callable[[], Spot]] = [
        lambda: spot_at(place, size, 80, 60),
        lambda: spot_of_area(place, 80, 60),
        lambda: spot_of_cell(place, grid),
    ]
    for spot in calls:
        try:
            found = spot()
        except BadInput as error:
            assert str(error)  # noqa: PT017 - either way is right
        else:
            assert 0 <= found.left < found.left + found.width <= 80
            assert 0 <= found.top < found.top + found.height <= 60


@pytest.mark.parametrize("digits", ["9" * 400, "0." + "0" * 400 + "1"])
def test_numbers_beyond_all_measure_are_refused(digits: str) -> None:
    with pytest.raises(BadInput):
        spot_of_area(f"1,1,{digits},1", 80, 60)
    with pytest.raises(BadInput):
        spot_at("1,1", digits, 80, 60)

"""Charts laid out by the names of their patches."""

import numpy as np
import pytest

from studio.errors import BadInput
from studio.picture.chart import by_sample_names, row_by_row

GREY = (50.0, 0.0, 0.0)


def test_letters_are_rows_and_numbers_columns() -> None:
    samples = [(f"{row}{column}", GREY) for row in "ABC" for column in range(1, 6)]
    chart = by_sample_names("tide.cgats", [*samples, ("GS0", GREY), ("Dmin", GREY)])
    assert (chart.rows, chart.columns, len(chart.patches)) == (3, 5, 15)
    place = chart.centres[chart.patches.index("B4")]
    np.testing.assert_allclose(place, [0.7, 0.5])
    turned = chart.transposed
    assert (turned.rows, turned.columns) == (5, 3)
    np.testing.assert_allclose(turned.centres[turned.patches.index("B4")], [0.5, 0.7])


def test_names_may_be_padded_and_rows_go_on_after_z() -> None:
    rows = ("Y", "Z", "AA", "AB")
    chart = by_sample_names("x", [(f"{row} {n:02}", GREY) for row in rows for n in (11, 12, 13)])
    assert (chart.rows, chart.columns) == (4, 3)
    assert chart.cells[chart.patches.index("AA 12")].tolist() == [2, 1]


def test_a_grey_scale_below_the_target_takes_no_part() -> None:
    samples = [(f"{row}{n}", GREY) for row in "ABCDEFGHIJKL" for n in range(1, 23)]
    samples += [(f"GS{n:02}", GREY) for n in range(24)]
    chart = by_sample_names("it8", samples)
    assert (chart.rows, chart.columns, len(chart.patches)) == (12, 22, 264)


def test_missing_cells_are_left_open() -> None:
    samples = [(f"{row}{n}", GREY) for row in "ABCD" for n in range(1, 5)][1:]
    chart = by_sample_names("x", samples)
    assert (chart.rows, chart.columns, len(chart.patches)) == (4, 4, 15)


def test_what_gives_no_chart_is_refused() -> None:
    with pytest.raises(BadInput, match="names 0 patches by row and column, such as A1 to D6, and"):
        by_sample_names("mud.txt", [("mud", GREY), ("samphire", GREY)])
    twice = [("A1", GREY), ("a01", GREY)]
    with pytest.raises(BadInput, match="has two patches a01; keep one of them in the file"):
        by_sample_names("mud.txt", twice)


def test_row_by_row() -> None:
    chart = row_by_row("x", [str(n) for n in range(24)], np.zeros((24, 3)), 6)
    assert (chart.rows, chart.columns) == (4, 6)
    assert chart.cells[13].tolist() == [2, 1]

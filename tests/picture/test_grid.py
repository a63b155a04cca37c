"""The painter's grid: what its cells are called, and where they lie."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.errors import BadInput
from studio.picture.grid import Grid, Rectangle, column_name, kept_area, turned

WHOLE = Grid(Rectangle(0.0, 0.0, 800.0, 600.0))

sides = st.integers(1, 20_000)
shares = st.floats(0.0, 1.0, exclude_max=True)


@pytest.mark.parametrize(
    ("text", "name", "area"),
    [
        ("A1", "A1", (0, 0, 200, 150)),
        ("d4", "D4", (600, 450, 200, 150)),
        ("B3", "B3", (200, 300, 200, 150)),
        ("B3 top", "B3 top", (200, 300, 200, 75)),
        ("B3 top left", "B3 top left", (200, 300, 100, 75)),
        ("B3, top, left", "B3 top left", (200, 300, 100, 75)),
        ("top left quarter of B3", "B3 top left", (200, 300, 100, 75)),
        ("the left half of the cell B3", "B3 left", (200, 300, 100, 150)),
        ("b3 middle", "B3 middle", (250, 337.5, 100, 75)),
        ("centre of B3", "B3 middle", (250, 337.5, 100, 75)),
        ("B3 right right", "B3 right right", (350, 300, 50, 150)),
        ("bottom right of the top left of B3", "B3 top left bottom right", (250, 337.5, 50, 37.5)),
        ("bottom", "bottom", (0, 300, 800, 300)),
        ("top right quarter", "top right", (400, 0, 400, 300)),
    ],
)
def test_a_cell_is_named_as_painters_say_it(
    text: str, name: str, area: tuple[float, float, float, float]
) -> None:
    cell = WHOLE.cell(text)
    assert cell.name == name
    assert cell.area == Rectangle(*area)


@pytest.mark.parametrize(
    "text",
    ["", "  ", "of", "the half", "3B", "B", "B3 upper", "B3 C2", "B3" + " left" * 9],
)
def test_an_unclear_cell_is_refused_with_an_example(text: str) -> None:
    with pytest.raises(BadInput, match="is not clear; write it like B3, or B3 top left"):
        WHOLE.cell(text)


@pytest.mark.parametrize("text", ["E1", "A5", "A0", "z99", "E1 top left"])
def test_a_cell_that_is_not_there_is_told_where_the_grid_ends(text: str) -> None:
    with pytest.raises(BadInput, match="is not on a grid of 4 x 4, which runs from A1 to D4"):
        WHOLE.cell(text)


@pytest.mark.parametrize("cells", [0, -1, 27])
def test_a_grid_has_as_many_columns_as_letters_at_most(cells: int) -> None:
    with pytest.raises(BadInput, match=f"1 to 26 cells a side, not {cells}"):
        Grid(WHOLE.area, cells)


@given(st.integers(1, 26), st.data())
def test_every_cell_is_found_by_its_own_name(cells: int, data: st.DataObject) -> None:
    grid = Grid(Rectangle(3.0, 7.0, 811.0, 467.0), cells)
    column = data.draw(st.integers(0, cells - 1))
    row = data.draw(st.integers(0, cells - 1))
    cell = grid.at(column, row)
    assert cell.name == f"{column_name(column)}{row + 1}"
    for spelled in (cell.name, cell.name.lower(), f" {cell.name} "):
        assert grid.cell(spelled) == cell


@given(st.integers(1, 26), sides, sides, shares, shares)
def test_a_point_lies_in_the_quarter_it_is_said_to_lie_in(
    cells: int, width: int, height: int, x: float, y: float
) -> None:
    grid = Grid(Rectangle(11.0, 5.0, width, height), cells)
    point = 11.0 + x * width, 5.0 + y * height
    quarter = grid.quarter_at(*point)
    if quarter is None:  # rounding carried the point onto the far edge
        assert not grid.area.holds(*point)
        return
    area = grid.cell(quarter.name).area
    slack = 1e-9 * max(width, height) + 1e-9
    assert area.left - slack <= point[0] <= area.left + area.width + slack
    assert area.top - slack <= point[1] <= area.top + area.height + slack
    assert quarter.area.width == pytest.approx(width / cells / 2)
    assert quarter.area.left == pytest.approx(area.left)
    assert quarter.area.top == pytest.approx(area.top)


@given(st.integers(1, 26))
def test_the_cells_cover_the_grid_without_gap_or_overlap(cells: int) -> None:
    grid = Grid(Rectangle(0.0, 0.0, 26.0 * 25.0, 10.0), cells)
    areas = [grid.at(column, row).area for column in range(cells) for row in range(cells)]
    assert sum(area.width * area.height for area in areas) == pytest.approx(6500.0)
    middles = [(area.left + area.width / 2, area.top + area.height / 2) for area in areas]
    for x, y in middles:
        assert sum(area.holds(x, y) for area in areas) == 1


def test_a_point_beside_the_grid_has_no_cell() -> None:
    grid = Grid(Rectangle(100.0, 0.0, 600.0, 600.0))
    assert grid.quarter_at(99.9, 300.0) is None
    assert grid.quarter_at(700.0, 300.0) is None
    found = grid.quarter_at(100.0, 0.0)
    assert found is not None
    assert found.name == "A1 top left"


@given(sides, sides, st.floats(10, 5000), st.floats(10, 5000))
def test_the_kept_area_has_the_sheets_proportions_and_touches_two_edges(
    width: int, height: int, one: float, other: float
) -> None:
    kept = kept_area(width, height, (one, other))
    across, down = turned((one, other), landscape=width >= height)
    assert (across >= down) == (width >= height) or across == down
    assert kept.width / kept.height == pytest.approx(across / down)
    assert kept.width == pytest.approx(width) or kept.height == pytest.approx(height)
    assert kept.width <= width
    assert kept.height <= height
    assert kept.left == pytest.approx(width - kept.width - kept.left, abs=1e-6)
    assert kept.top == pytest.approx(height - kept.height - kept.top, abs=1e-6)
    assert kept_area(width, height, (other, one)) == kept


def test_without_a_sheet_the_whole_picture_is_kept() -> None:
    assert kept_area(640, 427, None) == Rectangle(0.0, 0.0, 640, 427)


def test_a_standing_picture_turns_the_sheet() -> None:
    # 22 x 30 in over 1200 x 1600 pixels: the width is kept, 1200 * 30 / 22 = 1636 is too tall.
    kept = kept_area(1200, 1600, (762.0, 558.8))
    assert kept.height == 1600
    assert kept.width == pytest.approx(1600 * 558.8 / 762.0)


@given(st.floats(0, 500), st.floats(0, 500), st.floats(0.01, 500), st.floats(0.01, 500))
def test_whole_pixels_are_those_whose_middles_lie_inside(
    left: float, top: float, width: float, height: float
) -> None:
    first, above, across, down = Rectangle(left, top, width, height).whole_pixels
    for start, length, begin, count in ((left, width, first, across), (top, height, above, down)):
        inside = [pixel for pixel in range(1002) if start <= pixel + 0.5 < start + length]
        assert list(range(begin, begin + count)) == (inside or [int(start)])

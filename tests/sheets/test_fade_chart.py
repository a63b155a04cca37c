"""The chart of fade tests is a whole PNG, grey but for the patches, and those true."""

import io
from datetime import date, timedelta

import numpy as np
import pytest
from PIL import Image

from studio.actions.fade_results import FadeResult
from studio.catalogue.fade import FadeReading, FadeTest
from studio.catalogue.paint import Paint, PaintFacts
from studio.catalogue.stock import Stock, Unit
from studio.colour.display import on_screen
from studio.colour.lab import Lab
from studio.sheets.chart_sheet import DPI
from studio.sheets.fade_chart import fade_chart
from studio.sheets.fade_strips import PATCH, WIDTH

HUNG = date(2026, 3, 1)
SIDE = int(PATCH * DPI)
BLUE, RED, BEYOND = Lab(40, 5, -50), Lab(35, 55, 12), Lab(85, -90, 85)


def _result(
    *readings: tuple[int, Lab, Lab, int | None], code: str = "F1", name: str = "Ultramarine"
) -> FadeResult:
    facts = PaintFacts("FU", "Pellow & Strand", name)
    paint = Paint(1, facts, (), Stock(None, Unit.ML, None))
    read = tuple(
        FadeReading(HUNG + timedelta(days=day), covered, exposed, step)
        for day, covered, exposed, step in readings
    )
    test = FadeTest(1, code, 1, None, None, "south window", HUNG, readings=read)
    return FadeResult(test, paint, (paint,), None)


def _pixels(*results: FadeResult) -> "np.ndarray[tuple[int, ...], np.dtype[np.uint8]]":
    with Image.open(io.BytesIO(fade_chart(results))) as picture:
        picture.load()
        assert picture.format == "PNG"
        return np.asarray(picture.convert("RGB"))


def _colours(pixels: "np.ndarray[tuple[int, ...], np.dtype[np.uint8]]") -> dict[str, int]:
    """How many pixels each colour that is no grey has."""
    flat = pixels.reshape(-1, 3)
    tinted = flat[(flat != flat[:, :1]).any(axis=1)]
    values, counts = np.unique(tinted, axis=0, return_counts=True)
    return {
        "#{:02x}{:02x}{:02x}".format(*value): int(count)
        for value, count in zip(values, counts, strict=True)
    }


def test_its_colours_are_those_of_the_patches_and_nothing_else() -> None:
    faded = [Lab(40 + step, 5, -50 + 2 * step) for step in (1, 4, 9)]
    result = _result((30, BLUE, faded[0], 2), (90, BLUE, faded[1], 3), (200, BLUE, faded[2], None))
    found = _colours(_pixels(result))
    covered, *exposed = (on_screen(lab).hex for lab in (BLUE, *faded))
    assert set(found) == {covered, *exposed}
    # A patch ends on whole pixels, so each has its full area or a line more or less.
    assert found[covered] == pytest.approx(3 * SIDE**2, rel=0.06)
    for colour in exposed:
        assert found[colour] == pytest.approx(SIDE**2, rel=0.06)


def test_the_halves_touch_with_the_covered_one_on_the_left() -> None:
    pixels = _pixels(_result((30, BLUE, RED, None)))
    left, right = (np.argwhere((pixels == on_screen(lab).rgb).all(axis=2)) for lab in (BLUE, RED))
    assert left[:, 1].max() + 1 == right[:, 1].min()
    assert (left[:, 0].min(), left[:, 0].max()) == (right[:, 0].min(), right[:, 0].max())


def test_a_colour_outside_the_screens_is_shown_as_the_terminal_shows_it() -> None:
    shown = on_screen(BEYOND)
    assert not shown.in_gamut
    assert shown.hex in _colours(_pixels(_result((30, BEYOND, BLUE, None))))


def test_it_is_as_wide_as_a_page_and_grows_by_a_row_a_test() -> None:
    one = _pixels(_result((30, BLUE, RED, None)))
    two = _pixels(_result((30, BLUE, RED, None)), _result((30, BLUE, RED, None), code="F2"))
    assert one.shape[1] == two.shape[1] == int(WIDTH * DPI)
    assert one.shape[0] < two.shape[0]


def test_many_readings_go_on_in_further_rows_and_all_are_shown() -> None:
    result = _result(*((30 * n, BLUE, Lab(41 + 2 * n, 5, -48), None) for n in range(1, 20)))
    exposed = {on_screen(reading.exposed).hex for reading in result.test.readings}
    pixels = _pixels(result)
    assert len(exposed) == 19
    assert set(_colours(pixels)) == {on_screen(BLUE).hex, *exposed}
    assert pixels.shape[0] > _pixels(_result((30, BLUE, RED, None))).shape[0]


def test_the_bands_are_five_greys_the_worse_the_darker() -> None:
    pixels = _pixels(_result((200, BLUE, Lab(41, 5, -50), None)))
    # Up the plot at its left edge, right of the axis and above the line.
    column = pixels[: int(4.3 * DPI), int(1.2 * DPI), :]
    assert (column == column[:, :1]).all()
    greys = [int(value) for value in column[:, 0]]
    zones = [g for g in dict.fromkeys(greys) if greys.count(g) > 30 and g != 255]
    assert len(zones) == 5
    assert zones == sorted(zones)


def test_a_change_beyond_the_last_band_stays_on_the_picture() -> None:
    small = _pixels(_result((200, BLUE, Lab(41, 5, -50), None)))
    large = _pixels(_result((200, BLUE, Lab(95, 5, 90), None)))
    assert small.shape == large.shape
    assert set(_colours(large)) == {on_screen(BLUE).hex, on_screen(Lab(95, 5, 90)).hex}


def test_a_first_reading_on_the_first_day_is_drawn() -> None:
    assert set(_colours(_pixels(_result((0, BLUE, BLUE, 0))))) == {on_screen(BLUE).hex}


@pytest.mark.parametrize("name", ["$5 \\frac{", "潮 creek", "a" * 900, "word " * 180])
def test_no_name_breaks_it(name: str) -> None:
    pixels = _pixels(_result((30, BLUE, RED, 1), name=name), _result((40, BLUE, RED, 1)))
    assert set(_colours(pixels)) == {on_screen(BLUE).hex, on_screen(RED).hex}


def test_the_same_tests_give_the_same_bytes() -> None:
    result = _result((30, BLUE, RED, 2))
    assert fade_chart([result]) == fade_chart([result])

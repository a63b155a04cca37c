"""Spectra as they were read, each line with its swatch at its end."""

from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.actions.find import find_swatch
from studio.actions.swatch_rows import swatch_rows
from studio.actions.swatch_spectra import MOST, SwatchSpectra, swatch_spectra
from studio.colour.display import on_screen
from studio.colour.reflectance import Reflectance
from studio.errors import BadInput
from studio.sheets.spectra_chart import apart, draw_spectra
from studio.sheets.spectra_view import bars, print_spectra
from studio.storage.unit_of_work import UnitOfWork
from tests.sheets.conftest import Terminal, printed
from tests.sheets.figures import Caught, caught, check_greys, check_texts

__all__ = ["caught"]

CODES = ("S1", "S2", "S3", "S4", "S74", "S143", "S151", "S5", "S112")


@pytest.fixture
def found(demo_work: UnitOfWork) -> SwatchSpectra:
    """Seven swatches with spectra, one of them read twice, and two without."""
    return swatch_spectra(swatch_rows(demo_work, [find_swatch(demo_work, c) for c in CODES]))


def test_each_line_is_a_reading_as_it_was_read(found: SwatchSpectra, caught: Caught) -> None:
    figures = caught("spectra_chart")
    png = draw_spectra(found, "png")
    (axes,) = figures[0].axes
    lines = [line for line in axes.lines if line.get_gid()]
    read = [
        (row[0].facts.code, reading.spectrum)
        for row, readings in found.rows
        for reading in readings
    ]
    assert [line.get_gid() for line in lines] == [code for code, _ in read]
    for line, (_, spectrum) in zip(lines, read, strict=True):
        assert spectrum is not None
        assert list(line.get_xdata()) == list(spectrum.wavelengths)
        assert list(line.get_ydata()) == list(spectrum.values)
    styles = {
        (str(line.get_linestyle()), str(line._dash_pattern), line.get_linewidth(), line.get_gid())
        for line in lines
    }
    assert len({style[:3] for style in styles}) == len(found.rows)
    check_texts(figures[0])
    check_greys(png, [row[0].lab for row, _ in found.rows])


def test_those_without_a_spectrum_are_named(found: SwatchSpectra, caught: Caught) -> None:
    assert [row[0].facts.code for row in found.without] == ["S5", "S112"]
    figures = caught("spectra_chart")
    draw_spectra(found, "png")
    texts = " ".join(text.get_text() for text in figures[0].texts)
    for said in (
        "Without a spectrum: S5, S112.",
        "read 2 times",
        "7 swatches",
        "D50/2°",
        "Slipway",
    ):
        assert said in texts


def test_patches_stand_beside_their_labels(found: SwatchSpectra, caught: Caught) -> None:
    figures = caught("spectra_chart")
    draw_spectra(found, "png")
    shown = [
        patch.get_facecolor()[:3] for patch in figures[0].get_children()
        if type(patch).__name__ == "Rectangle" and patch.get_linewidth() == 0
    ]  # fmt: skip
    expected = [tuple(v / 255 for v in on_screen(row[0].lab).rgb) for row, _ in found.rows]
    assert all(any(colour == pytest.approx(each) for each in shown) for colour in expected)


def test_none_and_too_many_are_refused(demo_work: UnitOfWork) -> None:
    with pytest.raises(BadInput, match="no spectrum was read of S5; read one"):
        swatch_spectra(swatch_rows(demo_work, [find_swatch(demo_work, "S5")]))
    with pytest.raises(BadInput, match=f"name {MOST} swatches or fewer"):
        swatch_spectra(swatch_rows(demo_work, demo_work.swatches.all()))


@given(
    st.lists(st.floats(0, 10), min_size=1, max_size=12),
    st.floats(0.01, 0.8),
)
def test_labels_lie_apart_in_the_order_of_their_lines(places: list[float], step: float) -> None:
    moved = apart(places, step, 0.0, 10.0)
    assert all(-1e-9 <= each <= 10.0 + 1e-9 for each in moved)
    order = sorted(range(len(places)), key=lambda n: places[n])
    gaps = [moved[after] - moved[before] for before, after in pairwise(order)]
    assert all(gap >= step - 1e-6 for gap in gaps)


def test_labels_that_are_apart_stay() -> None:
    assert apart([1.0, 3.0, 2.0], 0.5, 0.0, 4.0) == [1.0, 3.0, 2.0]
    assert apart([2.0, 2.0], 1.0, 0.0, 4.0) == [1.5, 2.5]


def test_bars_rise_with_reflectance() -> None:
    rising = Reflectance(380.0, 10.0, tuple(n / 35 for n in range(36)))
    text = bars(rising, 70)
    assert text == "".join(sorted(text))
    assert (text[0], text[-1]) == ("▁", "█")
    assert len(bars(rising, 20)) <= 20
    assert bars(Reflectance(380.0, 10.0, (1.4,) * 36), 70) == "█" * 61


@pytest.mark.parametrize("width", [40, 80])
@pytest.mark.parametrize("colours", [None, "truecolor"])
def test_it_fits_the_terminal(
    width: int, colours: Any, found: SwatchSpectra, terminal: Terminal
) -> None:
    from rich.text import Text

    console = terminal(colours, width=width)
    print_spectra(console, found)
    lines = Text.from_ansi(printed(console)).plain.splitlines()
    assert max(map(len, lines)) <= width
    assert any("Without a spectrum: S5, S112." in line for line in lines)


def test_reflectance_above_one_stays_on_the_picture(found: SwatchSpectra, caught: Caught) -> None:
    from dataclasses import replace

    (row, readings), *_ = found.rows
    bright = replace(readings[0], spectrum=Reflectance(380.0, 10.0, (1.4,) * 36))
    figures = caught("spectra_chart")
    draw_spectra(SwatchSpectra(((row, (bright,)),), ()), "png")
    assert figures[0].axes[0].get_ylim()[1] > 1.4
    check_texts(figures[0])


def test_the_same_swatches_give_the_same_bytes(found: SwatchSpectra) -> None:
    assert draw_spectra(found, "pdf") == draw_spectra(found, "pdf")

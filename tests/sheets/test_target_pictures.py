"""The squared-up picture, the blank grid at true size, and the palette under its picture."""

import io
import itertools

import numpy as np
import numpy.typing as npt
import pytest
from PIL import Image
from pypdf import PdfReader

from studio.actions.reach import Reach
from studio.actions.target_palette import PaletteColour
from studio.colour.display import on_screen
from studio.colour.lab import Lab
from studio.picture.decoding import Picture
from studio.picture.encodings import Plain
from studio.picture.grid import Grid, kept_area
from studio.picture.rgb_spaces import SRGB
from studio.sheets.grid_pdf import grid_pdf
from studio.sheets.grid_picture import grid_picture, strength
from studio.sheets.palette_picture import palette_picture
from studio.sheets.picture_canvas import font, wrapped

MARGIN = 90
POINTS_A_MM = 72 / 25.4

Bytes = npt.NDArray[np.uint8]


def flat(width: int, height: int, grey: int = 128) -> Picture:
    """A picture of one grey."""
    return Picture("creek.jpg", np.full((height, width, 3), grey, np.uint8), Plain(SRGB))


def drawn(picture: Picture, sheet: tuple[float, float], cells: int) -> tuple[Bytes, float]:
    """The PNG as an array, and how many of its pixels one of the picture's takes."""
    grid = Grid(kept_area(picture.width, picture.height, sheet), cells)
    png = grid_picture(picture, grid, sheet, "Slipway Rag")
    image = Image.open(io.BytesIO(png))
    assert image.info["dpi"] == pytest.approx((300, 300), abs=0.1)
    return np.asarray(image), (image.width - 2 * MARGIN) / picture.width


def lines(row: Bytes) -> list[float]:
    """Middles of the runs of white between black on a line across the grid."""
    white = (row == 255).all(axis=-1)
    edges = np.flatnonzero(np.diff(white.astype(np.int8)))
    return [
        (before + last + 1) / 2
        for before, last in itertools.pairwise(edges)
        if white[last] and not row[before].any() and not row[last + 1].any()
    ]


@pytest.mark.parametrize("cells", [1, 2, 4, 5, 8])
def test_the_lines_lie_where_the_paper_is_parted(cells: int) -> None:
    pixels, scale = drawn(flat(1000, 700), (559.0, 762.0), cells)
    width = 700 * 762 / 559 * scale
    left = MARGIN + (1000 * scale - width) / 2
    across = pixels[MARGIN + 20, : MARGIN + round(1000 * scale)]
    expected = [left + width * line / cells for line in range(cells + 1)]
    assert lines(across) == pytest.approx(expected, abs=2.0)
    down = pixels[: MARGIN + round(700 * scale) + 10, round(left) + 40]
    expected = [MARGIN + 700 * scale * line / cells for line in range(cells + 1)]
    assert lines(down) == pytest.approx(expected, abs=2.0)


def test_what_the_paper_has_no_room_for_is_pale_and_the_rest_untouched() -> None:
    pixels, scale = drawn(flat(1000, 700), (559.0, 762.0), 4)
    middle = MARGIN + round(350 * scale) + 20
    assert 180 < pixels[middle, MARGIN + 10, 0] < 230
    assert (pixels[middle, MARGIN + round(100 * scale)] == 128).all()
    assert (pixels[5, 5] == 255).all()


def test_a_picture_of_the_papers_proportions_is_kept_whole() -> None:
    pixels, scale = drawn(flat(600, 800), (400.0, 300.0), 2)
    assert (pixels[MARGIN + 60, MARGIN + 60] == 128).all()
    assert (pixels[MARGIN + round(800 * scale) - 60, MARGIN + round(600 * scale) - 60] == 128).all()


def test_columns_and_rows_are_named_at_every_edge() -> None:
    pixels, scale = drawn(flat(900, 900), (500.0, 500.0), 3)
    side = round(900 * scale)
    near, far, middle = MARGIN / 2, side + 1.5 * MARGIN, MARGIN + side / 6
    for x, y in ((middle, near), (middle, far), (near, middle), (far, middle)):
        around = pixels[round(y) - 25 : round(y) + 25, round(x) - 25 : round(x) + 25]
        assert around.min() < 60


def test_lines_of_halves_are_stronger_than_those_of_quarters_and_the_rest() -> None:
    assert [strength(line, 8) for line in range(9)] == [1, 1, 2, 1, 3, 1, 2, 1, 1]
    assert [strength(line, 4) for line in range(5)] == [1, 2, 3, 2, 1]
    assert [strength(line, 3) for line in range(4)] == [1, 1, 1, 1]


@pytest.mark.parametrize(
    ("across", "down", "cells"),
    [(762.0, 558.8, 4), (210.0, 297.0, 6), (90.0, 60.0, 2), (10, 10, 26)],
)
def test_the_blank_grid_has_the_size_of_the_sheet(across: float, down: float, cells: int) -> None:
    pdf = grid_pdf(across, down, cells, "Slipway Rag")
    (page,) = PdfReader(io.BytesIO(pdf)).pages
    assert float(page.mediabox.width) == pytest.approx(across * POINTS_A_MM, abs=0.02)
    assert float(page.mediabox.height) == pytest.approx(down * POINTS_A_MM, abs=0.02)
    text = page.extract_text()
    assert f"{across:g} x {down:g} mm" in text
    assert "print at 100 %" in text
    assert ("100 mm" in text) == (across >= 120 and down >= 100)
    assert text.count("A") >= 2
    assert grid_pdf(across, down, cells, "Slipway Rag") == pdf


def test_the_lines_of_the_blank_grid_are_true_to_the_tenth_of_a_millimetre() -> None:
    pdf = PdfReader(io.BytesIO(grid_pdf(400.0, 300.0, 4, "the sheet")))
    contents = pdf.pages[0].get_contents()
    assert contents is not None
    strokes = set()
    for command in contents.get_data().decode("latin-1").splitlines():
        words = command.split()
        if words[-1:] == ["S"] and len(words) == 7:
            strokes.add(
                tuple(round(float(words[place]) / POINTS_A_MM, 1) for place in (0, 1, 3, 4))
            )
    for line in range(5):
        assert (100.0 * line, 300.0, 100.0 * line, 0.0) in strokes
        assert (0.0, 300.0 - 75.0 * line, 400.0, 300.0 - 75.0 * line) in strokes
    assert (10.0, 15.0, 110.0, 15.0) in strokes  # the length to check the print by


def palette_colour(lab: Lab, x: float, y: float) -> PaletteColour:
    """A main colour at a place, in percent."""
    return PaletteColour(lab, 1.0, 0.1, x, y, "A1 top left", Reach(lab, (), None, lab, 0))


def test_the_palette_shows_each_colour_below_the_picture_and_its_place_in_it() -> None:
    labs = [Lab(90.0 - 7 * number, 3.0, number) for number in range(9)] + [Lab(50.0, -90.0, 60.0)]
    colours = [palette_colour(lab, 10.0 + 8 * at, 50.0) for at, lab in enumerate(labs)]
    pixels = np.asarray(Image.open(io.BytesIO(palette_picture(flat(1600, 800), colours))))
    margin, column, row = 60, (1600 + 24) / 8, 170 + 140
    for number, colour in enumerate(colours):
        left = margin + number % 8 * column + 20
        top = 800 + 2 * margin + number // 8 * row + 20
        assert tuple(pixels[round(top), round(left)]) == on_screen(colour.lab).rgb
        x, y = margin + round(colour.x / 100 * 1600), margin + 400
        assert (pixels[y + 24, x] == 255).all()  # the ground of its number
        assert (pixels[y + 60, x] == 128).all()
    assert (pixels[-35:, :700] < 150).any()  # what the mark of the last colour means
    plain = np.asarray(Image.open(io.BytesIO(palette_picture(flat(1600, 800), colours[:9]))))
    assert (plain[-35:] == 255).all()


def test_a_long_caption_is_broken_between_words() -> None:
    text = "creek at low tide.jpg on Eddering Mill Slipway Rag, 762 x 559 mm"
    broken = wrapped(text, 30, 400)
    assert len(broken) > 2
    assert " ".join(broken) == text
    assert all(font(30).getlength(line) <= 400 for line in broken)
    assert wrapped("Unbreakable" * 20, 30, 400) == ["Unbreakable" * 20]


def test_a_large_picture_is_printed_at_2400_pixels_at_most() -> None:
    pixels, _ = drawn(flat(5000, 2500), (500.0, 250.0), 2)
    assert 1600 <= pixels.shape[1] - 2 * MARGIN <= 2400

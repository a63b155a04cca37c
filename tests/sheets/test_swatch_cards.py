"""Cards to cut out: true patches, codes that a general reader reads, nothing over anything else."""

import io
from dataclasses import replace
from datetime import date

import numpy as np
import pytest
import zxingcpp
from PIL import Image
from pypdf import PdfReader

from studio.actions.match_colour import Ingredient
from studio.actions.swatch_rows import SwatchRow
from studio.catalogue.mix import Mix
from studio.catalogue.paint import Paint, PaintFacts
from studio.catalogue.paper import Paper, PaperFacts
from studio.catalogue.reading import State
from studio.catalogue.recipe import Recipe
from studio.catalogue.stock import Stock, Unit
from studio.catalogue.swatch import Application, Swatch, SwatchFacts
from studio.colour.display import on_screen
from studio.colour.lab import Lab
from studio.sheets import swatch_card
from studio.sheets.card_sheets import A_SHEET, LEFT, TOP, cards_pdf, cards_png, draw_sheets
from studio.sheets.page_parts import UPRIGHT
from studio.sheets.page_pdf import FpdfPen
from studio.sheets.page_type import POINT, Type
from studio.sheets.qr_code import MODULES, QUIET_ZONE, qr_runs
from tests.sheets.pages import HOSTILE, LONG_WORD

PX = 300 / 25.4
PAPER = Paper(1, PaperFacts("SR", "Eddering Mill", "Slipway Rag"), Stock(None, Unit.ML, None), ())
COLOURS = [Lab(20.0 + 3 * n, 30 * np.cos(n), 30 * np.sin(n)) for n in range(24)]


def card(
    code: str = "S1",
    lab: Lab = COLOURS[3],
    *,
    name: str | None = None,
    paints: int = 2,
    paint: str = "French Ultramarine",
    kept: str | None = "box 1, row 2",
) -> SwatchRow:
    """A swatch as its card is drawn from."""
    shelf = [
        Paint(n, PaintFacts(f"P{n}", "Pellow & Strand", paint), (), Stock(None, Unit.ML, None))
        for n in range(1, paints + 1)
    ]
    recipe = tuple(Ingredient(each, each.id) for each in shelf)
    mix = Mix(1, "M1", Recipe(tuple((p.id, p.id) for p in shelf)), name, None, date(2026, 3, 1))
    facts = SwatchFacts(code, 3.0, 1, Application.FLAT_WASH, date(2026, 3, 14), kept_at=kept)
    return Swatch(1, facts, 1, 1, State.DRY, lab, ()), mix, recipe, PAPER


def _pixels(png: bytes) -> "np.ndarray[tuple[int, ...], np.dtype[np.uint8]]":
    with Image.open(io.BytesIO(png)) as picture:
        return np.asarray(picture.convert("RGB"))


@pytest.mark.parametrize("code", ["S1", "S12", "S5000", "A", "ZZZZZZZZZZZZ", "A12345678901"])
def test_every_code_that_the_studio_gives_or_takes_is_read_back(code: str) -> None:
    """By ZXing (zxing-cpp, PyPI), from the picture of the sheet and not from the matrix."""
    (sheet,) = cards_png([card(code)])
    (read,) = zxingcpp.read_barcodes(_pixels(sheet))
    assert (read.text, read.format) == (code, zxingcpp.BarcodeFormat.QRCode)


def test_a_sheet_has_ten_codes_in_the_order_of_the_swatches() -> None:
    codes = [f"S{n}" for n in range(1, 24)]
    sheets = cards_png([card(code) for code in codes])
    read = [sorted(zxingcpp.read_barcodes(_pixels(sheet)), key=_place) for sheet in sheets]
    assert [len(each) for each in read] == [10, 10, 3]
    assert [each.text for sheet in read for each in sheet] == codes


def _place(code: zxingcpp.Barcode) -> tuple[int, int]:
    corner = code.position.top_left
    return round(corner.y / 300), corner.x


def test_a_code_with_a_drop_of_paint_on_it_is_still_read() -> None:
    """ISO/IEC 18004, table 8: level H mends about 30 % of the code words."""
    pixels = _pixels(cards_png([card("S1234")])[0]).copy()
    corner = zxingcpp.read_barcodes(pixels)[0].position.top_left
    module = swatch_card.MODULE * PX
    x, y = corner.x + round(10 * module), corner.y + round(12 * module)
    pixels[y : y + round(4 * module), x : x + round(4 * module)] = (60, 80, 120)
    assert [each.text for each in zxingcpp.read_barcodes(pixels)] == ["S1234"]


def test_the_quiet_zone_is_white() -> None:
    """ISO/IEC 18004, 5.3.8: four modules on each side."""
    pixels = _pixels(cards_png([card("S1", name="n" * 40, kept="k" * 80)])[0])
    place = zxingcpp.read_barcodes(pixels)[0].position
    quiet = int(QUIET_ZONE * swatch_card.MODULE * PX) - 1
    left, top = place.top_left.x, place.top_left.y
    side = round(MODULES * swatch_card.MODULE * PX)
    around = pixels[top - quiet : top + side + quiet, left - quiet : left + side + quiet].copy()
    around[quiet - 2 : quiet + side + 2, quiet - 2 : quiet + side + 2] = 255
    assert (around == 255).all()


def test_patches_are_as_large_and_as_true_as_they_should_be() -> None:
    rows = [card(f"S{n}", lab) for n, lab in enumerate(COLOURS[:A_SHEET])]
    pixels = _pixels(cards_png(rows)[0])
    for place, lab in enumerate(COLOURS[:A_SHEET]):
        down, across = divmod(place, 2)
        left, top, width, height = swatch_card.PATCH
        x = round((LEFT + across * swatch_card.WIDTH + left) * PX)
        y = round((TOP + down * swatch_card.HEIGHT + top) * PX)
        inside = pixels[y + 2 : y + int(height * PX) - 2, x + 2 : x + int(width * PX) - 2]
        assert (inside == on_screen(lab).rgb).all()
        assert (pixels[y + 2 : y + 200, x - 5] >= 150).all()  # the offcut lies right beside it


def test_the_cards_are_a8_inside_their_crop_marks() -> None:
    """ISO 216: A8 is 74 x 52 mm. Nothing but the cards lies inside, nothing crosses a cut."""
    pixels = _pixels(cards_png([card(f"S{n}", name="x" * 90) for n in range(10)])[0])
    dark = np.asarray((pixels < 100).all(axis=2))
    columns = [x for x in range(dark.shape[1]) if dark[round(15 * PX), x]]
    rows = [y for y in range(dark.shape[0]) if dark[y, round((LEFT - 4) * PX)]]
    marks = [(a + b) / 2 for a, b in (_edges(columns))]
    assert np.diff(marks) / PX == pytest.approx([74, 74], abs=0.1)
    marks = [(a + b) / 2 for a, b in (_edges(rows))]
    assert np.diff(marks) / PX == pytest.approx([52] * 5, abs=0.1)
    inside = pixels[round(TOP * PX) : round((TOP + 260) * PX), round(LEFT * PX) : -round(LEFT * PX)]
    for across in range(3):
        x = min(round(across * 74 * PX), inside.shape[1] - 1)
        assert (inside[:, max(0, x - 24) : x + 24] == 255).all()


def _edges(places: list[int]) -> list[tuple[int, int]]:
    groups: list[tuple[int, int]] = []
    for place in places:
        if groups and place == groups[-1][1] + 1:
            groups[-1] = (groups[-1][0], place)
        else:
            groups.append((place, place))
    return groups


class _Watched(FpdfPen):
    """Remembers where text stands."""

    def __init__(self) -> None:
        super().__init__("", None, UPRIGHT)
        self.boxes: list[tuple[float, float, float, float, str]] = []

    def text(self, line: str, kind: Type, left: float, top: float) -> None:
        height = kind.size * POINT
        middle = top + kind.line / 2
        self.boxes.append((left, middle - height / 2, self.width(line, kind), height, line))
        super().text(line, kind, left, top)


@pytest.mark.parametrize(
    "text", [HOSTILE, LONG_WORD, "$5 \\frac{_", 'שלום <b>"quoted"</b>', "word " * 80]
)
def test_no_text_overlaps_another_or_leaves_its_card(text: str) -> None:
    pen = _Watched()
    draw_sheets(pen, [card(f"S{n}", name=text, paint=text, paints=4, kept=text) for n in range(10)])
    pen.written()
    for place, (x, y, width, height, line) in enumerate(pen.boxes):
        for other in pen.boxes[:place]:
            apart = (
                x + width <= other[0]
                or other[0] + other[2] <= x
                or y + height <= other[1] + 0.01
                or other[1] + other[3] <= y + 0.01
            )
            assert apart, (line, other)
        column = (x - LEFT) // 74
        if TOP <= y < TOP + 260:
            assert x + width <= LEFT + (column + 1) * 74 - 3.9
            assert (y - TOP) % 52 + height < 49


def test_the_pdf_says_it_all_in_text() -> None:
    row = card("S12", name="wet slipway")
    reader = PdfReader(io.BytesIO(cards_pdf([row] * 11)))
    assert len(reader.pages) == 2
    assert float(reader.pages[0].mediabox.width) == pytest.approx(595.28, abs=0.1)  # A4, ISO 216
    text = reader.pages[0].extract_text()
    for said in ("S12", "M1", "wet slipway", "1 French Ultramarine + 2 French Ultramarine",
                 "water 3:1", "1 layer", "Slipway Rag", "14 Mar 2026", "L* 29.0", "D50/2°",
                 "box 1, row 2", "sheet 1 of 2", "10 swatches", "100 mm"):  # fmt: skip
        assert said in text


def test_a_colour_outside_the_screens_is_marked_and_explained() -> None:
    text = PdfReader(io.BytesIO(cards_pdf([card(lab=Lab(85, -90, 85))]))).pages[0].extract_text()
    assert "(D50/2°) *2.5" in text
    assert "* outside sRGB" in text
    assert (
        "*" not in text.replace("L*", "").replace("a*", "").replace("b*", "").split("sRGB")[1][:0]
    )


def test_a_long_recipe_is_written_by_codes_and_a_wet_reading_said() -> None:
    swatch, mix, recipe, paper = card(paints=5, paint="A Paint Of A Rather Long Name")
    wet = replace(swatch, state=State.WET)
    text = PdfReader(io.BytesIO(cards_pdf([(wet, mix, recipe, paper)]))).pages[0].extract_text()
    assert "1 P1 + 2 P2 + 3 P3 + 4 P4 + 5 P5" in text
    assert "read wet" in text


def test_the_same_swatches_give_the_same_bytes() -> None:
    assert cards_pdf([card()]) == cards_pdf([card()])
    assert cards_png([card()]) == cards_png([card()])


def test_runs_are_the_dark_modules() -> None:
    runs = qr_runs("S12")
    assert (0, 0, 7) in runs  # the upper edge of the first finder pattern
    assert all(count > 0 and column + count <= MODULES for _, column, count in runs)

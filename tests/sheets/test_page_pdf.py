"""A page as PDF, read back by another library."""

import io
import re
from datetime import date
from typing import Any

import pytest
from pypdf import PdfReader

from studio.colour.display import on_screen
from studio.sheets.blocks import Bullets, Chips, Grid, Heading, NewSheet, Page, Paragraph, Patches
from studio.sheets.page_parts import OUTSIDE
from studio.sheets.page_pdf import pdf_of, seen
from tests.sheets.pages import HOSTILE, KELP, LONG_WORD, MUD, page_full_of, page_of


def _read(page: Page) -> PdfReader:
    return PdfReader(io.BytesIO(pdf_of(page).content))


def _texts(page: Page) -> list[str]:
    return [" ".join(sheet.extract_text().split()) for sheet in _read(page).pages]


def test_a_page_is_a4_with_its_title_and_language() -> None:
    reader = _read(page_of(Paragraph("two tubes")))
    box = reader.pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx((595.28, 841.89), abs=0.01)
    assert reader.metadata is not None
    assert reader.metadata.title == "Sluice paints"
    assert str(reader.root_object["/Lang"]) == "en"
    preferences: Any = reader.root_object["/ViewerPreferences"]
    assert preferences["/DisplayDocTitle"]


def test_blocks_keep_their_order_between_title_and_foot() -> None:
    (text,) = _texts(
        page_of(
            Heading("Stock"),
            Paragraph("two tubes"),
            Bullets(("one open", "one full")),
            Patches(((MUD, "creek mud"),)),
            Grid(("code", "left"), (("FU-1", "3 ml"),)),
        )
    )
    assert text == (
        "Sluice paints 25 Nov 2026 Stock two tubes \N{BULLET} one open \N{BULLET} one full "
        "creek mud code left FU-1 3 ml Read the label of each tube. 1 of 1"
    )


def test_the_typeface_is_inside() -> None:
    fonts: Any = _read(page_full_of("tide")).pages[0]["/Resources"]
    embedded = []
    for font in fonts["/Font"].values():
        descendant = font.get_object()["/DescendantFonts"][0].get_object()
        assert "DejaVuSans" in descendant["/BaseFont"]
        embedded.append("/FontFile2" in descendant["/FontDescriptor"].get_object())
    assert embedded == [True, True]


def test_the_same_page_is_the_same_file() -> None:
    page = page_full_of("a creek at ebb tide")
    assert pdf_of(page) == pdf_of(page)
    assert pdf_of(page) != pdf_of(page_full_of("a creek at flood tide"))


def test_no_clock_stands_in_the_file() -> None:
    reader = _read(page_of())
    assert reader.metadata is not None
    assert str(reader.metadata["/CreationDate"]) == "D:20000101000000Z"
    assert "/ModDate" not in reader.metadata


def test_a_long_table_repeats_its_headings_and_every_sheet_has_foot_and_number() -> None:
    rows = tuple((f"B{number}", f"berth {number}") for number in range(1, 151))
    texts = _texts(page_of(Grid(("code", "lies where"), rows)))
    assert len(texts) == 4
    for number, text in enumerate(texts, start=1):
        assert text.count("code lies where") == 1
        assert text.endswith(f"Read the label of each tube. {number} of 4")
    found = re.findall(r"(?<=berth )\d+", " ".join(texts))
    assert found == [str(number) for number in range(1, 151)]


def test_a_table_that_fits_on_a_sheet_is_not_cut() -> None:
    rows = tuple((f"B{number}", "mooring") for number in range(30))
    filler = Bullets(("salt marsh",) * 25)
    texts = _texts(page_of(filler, Heading("Moorings"), Grid(("code", "what"), rows)))
    assert [text.count("mooring") for text in texts] == [0, 30]
    assert ["Moorings" in text for text in texts] == [False, True]


def test_a_cell_longer_than_a_sheet_goes_on_under_the_headings() -> None:
    words = " ".join(f"wave{number}" for number in range(1500))
    texts = _texts(page_of(Grid(("code", "note"), (("FU", words),))))
    assert len(texts) > 1
    assert all("code note" in text for text in texts)
    assert re.findall(r"wave\d+", " ".join(texts)) == words.split()


def test_a_table_without_rows_shows_its_headings() -> None:
    (text,) = _texts(page_of(Grid(("code", "left"), ())))
    assert "code left" in text


@pytest.mark.parametrize("text", [HOSTILE, "tide\u202eedit", "a\x00b\x1bc"])
def test_a_name_is_text_wherever_it_stands(text: str) -> None:
    reader = _read(page_full_of(text))
    whole = " ".join(" ".join(sheet.extract_text() for sheet in reader.pages).split())
    shown = "".join(char for char in text if char.isprintable())
    assert whole.count(shown.split()[0]) >= 9
    assert shown.replace(" ", "") in whole.replace(" ", "")
    assert reader.metadata is not None
    assert reader.metadata.title == shown


def test_a_word_wider_than_the_sheet_is_cut_and_none_of_it_lost() -> None:
    (text,) = _texts(page_of(Paragraph(LONG_WORD)))
    joined = "".join(text.removeprefix("Sluice paints 25 Nov 2026").split())
    assert joined.startswith(LONG_WORD)


def _starts(page: Page) -> dict[str, float]:
    """Each text that is drawn, and where it begins, points from the left."""
    starts: dict[str, float] = {}

    def visit(text: str, _cm: Any, matrix: list[float], _font: Any, _size: Any) -> None:
        if text.strip():
            starts[text.strip()] = matrix[4]

    for sheet in _read(page).pages:
        sheet.extract_text(visitor_text=visit)
    return starts


def test_no_text_begins_outside_the_margins() -> None:
    starts = _starts(page_full_of(LONG_WORD)).values()
    assert len(starts) > 10
    assert min(starts) > 36
    assert max(starts) < 595.28 - 36


def test_numbers_stand_to_the_right_of_their_column() -> None:
    rows = (("FU", "11"),)
    plain = _starts(page_of(Grid(("paint", "n"), rows)))["11"]
    flush = _starts(page_of(Grid(("paint", "n"), rows, numbers=frozenset({1}))))["11"]
    assert plain < 330
    assert flush > 530


def test_what_the_typeface_lacks_is_shown_as_missing(caplog: pytest.LogCaptureFixture) -> None:
    (text,) = _texts(page_of(Paragraph("crab \N{CRAB} in 日本")))
    assert "crab \N{REPLACEMENT CHARACTER} in \N{REPLACEMENT CHARACTER}" in text
    assert text.count("\N{REPLACEMENT CHARACTER}") == 3
    assert caplog.records == []


def test_a_patch_is_srgb_on_a_neutral_ground() -> None:
    content = _read(page_of(Patches(((MUD, "mud"),)))).pages[0].get_contents()
    assert content is not None
    areas = re.findall(rb"([\d. ]+) (rg|g)\n[-\d. ]+ re f", content.get_data())
    (ground, grey), (patch, colour) = areas
    assert (grey, colour) == (b"g", b"rg")
    assert round(255 * float(ground)) == 119
    assert [round(255 * float(channel)) for channel in patch.split()] == list(on_screen(MUD).rgb)


def test_a_colour_outside_srgb_is_marked_and_the_mark_explained_once() -> None:
    (text,) = _texts(page_of(Patches(((KELP, "kelp"), (MUD, "mud"), (KELP, "weed")))))
    assert "*8.8 kelp mud *8.8 weed" in text
    assert text.count(OUTSIDE) == 1
    (text,) = _texts(page_of(Patches(((MUD, "mud"),))))
    assert OUTSIDE not in text


def test_a_caption_of_several_texts_has_a_line_for_each() -> None:
    (sheet,) = _read(page_of(Patches(((MUD, ("S1", "creek mud", "box 1")),), many=True))).pages
    lines = sheet.extract_text().splitlines()
    assert lines[2:5] == ["S1", "creek mud", "box 1"]


def test_few_patches_may_be_as_small_as_many() -> None:
    """A part of a book with one patch has it in the size of all others."""
    few = pdf_of(page_of(*(Patches(((MUD, "mud"),)) for _ in range(10)))).sheets
    small = pdf_of(page_of(*(Patches(((MUD, "mud"),), many=True) for _ in range(10)))).sheets
    assert (few, small) == (3, 2)


def test_many_patches_are_broken_between_rows() -> None:
    texts = _texts(page_of(Patches(tuple((MUD, f"mud{number}.") for number in range(80)))))
    assert len(texts) == 3
    assert re.findall(r"mud\d+", " ".join(texts)) == [f"mud{number}" for number in range(80)]


def _sizes(page: Page) -> set[float]:
    """The sizes of type on a page, points."""
    found: set[float] = set()
    for sheet in _read(page).pages:
        content = sheet.get_contents()
        assert content is not None
        found |= {float(size) for size in re.findall(rb"/F\d+ ([\d.]+) Tf", content.get_data())}
    return found


def _long(lines: int, *, fits: bool = True, wide: bool = False) -> Page:
    rows = tuple((f"B{number}", f"berth {number}") for number in range(lines))
    blocks = (Grid(("code", "lies where"), rows), Paragraph("end", small=True))
    return Page("Berths", "today", blocks, "foot", notice="Ask first.", fits=fits, wide=wide)


def test_the_type_is_the_largest_that_lets_the_page_stand_on_one_sheet() -> None:
    sizes = []
    for lines in (10, 50, 60):
        made = pdf_of(_long(lines))
        assert (made.sheets, made.too_long) == (1, False)
        sizes.append(min(_sizes(_long(lines)) - {7.5}))
    assert sizes == sorted(sizes, reverse=True)
    assert sizes[0] == 8.5
    assert sizes[-1] < 8.5
    assert min(sizes) >= 6.5


def test_what_one_sheet_cannot_hold_goes_on_with_notice_and_headings() -> None:
    page = _long(120)
    made = pdf_of(page)
    assert (made.sheets, made.too_long) == (2, True)
    assert min(_sizes(page)) >= 6.5
    for number, text in enumerate(_texts(page), start=1):
        assert text.startswith("Ask first.")
        assert text.count("code lies where") == 1
        assert text.endswith(f"foot {number} of 2")
    ordinary = pdf_of(_long(120, fits=False))
    assert not ordinary.too_long
    assert min(_sizes(_long(120, fits=False))) == 7.5


def test_a_wide_page_lies_across_the_sheet() -> None:
    box = _read(_long(10, wide=True)).pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx((841.89, 595.28), abs=0.01)


def test_a_new_sheet_begins_one_and_each_has_the_notice_in_full() -> None:
    notice = "Read the label and the sheet of the maker. " * 4
    blocks = (Paragraph("a"), NewSheet(fits=True), Paragraph("b"), NewSheet(), Paragraph("c"))
    texts = _texts(Page("Cards", "today", blocks, "foot", notice=notice.strip()))
    assert [text.removeprefix(notice) for text in texts] == [
        "Cards today a foot 1 of 3",
        "b foot 2 of 3",
        "c foot 3 of 3",
    ]


def test_the_notice_is_never_small() -> None:
    page = Page("T", "l", (), "foot", notice="Ask first.", fits=True)
    content = _read(page).pages[0].get_contents()
    assert content is not None
    assert float(re.findall(rb"/F\d+ ([\d.]+) Tf", content.get_data())[0]) == 9


def test_a_page_is_dated_by_its_day() -> None:
    metadata = _read(Page("T", "l", (), "foot", day=date(2026, 11, 25))).metadata
    assert metadata is not None
    assert str(metadata["/CreationDate"]) == "D:20261125000000Z"


def test_an_accent_stands_on_its_letter_and_selectors_are_not_seen() -> None:
    (text,) = _texts(page_of(Paragraph("Cre\u0301ek \N{UMBRELLA}\N{VARIATION SELECTOR-16}.")))
    assert "Cr\u00e9ek \N{UMBRELLA}." in text


def test_hebrew_is_drawn_in_the_order_it_is_read_in() -> None:
    drawn: list[str] = []
    word = "\u05d0\u05d1\u05d2"
    page = page_of(Paragraph(f"mud {word} 12"))
    for sheet in _read(page).pages:
        sheet.extract_text(visitor_text=lambda text, *_: drawn.append(text))
    assert any(word[::-1] in text or word in text for text in drawn)
    assert seen(f"mud {word} 12") == f"mud 12 {word[::-1]}"
    assert seen("mud (12)") == "mud (12)"


def test_small_patches_stand_before_their_lines() -> None:
    grid = Grid(("paints",), (("mud\nreeds",),), chips=((MUD, None),))
    for block in (grid, Chips(((MUD, "mud"), (None, "reeds")))):
        content = _read(page_of(block)).pages[0].get_contents()
        assert content is not None
        areas = re.findall(rb"([\d. ]+) (rg|g)\n[-\d. ]+ re f", content.get_data())
        edge, (patch, kind) = areas
        assert (edge[1], kind) == (b"g", b"rg")
        assert [round(255 * float(c)) for c in patch.split()] == list(on_screen(MUD).rgb)
        assert "mud" in _texts(page_of(block))[0]
        assert "reeds" in _texts(page_of(block))[0]


def test_rows_that_go_on_with_another_stay_on_its_sheet() -> None:
    rows = tuple(("" if number % 2 else f"P{number}", f"c{number}.") for number in range(140))
    grid = Grid(("paint", "caution"), rows, joined=frozenset(range(1, 140, 2)))
    for text in _texts(page_of(grid)):
        found = re.findall(r"c(\d+)\.", text)
        assert int(found[0]) % 2 == 0
        assert int(found[-1]) % 2 == 1

"""A page as PDF, read back by another library."""

import io
import re
from typing import Any

import pytest
from pypdf import PdfReader

from studio.colour.display import on_screen
from studio.sheets.blocks import Bullets, Grid, Heading, Page, Paragraph, Patches
from studio.sheets.page_parts import OUTSIDE
from studio.sheets.page_pdf import pdf_of
from tests.sheets.pages import HOSTILE, KELP, LONG_WORD, MUD, page_full_of, page_of


def _read(page: Page) -> PdfReader:
    return PdfReader(io.BytesIO(pdf_of(page)))


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
    assert min(starts) > 45
    assert max(starts) < 595.28 - 45


def test_numbers_stand_to_the_right_of_their_column() -> None:
    rows = (("FU", "11"),)
    plain = _starts(page_of(Grid(("paint", "n"), rows)))["11"]
    flush = _starts(page_of(Grid(("paint", "n"), rows, numbers=frozenset({1}))))["11"]
    assert plain < 330
    assert flush > 530


def test_what_the_typeface_lacks_is_shown_as_missing(caplog: pytest.LogCaptureFixture) -> None:
    (text,) = _texts(page_of(Paragraph("crab \N{CRAB} in 日本")))
    assert "crab \N{REPLACEMENT CHARACTER} in \N{REPLACEMENT CHARACTER}" in text
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
    assert "* kelp mud * weed" in text
    assert text.count(OUTSIDE) == 1
    (text,) = _texts(page_of(Patches(((MUD, "mud"),))))
    assert OUTSIDE not in text


def test_many_patches_are_broken_between_rows() -> None:
    texts = _texts(page_of(Patches(tuple((MUD, f"mud{number}.") for number in range(60)))))
    assert len(texts) == 3
    assert re.findall(r"mud\d+", " ".join(texts)) == [f"mud{number}" for number in range(60)]

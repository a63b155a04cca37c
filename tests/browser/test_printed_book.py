"""A book printed from the browser: no patch is cut, nor parted from its words."""

import io
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

import pytest
from pypdf import PageObject, PdfReader
from pypdf.generic import ContentStream

from studio.actions.swatch_book import swatch_book
from studio.catalogue.book_order import Order
from studio.sheets.book_html import book_html
from studio.storage.unit_of_work import UnitOfWork
from tests.browser.conftest import Opens
from tests.browser.searching import ask
from tests.conftest import TODAY

KEEPS: Final = "break-inside: avoid"


def _fills(page: PageObject) -> Iterator[str]:
    """The colours that are filled with on a printed page, as `#rrggbb`."""
    content = page.get_contents()
    assert content is not None
    colour = ""
    for operands, operator in ContentStream(content, page.pdf).operations:
        if operator == b"rg":
            colour = "#" + "".join(f"{round(255 * float(each)):02x}" for each in operands)
        elif operator in {b"f", b"f*"}:
            yield colour


def _cut(printed: bytes, swatches: dict[str, str]) -> list[str]:
    """The swatches whose patch, code and last line are not all on one sheet, and that once.

    Args:
        printed: the PDF.
        swatches: the colour, which no other has, of each code.
    """
    sheets = PdfReader(io.BytesIO(printed)).pages
    colours = [set(_fills(sheet)) for sheet in sheets]
    texts = [sheet.extract_text() for sheet in sheets]
    cut = []
    for number, (code, colour) in enumerate(swatches.items()):
        shown = [at for at, filled in enumerate(colours) if colour in filled]
        named = [
            at for at, text in enumerate(texts) if re.search(rf"^{code}\b", text, re.MULTILINE)
        ]
        ended = [at for at, text in enumerate(texts) if f"row {number} last" in text]
        if not (len(shown) == 1 and shown == named == ended):
            cut.append(code)
    return cut


@pytest.fixture
def distinct(demo_book: Path, tmp_path: Path) -> tuple[Path, dict[str, str]]:
    """The demo's book with a colour of its own for each patch, and a number in its last line."""
    swatches: dict[str, str] = {}

    def marked(found: re.Match[str]) -> str:
        number = len(swatches)
        colour = f"#{(number * 7) % 200 + 20:02x}{(number * 13) % 200 + 30:02x}{number % 250:02x}"
        swatches[found["code"]] = colour
        figure = re.sub(r"--srgb: #\w{6}; --lab: [^\"]*", f"--srgb: {colour}", found[0])
        return re.sub(r'(class="numbers">)[^<]*', rf"\1row {number} last", figure)

    written = demo_book.read_text("utf-8")
    written = re.sub(r'<figure id="(?P<code>\w+)".*?</figure>', marked, written)
    written = written.replace("color: lab(50% 0 0)", "color: tide(1)")
    assert len(set(swatches.values())) == len(swatches) > 200
    file = tmp_path / "distinct.html"
    file.write_text(written, encoding="utf-8")
    return file, swatches


def _print(page: Any) -> bytes:
    printed: bytes = page.pdf(prefer_css_page_size=True)
    return printed


def test_no_patch_is_cut_nor_parted_from_its_words(
    distinct: tuple[Path, dict[str, str]], opens: Opens
) -> None:
    file, swatches = distinct
    printed = _print(opens(file))
    assert _cut(printed, swatches) == []
    sheets = PdfReader(io.BytesIO(printed)).pages
    assert 10 <= len(sheets) <= 18
    width, height = (float(each) / 72 * 25.4 for each in sheets[0].mediabox[2:])
    assert (round(width), round(height)) == (210, 297)
    assert "Colour to find" not in sheets[0].extract_text()


def test_the_check_finds_cut_patches_where_nothing_keeps_them(
    distinct: tuple[Path, dict[str, str]], opens: Opens
) -> None:
    file, swatches = distinct
    written = file.read_text("utf-8")
    assert KEEPS in written
    file.write_text(written.replace(KEEPS, "break-inside: auto"), encoding="utf-8")
    assert len(_cut(_print(opens(file)), swatches)) > 10


def test_what_was_found_is_printed_and_nothing_else(demo_book: Path, opens: Opens) -> None:
    page = opens(demo_book)
    codes = [each.code for each in ask(page, "#767d63", "smooth")]
    sheets = PdfReader(io.BytesIO(_print(page))).pages
    text = "\n".join(sheet.extract_text() for sheet in sheets)
    assert re.findall(r"^(S\d+)\b(?!,)", text, re.MULTILINE) == codes
    assert "nearest to #767d63" in text.replace("\n", " ")
    assert len(codes) > 20
    assert len(sheets) <= len(codes) // 12 + 1


@pytest.mark.parametrize("order", list(Order))
def test_a_heading_stands_with_what_it_is_above(
    order: Order, demo_work: UnitOfWork, tmp_path: Path, opens: Opens
) -> None:
    """No sheet ends with a heading."""
    file = tmp_path / "book.html"
    file.write_text(book_html(swatch_book(demo_work), order, TODAY), encoding="utf-8")
    page = opens(file)
    titles = page.locator("#book h2").all_inner_texts()
    sheets = PdfReader(io.BytesIO(_print(page))).pages
    found = 0
    for sheet in sheets:
        lines = [line.strip() for line in sheet.extract_text().splitlines() if line.strip()]
        places = [at for at, line in enumerate(lines) if line in titles]
        found += len(places)
        for at in places:
            assert re.match(r"S\d+", lines[at + 1]), (order, lines[at])
    assert found == len(titles)

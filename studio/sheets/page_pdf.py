"""A page as a PDF to print on A4, with the look and the order of its HTML."""

import unicodedata
from datetime import UTC, date, datetime
from functools import cache
from io import BytesIO
from typing import Final, NamedTuple

from fpdf import FPDF, ViewerPreferences
from fpdf.bidi import BidiParagraph
from fpdf.fonts import TTFFont

from studio.sheets import page_type as t
from studio.sheets.blocks import Page
from studio.sheets.page_layout import lay_out, notice_height, notice_lines, paper_of
from studio.sheets.page_parts import UNKNOWN, Paper, plain
from studio.sheets.page_pen import Colour, wrapped
from studio.sheets.page_type import Type
from studio.sheets.typeface import FAMILY, typeface

_UNDATED: Final = datetime(2000, 1, 1, tzinfo=UTC)
"""Stands as the day of making where a page has none, so that the same page is the same file."""

_SELECTORS: Final = frozenset(map(chr, range(0xFE00, 0xFE10)))
"""They choose between two looks of the character before and are never seen themselves."""

_RIGHT_TO_LEFT: Final = frozenset({"R", "AL", "AN"})


class PdfFile(NamedTuple):
    """A PDF: its bytes, how many sheets it has, and whether it was to stand on one and does not."""

    content: bytes
    sheets: int
    too_long: bool


def pdf_of(page: Page) -> PdfFile:
    """A page as a PDF with its typeface inside; the same page gives the same bytes.

    What the typeface lacks, such as emoji and Chinese, is shown as `\N{REPLACEMENT CHARACTER}`.
    Hebrew and Arabic words are put in the order they are read in, line by line, but Arabic letters
    are not joined and paragraphs start at the left.
    """
    paper = paper_of(page)
    pen = FpdfPen(page.title, page.day, paper)
    laid = lay_out(page, pen)
    notice = notice_lines(page, pen)
    below = paper.margin + notice_height(page, pen)
    sheets = [sheet for run in laid for sheet in run.sheets]
    for number, sheet in enumerate(sheets, start=1):
        pen.begin()
        for place, line in enumerate(notice):
            pen.text(line, t.NOTICE, paper.margin, paper.margin + place * t.NOTICE.line)
        if notice:
            pen.rule(paper.margin, below - 3.5, paper.text_width, t.GROUND)
        for top, piece in sheet:
            piece.draw(below + top)
        _draw_foot(pen, paper, page.foot, f"{number} of {len(sheets)}")
    return PdfFile(pen.written(), len(sheets), any(run.too_long for run in laid))


def _draw_foot(pen: "FpdfPen", paper: Paper, foot: str, said: str) -> None:
    """What stands at the bottom of every sheet, and the number of the sheet."""
    top = paper.height - paper.bottom + 3.5
    pen.rule(paper.margin, top - 1.5, paper.text_width, t.LINE)
    for place, line in enumerate(wrapped(pen, foot, t.FOOT, paper.text_width - 24.0)[:2]):
        pen.text(line, t.FOOT, paper.margin, top + place * t.FOOT.line)
    left = paper.margin + paper.text_width - pen.width(said, t.FOOT)
    pen.text(said, t.FOOT, left, top)


class FpdfPen:
    """Measures and draws with fpdf2.

    Args:
        title: of the document.
        day: the day it stands for, where it has one.
        paper: the size of its sheets.
    """

    def __init__(self, title: str, day: date | None, paper: Paper) -> None:
        self._pdf = pdf = FPDF(format=(paper.width, paper.height))
        pdf.set_auto_page_break(auto=False)
        pdf.add_font(FAMILY, "", typeface())
        pdf.add_font(FAMILY, "B", typeface(bold=True))
        drawn = [font.cmap for font in pdf.fonts.values() if isinstance(font, TTFFont)]
        self._known = set(drawn[0]).intersection(*drawn)
        pdf.set_title(self.clean(title))
        pdf.set_lang("en")
        pdf.set_creator("studio")
        pdf.set_creation_date(
            _UNDATED if day is None else datetime(day.year, day.month, day.day, tzinfo=UTC)
        )
        pdf.viewer_preferences = ViewerPreferences(display_doc_title=True)
        self._unit_width = cache(self._measured)

    def begin(self) -> None:
        """A new sheet."""
        self._pdf.add_page()

    def written(self) -> bytes:
        """The file."""
        return bytes(self._pdf.output())

    def close(self) -> None:
        """Close the files of its typeface, where it only measured; `written` does so by itself."""
        for font in self._pdf.fonts.values():
            if isinstance(font, TTFFont):
                font.close()

    def clean(self, text: str) -> str:
        """A text without controls, what the typeface lacks replaced by a visible mark."""
        return "".join(
            char if ord(char) in self._known else UNKNOWN
            for char in plain(text)
            if char not in _SELECTORS
        )

    def width(self, text: str, kind: Type) -> float:
        """The width of a line, mm."""
        return self._unit_width(text, kind.style) * kind.size

    def _measured(self, text: str, style: str) -> float:
        """The width of a line in type of one point, mm."""
        self._pdf.set_font(FAMILY, style, 10)
        return self._pdf.get_string_width(text) / 10

    def text(self, line: str, kind: Type, left: float, top: float) -> None:
        """Draw a line, in the order it is seen in."""
        self._pdf.set_font(FAMILY, kind.style, kind.size)
        self._pdf.set_text_color(kind.grey)
        base = top + kind.line / 2 + 0.36 * kind.size * t.POINT
        self._pdf.text(left, base, seen(line))

    def area(self, corner: tuple[float, float], size: tuple[float, float], fill: Colour) -> None:
        """Fill a rectangle."""
        self._pdf.set_fill_color(*(fill if isinstance(fill, tuple) else (fill,)))
        self._pdf.rect(*corner, *size, style="F")

    def rule(self, left: float, top: float, width: float, grey: int) -> None:
        """Draw a horizontal line."""
        self._pdf.set_draw_color(grey)
        self._pdf.set_line_width(0.35 if grey == t.GROUND else 0.2)
        self._pdf.line(left, top, left + width, top)

    def strike(
        self,
        corner: tuple[float, float],
        size: tuple[float, float],
        grey: int,
        *,
        crossed: bool = False,
    ) -> None:
        """Draw the outline of a rectangle with a line across, or two."""
        (left, top), (width, height) = corner, size
        self._pdf.set_draw_color(grey)
        self._pdf.set_line_width(0.2)
        self._pdf.rect(left, top, width, height, style="D")
        self._pdf.line(left, top + height, left + width, top)
        if crossed:
            self._pdf.line(left, top, left + width, top + height)

    def image(self, file: bytes, corner: tuple[float, float], size: tuple[float, float]) -> None:
        """Draw a picture in a rectangle."""
        self._pdf.image(BytesIO(file), *corner, *size)


def seen(line: str) -> str:
    """A line from left to right as it is seen (Unicode Bidirectional Algorithm, UAX 9)."""
    if not any(unicodedata.bidirectional(char) in _RIGHT_TO_LEFT for char in line):
        return line
    from fpdf.enums import TextDirection  # noqa: PLC0415

    return BidiParagraph(line, TextDirection.LTR).get_reordered_string()

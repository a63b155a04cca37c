"""A page as a PDF to print on A4, with the look and the order of its HTML."""

from collections.abc import Iterator, Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import Final, NamedTuple

import matplotlib as mpl
from fpdf import FPDF, ViewerPreferences
from fpdf.fonts import TTFFont

from studio.colour.display import on_screen
from studio.colour.lab import Lab
from studio.sheets import page_type as t
from studio.sheets.blocks import Block, Bullets, Grid, Heading, Page, Paragraph, Patches
from studio.sheets.page_parts import (
    COLUMN_GAP,
    OUTSIDE,
    TABLE_WIDTH,
    column_shares,
    marked,
    plain,
)
from studio.sheets.page_plan import Part, Piece, plan
from studio.sheets.page_type import Type

_MARGIN: Final = 16.0
"""mm at the left, right and top; as on the printed HTML."""
_BOTTOM: Final = 22.0
"""mm at the bottom, with the foot in them."""
_WIDTH: Final = TABLE_WIDTH
_ROOM: Final = 297.0 - _MARGIN - _BOTTOM

_FAMILY: Final = "DejaVu Sans"
_GAP: Final = COLUMN_GAP
"""mm between the columns of a table, and between patches and around them."""
_PADDING: Final = 1.1
"""mm above and below the text of a table's row."""

_TALL: Final = 20
"""A row with more lines than this may be cut between sheets."""

_UNDATED: Final = datetime(2000, 1, 1, tzinfo=UTC)
"""Stands as the day of making, so that the same page is the same file; the page tells its own."""

_UNKNOWN: Final = "\N{REPLACEMENT CHARACTER}"
"""Stands for what the typeface does not have."""


def pdf_of(page: Page) -> bytes:
    """A page as a PDF with its typeface inside; the same page gives the same bytes."""
    return _Setter(page).written()


class _Columns(NamedTuple):
    """The widths (mm) of a table's columns, and which are flush right."""

    widths: Sequence[float]
    numbers: frozenset[int]


class _Setter:
    """Sets one page: measures its blocks, plans the sheets, draws them."""

    def __init__(self, page: Page) -> None:
        self._page = page
        self._pdf = pdf = FPDF(format="A4")
        pdf.set_auto_page_break(auto=False)
        fonts = Path(mpl.get_data_path()) / "fonts" / "ttf"
        pdf.add_font(_FAMILY, "", fonts / "DejaVuSans.ttf")
        pdf.add_font(_FAMILY, "B", fonts / "DejaVuSans-Bold.ttf")
        drawn = [font.cmap for font in pdf.fonts.values() if isinstance(font, TTFFont)]
        self._known = set(drawn[0]).intersection(*drawn)
        pdf.set_title(self._clean(page.title))
        pdf.set_lang("en")
        pdf.set_creator("studio")
        pdf.set_creation_date(_UNDATED)
        pdf.viewer_preferences = ViewerPreferences(display_doc_title=True)
        pdf.add_page()
        self._widths: dict[tuple[str, float, str], float] = {}

    def written(self) -> bytes:
        """The file."""
        sheets = plan(self._parts(), _ROOM)
        for number, sheet in enumerate(sheets, start=1):
            if number > 1:
                self._pdf.add_page()
            for top, piece in sheet:
                piece.draw(_MARGIN + top)
            self._draw_foot(number, len(sheets))
        return bytes(self._pdf.output())

    def _parts(self) -> list[Part]:
        parts = [
            Part(self._lines(self._page.title, t.TITLE), clings=True),
            Part(self._lines(self._page.lead, t.LEAD), gap=1.0, clings=True),
        ]
        return parts + [self._part(block) for block in self._page.blocks]

    def _part(self, block: Block) -> Part:
        match block:
            case Heading(text=text):
                return Part(self._lines(text, t.HEADING), gap=6.5, clings=True)
            case Paragraph():
                kind = t.STRONG if block.strong else t.SMALL if block.small else t.BODY
                return Part(self._lines(block.text, kind), gap=2.2)
            case Bullets():
                items = [piece for item in block.items for piece in self._bullet(item)]
                return Part(tuple(items), gap=2.2)
            case Patches():
                return self._patches(block)
            case Grid():
                return self._grid(block)

    def _lines(self, text: str, kind: Type, left: float = _MARGIN) -> tuple[Piece, ...]:
        def piece(line: str) -> Piece:
            return Piece(kind.line, lambda top: self._draw(line, kind, left, top))

        return tuple(piece(line) for line in self._wrapped(text, kind, _MARGIN + _WIDTH - left))

    def _bullet(self, item: str) -> tuple[Piece, ...]:
        first, *others = self._lines(item, t.BODY, _MARGIN + _GAP)

        def draw(top: float) -> None:
            self._draw("\N{BULLET}", t.BODY, _MARGIN, top)
            first.draw(top)

        return Piece(first.height, draw), *others

    def _patches(self, block: Patches) -> Part:
        """Patches in rows, and what their marks mean."""
        count = len(block.patches)
        columns, height = (2, 40.0) if count <= 2 else (3, 30.0) if count <= 6 else (4, 18.0)  # noqa: PLR2004
        rows = [
            self._patch_row(block.patches[start : start + columns], columns, height)
            for start in range(0, count, columns)
        ]
        if any(not on_screen(lab).in_gamut for lab, _ in block.patches):
            rows += self._lines(OUTSIDE, t.SMALL)
        return Part(tuple(rows), gap=4.0)

    def _patch_row(self, patches: Sequence[tuple[Lab, str]], columns: int, height: float) -> Piece:
        width = (_WIDTH - _GAP * (columns - 1)) / columns
        ground = _GAP
        captions = [self._wrapped(marked(lab, text), t.CELL, width) for lab, text in patches]
        below = height + 2 * ground + 1.2

        def draw(top: float) -> None:
            for index, ((lab, _), lines) in enumerate(zip(patches, captions, strict=True)):
                left = _MARGIN + index * (width + _GAP)
                self._pdf.set_fill_color(t.GROUND)
                self._pdf.rect(left, top, width, height + 2 * ground, style="F")
                self._pdf.set_fill_color(*on_screen(lab).rgb)
                self._pdf.rect(left + ground, top + ground, width - 2 * ground, height, style="F")
                for number, line in enumerate(lines):
                    self._draw(line, t.CELL, left, top + below + number * t.CELL.line)

        return Piece(below + max(map(len, captions)) * t.CELL.line + 2.0, draw)

    def _grid(self, grid: Grid) -> Part:
        widths = [share * (_WIDTH + _GAP) - _GAP for share in column_shares(grid)]
        columns = _Columns(widths, grid.numbers)

        def wrapped(row: Sequence[str], kind: Type) -> list[list[str]]:
            return [self._wrapped(text, kind, w) for text, w in zip(row, widths, strict=True)]

        head = self._row(wrapped(grid.columns, t.COLUMN), columns, t.COLUMN)
        rows = [piece for row in grid.rows for piece in self._pieces(wrapped(row, t.CELL), columns)]
        return Part(tuple(rows), head, gap=3.0) if rows else Part((head,), gap=3.0)

    def _pieces(self, cells: Sequence[Sequence[str]], columns: _Columns) -> Iterator[Piece]:
        """A row of a table, a tall one in pieces that show no seam on the same sheet."""
        lines = max(map(len, cells))
        for start in range(0, lines, _TALL):
            part = [cell[start : start + _TALL] for cell in cells]
            last = start + _TALL >= lines
            yield self._row(part, columns, t.CELL, first=start == 0, last=last)

    def _row(
        self,
        cells: Sequence[Sequence[str]],
        columns: _Columns,
        kind: Type,
        *,
        first: bool = True,
        last: bool = True,
    ) -> Piece:
        """The first, the last or all lines of a row, with the rule under its last."""
        above = _PADDING if first else 0.0
        height = above + max(map(len, cells)) * kind.line + (_PADDING if last else 0.0)

        def draw(top: float) -> None:
            left = _MARGIN
            for index, (lines, width) in enumerate(zip(cells, columns.widths, strict=True)):
                for number, line in enumerate(lines):
                    shift = width - self._width(line, kind) if index in columns.numbers else 0.0
                    self._draw(line, kind, left + shift, top + above + number * kind.line)
                left += width + _GAP
            if last:
                self._draw_rule(top + height, t.GROUND if kind is t.COLUMN else t.LINE)

        return Piece(height, draw)

    def _wrapped(self, text: str, kind: Type, room: float) -> list[str]:
        """The lines of a text in a width (mm); a word that is too long is cut."""
        lines = [""]
        for word in self._clean(text).split(" "):
            longer = f"{lines[-1]} {word}" if lines[-1] else word
            if self._width(longer, kind) <= room:
                lines[-1] = longer
                continue
            lines += [""] if lines[-1] else []
            whole = self._width(word, kind) <= room
            for part in [word] if whole else word:
                if lines[-1] and self._width(lines[-1] + part, kind) > room:
                    lines.append("")
                lines[-1] += part
        return lines

    def _width(self, text: str, kind: Type) -> float:
        key = (text, kind.size, kind.style)
        if key not in self._widths:
            self._pdf.set_font(_FAMILY, kind.style, kind.size)
            self._widths[key] = self._pdf.get_string_width(text)
        return self._widths[key]

    def _clean(self, text: str) -> str:
        return "".join(char if ord(char) in self._known else _UNKNOWN for char in plain(text))

    def _draw(self, text: str, kind: Type, left: float, top: float) -> None:
        self._pdf.set_font(_FAMILY, kind.style, kind.size)
        self._pdf.set_text_color(kind.grey)
        self._pdf.text(left, top + kind.line / 2 + 0.36 * kind.size * t.POINT, text)

    def _draw_rule(self, top: float, grey: int) -> None:
        self._pdf.set_draw_color(grey)
        self._pdf.set_line_width(0.35 if grey == t.GROUND else 0.2)
        self._pdf.line(_MARGIN, top, _MARGIN + _WIDTH, top)

    def _draw_foot(self, number: int, count: int) -> None:
        """What stands at the bottom of every sheet, and the number of the sheet."""
        top = 297.0 - _BOTTOM + 5.0
        self._draw_rule(top - 1.5, t.LINE)
        for place, line in enumerate(self._wrapped(self._page.foot, t.FOOT, _WIDTH - 24.0)[:4]):
            self._draw(line, t.FOOT, _MARGIN, top + place * t.FOOT.line)
        said = f"{number} of {count}"
        self._draw(said, t.FOOT, _MARGIN + _WIDTH - self._width(said, t.FOOT), top)

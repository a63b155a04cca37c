"""Blocks as parts of sheets: measured, wrapped and ready to be drawn."""

from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

from studio.colour.display import on_screen
from studio.colour.lab import Lab
from studio.sheets import page_type as t
from studio.sheets.blocks import (
    Block,
    Bullets,
    Chip,
    Chips,
    CrossedOut,
    Grid,
    Heading,
    Illustration,
    NewSheet,
    Page,
    Paragraph,
    Patches,
    Steps,
)
from studio.sheets.page_parts import (
    CHIP,
    CHIP_GAP,
    OUTSIDE,
    WIDE,
    Paper,
    cell_lines,
    column_shares,
)
from studio.sheets.page_patches import PatchRows
from studio.sheets.page_pen import Pen, wrapped
from studio.sheets.page_plan import Part, Piece
from studio.sheets.page_set_steps import illustration_part, steps_part
from studio.sheets.page_type import Type

_INDENT: Final = 4.0
"""mm before the text of a bullet."""
_PADDING: Final = 1.1
"""mm above and below the text of a table's row."""
_EDGE: Final = 0.12
"""mm of grey around a small patch, by which white is seen on paper."""
_TALL: Final = 20
"""A row with more lines than this may be cut between sheets."""


def chips_across(paper: Paper) -> int:
    """How many short texts with small patches stand side by side."""
    return 3 if paper is WIDE else 2


class _Columns(NamedTuple):
    """The widths (mm) of a table's columns, and which are flush right."""

    widths: Sequence[float]
    numbers: frozenset[int]


class Setter:
    """Makes parts of blocks, in type of a scale."""

    def __init__(self, pen: Pen, paper: Paper, scale: float, *, close: bool) -> None:
        self._pen = pen
        self._paper = paper
        self._scale = scale
        self._close = close

    def head(self, page: Page) -> list[Part]:
        """The title of a page and what stands under it."""
        return [
            Part(self._lines(page.title, t.CLOSE_TITLE if self._close else t.TITLE), clings=True),
            Part(self._lines(page.lead, t.LEAD), gap=1.0, clings=True),
        ]

    def part(self, block: Block) -> Part:
        """A block ready to be planned."""
        match block:
            case Patches():
                return self._patches(block)
            case Grid():
                return self._grid(block)
            case Chips():
                return self._chips(block)
            case Illustration():
                return illustration_part(self._pen, self._paper, block)
            case Steps():
                return steps_part(self._pen, self._paper, block)
            case _:
                return self._texts(block)

    def _texts(self, block: Heading | Paragraph | Bullets | NewSheet) -> Part:
        """A block of lines alone; a new sheet is none."""
        scale = self._scale
        match block:
            case Heading(text=text):
                if self._close:
                    return Part(self._lines(text, t.CLOSE_HEADING), gap=3.2 * scale, clings=True)
                return Part(self._lines(text, t.HEADING), gap=6.5, clings=True)
            case Paragraph():
                kind = t.STRONG if block.strong else t.SMALL if block.small else t.BODY
                return Part(self._lines(block.text, kind), gap=2.2 * scale)
            case Bullets():
                items = [piece for item in block.items for piece in self._bullet(item)]
                return Part(tuple(items), gap=2.2 * scale)
            case NewSheet():
                return Part(())

    def _lines(self, text: str, kind: Type, indent: float = 0.0) -> tuple[Piece, ...]:
        scaled = kind.scaled(self._scale)
        left = self._paper.margin + indent

        def piece(line: str) -> Piece:
            return Piece(scaled.line, lambda top: self._pen.text(line, scaled, left, top))

        room = self._paper.text_width - indent
        return tuple(piece(line) for line in wrapped(self._pen, text, scaled, room))

    def _bullet(self, item: str) -> tuple[Piece, ...]:
        first, *others = self._lines(item, t.BODY, _INDENT * self._scale)

        def draw(top: float) -> None:
            kind = t.BODY.scaled(self._scale)
            self._pen.text("\N{BULLET}", kind, self._paper.margin, top)
            first.draw(top)

        return Piece(first.height, draw), *others

    def _patches(self, block: Patches) -> Part:
        """Patches in rows, and what their marks mean."""
        rows = PatchRows.of(block, self._pen, self._paper, self._scale, close=self._close)
        pieces = list(rows.pieces(block))
        if any(not on_screen(lab).in_gamut for lab, _ in block.patches):
            pieces += self._lines(OUTSIDE, t.SMALL)
        return Part(tuple(pieces), gap=4.0 * self._scale, flows=block.many)

    def _chips(self, block: Chips) -> Part:
        """Texts in columns, row by row."""
        across = chips_across(self._paper)
        gap = self._paper.gap
        width = (self._paper.text_width + gap) / across - gap
        rows = [
            self._chips_row(block.items[start : start + across], width)
            for start in range(0, len(block.items), across)
        ]
        return Part(tuple(rows), gap=1.5 * self._scale)

    def _chips_row(self, items: Sequence[tuple[Lab | None, str]], width: float) -> Piece:
        kind = t.CELL.scaled(self._scale)
        indent = (CHIP + CHIP_GAP) * self._scale
        texts = [wrapped(self._pen, text, kind, width - indent) for _, text in items]

        def draw(top: float) -> None:
            for index, ((lab, _), lines) in enumerate(zip(items, texts, strict=True)):
                left = self._paper.margin + index * (width + self._paper.gap)
                if lab is not None:
                    self._chip(lab, left, top, kind)
                for number, line in enumerate(lines):
                    self._pen.text(line, kind, left + indent, top + number * kind.line)

        return Piece(max(map(len, texts)) * kind.line + 0.5 * self._scale, draw)

    def _grid(self, grid: Grid) -> Part:
        shares = column_shares(grid, self._paper, self._scale)
        whole = self._paper.text_width + self._paper.gap
        columns = _Columns([share * whole - self._paper.gap for share in shares], grid.numbers)

        def cells(row: Sequence[str], kind: Type) -> list[list[str]]:
            pairs = zip(row, columns.widths, strict=True)
            return [wrapped(self._pen, text, kind, width) for text, width in pairs]

        kind, heads = t.CELL.scaled(self._scale), t.COLUMN.scaled(self._scale)
        head = self._row(cells(grid.columns, heads), columns, heads)
        pieces: list[Piece] = []
        for index, row in enumerate(grid.rows):
            lines = cells(row, kind)
            chips: dict[int, Chip] = {}
            if grid.chips:
                lines[0] = self._chip_lines(grid, index, columns.widths[0], chips)
            last = index + 1 not in grid.joined
            made = list(self._row_pieces(lines, columns, chips, ruled=last))
            if index in grid.joined and pieces:
                made[0] = _under(pieces.pop(), made[0])
            pieces += made
        gap = 3.0 * self._scale
        return Part(tuple(pieces), head, gap=gap) if pieces else Part((head,), gap=gap)

    def _chip_lines(
        self, grid: Grid, index: int, width: float, chips: dict[int, Chip]
    ) -> list[str]:
        """The lines of a first cell; `chips` is told on which of them a patch stands."""
        kind = t.CELL.scaled(self._scale)
        room = width - (CHIP + CHIP_GAP) * self._scale
        lines: list[str] = []
        for lab, text in cell_lines(grid, index):
            chips[len(lines)] = lab
            lines += wrapped(self._pen, text, kind, room)
        return lines

    def _row_pieces(
        self,
        cells: Sequence[Sequence[str]],
        columns: _Columns,
        chips: dict[int, Chip],
        *,
        ruled: bool,
    ) -> Iterator[Piece]:
        """A row of a table, a tall one in pieces that show no seam on the same sheet."""
        kind = t.CELL.scaled(self._scale)
        lines = max(map(len, cells))
        for start in range(0, lines, _TALL):
            part = [cell[start : start + _TALL] for cell in cells]
            here = {line - start: lab for line, lab in chips.items()} if chips else None
            last = start + _TALL >= lines
            edges = (start == 0, last, last and ruled)
            yield self._row(part, columns, kind, edges, here)

    def _row(
        self,
        cells: Sequence[Sequence[str]],
        columns: _Columns,
        kind: Type,
        edges: tuple[bool, bool, bool] = (True, True, True),
        chips: dict[int, Chip] | None = None,
    ) -> Piece:
        """The first, the last or all lines of a row, with the rule under its last.

        `edges` tell whether there is space above, space below, and a rule.
        """
        padding = _PADDING * self._scale * (0.45 if self._close else 1.0)
        above = padding if edges[0] else 0.0
        count = max(map(len, cells))
        height = above + count * kind.line + (padding if edges[1] else 0.0)
        margin, gap = self._paper.margin, self._paper.gap
        indent = 0.0 if chips is None else (CHIP + CHIP_GAP) * self._scale

        def draw(top: float) -> None:
            left = margin
            for place, lab in (chips or {}).items():
                if lab is not None and 0 <= place < count:
                    self._chip(lab, margin, top + above + place * kind.line, kind)
            for index, (lines, width) in enumerate(zip(cells, columns.widths, strict=True)):
                for number, line in enumerate(lines):
                    shift = indent if index == 0 else 0.0
                    if index in columns.numbers:
                        shift = width - self._pen.width(line, kind)
                    at = top + above + number * kind.line
                    self._pen.text(line, kind, left + shift, at)
                left += width + gap
            if edges[2]:
                grey = t.GROUND if kind.style else t.LINE
                self._pen.rule(margin, top + height, self._paper.text_width, grey)

        return Piece(height, draw)

    def _chip(self, shown: Lab | CrossedOut, left: float, top: float, kind: Type) -> None:
        """A small patch, as high as its line but for a little white, or one crossed out."""
        width, height = CHIP * self._scale, kind.line - 0.5
        if isinstance(shown, CrossedOut):
            self._pen.strike((left, top + 0.25), (width, height), t.GROUND, crossed=True)
            return
        self._pen.area((left, top + 0.25), (width, height), t.LINE)
        inner = (width - 2 * _EDGE, height - 2 * _EDGE)
        self._pen.area((left + _EDGE, top + 0.25 + _EDGE), inner, on_screen(shown).rgb)


def _under(upper: Piece, lower: Piece) -> Piece:
    """Two pieces that are never parted."""

    def draw(top: float) -> None:
        upper.draw(top)
        lower.draw(top + upper.height)

    return Piece(upper.height + lower.height, draw)

"""Pictures and steps of a page as parts of printed sheets."""

from collections.abc import Callable, Sequence
from typing import Final, NamedTuple

from studio.colour.display import on_screen
from studio.sheets import page_type as t
from studio.sheets.blocks import Held, Illustration, Step, Steps
from studio.sheets.page_html_steps import colours_of
from studio.sheets.page_parts import OUTSIDE, Paper, held_captions
from studio.sheets.page_pen import Pen, wrapped
from studio.sheets.page_plan import Part, Piece
from studio.sheets.page_type import Type

_TALLEST: Final = 108.0
"""mm that a picture takes at most."""
_ACROSS: Final = 2
"""Steps side by side."""
_GAP: Final = 6.0
"""mm between them."""
_GROUND: Final = 2.0
"""mm of grey around two colours."""
_HELD: Final = 17.0
"""mm that they are high."""


class _Cell(NamedTuple):
    """Something of a step: how high it is (mm), and how it is drawn from its upper left corner."""

    height: float
    draw: Callable[[float, float], None]


def illustration_part(pen: Pen, paper: Paper, block: Illustration) -> Part:
    """A picture as wide as the text or as high as it may be, with its caption."""
    scale = min(paper.text_width / block.width, _TALLEST / block.height)
    size = block.width * scale, block.height * scale
    lines = wrapped(pen, block.caption, t.SMALL, paper.text_width)

    def draw(top: float) -> None:
        pen.image(block.file, (paper.margin + (paper.text_width - size[0]) / 2, top), size)
        for number, line in enumerate(lines):
            pen.text(line, t.SMALL, paper.margin, top + size[1] + 1.5 + number * t.SMALL.line)

    return Part((Piece(size[1] + 1.5 + len(lines) * t.SMALL.line, draw),), gap=3.0)


def steps_part(pen: Pen, paper: Paper, block: Steps) -> Part:
    """Steps in rows; a row is never cut."""
    width = (paper.text_width - _GAP * (_ACROSS - 1)) / _ACROSS
    starts = range(0, len(block.steps), _ACROSS)
    rows = [_row(pen, paper, block.steps[start : start + _ACROSS], width) for start in starts]
    if any(not on_screen(lab).in_gamut for lab in colours_of(block)):
        lines = wrapped(pen, OUTSIDE, t.SMALL, paper.text_width)
        rows += [_line(pen, paper, line) for line in lines]
    return Part(tuple(rows), gap=3.0, flows=True)


def _line(pen: Pen, paper: Paper, line: str) -> Piece:
    return Piece(t.SMALL.line, lambda top: pen.text(line, t.SMALL, paper.margin, top))


def _row(pen: Pen, paper: Paper, steps: Sequence[Step], width: float) -> Piece:
    columns = [_column(pen, step, width) for step in steps]

    def draw(top: float) -> None:
        for index, pieces in enumerate(columns):
            left, down = paper.margin + index * (width + _GAP), top
            for cell in pieces:
                cell.draw(left, down)
                down += cell.height

    heights = [sum(cell.height for cell in pieces) for pieces in columns]
    return Piece(max(heights) + 4.0, draw)


def _column(pen: Pen, step: Step, width: float) -> list[_Cell]:
    """A step from top to bottom."""
    return [
        *_texts(pen, step.title, t.HEADING, width),
        *_texts(pen, step.lead, t.CELL, width),
        *(cell for held in step.held for cell in _held(pen, held, width)),
        *(cell for line in step.lines for cell in _texts(pen, line, t.CELL, width)),
    ]


def _texts(pen: Pen, text: str, kind: Type, width: float) -> list[_Cell]:
    def cell(line: str) -> _Cell:
        return _Cell(kind.line, lambda left, top: pen.text(line, kind, left, top))

    return [cell(line) for line in wrapped(pen, text, kind, width)]


def _held(pen: Pen, held: Held, width: float) -> list[_Cell]:
    texts = (cell for line in held.lines for cell in _texts(pen, line, t.CELL, width))
    return [_colours(pen, held, width), *texts]


def _colours(pen: Pen, held: Held, width: float) -> _Cell:
    """Two colours with a common edge on grey, and what each is below."""
    half = width / 2 - _GROUND
    captions = [wrapped(pen, text, t.CELL, half - 1.0) for text in held_captions(held)]
    below = _HELD + 2 * _GROUND + 1.0

    def draw(left: float, top: float) -> None:
        pen.area((left, top + 1.0), (width, _HELD + 2 * _GROUND), t.GROUND)
        for place, lab in enumerate((held.wanted, held.mixed)):
            corner = left + _GROUND + place * half, top + 1.0 + _GROUND
            if lab is None:
                pen.strike(corner, (half, _HELD), t.LINE)
            else:
                pen.area(corner, (half, _HELD), on_screen(lab).rgb)
        for place, lines in enumerate(captions):
            at = left + place * (half + _GROUND)
            for number, line in enumerate(lines):
                pen.text(line, t.CELL, at, top + below + 0.6 + number * t.CELL.line)

    return _Cell(below + 1.6 + max(map(len, captions)) * t.CELL.line, draw)

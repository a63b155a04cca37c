"""Sheets of swatch cards to cut out: A4 with crop marks, as a PDF or as pictures."""

from collections.abc import Sequence
from typing import Final, Protocol

from studio.actions.swatch_rows import SwatchRow
from studio.colour.display import on_screen
from studio.sheets.chart_words import counted, papers_text
from studio.sheets.page_parts import UPRIGHT
from studio.sheets.page_pen import Pen, wrapped
from studio.sheets.page_type import FOOT, LINE
from studio.sheets.swatch_card import HEIGHT, WIDTH, draw_card

ACROSS: Final = 2
DOWN: Final = 5
A_SHEET: Final = ACROSS * DOWN
"""Cards on a sheet: A4 is sixteen of A8, but no printer reaches its edges."""

LEFT: Final = (UPRIGHT.width - ACROSS * WIDTH) / 2
TOP: Final = (UPRIGHT.height - DOWN * HEIGHT) / 2
"""mm."""

_MARK: Final = 4.5
_OFF: Final = 2.0
"""mm of a crop mark, and between it and the cards, so that a cut leaves nothing of it."""
_HAIR: Final = 0.15
_CHECK: Final = 100.0


class SheetPen(Pen, Protocol):
    """A pen that begins new sheets."""

    def begin(self) -> None:
        """A new sheet."""


def draw_sheets(pen: SheetPen, rows: Sequence[SwatchRow]) -> int:
    """Draw every swatch on a card, ten to a sheet, in their order; returns how many sheets."""
    sheets = -(-len(rows) // A_SHEET)
    for number in range(sheets):
        pen.begin()
        some = rows[number * A_SHEET : (number + 1) * A_SHEET]
        _draw_marks(pen)
        _draw_head(pen)
        _draw_foot(pen, some, f"sheet {number + 1} of {sheets}")
        for place, row in enumerate(some):
            down, across = divmod(place, ACROSS)
            draw_card(pen, row, LEFT + across * WIDTH, TOP + down * HEIGHT)
    return sheets


def cards_pdf(rows: Sequence[SwatchRow]) -> bytes:
    """The sheets as a PDF; the same swatches give the same bytes."""
    from studio.sheets.page_pdf import FpdfPen  # noqa: PLC0415 - half a second of fonts

    pen = FpdfPen(f"Swatch cards: {counted(len(rows), 'swatch', 'swatches')}", None, UPRIGHT)
    draw_sheets(pen, rows)
    return pen.written()


def cards_png(rows: Sequence[SwatchRow]) -> list[bytes]:
    """The sheets as PNG pictures at 300 pixels an inch, one a sheet."""
    from studio.sheets.page_png import CARD_DPI, sheets_png  # noqa: PLC0415 - as above

    return sheets_png(cards_pdf(rows), CARD_DPI)


def _draw_marks(pen: Pen) -> None:
    """Crop marks in the margins alone, at every cut."""
    across, down = ACROSS * WIDTH, DOWN * HEIGHT
    for column in range(ACROSS + 1):
        x = LEFT + column * WIDTH - _HAIR / 2
        for y in (TOP - _OFF - _MARK, TOP + down + _OFF):
            pen.area((x, y), (_HAIR, _MARK), 0)
    for row in range(DOWN + 1):
        y = TOP + row * HEIGHT - _HAIR / 2
        for x in (LEFT - _OFF - _MARK, LEFT + across + _OFF):
            pen.area((x, y), (_MARK, _HAIR), 0)


def _draw_head(pen: Pen) -> None:
    """A length to check the print by."""
    y = 8.4
    pen.area((LEFT, y), (_CHECK, _HAIR), LINE)
    for x in (LEFT, LEFT + _CHECK - _HAIR):
        pen.area((x, y - 1.2), (_HAIR, 2.4), LINE)
    pen.text("100 mm: print at 100 %", FOOT, LEFT + _CHECK + 2.5, y - FOOT.line / 2)


def _draw_foot(pen: Pen, rows: Sequence[SwatchRow], said: str) -> None:
    top = TOP + DOWN * HEIGHT + 8.0
    room = ACROSS * WIDTH
    papers = papers_text([row[3] for row in rows])
    first = f"{counted(len(rows), 'swatch', 'swatches')} on {papers}"
    width = pen.width(said, FOOT)
    lines = wrapped(pen, first, FOOT, room - width - 6.0)
    pen.text(lines[0] if len(lines) == 1 else f"{lines[0]} …", FOOT, LEFT, top)
    pen.text(said, FOOT, LEFT + room - width, top)
    inside = all(on_screen(row[0].lab).in_gamut for row in rows)
    star = "" if inside else "; * outside sRGB, the nearest; *2.7: ΔE00 2.7 off"
    note = f"Measured colours, L*a*b* under D50/2° in sRGB; a print only comes near them{star}."
    pen.text(note, FOOT, LEFT, top + FOOT.line)

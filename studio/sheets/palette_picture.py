"""A reference picture with its main colours: where each lies, and a patch of each below."""

from collections.abc import Sequence
from typing import Final

from studio.actions.target_palette import PaletteColour
from studio.colour.display import on_screen
from studio.picture.decoding import Picture
from studio.sheets.picture_canvas import QUIET, Canvas
from studio.sheets.screen import OUTSIDE

_MARGIN: Final = 60
_PATCH: Final = 170
_ROW: Final = _PATCH + 140
_GAP: Final = 24
_COLUMNS: Final = 8
_DOT: Final = 30


def palette_picture(picture: Picture, colours: Sequence[PaletteColour]) -> bytes:
    """A PNG of the picture with numbered dots, and patches with share and cell below it.

    Args:
        picture: the reference.
        colours: in the order of their numbers.
    """
    columns = min(_COLUMNS, len(colours))
    rows = -(-len(colours) // columns)
    canvas = Canvas(picture, _MARGIN)
    canvas.add_below(rows * _ROW)
    for number, colour in enumerate(colours, start=1):
        _draw_dot(canvas, number, colour)
        _draw_patch(canvas, number, colour, columns)
    if not all(on_screen(colour.lab).in_gamut for colour in colours):
        canvas.text(_MARGIN, canvas.image.height - 24, OUTSIDE, 22, anchor="lm", fill=QUIET)
    return canvas.png()


def _draw_dot(canvas: Canvas, number: int, colour: PaletteColour) -> None:
    x = _MARGIN + colour.x / 100 * canvas.width
    y = _MARGIN + colour.y / 100 * canvas.height
    around = (x - _DOT, y - _DOT, x + _DOT, y + _DOT)
    canvas.draw.ellipse(around, fill="white", outline="black", width=3)
    canvas.text(x, y, str(number), 30, bold=True)


def _draw_patch(canvas: Canvas, number: int, colour: PaletteColour, columns: int) -> None:
    across, down = (number - 1) % columns, (number - 1) // columns
    step = (canvas.width + _GAP) / columns
    left = _MARGIN + across * step
    top = canvas.height + 2 * _MARGIN + down * _ROW
    shown = on_screen(colour.lab)
    canvas.draw.rectangle((left, top, left + step - _GAP, top + _PATCH), fill=shown.rgb)
    lines = (f"{number}  {100 * colour.share:.0f} %", f"{shown.hex}{shown.mark}", colour.cell)
    for line, text in enumerate(lines):
        place = top + _PATCH + 26 + 32 * line
        canvas.text(left, place, text, 22, anchor="lm", bold=line == 0)

"""A reference picture with the painter's grid drawn over it, as PNG to print."""

from typing import Final

from PIL import Image, ImageDraw

from studio.picture.decoding import Picture
from studio.picture.grid import Grid, Rectangle, column_name, turned
from studio.sheets.picture_canvas import QUIET, Canvas, wrapped

MARGIN: Final = 90
"""Pixels around the picture, for the names of columns and rows."""
_TEXT: Final = 30
_LINE: Final = 42
_FOOT: Final = 24
_WIDTHS: Final = {1: 1, 2: 2, 3: 4}
"""Pixels of a line by its strength."""
_VEIL: Final = 0.62
"""How much white lies over what the paper has no room for."""


def grid_picture(picture: Picture, grid: Grid, sheet: tuple[float, float], paper: str) -> bytes:
    """The whole picture; what the sheet has no room for is pale, the rest bears the grid.

    Lines are black with a white core, so that they show on every colour: the halves strongest, then
    the quarters. Columns and rows are named at the edges.

    Args:
        picture: the reference.
        grid: over the part that is kept.
        sheet: its two sides, mm.
        paper: how it is called.
    """
    across, down = turned(sheet, landscape=picture.width >= picture.height)
    cells = grid.cells
    caption = (
        f"{picture.name} on {paper}, {across:g} x {down:g} mm: {cells} x {cells} cells of "
        f"{across / cells:.4g} x {down / cells:.4g} mm."
    )
    if (grid.area.width, grid.area.height) != (picture.width, picture.height):
        caption += " The pale part is left out."
    canvas = Canvas(picture, MARGIN)
    lines = wrapped(caption, _TEXT, canvas.width)
    canvas.add_below(_LINE * len(lines) + _FOOT)
    kept = kept_part(canvas, picture, grid)
    draw_grid(canvas, kept, cells)
    for number, line in enumerate(lines):
        top = canvas.height + 2 * MARGIN + _LINE * (number + 0.5)
        canvas.text(MARGIN, top, line, _TEXT, anchor="lm", fill=QUIET)
    return canvas.png()


def kept_part(canvas: Canvas, picture: Picture, grid: Grid) -> Rectangle:
    """Where the part of a picture that a grid covers lies on a canvas with a margin of `MARGIN`."""
    scale_x, scale_y = canvas.width / picture.width, canvas.height / picture.height
    return Rectangle(
        MARGIN + grid.area.left * scale_x,
        MARGIN + grid.area.top * scale_y,
        grid.area.width * scale_x,
        grid.area.height * scale_y,
    )


def draw_grid(canvas: Canvas, kept: Rectangle, cells: int) -> None:
    """Lines and names of a grid over the part that is kept; the rest pale."""
    _veil(canvas, kept)
    _draw_lines(canvas, kept, cells)
    _draw_names(canvas, kept, cells)


def strength(line: int, cells: int) -> int:
    """3 for a line at the half of a side, 2 at a quarter, 1 for any other and for the edges."""
    if line in {0, cells}:
        return 1
    if 2 * line % cells == 0:
        return 3
    return 2 if 4 * line % cells == 0 else 1


def _veil(canvas: Canvas, kept: Rectangle) -> None:
    mask = Image.new("L", canvas.image.size, 0)
    pen = ImageDraw.Draw(mask)
    end = (MARGIN + canvas.width - 1, MARGIN + canvas.height - 1)
    pen.rectangle((MARGIN, MARGIN, *end), fill=round(255 * _VEIL))
    pen.rectangle(
        (kept.left, kept.top, kept.left + kept.width - 1, kept.top + kept.height - 1), fill=0
    )
    canvas.image.paste("white", mask=mask)


def _draw_lines(canvas: Canvas, kept: Rectangle, cells: int) -> None:
    right, bottom = kept.left + kept.width - 1, kept.top + kept.height - 1
    order = sorted(range(cells + 1), key=lambda line: strength(line, cells))
    for fill, wider in (((0, 0, 0), 2), ((255, 255, 255), 0)):
        for line in order:
            width = _WIDTHS[strength(line, cells)] + wider
            x, y = (
                round(kept.left + (kept.width - 1) * line / cells),
                round(kept.top + (kept.height - 1) * line / cells),
            )
            canvas.draw.line((x, kept.top, x, bottom), fill=fill, width=width)
            canvas.draw.line((kept.left, y, right, y), fill=fill, width=width)


def _draw_names(canvas: Canvas, kept: Rectangle, cells: int) -> None:
    size = min(44, max(14, round(min(kept.width, kept.height) / cells * 0.6)))
    far_right, far_bottom = MARGIN + canvas.width, MARGIN + canvas.height
    for number in range(cells):
        x = kept.left + kept.width * (number + 0.5) / cells
        y = kept.top + kept.height * (number + 0.5) / cells
        for edge in (MARGIN / 2, far_bottom + MARGIN / 2):
            canvas.text(x, edge, column_name(number), size, bold=True)
        for edge in (MARGIN / 2, far_right + MARGIN / 2):
            canvas.text(edge, y, str(number + 1), size, bold=True)

"""The reference of a painting with its grid and the spots that its colours were picked from."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from PIL import ImageDraw

from studio.picture.decoding import Picture
from studio.picture.grid import Grid
from studio.sheets.blocks import Illustration
from studio.sheets.grid_picture import MARGIN, draw_grid, kept_part
from studio.sheets.picture_canvas import Canvas, font

_LONGEST: Final = 1600
"""Pixels of the picture on the page: 18 cm at 225 an inch."""
_TEXT: Final = 44
_RING: Final = 17
_REACH: Final = 62
"""Pixels from a spot to the middle of its number."""
_ROUND: Final = (
    *((1.0, -0.9), (1.0, 0.9), (-1.0, -0.9), (-1.0, 0.9)),
    *((0.0, -1.2), (0.0, 1.2), (1.4, 0.0), (-1.4, 0.0)),
)
"""Where a number may stand beside its spot, the first choice first."""

Box = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Mark:
    """A spot of a picture with its number.

    Args:
        at: shares of the picture's width and height, 0 to 1.
        text: its number.
    """

    at: tuple[float, float]
    text: str


def plan_picture(picture: Picture, grid: Grid, marks: Sequence[Mark]) -> Illustration:
    """The reference, drawn on: black in white, so that grid and marks show on every colour."""
    canvas = Canvas(picture, MARGIN)
    kept = kept_part(canvas, picture, grid)
    draw_grid(canvas, kept, grid.cells)
    spots = [
        (MARGIN + mark.at[0] * canvas.width, MARGIN + mark.at[1] * canvas.height) for mark in marks
    ]
    taken = [_around(*spot, _RING, _RING) for spot in spots]
    whole = MARGIN, MARGIN, MARGIN + canvas.width, MARGIN + canvas.height
    for mark, spot in zip(marks, spots, strict=True):
        taken.append(_draw_mark(canvas.draw, mark.text, spot, taken, whole))
    jpeg, (width, height) = canvas.jpeg(_LONGEST)
    numbers = ", ".join(mark.text for mark in marks)
    spoken = f"; spots {numbers} are marked" if marks else ""
    return Illustration(
        jpeg,
        width,
        height,
        f"The reference picture {picture.name} under a grid of {grid.cells} cells a side{spoken}",
        f"{picture.name}; each number is where a colour was picked."
        if marks
        else f"{picture.name}; no colour was picked from it.",
    )


def _draw_mark(
    draw: ImageDraw.ImageDraw,
    text: str,
    spot: tuple[float, float],
    taken: Sequence[Box],
    whole: Box,
) -> Box:
    """A ring around a spot and its number beside it, where nothing else stands; its box."""
    x, y = spot
    half = max(_TEXT, font(_TEXT, bold=True).getlength(text)) / 2 + 8
    places = [
        _around(x + right * (_REACH + half - _TEXT / 2), y + down * _REACH, half, _TEXT / 2 + 6)
        for right, down in _ROUND
    ]
    free = [
        box
        for box in places
        if _within(box, whole) and not any(_overlap(box, other) for other in taken)
    ]
    box = (free or places)[0]
    middle = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
    share = _RING / math.dist(spot, middle)
    edge = x + (middle[0] - x) * share, y + (middle[1] - y) * share
    for fill, width in (("white", 9), ("black", 4)):
        draw.line((*edge, *middle), fill=fill, width=width)
    inside = _RING - 5
    draw.ellipse(_around(x, y, _RING, _RING), outline="white", width=5)
    draw.ellipse(_around(x, y, inside, inside), outline="black", width=4)
    draw.rounded_rectangle(box, radius=10, fill="white", outline="black", width=3)
    draw.text(middle, text, fill="black", font=font(_TEXT, bold=True), anchor="mm")
    return box


def _around(x: float, y: float, half_width: float, half_height: float) -> Box:
    return x - half_width, y - half_height, x + half_width, y + half_height


def _within(box: Box, whole: Box) -> bool:
    return box[0] >= whole[0] and box[1] >= whole[1] and box[2] <= whole[2] and box[3] <= whole[3]


def _overlap(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]

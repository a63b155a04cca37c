"""A painter's grid over a picture: as many columns as rows, named like B3, parted by halves.

The grid has the proportions of the paper, so its cells are those that the sheet shows when it is
halved and halved again: what lies in B3 of the picture belongs into B3 of the sheet. A reference
that is squared up, each place named and transferred, is common practice, no source.
"""

import math
import re
from dataclasses import dataclass
from typing import Final

from studio.errors import BadInput

MOST_CELLS: Final = 26
"""Columns are single letters."""

CELLS: Final = 4
"""Columns and rows unless others are asked for: the quarters of each side."""

_CELL: Final = re.compile(r"([a-z])(\d{1,2})")
_SILENT: Final = frozenset({"the", "cell", "half", "quarter"})
_MIDDLE: Final = frozenset({"middle", "centre", "center"})
_STEPS: Final = frozenset({"top", "bottom", "left", "right"}) | _MIDDLE
_MOST_STEPS: Final = 8


@dataclass(frozen=True, slots=True)
class Rectangle:
    """A part of a picture, in pixels from its left and upper edge.

    Args:
        left: of the left edge.
        top: of the upper edge.
        width: above 0.
        height: above 0.
    """

    left: float
    top: float
    width: float
    height: float

    def part(self, left: float, top: float, width: float, height: float) -> "Rectangle":
        """A part of it, given in shares of its sides."""
        return Rectangle(
            self.left + left * self.width,
            self.top + top * self.height,
            width * self.width,
            height * self.height,
        )

    @property
    def whole_pixels(self) -> tuple[int, int, int, int]:
        """(left, top, width, height) of the pixels whose middles lie in it, one at least."""
        left, width = _pixels(self.left, self.width)
        top, height = _pixels(self.top, self.height)
        return left, top, width, height

    def holds(self, x: float, y: float) -> bool:
        """Whether a point lies in it; its left and upper edges belong to it."""
        return self.left <= x < self.left + self.width and self.top <= y < self.top + self.height


@dataclass(frozen=True, slots=True)
class Cell:
    """A named part of a grid: a cell, or a half, quarter or middle of one."""

    name: str
    area: Rectangle


@dataclass(frozen=True, slots=True)
class Grid:
    """A grid over a part of a picture.

    Args:
        area: the part that it covers.
        cells: how many columns, and as many rows: 1 to 26.

    Raises:
        BadInput: there are fewer or more cells.
    """

    area: Rectangle
    cells: int = CELLS

    def __post_init__(self) -> None:
        if not 1 <= self.cells <= MOST_CELLS:
            msg = f"a grid has 1 to {MOST_CELLS} cells a side, not {self.cells}; 4 are the quarters"
            raise BadInput(msg)

    def cell(self, text: str) -> Cell:
        """The cell of a name such as `B3`, or a part: `B3 top left`, `left half of B3`, `top`.

        Each word halves what is left of the cell, `middle` both ways; without a cell the words
        part the whole grid.

        Raises:
            BadInput: there is no such cell, or a word is none of these.
        """
        groups = [re.findall(r"[^\s,]+", group) for group in re.split(r"\bof\b", text.lower())]
        words = [word for group in reversed(groups) for word in group if word not in _SILENT]
        named = [word for word in words if _CELL.fullmatch(word)]
        steps = [word for word in words if word not in named]
        if not words or len(named) > 1 or len(steps) > _MOST_STEPS or not _STEPS.issuperset(steps):
            msg = (
                f"cell {text!r} is not clear; write it like B3, or B3 top left for a quarter of it "
                "(top, bottom, left, right and middle each halve what is left)"
            )
            raise BadInput(msg)
        area = self._cell_area(named[0]) if named else self.area
        for step in steps:
            area = _halved(area, step)
        spelled = ["middle" if step in _MIDDLE else step for step in steps]
        return Cell(" ".join([*(name.upper() for name in named), *spelled]), area)

    def at(self, column: int, row: int) -> Cell:
        """The cell of a column and a row, both counted from 0 at the left and the top."""
        share = 1.0 / self.cells
        return Cell(
            f"{column_name(column)}{row + 1}",
            self.area.part(column * share, row * share, share, share),
        )

    def quarter_at(self, x: float, y: float) -> Cell | None:
        """The quarter of a cell that a point lies in, such as `B3 top left`; None off the grid."""
        if not self.area.holds(x, y):
            return None
        right, down = (
            min(int(2 * self.cells * share), 2 * self.cells - 1)
            for share in (
                (x - self.area.left) / self.area.width,
                (y - self.area.top) / self.area.height,
            )
        )
        whole = self.at(right // 2, down // 2)
        name = f"{whole.name} {('top', 'bottom')[down % 2]} {('left', 'right')[right % 2]}"
        return Cell(name, whole.area.part(right % 2 / 2, down % 2 / 2, 0.5, 0.5))

    def _cell_area(self, name: str) -> Rectangle:
        column, row = ord(name[0]) - ord("a"), int(name[1:]) - 1
        if not (0 <= row < self.cells and column < self.cells):
            msg = (
                f"cell {name.upper()} is not on a grid of {self.cells} x {self.cells}, which runs "
                f"from A1 to {column_name(self.cells - 1)}{self.cells}; --cells sets another"
            )
            raise BadInput(msg)
        return self.at(column, row).area


def column_name(column: int) -> str:
    """The letter of a column, counted from 0."""
    return chr(ord("A") + column)


def kept_area(width: int, height: int, sheet: tuple[float, float] | None) -> Rectangle:
    """The largest middle part of a picture that has the proportions of a sheet of paper.

    The sheet is turned the way that the picture lies.

    Args:
        width: of the picture, pixels.
        height: of the picture, pixels.
        sheet: its two sides in either order, mm; None keeps the whole picture.
    """
    if sheet is None:
        return Rectangle(0.0, 0.0, width, height)
    across, down = turned(sheet, landscape=width >= height)
    kept_width = min(float(width), height * across / down)
    kept_height = min(float(height), width * down / across)
    return Rectangle((width - kept_width) / 2, (height - kept_height) / 2, kept_width, kept_height)


def turned(sheet: tuple[float, float], *, landscape: bool) -> tuple[float, float]:
    """The sides of a sheet (mm), across and down, as it lies."""
    return (max(sheet), min(sheet)) if landscape else (min(sheet), max(sheet))


def _halved(area: Rectangle, step: str) -> Rectangle:
    if step in _MIDDLE:
        return area.part(0.25, 0.25, 0.5, 0.5)
    return {
        "left": area.part(0.0, 0.0, 0.5, 1.0),
        "right": area.part(0.5, 0.0, 0.5, 1.0),
        "top": area.part(0.0, 0.0, 1.0, 0.5),
        "bottom": area.part(0.0, 0.5, 1.0, 0.5),
    }[step]


def _pixels(start: float, length: float) -> tuple[int, int]:
    """The first pixel along a side and how many there are."""
    first, end = math.ceil(start - 0.5), math.ceil(start + length - 0.5)
    return (first, end - first) if end > first else (math.floor(start), 1)

"""The type of a printed page: sizes, weights and greys."""

from typing import Final, Literal, NamedTuple, Self

POINT: Final = 25.4 / 72
"""mm."""

DARK: Final = 26
QUIET: Final = 74
LINE: Final = 190
GROUND: Final = 119
"""Grey levels of text, of quiet text, of lines, and of rules and the ground of patches (L* 50)."""

FLOOR: Final = 6.5
"""Points: no type is ever smaller."""


class Type(NamedTuple):
    """Type of a size (points), of a grey level from 0 (black) to 255, plain or bold (B).

    Its lines are `spacing` times its size apart.
    """

    size: float
    grey: int = DARK
    style: Literal["", "B"] = ""
    spacing: float = 1.4

    @property
    def line(self) -> float:
        """The height of a line, mm."""
        return self.size * POINT * self.spacing

    def scaled(self, scale: float) -> Self:
        """The same at another scale; smaller type stands a little closer."""
        return self._replace(
            size=self.size * scale, spacing=self.spacing - SPACING_LOST * (1.0 - scale)
        )


SPACING_LOST: Final = 0.8
"""How much closer lines stand, in sizes of their type, for a whole lost of the scale."""


TITLE: Final = Type(18, style="B")
CLOSE_TITLE: Final = Type(14.5, style="B")
LEAD: Final = Type(9.5, QUIET)
HEADING: Final = Type(12, style="B")
CLOSE_HEADING: Final = Type(10.5, style="B")
BODY: Final = Type(9.5)
STRONG: Final = Type(9.5, style="B")
SMALL: Final = Type(8.5, QUIET)
CELL: Final = Type(8.5)
CAPTION: Final = Type(7.5, spacing=1.3)
"""Of the many patches of a book."""
COLUMN: Final = Type(8.5, QUIET, "B")
FOOT: Final = Type(7.5, QUIET)
NOTICE: Final = Type(9, style="B")

SCALES: Final = tuple(size / 4 / CELL.size for size in range(34, int(4 * FLOOR) - 1, -1))
"""The scales a sheet is tried in, largest first: cells of 8.5, 8.25, … 6.5 points."""

"""The type of a printed page: sizes, weights and greys."""

from typing import Final, Literal, NamedTuple

POINT: Final = 25.4 / 72
"""mm."""

DARK: Final = 26
QUIET: Final = 74
LINE: Final = 190
GROUND: Final = 119
"""Grey levels of text, of quiet text, of lines, and of rules and the ground of patches (L* 50)."""

_SPACING: Final = 1.4
"""Height of a line in sizes of its type."""


class Type(NamedTuple):
    """Type of a size (points), of a grey level from 0 (black) to 255, plain or bold (B)."""

    size: float
    grey: int = DARK
    style: Literal["", "B"] = ""

    @property
    def line(self) -> float:
        """The height of a line, mm."""
        return self.size * POINT * _SPACING


TITLE: Final = Type(18, style="B")
LEAD: Final = Type(9.5, QUIET)
HEADING: Final = Type(12, style="B")
BODY: Final = Type(9.5)
STRONG: Final = Type(9.5, style="B")
SMALL: Final = Type(8.5, QUIET)
CELL: Final = Type(8.5)
COLUMN: Final = Type(8.5, QUIET, "B")
FOOT: Final = Type(7.5, QUIET)

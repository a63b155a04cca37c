"""What a page is in HTML and in PDF alike: clean text, marks and the widths of columns."""

import unicodedata
from collections.abc import Iterable
from typing import Final

from studio.colour.display import on_screen
from studio.colour.lab import Lab
from studio.sheets.blocks import Grid

OUTSIDE: Final = (
    "* outside sRGB: a screen or print that is limited to it shows this colour less intense, at "
    "the same lightness and hue"
)
"""What the mark at a patch means."""

TABLE_WIDTH: Final = 178.0
"""mm of A4 between its margins."""

COLUMN_GAP: Final = 4.0
"""mm between two columns of a table."""

_CHAR: Final = 1.8
_BOLD_CHAR: Final = 2.15
"""mm that a character of a table takes, in a cell and in a heading."""

_LONGEST: Final = 16
"""A column is made wide enough for words up to this long; longer ones may break."""

_JOINERS: Final = "\N{ZERO WIDTH NON-JOINER}\N{ZERO WIDTH JOINER}"


def plain(text: str) -> str:
    """A text without characters that control how others are shown; line breaks become blanks."""
    return "".join(
        " " if char in "\n\r\t" else char
        for char in text
        if char in "\n\r\t" or char in _JOINERS or not unicodedata.category(char).startswith("C")
    )


def marked(lab: Lab, caption: str) -> str:
    """The caption of a patch, a `*` before it where sRGB cannot show the colour."""
    return plain(caption) if on_screen(lab).in_gamut else f"* {plain(caption)}"


def column_shares(grid: Grid) -> tuple[float, ...]:
    """The share of the page's width that each column gets with its gap; together they make 1.

    Columns are as wide as the grid asks, but never so narrow that an ordinary word breaks.
    """
    asked = grid.widths or (1.0,) * len(grid.columns)
    needed = [_needed(grid, index) for index in range(len(asked))]
    if sum(needed) >= 1.0:
        return tuple(need / sum(needed) for need in needed)
    widened: set[int] = set()
    while True:
        room = 1.0 - sum(needed[index] for index in widened)
        together = sum(asked[index] for index in range(len(asked)) if index not in widened)
        shares = tuple(
            needed[index] if index in widened else wish / together * room
            for index, wish in enumerate(asked)
        )
        narrow = {index for index, share in enumerate(shares) if share < needed[index] - 1e-9}
        if not narrow:
            return shares
        widened |= narrow


def _needed(grid: Grid, index: int) -> float:
    """The share that the longest word of a column takes with the gap beside it."""
    head = _BOLD_CHAR * _longest_word([grid.columns[index]])
    cells = _CHAR * _longest_word(row[index] for row in grid.rows)
    return (max(head, cells) + COLUMN_GAP) / (TABLE_WIDTH + COLUMN_GAP)


def _longest_word(texts: Iterable[str]) -> int:
    words = (word for text in texts for word in plain(text).split(" "))
    return min(_LONGEST, max(map(len, words), default=1))

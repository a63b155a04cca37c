"""What a page is in HTML and in PDF alike: clean text, marks and the widths of columns."""

import unicodedata
from collections.abc import Iterable
from typing import Final, NamedTuple

from studio.colour.display import mark_of, on_screen
from studio.colour.lab import Lab
from studio.sheets.blocks import Chip, Grid, Held

OUTSIDE: Final = (
    "* outside sRGB: a screen or print that is limited to it shows the nearest colour it has; "
    "*2.7: what it shows is ΔE00 2.7 off"
)
"""What the mark at a patch means."""


class Paper(NamedTuple):
    """A sheet of A4, all in mm: `margin` at the left, right and top, `bottom` with the foot in
    it, `gap` between two columns of a table.
    """

    width: float
    height: float
    margin: float
    bottom: float
    gap: float

    @property
    def text_width(self) -> float:
        """The width between the margins, mm."""
        return self.width - 2 * self.margin


UPRIGHT: Final = Paper(210.0, 297.0, 13.0, 14.0, 4.0)
WIDE: Final = Paper(297.0, 210.0, 8.0, 11.0, 2.2)

_CHAR: Final = 1.8
_BOLD_CHAR: Final = 2.3
"""mm that a character of a table takes, in a cell and in a heading."""

_LONGEST: Final = 16
"""A column is made wide enough for words up to this long; longer ones may break."""

_JOINERS: Final = "\N{ZERO WIDTH NON-JOINER}\N{ZERO WIDTH JOINER}"
_BREAKS: Final = "\n\r\t\x0b\x0c\x85\N{LINE SEPARATOR}\N{PARAGRAPH SEPARATOR}"
_NO_CHARACTER: Final = 0xFFFE
_NO_CHARACTERS: Final = frozenset(map(chr, range(0xFDD0, 0xFDF0)))
"""The last two of each plane and these 32 are no characters (Unicode Standard, section 23.7)."""
UNKNOWN: Final = "\N{REPLACEMENT CHARACTER}"
"""Stands for what cannot be shown, so that nothing is lost unseen."""


def plain(text: str) -> str:
    """A text without characters that control how others are shown; line breaks become blanks.

    Half a surrogate pair and what is no character become a visible `\N{REPLACEMENT CHARACTER}`;
    an accent that follows its letter becomes one character with it where there is one.
    """
    return unicodedata.normalize("NFC", "".join(_shown(char) for char in text))


def _shown(char: str) -> str:
    if char in _BREAKS:
        return " "
    category = unicodedata.category(char)
    if category == "Cs" or ord(char) & _NO_CHARACTER == _NO_CHARACTER or char in _NO_CHARACTERS:
        return UNKNOWN
    return "" if category in {"Cc", "Cf"} and char not in _JOINERS else char


def marked(lab: Lab, caption: str | tuple[str, ...]) -> tuple[str, ...]:
    """The lines of a patch's caption, a mark before them where sRGB cannot show the colour."""
    first, *others = (caption,) if isinstance(caption, str) else caption
    mark = on_screen(lab).mark
    return f"{mark} {plain(first)}" if mark else plain(first), *map(plain, others)


def starred(text: str, *labs: Lab | None) -> str:
    """A text at patches, marked behind where sRGB cannot show one of their colours."""
    known = [lab for lab in labs if lab is not None]
    mark = mark_of(*known) if known else ""
    return f"{text} {mark}" if mark else text


def held_captions(held: Held) -> tuple[str, str]:
    """What stands under two colours that are held against each other, marked alike."""
    (left,) = marked(held.wanted, held.wanted_caption)
    if held.mixed is None:
        return left, plain(held.mixed_caption)
    (right,) = marked(held.mixed, held.mixed_caption)
    return left, right


def column_shares(grid: Grid, paper: Paper = UPRIGHT, scale: float = 1.0) -> tuple[float, ...]:
    """The share of the page's width that each column gets with its gap; together they make 1.

    Columns are as wide as the grid asks, but never so narrow that an ordinary word breaks.
    """
    asked = grid.widths or (1.0,) * len(grid.columns)
    needed = [_needed(grid, index, paper, scale) for index in range(len(asked))]
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


def _needed(grid: Grid, index: int, paper: Paper, scale: float) -> float:
    """The share that the longest word of a column takes with the gap beside it."""
    head = _BOLD_CHAR * _longest_word([grid.columns[index]])
    cells = _CHAR * _longest_word(row[index] for row in grid.rows)
    chip = CHIP + CHIP_GAP if grid.chips and index == 0 else 0.0
    return (max(head, cells + chip) * scale + paper.gap) / (paper.text_width + paper.gap)


def _longest_word(texts: Iterable[str]) -> int:
    words = (word for text in texts for word in plain(text).split(" "))
    return min(_LONGEST, max(map(len, words), default=1))


CHIP: Final = 6.0
CHIP_GAP: Final = 1.6
"""mm that a small patch takes before its line, and between both."""


def cell_lines(grid: Grid, row: int) -> list[tuple[Chip, str]]:
    """The lines of the first cell of a row, each with its small patch."""
    lines = grid.rows[row][0].split("\n") if grid.rows[row][0] else []
    return list(zip(grid.chips[row], lines, strict=True))

"""Which piece of a page comes on which sheet of paper: no block is cut that fits on one."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Piece:
    """What is never cut: a line, a row of a table, a row of patches.

    Args:
        height: mm.
        draw: draws it, given the mm from the top of the sheet's text to its upper edge.
    """

    height: float
    draw: Callable[[float], None]


@dataclass(frozen=True, slots=True)
class Part:
    """A block as pieces under each other.

    Args:
        pieces: from top to bottom.
        head: what stands above them on each sheet, such as the headings of a table.
        gap: space above, mm; none at the top of a sheet.
        clings: stays on the sheet that the next part begins on.
        loose: may be cut between its pieces although a sheet would hold it.
    """

    pieces: tuple[Piece, ...]
    head: Piece | None = None
    gap: float = 0.0
    clings: bool = False
    loose: bool = False

    @property
    def height(self) -> float:
        """Its height on one sheet, mm, with the gap above."""
        return self.gap + _height(self.head) + sum(piece.height for piece in self.pieces)

    @property
    def start(self) -> float:
        """The least of it that a sheet may begin with, mm, with the gap above."""
        if self.clings:
            return self.height
        return self.gap + _height(self.head) + sum(piece.height for piece in self.pieces[:1])


Sheet = list[tuple[float, Piece]]
"""Pieces with the mm from the top of the text to their upper edges."""


def plan(parts: Iterable[Part], room: float, *, whole: bool = True) -> list[Sheet]:
    """The sheets that parts fill.

    Args:
        parts: what stands on them.
        room: what each holds, mm.
        whole: whether a part that fits on a sheet is never cut; else each begins where the last
            ended.
    """
    sheets: list[Sheet] = [[]]
    used = 0.0
    for chain in _chains(parts):
        height = sum(part.height for part in chain)
        kept = whole and height <= room and not any(part.loose for part in chain)
        wanted = height if kept else sum(part.start for part in chain)
        if used and used + wanted > room:
            sheets.append([])
            used = 0.0
        for part in chain:
            used = _fill(sheets, used, part, room)
    return sheets


def _fill(sheets: list[Sheet], used: float, part: Part, room: float) -> float:
    """Place a part, on new sheets where it needs them; what is then used of the last, mm."""
    if used:
        used += part.gap
    waiting = part.head
    for piece in part.pieces:
        if used and used + _height(waiting) + piece.height > room:
            sheets.append([])
            used, waiting = 0.0, part.head
        for each in (waiting, piece):
            if each is not None:
                sheets[-1].append((used, each))
                used += each.height
        waiting = None
    return used


def _chains(parts: Iterable[Part]) -> Iterator[Sequence[Part]]:
    """Parts that cling, each with what they cling to."""
    chain: list[Part] = []
    for part in parts:
        chain.append(part)
        if not part.clings:
            yield chain
            chain = []
    if chain:
        yield chain


def _height(piece: Piece | None) -> float:
    return 0.0 if piece is None else piece.height

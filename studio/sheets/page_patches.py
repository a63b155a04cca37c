"""Patches with their captions as rows of a sheet, ready to be drawn."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from studio.colour.display import on_screen
from studio.colour.lab import Lab
from studio.sheets import page_type as t
from studio.sheets.blocks import Patches
from studio.sheets.page_parts import Paper, marked
from studio.sheets.page_pen import Pen, wrapped
from studio.sheets.page_plan import Piece
from studio.sheets.page_type import Type

GROUND: Final = 4.0
"""mm between patches, and of grey around them."""
CLOSE_GROUND: Final = 2.5
"""The grey around them where a sheet is to hold much."""
_LOWEST: Final = 24.0
"""The height of a patch there, mm, at most."""
_BELOW: Final = 1.2
"""mm between a patch's ground and its caption."""


@dataclass(frozen=True, slots=True)
class PatchRows:
    """How the patches of a block are set.

    Args:
        columns: how many stand side by side.
        height: of a patch, mm.
        ground: grey around it, mm.
        width: of a patch with its ground, mm.
        room: for the lines of a caption, mm.
        kind: the type of a caption.
        pen: what draws.
        paper: what it is drawn on.
        scale: of the type.
    """

    columns: int
    height: float
    ground: float
    width: float
    room: float
    kind: Type
    pen: Pen
    paper: Paper
    scale: float

    @classmethod
    def of(
        cls, block: Patches, pen: Pen, paper: Paper, scale: float, *, close: bool
    ) -> "PatchRows":
        """As large as their number lets them be, or in the size of many."""
        count = len(block.patches)
        many = block.many or count > 6  # noqa: PLR2004
        columns, height = (4, 18.0) if many else (3, 30.0) if count > 2 else (2, 40.0)  # noqa: PLR2004
        width = (paper.text_width - GROUND * (columns - 1)) / columns
        return cls(
            columns=columns,
            height=(min(height, _LOWEST) if close else height) * scale,
            ground=(CLOSE_GROUND if close else GROUND) * scale,
            width=width,
            room=width if many or count > 1 else paper.text_width,
            kind=(t.CAPTION if block.many else t.CELL).scaled(scale),
            pen=pen,
            paper=paper,
            scale=scale,
        )

    def pieces(self, block: Patches) -> Iterator[Piece]:
        """The rows from top to bottom."""
        for start in range(0, len(block.patches), self.columns):
            yield self._row(block.patches[start : start + self.columns])

    def _row(self, patches: Sequence[tuple[Lab, str | tuple[str, ...]]]) -> Piece:
        captions = [self._caption(marked(lab, text)) for lab, text in patches]
        whole = self.height + 2 * self.ground
        below = whole + _BELOW
        line_height = self.kind.line

        def draw(top: float) -> None:
            for index, ((lab, _), lines) in enumerate(zip(patches, captions, strict=True)):
                left = self.paper.margin + index * (self.width + GROUND)
                self.pen.area((left, top), (self.width, whole), t.GROUND)
                inner = (self.width - 2 * self.ground, self.height)
                corner = (left + self.ground, top + self.ground)
                self.pen.area(corner, inner, on_screen(lab).rgb)
                for number, (line, kind) in enumerate(lines):
                    self.pen.text(line, kind, left, top + below + number * line_height)

        return Piece(below + max(map(len, captions)) * line_height + 2.0 * self.scale, draw)

    def _caption(self, texts: Sequence[str]) -> list[tuple[str, Type]]:
        """The lines of a caption, each with its type: of several texts the first is bold."""
        bold = self.kind._replace(style="B") if len(texts) > 1 else self.kind
        kinds = [bold, *[self.kind] * (len(texts) - 1)]
        return [
            (line, kind)
            for text, kind in zip(texts, kinds, strict=True)
            for line in wrapped(self.pen, text, kind, self.room)
        ]

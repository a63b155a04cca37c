"""What measures and draws a page, and a pen that only guesses widths."""

from collections.abc import Callable
from typing import Final, Protocol

from studio.sheets import page_type as t
from studio.sheets.page_type import Type

Colour = int | tuple[int, int, int]
"""A grey level or sRGB, 0 to 255."""


class Pen(Protocol):
    """What measures and draws; all places and sizes in mm from the upper left of the sheet."""

    def clean(self, text: str) -> str:
        """The text with what the pen cannot draw replaced."""

    def width(self, text: str, kind: Type) -> float:
        """The width of a line."""

    def text(self, line: str, kind: Type, left: float, top: float) -> None:
        """Draw a line."""

    def area(self, corner: tuple[float, float], size: tuple[float, float], fill: Colour) -> None:
        """Fill a rectangle."""

    def rule(self, left: float, top: float, width: float, grey: int) -> None:
        """Draw a horizontal line."""

    def strike(
        self,
        corner: tuple[float, float],
        size: tuple[float, float],
        grey: int,
        *,
        crossed: bool = False,
    ) -> None:
        """Draw the outline of a rectangle with a line across: nothing is here.

        A second line crosses it where there would be something if it were surer.
        """

    def image(self, file: bytes, corner: tuple[float, float], size: tuple[float, float]) -> None:
        """Draw a picture in a rectangle."""


def wrapped(pen: Pen, text: str, kind: Type, room: float) -> list[str]:
    """The lines of a text in a width (mm); a word that is too long is cut."""
    lines = [""]
    for word in pen.clean(text).split(" "):
        longer = f"{lines[-1]} {word}" if lines[-1] else word
        if pen.width(longer, kind) <= room:
            lines[-1] = longer
            continue
        lines += [""] if lines[-1] else []
        whole = pen.width(word, kind) <= room
        for part in [word] if whole else word:
            if lines[-1] and pen.width(lines[-1] + part, kind) > room:
                lines.append("")
            lines[-1] += part
    return lines


class Estimate:
    """A pen that draws nothing and takes every character for as wide as a wide typeface has it."""

    _CHAR: Final = 0.55
    _BOLD: Final = 0.62
    """Average widths in sizes of the type, of DejaVu Sans and therefore not too small."""

    def __init__(self, clean: Callable[[str], str]) -> None:
        self.clean = clean

    def width(self, text: str, kind: Type) -> float:
        """The width of a line, mm."""
        share = self._BOLD if kind.style else self._CHAR
        return len(text) * share * kind.size * t.POINT

    def text(self, line: str, kind: Type, left: float, top: float) -> None:
        """Nothing."""

    def area(self, corner: tuple[float, float], size: tuple[float, float], fill: Colour) -> None:
        """Nothing."""

    def rule(self, left: float, top: float, width: float, grey: int) -> None:
        """Nothing."""

    def strike(
        self,
        corner: tuple[float, float],
        size: tuple[float, float],
        grey: int,
        *,
        crossed: bool = False,
    ) -> None:
        """Nothing."""

    def image(self, file: bytes, corner: tuple[float, float], size: tuple[float, float]) -> None:
        """Nothing."""

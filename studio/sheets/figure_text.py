"""Text on the pictures that matplotlib draws, placed and measured in inches."""

from functools import cache
from typing import TYPE_CHECKING, Final

from studio.sheets.page_parts import plain
from studio.sheets.typeface import typeface

if TYPE_CHECKING:
    from matplotlib.figure import Figure

_POINTS: Final = 72.0
_FINE: Final = 100.0
"""Points of the type that is measured; whole pixels of a font are 1/64 of one."""


def write_text(  # noqa: PLR0913 - where, what, how
    figure: "Figure",
    x: float,
    y: float,
    text: str,
    *,
    size: float = 8.0,
    grey: str = "0.0",
    weight: str = "normal",
    centred: bool = False,
    room: float | None = None,
) -> None:
    """A text on the figure, its upper edge at a place given in inches; cut to a room if given."""
    figure.text(
        x / figure.get_figwidth(),
        y / figure.get_figheight(),
        plain(text) if room is None else cut(text, room, size, weight),
        fontsize=size,
        color=grey,
        fontweight=weight,
        horizontalalignment="center" if centred else "left",
        verticalalignment="top",
        parse_math=False,
    )


def text_width(text: str, size: float, weight: str = "normal") -> float:
    """The width of a line, in."""
    return _unit_width(text, bold=weight == "bold") * size / _POINTS


@cache
def _unit_width(text: str, *, bold: bool) -> float:
    """The width of a line in type of one point, points."""
    import warnings  # noqa: PLC0415 - as below

    from matplotlib.font_manager import get_font  # noqa: PLC0415 - for charts alone

    font = get_font(str(typeface(bold=bold)))
    font.set_size(_FINE, _POINTS)
    with warnings.catch_warnings():
        warnings.filterwarnings("ignore", message="Glyph")
        font.set_text(text)
    width, _ = font.get_width_height()
    return float(width) / 64.0 / _FINE


def cut(text: str, room: float, size: float, weight: str = "normal") -> str:
    """A text that fits a room (in); what had to go is shown by an ellipsis."""
    whole = plain(text)
    if text_width(whole, size, weight) <= room:
        return whole
    low, high = 0, len(whole)
    while low < high:
        middle = (low + high + 1) // 2
        fits = text_width(f"{whole[:middle].rstrip()}…", size, weight) <= room
        low, high = (middle, high) if fits else (low, middle - 1)
    return f"{whole[:low].rstrip()}…"


def folded(text: str, room: float, size: float) -> list[str]:
    """The lines of a text in a room (in); a word that is too long is cut."""
    lines: list[str] = []
    for word in plain(text).split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, size) <= room:
            lines[-1] = longer
        else:
            lines.append(cut(word, room, size))
    return lines

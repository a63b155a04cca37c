"""Patches of charts, placed in inches: read ones in a solid frame, predicted ones in a dashed one.

The frame stands off its patch, so that it is seen about the lightest and the darkest alike.
"""

import math
from typing import TYPE_CHECKING, Any, Final

from studio.colour.display import on_screen
from studio.colour.lab import Lab
from studio.sheets.chart_sheet import GROUND, INK, LINE

if TYPE_CHECKING:
    from matplotlib.figure import Figure

OFF: Final = 0.035
"""Inches between a patch and its frame."""
HATCH: Final = 0.07
"""Inches between the lines of what is hatched."""
HATCHED: Final = "0.7"
"""Their grey: they stay behind the cross."""


def draw_patch(
    figure: "Figure", lab: Lab, left: float, bottom: float, size: tuple[float, float]
) -> None:
    """A patch in the colour the screen shows, its lower left corner at a place in inches."""
    _draw(figure, (left, bottom), size, facecolor=on_screen(lab).hex, edgecolor="none", linewidth=0)


def draw_cell(  # noqa: PLR0913 - where, what, how
    figure: "Figure",
    lab: Lab | None,
    left: float,
    bottom: float,
    size: tuple[float, float],
    *,
    measured: bool,
    crossed: bool = False,
    fine: bool = False,
) -> None:
    """A patch in its frame of a size; without a colour a ground that is struck through.

    One that is crossed out is hatched, and crossed from corner to corner in its dashed frame: its
    colour is never seen.
    """
    thick = 0.6 if fine else 0.9
    if lab is None:
        _draw(figure, (left, bottom), size, facecolor=GROUND, edgecolor="none", linewidth=0)
        _draw_line(figure, (left, left + size[0]), (bottom, bottom + size[1]))
        return
    off = OFF / 2 if fine else OFF
    inside = (size[0] - 2 * off, size[1] - 2 * off)
    if crossed:
        _draw_crossed(figure, (left + off, bottom + off), inside)
    else:
        draw_patch(figure, lab, left + off, bottom + off, inside)
    _draw(
        figure,
        (left, bottom),
        size,
        facecolor="none",
        edgecolor=INK if measured else LINE,
        linewidth=thick,
        linestyle="-" if measured else (0, (2.0, 2.0)),
        antialiased=True,
    )


def _draw_crossed(figure: "Figure", corner: tuple[float, float], size: tuple[float, float]) -> None:
    """A white ground with fine slanting lines and two strong ones from corner to corner."""
    (left, bottom), (width, height) = corner, size
    _draw(figure, corner, size, facecolor="white", edgecolor="none", linewidth=0)
    for step in range(1, math.ceil((width + height) / HATCH)):
        off = step * HATCH
        from_, to = max(0.0, off - height), min(off, width)
        x = left + from_, left + to
        y = bottom + height - (off - from_), bottom + height - (off - to)
        _draw_line(figure, x, y, HATCHED, 0.4)
    _draw_line(figure, (left, left + width), (bottom, bottom + height), LINE, 0.9)
    _draw_line(figure, (left, left + width), (bottom + height, bottom), LINE, 0.9)


def _draw(
    figure: "Figure",
    corner: tuple[float, float],
    size: tuple[float, float],
    **how: Any,  # noqa: ANN401 - as matplotlib takes it
) -> None:
    from matplotlib.patches import Rectangle  # noqa: PLC0415 - for charts alone

    # An edge of mixed colour would be one more colour.
    look: dict[str, Any] = {"antialiased": False, **how}
    figure.add_artist(Rectangle(corner, *size, transform=figure.dpi_scale_trans, **look))


def _draw_line(
    figure: "Figure",
    x: tuple[float, float],
    y: tuple[float, float],
    grey: str = LINE,
    thick: float = 0.6,
) -> None:
    from matplotlib.lines import Line2D  # noqa: PLC0415 - for charts alone

    figure.add_artist(Line2D(x, y, color=grey, linewidth=thick, transform=figure.dpi_scale_trans))

"""Patches of charts, placed in inches: read ones in a solid frame, predicted ones in a dashed one.

The frame stands off its patch, so that it is seen about the lightest and the darkest alike.
"""

from typing import TYPE_CHECKING, Any, Final

from studio.colour.display import on_screen
from studio.colour.lab import Lab
from studio.sheets.chart_sheet import GROUND, INK, LINE

if TYPE_CHECKING:
    from matplotlib.figure import Figure

OFF: Final = 0.035
"""Inches between a patch and its frame."""


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
    fine: bool = False,
) -> None:
    """A patch in its frame of a size; without a colour a ground that is crossed out."""
    thick = 0.6 if fine else 0.9
    if lab is None:
        _draw(figure, (left, bottom), size, facecolor=GROUND, edgecolor="none", linewidth=0)
        _draw_line(figure, (left, left + size[0]), (bottom, bottom + size[1]))
        return
    off = OFF / 2 if fine else OFF
    inside = (size[0] - 2 * off, size[1] - 2 * off)
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


def _draw_line(figure: "Figure", x: tuple[float, float], y: tuple[float, float]) -> None:
    from matplotlib.lines import Line2D  # noqa: PLC0415 - for charts alone

    figure.add_artist(Line2D(x, y, color=LINE, linewidth=0.6, transform=figure.dpi_scale_trans))

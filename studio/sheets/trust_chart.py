"""A picture of predicted against measured colours: L*, a* and b*, and the patches side by side."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from studio.actions.trust import Foretold, Trust
from studio.colour.display import on_screen
from studio.sheets.chart_patch import draw_patch
from studio.sheets.chart_sheet import INK, QUIET, Kind, chart_sheet, written
from studio.sheets.figure_text import write_text
from studio.sheets.page_parts import starred
from studio.sheets.screen import OUTSIDE

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

TITLE: Final = "Predicted against measured"

WIDTH: Final = 10.0
"""Width of the picture, in."""

COLUMNS: Final = 12
MOST: Final = 10 * COLUMNS
"""So many swatches are drawn as patches at most, the furthest off first."""

_HEAD, _PLOT, _ROW, _FOOT = 0.95, 3.4, 0.72, 0.3
_PATCH: Final = 0.32
_AXES: Final = (("L*", 0), ("a*", 1), ("b*", 2))


def trust_chart(trust: Trust, kind: Kind = "png") -> bytes:
    """A picture of the swatches that were predicted with their sets of paints left out.

    Patches are sRGB (IEC 61966-2-1), measured left and predicted right; a colour outside it is
    shown as the nearest that is inside.
    """
    drawn = trust.foretold[:MOST]
    rows = -(-len(drawn) // COLUMNS)
    height = _HEAD + _PLOT + 0.6 + _ROW * rows + _FOOT
    with chart_sheet(WIDTH, height) as figure:
        _draw_head(figure, trust)
        for place, (symbol, axis) in enumerate(_AXES):
            left = 0.75 + place * 3.15
            bottom = height - _HEAD - _PLOT + 0.6
            axes = figure.add_axes((left / WIDTH, bottom / height, 2.6 / WIDTH, 2.6 / height))
            _draw_axis(axes, trust.foretold, symbol, axis)
        _draw_patches(figure, drawn, height - _HEAD - _PLOT - 0.25)
        write_text(
            figure,
            0.5,
            0.4,
            f"{_shown(len(drawn), len(trust.foretold))}; left as measured, right as predicted; "
            f"below: swatch and ΔE00. {OUTSIDE}.",
            grey=QUIET,
        )
        return written(figure, kind)


def lead_of(trust: Trust) -> str:
    """The errors where all mixes of the same paints are left out."""
    errors = trust.sets
    return (
        f"{errors.count} swatches of mixes, each predicted without any mix of the same paints: "
        f"ΔE00 mean {errors.mean:.1f}, median {errors.median:.1f}, 90 % within "
        f"{errors.ninety:.1f}; {100 * errors.within:.0f} % within the expected error"
    )


def _shown(drawn: int, count: int) -> str:
    return f"All {count} swatches" if drawn == count else f"The {drawn} furthest off of {count}"


def _draw_head(figure: "Figure", trust: Trust) -> None:
    height = figure.get_figheight()
    write_text(figure, 0.5, height - 0.25, TITLE, size=17, weight="bold", grey=INK)
    write_text(figure, 0.5, height - 0.6, lead_of(trust), grey=QUIET)


def _draw_axis(axes: "Axes", foretold: Sequence[Foretold], symbol: str, axis: int) -> None:
    measured = [each.measured.coordinates[axis] for each in foretold]
    predicted = [each.predicted.coordinates[axis] for each in foretold]
    low, high = min(*measured, *predicted), max(*measured, *predicted)
    margin = max(2.0, 0.06 * (high - low))
    ends = (low - margin, high + margin)
    axes.plot(ends, ends, color="0.5", linewidth=0.8, zorder=1)
    axes.scatter(
        measured,
        predicted,
        s=26,
        c=[on_screen(each.measured).hex for each in foretold],
        edgecolors="0.15",
        linewidths=0.6,
        zorder=2,
    )
    axes.set_xlim(*ends)
    axes.set_ylim(*ends)
    axes.set_xlabel(f"{symbol} measured (D50/2°)")
    axes.set_ylabel(f"{symbol} predicted", labelpad=0.0)


def _draw_patches(figure: "Figure", drawn: Sequence[Foretold], top: float) -> None:
    step = (WIDTH - 1.0) / COLUMNS
    for number, each in enumerate(drawn):
        row, column = divmod(number, COLUMNS)
        left, upper = 0.5 + column * step, top - row * _ROW
        for side, lab in enumerate((each.measured, each.predicted)):
            draw_patch(figure, lab, left + side * _PATCH, upper - _PATCH, (_PATCH, _PATCH))
        caption = starred(f"{each.patch.code}  {each.delta_e:.1f}", each.measured, each.predicted)
        write_text(figure, left, upper - _PATCH - 0.04, caption, size=7.5, room=step - 0.02)

"""A picture of every pair of several paints, mixed 1:1: strong above the diagonal, thin below."""

from typing import TYPE_CHECKING, Final

from studio.actions.mixing_chart import MixingChart
from studio.sheets.chart_patch import draw_cell
from studio.sheets.chart_sheet import INK, QUIET, SMALLEST, Kind, chart_sheet, written
from studio.sheets.figure_text import folded, write_text
from studio.sheets.mix_chart_words import (
    caption_of,
    halves_text,
    notes_of,
    pairs_title,
    where_text,
)
from studio.sheets.pair_chart import draw_key

if TYPE_CHECKING:
    from matplotlib.figure import Figure

NARROWEST: Final = 9.0
LEFT: Final = 0.6
NAMES: Final = 2.15
"""Inches for the names at the left."""
SMALL: Final = 0.43
LARGE: Final = 0.86
"""Inches of a cell in a chart of many and of few paints."""
_TOP: Final = 1.72
_NOTE: Final = 0.15
_GAP: Final = 0.05
_CAPTION: Final = 0.13
_TALLER: Final = 0.07
"""Inches by which a row is higher than a column is wide, for its captions."""


def cell_side(count: int) -> float:
    """Inches of a cell: as large as the sheet allows, smaller where there are many."""
    return min(LARGE, max(SMALL, (NARROWEST - 2 * LEFT - NAMES) / count))


def draw_pairs_chart(chart: MixingChart, kind: Kind) -> bytes:
    """The chart as a file."""
    count = len(chart.paints)
    side = cell_side(count)
    width = max(NARROWEST, 2 * LEFT + NAMES + side * count)
    notes = [line for note in notes_of(chart) for line in folded(note, width - 2 * LEFT, 7.5)]
    height = _TOP + (side + _TALLER) * count + 0.6 + _NOTE * len(notes) + 0.35
    with chart_sheet(width, height) as figure:
        _draw_head(figure, chart, width, height)
        _draw_names(figure, chart, side, height)
        for down, row in enumerate(chart.rows):
            for across, cell in enumerate(row):
                left = LEFT + NAMES + side * across
                top = height - _TOP - (side + _TALLER) * down
                size = (side - _GAP, side + _TALLER - _GAP - _CAPTION)
                draw_cell(
                    figure, cell.lab, left, top - size[1], size,
                    measured=cell.is_measured, crossed=cell.is_too_uncertain,
                    fine=side < LARGE,
                )  # fmt: skip
                write_text(
                    figure, left + size[0] / 2, top - size[1] - 0.025, caption_of(cell),
                    size=SMALLEST, grey=INK if cell.is_measured else QUIET, centred=True,
                    room=side - 0.01,
                )  # fmt: skip
        draw_key(figure, LEFT, _NOTE * len(notes) + 0.62, crossed=chart.uncertain > 0)
        for place, line in enumerate(notes):
            y = 0.35 + _NOTE * (len(notes) - place)
            write_text(figure, LEFT, y, line, size=7.5, grey=QUIET)
        return written(figure, kind)


def _draw_head(figure: "Figure", chart: MixingChart, width: float, height: float) -> None:
    room = width - 2 * LEFT
    title = pairs_title(chart)
    write_text(figure, LEFT, height - 0.4, title, size=17, weight="bold", grey=INK, room=room)
    halves = halves_text(chart)
    write_text(figure, LEFT, height - 0.78, halves, size=9.5, grey=INK, room=room)
    write_text(figure, LEFT, height - 1.0, where_text(chart), size=9, grey=QUIET, room=room)


def _draw_names(figure: "Figure", chart: MixingChart, side: float, height: float) -> None:
    for place, paint in enumerate(chart.paints):
        facts = paint.facts
        top = height - _TOP - (side + _TALLER) * place
        middle = LEFT + NAMES + side * (place + 0.5) - _GAP / 2
        write_text(
            figure, middle, height - _TOP + 0.2, facts.code, size=7.5, weight="bold",
            grey=INK, centred=True, room=side - 0.02,
        )  # fmt: skip
        y = top - (side + _TALLER - _GAP - _CAPTION) / 2 + 0.065
        write_text(figure, LEFT, y, facts.code, size=8, weight="bold", grey=INK, room=0.48)
        write_text(figure, LEFT + 0.5, y, facts.name, size=8, grey=INK, room=NAMES - 0.58)

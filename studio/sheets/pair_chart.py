"""A picture of two paints mixed in steps of proportion and water."""

from typing import TYPE_CHECKING, Final

from studio.actions.mixing_chart import MixingChart
from studio.catalogue.paint import Paint, Status
from studio.sheets.chart_patch import draw_cell
from studio.sheets.chart_sheet import INK, QUIET, SMALLEST, Kind, chart_sheet, written
from studio.sheets.figure_text import folded, write_text
from studio.sheets.mix_chart_words import (
    caption_of,
    notes_of,
    pair_title,
    proportion_of,
    water_of,
    where_text,
)

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from studio.actions.chart_cells import Cell

WIDTH: Final = 11.69
"""Inches: A4 on its side (ISO 216)."""
LEFT: Final = 0.6
SIDE: Final = 0.95
"""Inches that the waters take."""
PATCH: Final = (1.0, 0.63)
ROW: Final = 0.88
_HEAD: Final = 1.57
_NOTE: Final = 0.15


def draw_pair_chart(chart: MixingChart, kind: Kind) -> bytes:
    """The chart as a file."""
    notes = [line for note in notes_of(chart) for line in folded(note, WIDTH - 2 * LEFT, 7.5)]
    height = _HEAD + ROW * len(chart.rows) + 0.5 + _NOTE * len(notes) + 0.3
    with chart_sheet(WIDTH, height) as figure:
        _draw_head(figure, chart, height)
        step = (WIDTH - 2 * LEFT - SIDE - PATCH[0]) / (len(chart.rows[0]) - 1)
        size = (min(PATCH[0], 0.93 * step), PATCH[1])
        for down, row in enumerate(chart.rows):
            top = height - _HEAD - ROW * down
            write_text(
                figure,
                LEFT,
                top - 0.26,
                water_of(row[0].water),
                size=8.5,
                grey=INK,
                room=SIDE - 0.1,
            )
            for across, cell in enumerate(row):
                draw_one(figure, cell, LEFT + SIDE + step * across, top, size)
        draw_key(figure, LEFT, _NOTE * len(notes) + 0.57, crossed=chart.uncertain > 0)
        for place, line in enumerate(notes):
            write_text(figure, LEFT, 0.3 + _NOTE * (len(notes) - place), line, size=7.5, grey=QUIET)
        return written(figure, kind)


def draw_one(  # noqa: PLR0913, PLR0917 - where and how large
    figure: "Figure",
    cell: "Cell",
    left: float,
    top: float,
    size: tuple[float, float],
    type_: float = 7.5,
) -> None:
    """A cell with its caption below."""
    draw_cell(
        figure, cell.lab, left, top - size[1], size,
        measured=cell.is_measured, crossed=cell.is_too_uncertain,
    )  # fmt: skip
    middle = left + size[0] / 2
    write_text(
        figure, middle, top - size[1] - 0.045, caption_of(cell), size=max(SMALLEST, type_),
        grey=INK if cell.is_measured else QUIET, centred=True, room=size[0] * 1.05,
    )  # fmt: skip


def _draw_head(figure: "Figure", chart: MixingChart, height: float) -> None:
    one, other = chart.paints
    room = WIDTH - 2 * LEFT
    title = pair_title(chart)
    write_text(figure, LEFT, height - 0.36, title, size=17, weight="bold", grey=INK, room=room)
    write_text(figure, LEFT, height - 0.72, where_text(chart), size=9, grey=QUIET, room=room)
    left, right = LEFT + SIDE, WIDTH - LEFT
    half = (right - left) / 2 - 0.2
    write_text(figure, left, height - 1.06, paint_text(one), size=9, grey=INK, room=half)
    figure.texts[-1].set_horizontalalignment("left")
    write_text(figure, right, height - 1.06, paint_text(other), size=9, grey=INK, room=half)
    figure.texts[-1].set_horizontalalignment("right")
    step = (right - left - PATCH[0]) / (len(chart.rows[0]) - 1)
    for across, cell in enumerate(chart.rows[0]):
        middle = left + step * across + PATCH[0] / 2
        write_text(
            figure,
            middle,
            height - 1.32,
            proportion_of(cell.recipe),
            size=9,
            weight="bold",
            centred=True,
            room=step,
        )


def paint_text(paint: Paint) -> str:
    """Code, name, pigments, and whether it is retired."""
    facts = paint.facts
    pigments = f" ({', '.join(facts.pigments)})" if facts.pigments else ""
    retired = ", retired" if facts.status is Status.RETIRED else ""
    return f"{facts.code}  {facts.maker} {facts.name}{pigments}{retired}"


def draw_key(figure: "Figure", left: float, top: float, *, crossed: bool) -> None:
    """What the frames mean, and the cross where there is one."""
    from studio.colour.lab import Lab  # noqa: PLC0415

    grey = Lab(70.0, 0.0, 0.0)
    kinds = [
        (2.9, True, False, "measured: solid frame, code of the swatch"),
        (3.1, False, False, "predicted: dashed frame, ± its expected error"),
    ]
    if crossed:
        kinds.append((0.0, False, True, "crossed out: too uncertain"))
    x = left
    for room, measured, is_crossed, said in kinds:
        draw_cell(figure, grey, x, top - 0.17, (0.3, 0.17), measured=measured, crossed=is_crossed)
        write_text(figure, x + 0.38, top - 0.025, said, size=8, grey=INK)
        x += room

"""A picture of fade tests: ΔE*ab over days above the bands of ASTM D4303, and each strip's halves.

Lines differ by marker and dash.
"""

import textwrap
from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from studio.actions.fade_results import FadeResult
from studio.catalogue.fade import BANDS, FadeReading
from studio.catalogue.lightfastness import CATEGORIES, WORDS
from studio.sheets.chart_sheet import INK, QUIET, Kind, chart_sheet, written
from studio.sheets.fade_strips import (
    FOOT,
    LEFT,
    ROW,
    SLOTS,
    WIDTH,
    draw_notes,
    draw_strips,
)
from studio.sheets.figure_text import write_text
from studio.sheets.own_tests import subject_text
from studio.sheets.screen import day_text

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

_RIGHT, _TOP, _PLOT, _BELOW = 1.25, 1.0, 3.5, 0.75

_LOWEST_TOP: Final = 28.0
"""The axis reaches at least here, so that every band shows and charts can be laid side by side."""

_ZONES: Final = ("0.97", "0.92", "0.86", "0.80", "0.73")
_MARKERS: Final = "osD^vPX"
_DASHES: Final = ("-", "--", "-.", ":")


def fade_chart(results: Sequence[FadeResult], kind: Kind = "png") -> bytes:
    """A picture of some tests, each with at least one reading.

    Patches are sRGB (IEC 61966-2-1); of a colour outside it the nearest is shown, marked `*`.
    """
    rows = [row for result in results for row in _rows(result)]
    height = _TOP + _PLOT + _BELOW + ROW * len(rows) + FOOT
    with chart_sheet(WIDTH, height) as figure:
        axes = figure.add_axes(
            (
                LEFT / WIDTH,
                (height - _TOP - _PLOT) / height,
                (WIDTH - LEFT - _RIGHT) / WIDTH,
                _PLOT / height,
            )
        )
        _draw_title(figure, results, height)
        _draw_bands(axes, results)
        for index, result in enumerate(results):
            _draw_line(axes, result, index)
        _mark_steps(axes, results)
        if len(results) > 1:
            _name_lines(axes, results)
        for index, (result, readings) in enumerate(rows):
            draw_strips(figure, result, readings, height - _TOP - _PLOT - _BELOW - ROW * index)
        draw_notes(figure, results)
        return written(figure, kind)


def _rows(result: FadeResult) -> list[tuple[FadeResult, Sequence[FadeReading]]]:
    readings = result.test.readings
    return [(result, readings[start : start + SLOTS]) for start in range(0, len(readings), SLOTS)]


def heads_of(results: Sequence[FadeResult]) -> tuple[str, str]:
    """The title of some tests, and what stands under it."""
    title, under = f"{len(results)} fade tests", "home tests, indicative"
    if len(results) == 1:
        test = results[0].test
        title = f"Fade test {test.code}: {subject_text(results[0])}"
        end = f" to {day_text(test.ended_on)}" if test.ended_on else ""
        place = textwrap.shorten(test.place, 50, placeholder=" …")
        rating = results[0].published
        rated = f"; published rating {rating.category}" if rating else ""
        under = f"home test, indicative; {place}, from {day_text(test.started_on)}{end}{rated}"
    return title, under


def _draw_title(figure: "Figure", results: Sequence[FadeResult], height: float) -> None:
    title, under = heads_of(results)
    room = WIDTH - 2 * LEFT
    write_text(figure, LEFT, height - 0.25, title, size=17, weight="bold", grey=INK, room=room)
    write_text(figure, LEFT, height - 0.6, under, size=9, grey=QUIET, room=room)


def _draw_bands(axes: "Axes", results: Sequence[FadeResult]) -> None:
    from matplotlib.ticker import MaxNLocator  # noqa: PLC0415

    readings = [reading for result in results for reading in result.test.readings]
    top = max(_LOWEST_TOP, *(1.15 * reading.delta_e for reading in readings))
    longest = max(result.days(reading.read_on) for result in results for reading in readings)
    edges = (0.0, *BANDS, top)
    for index, category in enumerate(CATEGORIES):
        low, high = edges[index], edges[index + 1]
        axes.axhspan(low, high, facecolor=_ZONES[index], edgecolor="none", zorder=0)
        axes.text(
            1.015,
            (low + high) / 2,
            f"{category}  {WORDS[category]}",
            transform=axes.get_yaxis_transform(),
            fontsize=8,
            verticalalignment="center",
        )
    for limit in BANDS:
        axes.axhline(limit, color="0.55", linewidth=0.6, zorder=1)
    axes.set_ylim(0.0, top)
    axes.set_xlim(0.0, max(1.0, 1.08 * longest))
    axes.set_yticks([0.0, *BANDS, *range(32, int(top) + 1, 8)])
    axes.xaxis.set_major_locator(MaxNLocator(integer=True))
    axes.set_xlabel("days in the light")
    axes.set_ylabel("ΔE*ab of the exposed from the covered half")


def _draw_line(axes: "Axes", result: FadeResult, index: int) -> None:
    """Changes over days."""
    readings = result.test.readings
    days = [result.days(reading.read_on) for reading in readings]
    changes = [reading.delta_e for reading in readings]
    if days[0] > 0:
        # Before the light reached them the halves were one wash.
        axes.plot([0, days[0]], [0.0, changes[0]], color="0.35", linewidth=0.8, linestyle=":")
    axes.plot(
        days,
        changes,
        color="0.1",
        linewidth=1.4,
        linestyle=_DASHES[index % len(_DASHES)],
        marker=_MARKERS[index % len(_MARKERS)],
        markersize=6,
        markerfacecolor="1.0" if index % 2 else "0.1",
        markeredgecolor="0.1",
        clip_on=False,
        zorder=3,
    )


def _mark_steps(axes: "Axes", results: Sequence[FadeResult]) -> None:
    """The blue wool step that had faded by a reading, where it is a new one.

    Strips beside one card share its steps, so a day's step is written once, over the upper line.
    """
    places: dict[tuple[int, int], float] = {}
    for result in results:
        shown = None
        for reading in result.test.readings:
            if reading.blue_wool is None or reading.blue_wool == shown:
                continue
            shown = reading.blue_wool
            key = (result.days(reading.read_on), shown)
            places[key] = max(reading.delta_e, places.get(key, 0.0))
    for (day, step), change in places.items():
        axes.annotate(
            f"BW {step}",
            (day, change),
            xytext=(0, 8),
            textcoords="offset points",
            fontsize=8,
            horizontalalignment="center",
            zorder=4,
        )


def _name_lines(axes: "Axes", results: Sequence[FadeResult]) -> None:
    """The code of each test at the end of its line; where ends meet, one above the other."""
    gap = 0.035 * axes.get_ylim()[1]
    lowest = 0.0
    for result in sorted(results, key=lambda result: result.test.readings[-1].delta_e):
        last = result.test.readings[-1]
        lowest = max(last.delta_e, lowest)
        axes.annotate(
            result.test.code,
            (result.days(last.read_on), lowest),
            xytext=(7, -3),
            textcoords="offset points",
            fontsize=9,
            fontweight="bold",
            annotation_clip=False,
            zorder=4,
        )
        lowest += gap

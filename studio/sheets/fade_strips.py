"""The strips of a fade chart: both halves at each reading, in true colour, and its notes."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from studio.actions.fade_results import FadeResult
from studio.catalogue.fade import FadeReading
from studio.colour.display import on_screen
from studio.sheets.chart_patch import draw_patch
from studio.sheets.chart_sheet import QUIET
from studio.sheets.figure_text import write_text
from studio.sheets.own_tests import subject_text
from studio.sheets.page_parts import starred
from studio.sheets.screen import OUTSIDE

if TYPE_CHECKING:
    from matplotlib.figure import Figure

WIDTH: Final = 8.0
"""Width of the picture, in."""

LEFT: Final = 0.75
"""Where plot and strips begin, in."""

PATCH: Final = 0.3
"""Side of a patch, in."""

ROW: Final = 1.02
"""Height of a row of strips, in."""

FOOT: Final = 0.5
"""Height of the notes, in."""

SLOTS: Final = 8
"""Readings in a row."""


def draw_strips(
    figure: "Figure", result: FadeResult, readings: Sequence[FadeReading], top: float
) -> None:
    """A row of halves, the covered one left of the exposed one; `top` in inches."""
    slot = (WIDTH - LEFT) / SLOTS
    heading = f"{result.test.code}  {subject_text(result)}: covered half left, exposed half right"
    write_text(figure, LEFT, top, heading, grey=QUIET, room=WIDTH - 1.5 * LEFT)
    for index, reading in enumerate(readings):
        left, bottom = LEFT + slot * index, top - 0.22 - PATCH
        for side, half in enumerate((reading.covered, reading.exposed)):
            draw_patch(figure, half, left + side * PATCH, bottom, (PATCH, PATCH))
        caption = starred(f"day {result.days(reading.read_on)}", reading.covered, reading.exposed)
        write_text(figure, left, bottom - 0.05, caption, size=7.5)
        step = "" if reading.blue_wool is None else f", BW {reading.blue_wool}"
        write_text(
            figure,
            left,
            bottom - 0.19,
            f"ΔE {reading.delta_e:.1f}{step}",
            size=7.5,
        )


def draw_notes(figure: "Figure", results: Sequence[FadeResult]) -> None:
    """What the picture is worth, and what its marks mean."""
    notes = (
        "Home test, indicative: sun, glass, season and damp differ from ASTM D4303, whose bands "
        "are shown."
    )
    marks = []
    readings = [reading for result in results for reading in result.test.readings]
    if any(reading.blue_wool is not None for reading in readings):
        marks.append("BW n: blue wool step n had faded, each about twice the exposure of the last")
    halves = [half for reading in readings for half in (reading.covered, reading.exposed)]
    if not all(on_screen(half).in_gamut for half in halves):
        marks.append(OUTSIDE)
    write_text(figure, LEFT, FOOT - 0.05, notes, size=7.5, grey=QUIET)
    write_text(figure, LEFT, FOOT - 0.22, "; ".join(marks), size=7.5, grey=QUIET)

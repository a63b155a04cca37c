"""Fade tests as a page for a browser."""

from collections.abc import Sequence
from datetime import date
from typing import Final

from studio.actions.fade_results import FadeResult
from studio.catalogue.fade import INDICATIVE, FadeReading
from studio.catalogue.lightfastness import WORDS
from studio.sheets.blocks import Block, Grid, Heading, Page, Paragraph
from studio.sheets.chart_page import chart_page
from studio.sheets.fade_chart import heads_of
from studio.sheets.fade_view import verdict_text
from studio.sheets.own_tests import own_test_text, subject_text
from studio.sheets.page_parts import starred
from studio.sheets.screen import day_text, lab_text

_COLUMNS: Final = ("half", "L*a*b*", "read", "blue wool", "band so far", "days", "ΔE*ab")
_WIDTHS: Final = (12, 30, 14, 10, 18, 8, 8)


def fade_page(results: Sequence[FadeResult], png: bytes, day: date) -> Page:
    """The tests with a table of the readings of each, and what they say of published ratings."""
    title, under = heads_of(results)
    blocks: list[Block] = []
    for result in results:
        blocks += [
            Heading(f"{result.test.code}  {subject_text(result)}"),
            _table(result),
            Paragraph(verdict_text(result)),
        ]
    blocks.append(Paragraph(INDICATIVE, strong=True))
    said = "; ".join(own_test_text(result) for result in results)
    return chart_page(
        title=title,
        lead=f"{under[0].upper()}{under[1:]}.",
        png=png,
        instead=f"How far the halves in the light have changed, day by day: {said}.",
        values=blocks,
        day=day,
    )


def _table(result: FadeResult) -> Grid:
    """Two rows a reading, one for each half, never parted."""
    readings = result.test.readings
    rows = tuple(row for reading in readings for row in _rows(result, reading))
    chips = tuple((lab,) for reading in readings for lab in (reading.covered, reading.exposed))
    joined = frozenset(range(1, 2 * len(readings), 2))
    return Grid(_COLUMNS, rows, _WIDTHS, frozenset({5, 6}), joined, chips)


def _rows(result: FadeResult, reading: FadeReading) -> tuple[tuple[str, ...], tuple[str, ...]]:
    covered, exposed = reading.covered, reading.exposed
    wool = "" if reading.blue_wool is None else f"step {reading.blue_wool}"
    return (
        (
            starred("covered", covered),
            lab_text(covered),
            day_text(reading.read_on),
            wool or "not noted",
            f"{reading.category} ({WORDS[reading.category]})",
            str(result.days(reading.read_on)),
            f"{reading.delta_e:.1f}",
        ),
        (starred("exposed", exposed), lab_text(exposed), "", "", "", "", ""),
    )

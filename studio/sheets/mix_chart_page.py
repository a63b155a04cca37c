"""A mixing chart as a page for a browser."""

from collections.abc import Sequence
from datetime import date
from typing import Final

from studio.actions.chart_cells import Cell
from studio.actions.mixing_chart import MixingChart
from studio.sheets.blocks import Block, Chip, CrossedOut, Grid, Heading, Page, Paragraph
from studio.sheets.chart_page import chart_page
from studio.sheets.match_view import recipe_text
from studio.sheets.mix_chart_words import (
    halves_text,
    notes_of,
    pair_title,
    pairs_title,
    shown_cells,
    water_of,
    where_text,
)
from studio.sheets.page_parts import starred
from studio.sheets.screen import lab_text

_COLUMNS: Final = ("mix", "colour", "L*a*b*")


def pair_chart_page(chart: MixingChart, png: bytes, day: date) -> Page:
    """The chart of two paints: a table for each water."""
    one, other = (paint.facts.name for paint in chart.paints)
    across = len(chart.rows[0])
    waters = ", ".join(water_of(row[0].water).removeprefix("water ") for row in chart.rows)
    instead = (
        f"Patches of {one} and {other}: {across} columns from {one} alone at the left to {other} "
        f"alone at the right, a row for each water, {waters}."
    )
    parts = [(_capital(water_of(row[0].water)), row) for row in chart.rows]
    return _page(chart, png, day, pair_title(chart), where_text(chart), instead, parts)


def pairs_chart_page(chart: MixingChart, png: bytes, day: date) -> Page:
    """The chart of all pairs: a table for its strong and one for its thin half."""
    codes = ", ".join(paint.facts.code for paint in chart.paints)
    instead = f"A square of patches, a row and a column for each of {codes}. {halves_text(chart)}"
    strong, thin = chart.waters
    parts = [
        (f"{_capital(water_of(water))}, {where}", [c for c in chart.cells if c.water == water])
        for water, where in ((strong, "above the diagonal and on it"), (thin, "below it"))
    ]
    lead = f"{halves_text(chart)} {where_text(chart)}"
    return _page(chart, png, day, pairs_title(chart), lead, instead, parts)


def _page(  # noqa: PLR0913, PLR0917 - what both have
    chart: MixingChart,
    png: bytes,
    day: date,
    title: str,
    lead: str,
    instead: str,
    parts: Sequence[tuple[str, Sequence[Cell]]],
) -> Page:
    blocks: list[Block] = []
    for heading, cells in parts:
        blocks += [Heading(heading), _table(cells)]
    notes = [note for note in notes_of(chart) if not note.startswith("*")]
    if notes:
        blocks += [Heading("To know"), *(Paragraph(note, small=True) for note in notes)]
    said = f"{instead} {_count_text(chart)}{_greyest(chart)}"
    return chart_page(title=title, lead=lead, png=png, instead=said, values=blocks, day=day)


def _count_text(chart: MixingChart) -> str:
    told = f"{chart.measured} are measured, {chart.predicted} predicted."
    if chart.uncertain:
        told += f" {chart.uncertain} of these are crossed out as too uncertain to act on."
    return told


def _greyest(chart: MixingChart) -> str:
    """The mixture nearest to grey, as a sentence."""
    mixed = [
        (cell.lab.chroma, cell)
        for cell in shown_cells(chart)
        if cell.lab is not None and len(cell.recipe) > 1
    ]
    if not mixed:
        return ""
    chroma, cell = min(mixed, key=lambda pair: pair[0])
    return (
        f" The mixture nearest to grey is {recipe_text(cell.recipe)}, {water_of(cell.water)}, "
        f"C* {chroma:.1f}."
    )


def _table(cells: Sequence[Cell]) -> Grid:
    rows = tuple(
        (
            starred(recipe_text(cell.recipe), None if cell.is_too_uncertain else cell.lab),
            _source(cell),
            _numbers(cell),
        )
        for cell in cells
    )
    chips = tuple((_chip(cell),) for cell in cells)
    return Grid(_COLUMNS, rows, (40, 34, 26), chips=chips)


def _chip(cell: Cell) -> Chip:
    if cell.is_too_uncertain:
        return CrossedOut("crossed out: predicted too uncertainly to be shown")
    return cell.lab


def _numbers(cell: Cell) -> str:
    return "" if cell.lab is None else lab_text(cell.lab)


def _source(cell: Cell) -> str:
    """Where the colour of a cell comes from, or why it has none."""
    if cell.swatch is not None:
        more = f" ({cell.alike} more alike)" if cell.alike else ""
        return f"measured, {cell.swatch.facts.code}{more}"
    if cell.error is not None:
        more = ", too uncertain to act on" if cell.is_too_uncertain else ""
        return f"predicted, ±{cell.error:.1f}{more}"
    return f"unknown: {cell.why}"


def _capital(text: str) -> str:
    return f"{text[0].upper()}{text[1:]}"

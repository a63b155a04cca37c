"""Mixing charts in the terminal and as JSON."""

from collections.abc import Iterable

from rich.console import Console
from rich.text import Text

from studio.actions.chart_cells import Cell
from studio.actions.mixing_chart import MixingChart
from studio.colour.display import on_screen
from studio.sheets.fields import Fields, lab_fields, recipe_fields
from studio.sheets.mix_chart_words import (
    name_of,
    notes_of,
    pairs_title,
    proportion_of,
    water_of,
    where_text,
)
from studio.sheets.screen import crossed_out, indented, patch, print_parts, shows_colour

_LABEL = 7
_CELL = 12
_PAIR = 3
_LETTERS = "m measured, p predicted, x too uncertain, - neither; --json has every colour and its ±."
_LIGHT = 55.0
"""L* from which black letters are read better than white ones."""


def print_pair_chart(console: Console, chart: MixingChart) -> None:
    """A line of patches a proportion, the waters across; below each its swatch or its ±."""
    one, other = (paint.facts for paint in chart.paints)
    indented(console, f"{one.code} {one.name} : {other.code} {other.name}", 0, "bold")
    indented(console, where_text(chart), 0, "dim")
    columns = max(1, (console.width - _LABEL) // _CELL)
    for first in range(0, len(chart.rows), columns):
        rows = chart.rows[first : first + columns]
        head = "".join(f"{water_of(row[0].water).removeprefix('water '):<{_CELL}}" for row in rows)
        console.print(f"{'water':<{_LABEL}}{head}".rstrip(), style="dim", soft_wrap=True)
        for cells in zip(*rows, strict=True):
            _print_cells(console, _name(cells[0]), cells)
    print_notes(console, chart)


def print_pairs_chart(console: Console, chart: MixingChart) -> None:
    """A square of letters on their colours; where it is too wide, the pairs one below the other."""
    strong, thin = map(water_of, chart.waters)
    indented(console, pairs_title(chart), 0, "bold")
    indented(console, where_text(chart), 0, "dim")
    label = max(len(paint.facts.code) for paint in chart.paints) + 1
    if label + _PAIR * len(chart.paints) <= console.width:
        indented(console, f"Above the diagonal {strong}, below it {thin}; alone on it.", 0)
        _print_square(console, chart, label)
        indented(console, _LETTERS, 0)
    else:
        for cell in chart.cells:
            codes = " + ".join(part.paint.facts.code for part in cell.recipe)
            _print_line(console, f"{codes}, {water_of(cell.water)}", cell)
    print_notes(console, chart)


def print_notes(console: Console, chart: MixingChart) -> None:
    """What the marks mean and what is missing."""
    for note in notes_of(chart):
        indented(console, note, 0, "dim")


def mix_chart_fields(chart: MixingChart) -> Fields:
    """A chart as JSON; README.md documents the names."""
    return {
        "paints": [paint.facts.code for paint in chart.paints],
        "waters": list(chart.waters),
        "paper": None if chart.paper is None else chart.paper.facts.code,
        "paper_basis": chart.basis,
        "measured": chart.measured,
        "predicted": chart.predicted,
        "too_uncertain": chart.uncertain,
        "cells": [_cell_fields(cell) for cell in chart.cells],
        "unknown": [
            {"paint": each.paint.facts.code, "because": each.why, "missing": each.missing}
            for each in chart.unknown
        ],
    }


def _cell_fields(cell: Cell) -> Fields:
    swatch = cell.swatch
    shown = None if cell.lab is None else on_screen(cell.lab)
    return {
        "recipe": recipe_fields(cell.recipe),
        "water": cell.water,
        "predicted": cell.is_predicted,
        "lab": None if cell.lab is None else lab_fields(cell.lab),
        "srgb": None if shown is None else shown.hex,
        "srgb_exact": None if shown is None else shown.in_gamut,
        "srgb_delta_e": None if shown is None else round(shown.off, 2),
        "swatch": None if swatch is None else swatch.facts.code,
        "swatch_water": None if swatch is None else swatch.facts.water,
        "more_swatches": cell.alike,
        "error_delta_e": None if cell.error is None else round(cell.error, 2),
        "too_uncertain": cell.is_too_uncertain,
        "because": cell.why,
    }


def _name(cell: Cell) -> str:
    return cell.recipe[0].paint.facts.code if len(cell.recipe) == 1 else proportion_of(cell.recipe)


def _print_cells(console: Console, name: str, cells: Iterable[Cell]) -> None:
    """A line of patches and a line of captions; without colours the codes of the colours."""
    patches, captions = Text(f"{name[: _LABEL - 1]:<{_LABEL}}"), " " * _LABEL
    for cell in cells:
        text = _patch(console, cell, 8)
        patches.append_text(text).append(" " * (_CELL - text.cell_len))
        captions += f"{_caption(cell):<{_CELL}}"
    patches.rstrip()
    console.print(patches, soft_wrap=True)
    console.print(captions.rstrip(), soft_wrap=True)


def _print_square(console: Console, chart: MixingChart, label: int) -> None:
    for place in range(label - 1):  # codes stand upright, as the columns are narrow
        letters = "".join(f" {paint.facts.code[place : place + 1]:<2}" for paint in chart.paints)
        console.print(f"{'':<{label}}{letters}".rstrip(), style="dim", soft_wrap=True)
    for paint, row in zip(chart.paints, chart.rows, strict=True):
        line = Text(f"{paint.facts.code:<{label}}")
        for cell in row:
            letter = "-" if cell.lab is None else "m" if cell.is_measured else "p"
            letter = "x" if cell.is_too_uncertain else letter
            style = ""
            if cell.lab is not None and not cell.is_too_uncertain and shows_colour(console):
                ink = "#000000" if cell.lab.lightness >= _LIGHT else "#ffffff"
                style = f"{ink} on {on_screen(cell.lab).hex}"
            line.append(f" {letter} ", style=style)
        if not shows_colour(console):
            line.rstrip()
        console.print(line, soft_wrap=True)


def _caption(cell: Cell) -> str:
    """A caption in few letters: the notes below tell what is crossed out."""
    return name_of(cell) if cell.lab is not None or cell.is_too_uncertain else ""


def _patch(console: Console, cell: Cell, width: int) -> Text:
    """The colour of a cell, or what stands in its place."""
    if cell.lab is None:
        return Text("-")
    return crossed_out(width) if cell.is_too_uncertain else patch(console, cell.lab, width=width)


def _print_line(console: Console, name: str, cell: Cell) -> None:
    shown = _patch(console, cell, 4)
    print_parts(console, "  ", [shown, f"{name}  {_caption(cell)}".rstrip()], 4)

"""Spectra as a page for a browser."""

from collections.abc import Iterator
from datetime import date
from typing import Final

from studio.actions.swatch_rows import SwatchRow
from studio.actions.swatch_spectra import SwatchSpectra
from studio.catalogue.reading import Reading
from studio.colour.reflectance import Reflectance
from studio.sheets.blocks import Block, Grid, Heading, Page, Paragraph
from studio.sheets.chart_page import chart_page
from studio.sheets.match_view import recipe_text
from studio.sheets.page_parts import starred
from studio.sheets.screen import day_text, water_text
from studio.sheets.spectra_chart import lead_of, notes_of, title_of

_COLUMNS: Final = ("swatch", "mix", "paper", "read", "from nm", "to nm", "step nm")
_WIDTHS: Final = (10, 34, 20, 12, 8, 8, 8)
_EVERY: Final = 20
"""nm between the rows of the table of reflectance."""


def spectra_page(found: SwatchSpectra, png: bytes, day: date) -> Page:
    """The spectra with a table of the readings and one of their reflectance."""
    lines = list(_lines(found))
    chips = tuple((row[0].lab,) for row, _, _ in lines)
    readings = Grid(
        _COLUMNS, tuple(map(_reading_row, lines)), _WIDTHS, frozenset({4, 5, 6}), chips=chips
    )
    notes = [note for note in notes_of(found) if not note.startswith("*")]
    blocks: list[Block] = [Heading("Readings"), readings]
    blocks += [Paragraph(note, small=True) for note in notes]
    blocks += [Heading(f"Reflectance every {_EVERY} nm"), _reflectance(lines)]
    return chart_page(
        title=title_of(found),
        lead=lead_of(found),
        png=png,
        instead=f"Reflectance against wavelength. {'; '.join(map(_extremes, lines))}.",
        values=blocks,
        day=day,
    )


_Line = tuple[SwatchRow, Reading, Reflectance]


def _lines(found: SwatchSpectra) -> Iterator[_Line]:
    """Every line of the chart."""
    for row, readings in found.rows:
        for reading in readings:
            if reading.spectrum is not None:
                yield row, reading, reading.spectrum


def _reading_row(line: _Line) -> tuple[str, ...]:
    (swatch, mix, recipe, paper), reading, spectrum = line
    name = f"{mix.name}: " if mix.name else ""
    return (
        starred(swatch.facts.code, swatch.lab),
        f"{name}{recipe_text(recipe)}, {water_text(swatch.facts.water)}",
        paper.facts.full_name,
        f"{reading.state}, {day_text(reading.read_on)}" if reading.read_on else str(reading.state),
        f"{spectrum.start:g}",
        f"{spectrum.end:g}",
        f"{spectrum.step:g}",
    )


def _reflectance(lines: list[_Line]) -> Grid:
    """What was read at whole steps of wavelength; nothing between two readings is made up."""
    read = [dict(zip(s.wavelengths, s.values, strict=True)) for _, _, s in lines]
    wavelengths = sorted({nm for each in read for nm in each if nm % _EVERY == 0})
    rows = tuple(
        (f"{nm:g} nm", *(f"{each[nm]:.3f}" if nm in each else "" for each in read))
        for nm in wavelengths
    )
    columns = ("wavelength", *(row[0].facts.code for row, _, _ in lines))
    return Grid(columns, rows, numbers=frozenset(range(1, len(columns))))


def _extremes(line: _Line) -> str:
    """Where a swatch reflects least and most."""
    (swatch, *_), _, spectrum = line
    pairs = sorted(zip(spectrum.values, spectrum.wavelengths, strict=True))
    (low, low_nm), (high, high_nm) = pairs[0], pairs[-1]
    return (
        f"{swatch.facts.code} reflects least at {low_nm:g} nm ({low:.2f}) and most at "
        f"{high_nm:g} nm ({high:.2f})"
    )

"""Spectra in the terminal and as JSON."""

from collections.abc import Sequence
from typing import Final

from rich.console import Console
from rich.text import Text

from studio.actions.swatch_spectra import SwatchSpectra
from studio.colour.reflectance import Reflectance
from studio.sheets.fields import Fields, lab_fields, reading_fields, recipe_fields
from studio.sheets.match_view import recipe_text
from studio.sheets.screen import indented, legend, patch, print_parts, water_text
from studio.sheets.spectra_chart import notes_of

_BARS: Final = "▁▂▃▄▅▆▇█"
_EVERY: Final = tuple(range(400, 701, 5))
"""Wavelengths (nm) of the signs of a line."""


def print_spectra(console: Console, found: SwatchSpectra) -> None:
    """Each swatch with its patch and its reflectance as a line of bars from 400 to 700 nm."""
    for (swatch, mix, recipe, paper), readings in found.rows:
        parts: list[Text | str] = [
            Text(swatch.facts.code, "bold"),
            patch(console, swatch.lab),
            water_text(swatch.facts.water),
        ]
        print_parts(console, "", parts, 2)
        name = f"{mix.name}: " if mix.name else ""
        indented(console, f"{name}{recipe_text(recipe)}, {paper.facts.full_name}", 6)
        for reading in readings:
            if reading.spectrum is not None:
                console.print(f"      {bars(reading.spectrum, console.width - 8)}", soft_wrap=True)
    indented(console, "bars: reflectance from 0 to 1, wavelength 400 to 700 nm", 0, "dim")
    for note in notes_of(found):
        if not note.startswith("*"):
            indented(console, note, 0)
    marks = legend(console, *(row[0].lab for row, _ in found.rows))
    if marks:
        indented(console, marks, 0, "dim")


def spectra_fields(found: SwatchSpectra) -> Fields:
    """The same as JSON; README.md documents the names."""
    return {
        "swatches": [
            {
                "swatch": swatch.facts.code,
                "mix": mix.code,
                "recipe": recipe_fields(recipe),
                "water": swatch.facts.water,
                "paper": paper.facts.code,
                "state": swatch.state,
                "lab": lab_fields(swatch.lab),
                "spectra": [
                    {"read_on": fields["read_on"], **fields["spectrum"]}
                    for fields in map(reading_fields, readings)
                ],
            }
            for (swatch, mix, recipe, paper), readings in found.rows
        ],
        "without_spectrum": [row[0].facts.code for row in found.without],
    }


def bars(spectrum: Reflectance, room: int) -> str:
    """A sign for every 5 nm, or fewer where there is less room; above 1 it stays at the highest."""
    every = _EVERY[:: max(1, -(-len(_EVERY) // max(1, room)))]
    values = [_at(spectrum.wavelengths, spectrum.values, nm) for nm in every]
    top = len(_BARS) - 1
    return "".join(_BARS[max(0, min(top, int(value * len(_BARS))))] for value in values)


def _at(wavelengths: Sequence[float], values: Sequence[float], nm: float) -> float:
    """The value at the nearest wavelength."""
    place = min(range(len(wavelengths)), key=lambda n: abs(wavelengths[n] - nm))
    return values[place]

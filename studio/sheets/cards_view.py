"""Swatch cards in the terminal and as JSON."""

from collections.abc import Sequence

from rich.console import Console

from studio.actions.swatch_rows import SwatchRow
from studio.sheets.card_sheets import A_SHEET
from studio.sheets.chart_words import counted
from studio.sheets.fields import Fields, lab_fields, recipe_fields
from studio.sheets.lists import print_swatches
from studio.sheets.screen import indented


def print_cards(console: Console, rows: Sequence[SwatchRow], *, written: bool) -> None:
    """Which swatches have a card, in the order of the sheets."""
    print_swatches(console, rows)
    sheets = counted(-(-len(rows) // A_SHEET), "sheet", "sheets")
    made = f"{counted(len(rows), 'card', 'cards')} of 74 x 52 mm on {sheets} of A4"
    ask = "" if written else "; give --pdf FILE or --png FILE to make them"
    indented(console, f"{made}{ask}.", 0)


def cards_fields(rows: Sequence[SwatchRow]) -> Fields:
    """The same as JSON; README.md documents the names."""
    return {
        "width_mm": 74.0,
        "height_mm": 52.0,
        "sheets": -(-len(rows) // A_SHEET),
        "cards": [
            {
                "swatch": swatch.facts.code,
                "qr": swatch.facts.code,
                "sheet": place // A_SHEET + 1,
                "place": place % A_SHEET + 1,
                "mix": mix.code,
                "recipe": recipe_fields(recipe),
                "paper": paper.facts.code,
                "lab": lab_fields(swatch.lab),
            }
            for place, (swatch, mix, recipe, paper) in enumerate(rows)
        ],
    }

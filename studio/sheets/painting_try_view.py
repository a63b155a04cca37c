"""A test swatch held against a colour of a painting, in the terminal."""

from rich.console import Console
from rich.text import Text

from studio.actions.painting.show_painting import ShownColour, ShownPainting, ShownPassage
from studio.actions.painting.tries import Try, standing_text
from studio.catalogue.painting import Painting, PassageColour
from studio.sheets.match_view import recipe_text
from studio.sheets.screen import (
    indented,
    layers_text,
    legend,
    patch,
    print_parts,
    separation_text,
    water_text,
)


def print_try(console: Console, painting: Painting, colour: PassageColour, tried: Try) -> None:
    """A try beside its colour: what was laid, how far off it is, and what was to be corrected."""
    swatch, mix, recipe, _paper = tried.row
    parts: list[Text | str] = [
        patch(console, colour.lab, swatch.lab),
        swatch.facts.code,
        f"ΔE00 {tried.delta_e:.1f}",
        verdict_text(painting, tried),
    ]
    print_parts(console, f"  try {tried.number}  ", parts, 9)
    facts = swatch.facts
    how = f"{water_text(facts.water)}, {layers_text(facts.layers)}"
    indented(console, f"{mix.code} {recipe_text(recipe)}; {how}", 9)
    indented(
        console,
        f"it is {tried.separation.sentence} ({separation_text(tried.separation)})",
        9,
    )


def print_standing(
    console: Console, shown: ShownPainting, one: ShownPassage, colour: ShownColour
) -> None:
    """The last try for a colour, and how it stands to those before it."""
    painting, last = shown.painting, colour.tries[-1]
    which = f", colour {colour.number}" if len(one.colours) > 1 else ""
    indented(console, f"{painting.code}  {one.passage.name}{which}", 0, "bold")
    print_try(console, painting, colour.colour, last)
    within = f"; within ΔE00 {painting.tolerance:g}, it passes" if last.passes else ""
    indented(console, f"{standing_text(colour.tries)}{within}", 0)
    if last.is_dry and not last.passes:
        indented(console, f"what to add: {_adjust_text(last, colour.colour)}", 0, "dim")
    note = legend(console, colour.colour.lab, last.swatch.lab)
    if note:
        indented(console, note, 0, "dim")


def _adjust_text(tried: Try, colour: PassageColour) -> str:
    """The command that corrects a try, with the colour where the swatch was made for another."""
    facts, lab = tried.swatch.facts, colour.lab
    target = (
        "" if facts.target_lab == lab else f' "lab({lab.lightness:.2f} {lab.a:.2f} {lab.b:.2f})"'
    )
    return f"studio adjust {facts.code}{target}"


def verdict_text(painting: Painting, tried: Try) -> str:
    """Whether a try passes for its colour."""
    if not tried.is_dry:
        return "read wet"
    return f"within {painting.tolerance:g}" if tried.passes else f"beyond {painting.tolerance:g}"

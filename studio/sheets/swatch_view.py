"""A mix or a swatch in the terminal, with all that is known of it."""

from collections.abc import Sequence

from rich.console import Console
from rich.text import Text

from studio.actions.match_colour import Ingredient
from studio.catalogue.mix import Mix
from studio.catalogue.paper import Paper
from studio.catalogue.removal import Removal
from studio.catalogue.spread import spread_of
from studio.catalogue.swatch import Swatch
from studio.colour.difference import ciede2000
from studio.colour.words import separation
from studio.sheets.match_view import recipe_text
from studio.sheets.record_parts import print_fact, print_readings
from studio.sheets.screen import (
    day_text,
    indented,
    lab_text,
    layers_text,
    legend,
    patch,
    print_parts,
    separation_text,
    water_text,
)


def show_mix(
    console: Console,
    mix: Mix,
    recipe: Sequence[Ingredient],
    swatches: Sequence[tuple[Swatch, Paper]],
) -> None:
    """A mix with its recipe and the family of colours its swatches show."""
    name = f"  {mix.name}" if mix.name else ""
    indented(console, f"{mix.code}{name}", 0, "bold")
    print_fact(console, "recipe", recipe_text(recipe))
    print_fact(console, "recorded", day_text(mix.created_on))
    print_fact(console, "note", mix.note)
    console.print("Swatches" if swatches else "No swatch yet", style="bold")
    for swatch, paper in swatches:
        facts = swatch.facts
        parts: list[Text | str] = [patch(console, swatch.lab), facts.code, lab_text(swatch.lab)]
        print_parts(console, "  ", parts, 2)
        where = f", {facts.kept_at}" if facts.kept_at else ""
        indented(
            console,
            f"{water_text(facts.water)}, {layers_text(facts.layers)}, {facts.application}, "
            f"{paper.facts.full_name}, {day_text(facts.made_on)}{where}",
            8,
        )
    note = legend(console, *(swatch.lab for swatch, _ in swatches))
    if note:
        indented(console, note, 0, "dim")


def show_swatch(
    console: Console, swatch: Swatch, mix: Mix, recipe: Sequence[Ingredient], paper: Paper
) -> None:
    """A swatch with its recipe, its readings, and how it stands to the target it was made for."""
    facts = swatch.facts
    heading: list[Text | str] = [
        Text(facts.code, "bold"),
        patch(console, swatch.lab),
        lab_text(swatch.lab),
    ]
    print_parts(console, "", heading, 2)
    print_fact(console, "removed", removal_text(swatch.removed))
    name = f" ({mix.name})" if mix.name else ""
    print_fact(console, "mix", f"{mix.code}{name}: {recipe_text(recipe)}")
    print_fact(
        console,
        "laid",
        f"{water_text(facts.water)}, {layers_text(facts.layers)}, {facts.application}",
    )
    print_fact(console, "paper", f"{paper.facts.code} {paper.facts.full_name}")
    print_fact(console, "made on", day_text(facts.made_on))
    print_fact(console, "card", facts.kept_at)
    print_fact(console, "note", facts.note)
    print_against_target(console, swatch)
    numbers = swatch.numbers if len(swatch.every_reading) > 1 else ()
    print_readings(console, "Readings", swatch.readings, spread_of(swatch.readings), numbers)
    print_set_aside(console, swatch)
    note = legend(console, swatch.lab)
    if note:
        indented(console, note, 0, "dim")


def print_set_aside(console: Console, swatch: Swatch) -> None:
    """The readings of a swatch that were set aside, each with when and why."""
    if swatch.set_aside:
        console.print("Set aside, not counted", style="bold")
    for each in swatch.set_aside:
        reading = each.reading
        indented(console, f"{each.number}.  {lab_text(reading.lab)}  {day_text(reading.read_on)}")
        indented(console, f"since {removal_text(each.removal)}", 4)


def removal_text(removal: Removal | None) -> str | None:
    """When and why something was removed."""
    if removal is None:
        return None
    because = f": {removal.because}" if removal.because else ""
    return f"{day_text(removal.on)}{because}"


def print_against_target(console: Console, swatch: Swatch) -> None:
    """How a swatch stands to the target it was made for, in the order to correct it."""
    facts = swatch.facts
    if facts.target_lab is None:
        return
    wanted = facts.target_lab.coordinates
    apart = separation(wanted, swatch.lab.coordinates)
    parts: list[Text | str] = [
        patch(console, facts.target_lab, swatch.lab),
        str(facts.target),
        f"ΔE00 {ciede2000(wanted, swatch.lab.coordinates):.2f}",
    ]
    print_parts(console, f"  {'made for':<12}", parts, 14)
    indented(console, f"this swatch is {apart.sentence} ({separation_text(apart)})", 14)

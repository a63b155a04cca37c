"""Tints between recorded ones, below the matches of a search."""

from rich.console import Console
from rich.text import Text

from studio.actions.between_tints import TintBetween, TintsBetween
from studio.actions.match_colour import ANOTHER_COLOUR
from studio.catalogue.paint import never_text
from studio.colour.lab import Lab
from studio.sheets.match_view import recipe_text
from studio.sheets.screen import (
    TOO_UNCERTAIN_TEXT,
    beside,
    indented,
    layers_text,
    print_parts,
    separation_text,
    water_text,
)

_INDENT = 5


def print_between(console: Console, target: Lab, found: TintsBetween) -> None:
    """Print what lies between recorded tints."""
    console.print("Between recorded tints (predicted, not laid)", style="bold")
    for each in found.tints:
        _print_one(console, target, each)
    if not found.tints:
        what = (
            f"none of {found.series} tint series comes within ΔE00 {ANOTHER_COLOUR:g} and nearer "
            "than its own swatches"
            if found.series
            else "no mix has dry swatches of two waters on one paper that pass the filters"
        )
        indented(console, f"{what[0].upper()}{what[1:]}.", _INDENT)
    else:
        inner = found.left_out
        basis = (
            f"{inner} inner swatches of tint series, each predicted from its neighbours without it"
            if inner
            else "no inner swatch of a series yet: a usual value"
        )
        indented(console, f"± holds for about 68 % of tints between two, from {basis}.", 0, "dim")
    for paint in found.never:
        indented(console, f"left out: {never_text(paint)}", 0)
    console.print()


def _print_one(console: Console, target: Lab, each: TintBetween) -> None:
    name = f"  {each.mix.name}" if each.mix.name else ""
    first: list[Text | str] = [
        beside(console, target, None if each.is_too_uncertain else each.lab),
        Text(f"ΔE00 {each.delta_e:.1f} ± {each.error:.1f}", "bold"),
        *([TOO_UNCERTAIN_TEXT] if each.is_too_uncertain else []),
        f"{each.mix.code}{name}",
    ]
    print_parts(console, f"{each.rank:>3}  ", first, _INDENT)
    indented(console, f"{recipe_text(each.recipe)} · {water_text(each.water)}", _INDENT, "bold")
    apart = f"{each.separation.sentence}  ({separation_text(each.separation)})"
    indented(console, apart, _INDENT)
    codes = [f"{swatch.facts.code} ({water_text(swatch.facts.water)})" for swatch in each.beside]
    where = f"between {' and '.join(codes)}" if each.is_between else f"beyond {codes[0]}, less sure"
    facts = each.like.facts
    where += f" · {layers_text(facts.layers)} · {facts.application} · {each.paper.facts.full_name}"
    indented(console, where, _INDENT)
    if each.estimated:
        indented(console, "rests on a spectrum estimated from Lab", _INDENT)
    console.print()

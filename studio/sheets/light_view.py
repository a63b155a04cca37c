"""Colours under other lights in the terminal: lines of a match, and two swatches side by side."""

from typing import TYPE_CHECKING, Final

from rich.console import Console
from rich.text import Text

from studio.actions.compare_swatches import Comparison, no_spectrum_text
from studio.colour.lights import REFERENCE, light_kind
from studio.colour.metamerism import PASSES, UnderLight
from studio.sheets.screen import (
    MINUS,
    indented,
    lab_text,
    legend,
    patch,
    print_parts,
    print_table,
    separation_text,
)

if TYPE_CHECKING:
    from studio.actions.match_colour import Match, MatchResult
    from studio.actions.swatch_rows import SwatchRow

INDEX_NOTE: Final = (
    "index: special metamerism index, ΔE*ab under that light of what is left when the difference "
    f"under {REFERENCE} is taken away in L*a*b* (ISO 18314-4); it means something only for colours "
    f"that are near under {REFERENCE}"
)
BREAKS_NOTE: Final = (
    f"A match breaks where ΔE00 is at most {PASSES:g} under {REFERENCE} and more under the other "
    "light (common practice, no source)."
)


def light_lines(result: "MatchResult", match: "Match") -> list[str]:
    """How a match stands under the lights that were asked for, in one line."""
    if not result.lights:
        return []
    if match.lights is None:
        return [f"no spectrum: not known under {', '.join(result.lights)}"]
    return [" · ".join(under_light_text(each) for each in match.lights)]


def under_light_text(under: UnderLight) -> str:
    """How a pair stands under one light."""
    text = f"under {under.light} ΔE00 {under.delta_e:.2f}, index {under.index:.2f}"
    return f"{text}: the match breaks" if under.breaks else text


def print_lights_note(console: Console, result: "MatchResult") -> None:
    """Which matches break under which light, and what the numbers are."""
    for light in result.lights:
        broken = [
            match.mix.code
            for match in result.matches
            if any(each.light == light and each.breaks for each in match.lights or ())
        ]
        if broken:
            indented(
                console, f"Breaks under {light} ({light_kind(light)}): {', '.join(broken)}.", 0
            )
    indented(console, BREAKS_NOTE, 0, "dim")
    indented(console, INDEX_NOTE, 0, "dim")


def print_comparison(
    console: Console, comparison: Comparison, standard: "SwatchRow", sample: "SwatchRow"
) -> None:
    """Two swatches: what separates them under D50, and under each other light."""
    from studio.sheets.match_view import recipe_text  # noqa: PLC0415 - it imports this module

    for swatch, mix, recipe, paper in (standard, sample):
        parts: list[Text | str] = [
            Text(swatch.facts.code, "bold"),
            patch(console, swatch.lab),
            lab_text(swatch.lab),
        ]
        print_parts(console, "", parts, 2)
        indented(console, f"{mix.code} {recipe_text(recipe)} · {paper.facts.full_name}", 2)
    apart = comparison.separation
    heading: list[Text | str] = [
        patch(console, standard[0].lab, sample[0].lab),
        Text(f"ΔE00 {comparison.delta_e:.2f}", "bold"),
    ]
    print_parts(console, f"under {REFERENCE}  ", heading, 2)
    code = sample[0].facts.code
    indented(console, f"{code} is {apart.sentence}  ({separation_text(apart)})", 2)
    if comparison.lights:
        console.print()
        _print_lights(console, comparison.lights)
    if comparison.without_spectrum:
        indented(console, f"{no_spectrum_text(*comparison.without_spectrum)}.", 0)
    note = legend(console, standard[0].lab, sample[0].lab)
    if note:
        indented(console, note, 0, "dim")


def _print_lights(console: Console, lights: tuple[UnderLight, ...]) -> None:
    from studio.sheets.tables import plain_table  # noqa: PLC0415 - a match has no table

    table = plain_table(
        "light", "what it is", "ΔE00", "index", "index XYZ", "match", right={2, 3, 4}
    )
    here = lights[0].reference_delta_e
    passes = here <= PASSES
    table.add_row(
        REFERENCE,
        f"{light_kind(REFERENCE)}, the reference",
        f"{here:.2f}",
        "",
        "",
        "passes" if passes else "none",
    )
    for each in lights:
        by_xyz = MINUS if each.index_by_xyz is None else f"{each.index_by_xyz:.2f}"
        table.add_row(
            each.light,
            light_kind(each.light),
            f"{each.delta_e:.2f}",
            f"{each.index:.2f}",
            by_xyz,
            "breaks" if each.breaks else "holds" if passes else "none",
        )
    print_table(console, table)
    broken = [each for each in lights if each.breaks]
    if broken:
        under = ", ".join(f"{each.light} (ΔE00 {each.delta_e:.1f})" for each in broken)
        indented(console, f"The match breaks under {under}.", 0, "bold")
    indented(console, BREAKS_NOTE, 0, "dim")
    indented(
        console,
        f"{INDEX_NOTE}; index XYZ: the same, taken away by a factor in XYZ (CIE 15).",
        0,
        "dim",
    )

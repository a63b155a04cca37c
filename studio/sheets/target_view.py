"""Named targets in the terminal, and how far paint reaches towards a colour."""

from collections.abc import Sequence

from rich.console import Console
from rich.text import Text

from studio.actions.match_colour import ANOTHER_COLOUR, Match
from studio.actions.reach import HUE_WINDOW, LIGHTNESS_WINDOW, Beyond, Limit, Reach
from studio.catalogue.named_target import NamedTarget
from studio.colour.difference import ciede2000
from studio.colour.display import on_screen
from studio.colour.lab import Lab
from studio.sheets.match_view import recipe_text
from studio.sheets.record_parts import print_fact
from studio.sheets.screen import (
    day_text,
    indented,
    lab_text,
    legend,
    patch,
    print_parts,
    print_table,
    shows_colour,
    signed,
)
from studio.sheets.tables import plain_table


def print_targets(console: Console, targets: Sequence[NamedTarget]) -> None:
    """Every named target with its colour and where it was taken."""
    if not targets:
        indented(
            console,
            "No target has a name yet; give one with: studio target pick PICTURE --at 40%,62% "
            '--name "mud under the hull"',
            0,
        )
        return
    columns = ("target", "colour", "L* a* b*", "spread", "from", "day")
    table = plain_table(*columns, right={2, 3}, whole={0})
    for target in targets:
        spread = "" if target.spread is None else f"ΔE00 {target.spread:.1f}"
        source = f"{target.picture.name} {target.place or ''}" if target.picture else "typed"
        table.add_row(
            target.name,
            patch(console, target.lab),
            f"{target.lab.lightness:.0f} {signed(target.lab.a)} {signed(target.lab.b)}",
            spread,
            source.strip(),
            target.created_on.isoformat(),
        )
    print_table(console, table)
    print_legend(console, *(target.lab for target in targets))


def print_target(
    console: Console, target: NamedTarget, reach: Reach, nearest: Match | None
) -> None:
    """A named target, and whether paint reaches it."""
    print_colour(console, target.name, target.lab)
    if target.picture is not None:
        print_fact(console, "picture", target.picture.name)
    print_fact(console, "place", target.place)
    if target.spread is not None:
        print_fact(console, "spread", f"ΔE00 {target.spread:.1f} (mean)")
    print_fact(console, "recorded", day_text(target.created_on))
    print_fact(console, "note", target.note)
    print_reach(console, target.lab, reach, nearest)
    print_legend(console, target.lab)


def print_colour(console: Console, name: str, lab: Lab) -> None:
    """A name with its patch, and the colour in numbers."""
    parts: list[Text | str] = [Text(name, "bold"), patch(console, lab)]
    if shows_colour(console):
        parts.append(on_screen(lab).hex)
    print_parts(console, "", parts, 2)
    value = f"value {lab.lightness / 10:.1f}, chroma C* {lab.chroma:.1f}, hue h {lab.hue:.0f}°"
    print_fact(console, "colour", lab_text(lab))
    print_fact(console, "", value)


def print_reach(console: Console, lab: Lab, reach: Reach, nearest: Match | None) -> None:
    """Whether paint reached a colour, the nearest value that it did, and the nearest mix."""
    print_fact(console, "reach", reach_text(reach))
    if reach.beyond:
        print_parts(
            console,
            f"  {'nearest':<12}",
            [
                patch(console, lab, reach.nearest),
                lab_text(reach.nearest),
                f"ΔE00 {ciede2000(lab.coordinates, reach.nearest.coordinates):.1f} away",
            ],
            14,
        )
    if nearest is None:
        return
    apart = ciede2000(lab.coordinates, nearest.swatch.lab.coordinates)
    far = "" if apart <= ANOTHER_COLOUR else ", another colour"
    print_fact(
        console,
        "mixed",
        f"{nearest.mix.code} {recipe_text(nearest.recipe)}, swatch {nearest.swatch.facts.code}: "
        f"ΔE00 {apart:.1f}{far}",
    )


def reach_text(reach: Reach) -> str:
    """Whether paint reached a colour, and how far it lies outside."""
    if not reach.swatches:
        return "no dry swatch is on record, so what your paint reaches is not known"
    if reach.beyond:
        return "outside what your paint on paper has reached: " + "; ".join(
            _beyond_text(each, reach) for each in reach.beyond
        )
    if not reach.is_known:
        return (
            f"not known: no dry swatch has this hue and value (h ±{HUE_WINDOW:g}°, "
            f"L* ±{LIGHTNESS_WINDOW:g})"
        )
    return "within what your paint on paper has reached"


def _beyond_text(beyond: Beyond, reach: Reach) -> str:
    if beyond.limit is Limit.MORE_INTENSE:
        count = reach.neighbours
        swatches = "the one swatch" if count == 1 else f"any of {count} swatches"
        return (
            f"C* {beyond.asked:.1f} is more intense than {swatches} near this hue and value "
            f"(h ±{HUE_WINDOW:g}°, L* ±{LIGHTNESS_WINDOW:g}; {beyond.by} has C* "
            f"{beyond.reached:.1f})"
        )
    what = "your lightest paper"
    if beyond.limit is Limit.DARKER:
        count = reach.swatches
        what = "your one dry swatch" if count == 1 else f"the darkest of {count} dry swatches"
    return (
        f"L* {beyond.asked:.1f} is {beyond.limit} than {what} ({beyond.by}, L* "
        f"{beyond.reached:.1f})"
    )


def print_legend(console: Console, *labs: Lab) -> None:
    """What the marks of the patches mean, where there are any."""
    note = legend(console, *labs)
    if note:
        indented(console, note, 0, "dim")

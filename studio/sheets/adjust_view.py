"""What to do about a test patch, in the terminal."""

import textwrap

from rich.console import Console
from rich.text import Text

from studio.actions.adjustment import (
    LAY_IT,
    REACHED,
    Adjustment,
    Proposed,
    parts_text,
    water_words,
)
from studio.catalogue.paint import never_text
from studio.colour.words import separation
from studio.mixing.settings import USUAL_WATER
from studio.sheets.drying_view import print_drying
from studio.sheets.match_view import caution_lines, recipe_text
from studio.sheets.screen import (
    TOO_UNCERTAIN_TEXT,
    as_given,
    beside,
    indented,
    lab_text,
    layers_text,
    legend,
    make_it,
    patch,
    print_parts,
    separation_text,
    water_text,
)

_INDENT = 5
_FAR = 5.0
"""ΔE00 from which on a patch is not what its recipe and water let expect (an estimate)."""
_UNSURE = "It is off by less than the ± of the first way: take a small step, or lay it."
_RECORD = "After the first way, read the patch when it is dry and record it:"


def print_adjustment(console: Console, result: Adjustment) -> None:
    """Print where a patch stands, and what to do about it."""
    _print_patch(console, result)
    if result.is_right:
        indented(
            console,
            f"ΔE00 {result.delta_e:.1f} from the target; up to about {LAY_IT:g} is hardly seen "
            "side by side: lay it.",
            0,
            "bold",
        )
    else:
        for each in result.proposed:
            _print_one(console, result, each)
        _print_end(console, result)
    shown = [each.lab for each in result.proposed if not each.is_too_uncertain]
    labs = [] if result.is_right else shown
    note = legend(console, result.target.lab, result.lab, *labs)
    if note:
        indented(console, note, 0, "dim")


def _print_patch(console: Console, result: Adjustment) -> None:
    target, facts = result.target, result.swatch.facts
    heading: list[Text | str] = [patch(console, target.lab, result.lab)]
    heading.append(Text(f"ΔE00 {result.delta_e:.2f}", "bold"))
    heading.append(f"{facts.code} beside {target.given}")
    print_parts(console, "", heading, _INDENT)
    indented(console, recipe_text(result.recipe), _INDENT, "bold")
    how = [water_text(facts.water), layers_text(facts.layers), result.paper.facts.full_name]
    indented(console, " · ".join(how), _INDENT)
    indented(console, f"patch   {lab_text(result.lab)}", _INDENT, "dim")
    indented(console, f"target  {lab_text(target.lab)}", _INDENT, "dim")
    if result.drying is not None:
        print_drying(console, result.drying)
    if not result.is_right:
        indented(console, f"{make_it(result.needed)}.", _INDENT)
    if result.next_paper.id != result.paper.id:
        name = result.next_paper.facts.full_name
        indented(console, f"The next patch comes on {name}.", _INDENT)
    for line in _doubts(result):
        indented(console, line, _INDENT)
    console.print()


def _doubts(result: Adjustment) -> list[str]:
    """What makes the answer less sure."""
    lines = []
    if result.drying is not None:
        lines.append("Read wet only: its dry colour and its spectrum are estimated.")
    elif result.estimated:
        lines.append("No spectrum was read: it is estimated from Lab and the paints.")
    if result.water is None:
        lines.append(f"Its water is not recorded: {USUAL_WATER:g}:1 is assumed.")
    if result.reading_error is not None and result.reading_error > max(LAY_IT, result.delta_e):
        lines.append(
            f"Its reading is only good to ΔE00 {result.reading_error:.1f}, more than it is off."
        )
    if result.model_delta_e > _FAR:
        lines.append(
            f"It lies ΔE00 {result.model_delta_e:.1f} from what its recipe and water let expect: "
            "check both."
        )
    return lines


def _print_one(console: Console, result: Adjustment, each: Proposed) -> None:
    unsure = each.is_too_uncertain
    first: list[Text | str] = [
        beside(console, result.target.lab, None if unsure else each.lab),
        Text(f"ΔE00 {each.delta_e:.1f} ± {each.error:.1f}", "bold"),
        *([TOO_UNCERTAIN_TEXT] if unsure else []),
    ]
    print_parts(console, f"{each.rank:>3}  ", first, _INDENT)
    indented(console, _do_text(result, each), _INDENT, "bold")
    if each.way == "add":
        then = f"then {recipe_text(each.recipe)} · {water_text(round(each.water, 1))}"
        indented(console, then, _INDENT)
    words = f"{each.separation.sentence}  ({separation_text(each.separation)})"
    indented(console, f"predicted: {words}", _INDENT)
    old = {part.paint.facts.code for part in result.recipe}
    new = [part for part in each.recipe if part.paint.facts.code not in old]
    for line in caution_lines(new, mild=True):
        indented(console, line, _INDENT)
    console.print()


def _do_text(result: Adjustment, each: Proposed) -> str:
    """What to do, in the words of the palette."""
    facts = result.swatch.facts
    before = USUAL_WATER if facts.water is None else facts.water
    name = recipe_text(each.recipe)
    if each.way == "add":
        things = [
            f"{parts_text(part.parts)} {_part_word(part.parts)} {part.paint.facts.name}"
            for part in each.added
        ]
        if each.added_water:
            amount = f"{parts_text(each.added_water)} {_part_word(each.added_water)} water"
            words = water_words(before, each.water)
            things.append(amount if each.added or not words else f"{amount} ({words})")
        return f"+ {' + '.join(things)}"
    if each.way == "fresh mix":
        return f"mix it anew with less water: {name}, {water_text(each.water)}"
    if each.way == "another layer":
        more = round(each.layers) - facts.layers
        count = "another layer" if more == 1 else f"{more} more layers"
        return f"{count} of the same over the dry patch"
    if each.way == "glaze":
        return f"over the dry patch a glaze of {name}, {water_text(each.water)}"
    left = each.layers / facts.layers
    return f"lift or blot about {'a quarter' if left > 0.6 else 'half'} of the film"  # noqa: PLR2004


def _part_text(result: Adjustment) -> str:
    """What a part is: recipes are kept in lowest terms, so it may be less than before."""
    whole = sum(part.parts for part in result.recipe)
    what = "all" if whole == 1 else f"1/{whole} of"
    return f"A part is {what} the paint in the puddle of {result.swatch.facts.code}. "


def _part_word(parts: float) -> str:
    return "part" if parts <= 1.0 else "parts"


def _print_end(console: Console, result: Adjustment) -> None:
    """What to record next, what cannot be reached, and what was left out."""
    if result.proposed:
        if result.is_reached:
            indented(console, _RECORD, 0)
            _print_command(console, result.proposed[0].next_line)
        smallest = min((part.parts for each in result.proposed for part in each.added), default=1.0)
        if smallest < 0.5:  # noqa: PLR2004 - half a part is easily measured
            count = round(1.0 / smallest)
            indented(
                console,
                f"{parts_text(smallest)} part is one drop where a part is {count} drops.",
                0,
                "dim",
            )
        if result.is_unsure:
            indented(console, _UNSURE, 0)
        indented(
            console,
            f"{_part_text(result)}Two of three patches stay within the ±.",
            0,
            "dim",
        )
    elif not result.is_right:
        indented(console, "Nothing you can add brings it nearer.", 0)
    if not result.is_reached:
        _print_unreached(console, result)
    for paint in result.never:
        indented(console, f"left out: {never_text(paint)}", 0)
    if result.unknown:
        names = ", ".join(each.paint.facts.name for each in result.unknown)
        first = result.unknown[0]
        indented(
            console,
            f"Left out, with too few swatches to predict by: {names}. Log {first.missing}.",
            0,
            "dim",
        )


def _print_command(console: Console, line: str) -> None:
    """A command line that can be copied, broken where the terminal ends."""
    width = max(20, console.width - 6)
    lines = textwrap.wrap(
        as_given(console, line), width, break_long_words=False, break_on_hyphens=False
    )
    for number, part in enumerate(lines):
        end = " \\" if number < len(lines) - 1 else ""
        console.print(("    " if number else "  ") + part + end, soft_wrap=True)


def _print_unreached(console: Console, result: Adjustment) -> None:
    labs = [(each.delta_e, each.lab) for each in result.proposed if not each.is_too_uncertain]
    away, lab = min([(result.delta_e, result.lab), *labs], key=lambda pair: pair[0])
    still = separation(result.target.lab.coordinates, lab.coordinates)
    indented(
        console,
        f"The target cannot be reached from this patch: the nearest would be ΔE00 {away:.1f} off "
        f"(up to {REACHED:g} passes) and still {still.sentence} ({separation_text(still)}). "
        f"Begin anew: {result.begin_anew}",
        0,
    )

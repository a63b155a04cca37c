"""Predicted recipes in the terminal: target beside prediction, recipe, and how far to trust it."""

from typing import Final

from rich.console import Console
from rich.text import Text

from studio.actions.formulate_colour import FormulateResult
from studio.actions.match_colour import Match
from studio.actions.paints_to_mix import unknown_text
from studio.actions.proposed_mix import LightShift, ProposedMix
from studio.catalogue.paint import never_text
from studio.colour.display import on_screen
from studio.colour.lights import light_kind
from studio.sheets.formulate_notes import (
    ERROR_NOTE,
    SHIFT_NOTE,
    doubtful_text,
    doubts,
    failing_text,
    ground_text,
    lay_first_line,
    lay_first_text,
    left_out_lines,
    next_text,
    parts_ratio,
    rests_text,
)
from studio.sheets.light_view import BREAKS_NOTE, INDEX_NOTE, under_light_text
from studio.sheets.match_view import caution_lines, marked_recipe, print_advice, shelf_text
from studio.sheets.own_tests import own_test_text
from studio.sheets.screen import (
    indented,
    lab_text,
    layers_text,
    legend,
    patch,
    print_parts,
    separation_text,
    shows_colour,
)

_INDENT: Final = 5
_NAMED: Final = 3
"""Left-out paints that are told one by one."""


def print_formulate(console: Console, result: FormulateResult) -> None:
    """Print what was predicted for a target."""
    _print_target(console, result)
    if result.recorded:
        _print_recorded(console, result.recorded, result.target.given)
    for mix in result.proposals:
        _print_one(console, result, mix)
    if result.beyond is not None:
        indented(console, failing_text(result.beyond, result), 0, "bold")
        console.print()
    if result.doubtful:
        indented(console, doubtful_text(result), 0, "bold")
    if result.lay_first is not None:
        indented(console, lay_first_text(result.lay_first), 0)
        indented(console, lay_first_line(result.lay_first), 2, "bold")
        console.print()
    if not result.nearest.is_too_uncertain:
        _print_next(console, result)
    _print_notes(console, result)


def _print_target(console: Console, result: FormulateResult) -> None:
    target = result.target
    heading = Text("Target  ")
    if shows_colour(console) or target.given != on_screen(target.lab).hex:
        heading.append_text(patch(console, target.lab)).append("  ")
    console.print(heading.append(target.given), soft_wrap=True)
    for line in (lab_text(target.lab), target.note, ground_text(result)):
        if line:
            indented(console, line, 8, "dim")
    console.print()


def _print_recorded(console: Console, recorded: tuple[Match, ...], given: str) -> None:
    """Mixes that were laid and read and are near already."""
    mixes = ", ".join(
        f"{match.mix.code}{f' {match.mix.name}' if match.mix.name else ''}, "
        f"ΔE00 {match.difference:.1f}"
        for match in recorded
    )
    indented(console, f'Already mixed: {mixes}: studio match "{given}"', 0, "bold")
    console.print()


def _print_one(console: Console, result: FormulateResult, mix: ProposedMix) -> None:
    first: list[Text | str] = [
        patch(console, result.target.lab, mix.lab),
        Text(f"ΔE00 {mix.delta_e:.1f} ± {mix.expected_error:.1f}", "bold"),
        "predicted",
    ]
    print_parts(console, f"{mix.rank:>3}  ", first, _INDENT)
    how = f"water {parts_ratio(mix.water)}"
    if result.laying.layers > 1:
        how += f" · {layers_text(result.laying.layers)}"
    lines = [
        (f"{marked_recipe(mix.recipe)} · {how}", "bold"),
        (f"{mix.separation.sentence}  ({separation_text(mix.separation)})", ""),
        (lab_text(mix.lab), ""),
        *((line, "") for line in _light_lines(mix)),
        (rests_text(mix), ""),
        *((line, "") for line in doubts(mix)),
        (shelf_text(mix.out_of_stock, mix.worst_rating), ""),
        *((own_test_text(own), "") for own in mix.own_tests if own.needs_attention),
        *((line, "") for line in caution_lines(mix.recipe)),
    ]
    for line, style in lines:
        indented(console, line, _INDENT, style)
    console.print()


def _light_lines(mix: ProposedMix) -> list[str]:
    lines = []
    if mix.spectral_error is not None:
        lines.append(f"reflectance off by {100 * mix.spectral_error:.1f} % (root mean square)")
    if mix.lights:
        lines.append(" · ".join(under_light_text(each) for each in mix.lights))
    if mix.shifts:
        lines.append(" · ".join(_shift_text(each) for each in mix.shifts))
    return lines


def _shift_text(shift: LightShift) -> str:
    words = shift.separation.sentence
    return f"itself under {shift.light}: ΔE00 {shift.delta_e:.1f}, {words}"


def _print_next(console: Console, result: FormulateResult) -> None:
    sentence, commands = next_text(result)
    indented(console, sentence, 0)
    for command in commands:
        indented(console, command, 2, "bold")


def _print_notes(console: Console, result: FormulateResult) -> None:
    unknown = [unknown_text(each) for each in result.paints.unknown]
    named = left_out_lines(unknown[:_NAMED], [paint.facts.name for paint in result.paints.retired])
    named += [f"left out: {never_text(paint)}" for paint in result.paints.never]
    if len(unknown) > _NAMED:
        named.append(f"and {len(unknown) - _NAMED} more that are not known well enough")
    for line in named:
        indented(console, line, 0)
    for light in result.laying.lights:
        broken = [
            str(mix.rank)
            for mix in result.proposals
            if any(each.light == light and each.breaks for each in mix.lights or ())
        ]
        if broken:
            indented(
                console, f"Breaks under {light} ({light_kind(light)}): {', '.join(broken)}.", 0
            )
    indented(console, f"{_model_text(result)} {ERROR_NOTE}", 0, "dim")
    if any(mix.lights for mix in result.proposals):
        indented(console, BREAKS_NOTE, 0, "dim")
        indented(console, INDEX_NOTE, 0, "dim")
    if any(mix.shifts for mix in result.proposals):
        indented(console, SHIFT_NOTE, 0, "dim")
    print_advice(console, [part.paint for mix in result.proposals for part in mix.recipe])
    note = legend(console, result.target.lab, *(mix.lab for mix in result.proposals))
    if note:
        indented(console, note, 0, "dim")


def _model_text(result: FormulateResult) -> str:
    """What all predictions rest on."""
    paints = len(result.paints.paints)
    searched = (
        f"{result.combinations:,} combinations of {paints} paints" if paints > 1 else "one paint"
    )
    basis = f"{result.measured} measured and {result.estimated} estimated spectra"
    if result.measured == 0:
        basis = f"{result.estimated} spectra, every one estimated from Lab: none was measured"
    return f"Searched {searched}, by {basis}."

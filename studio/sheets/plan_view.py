"""The plan of a painting in the terminal: passages in order, mixes, palette, time, remarks."""

from collections.abc import Iterable
from itertools import groupby

from rich.console import Console
from rich.text import Text

from studio.actions.match_colour import Ingredient
from studio.actions.painting.plan import Plan, PlannedColour
from studio.actions.reorder_stock import ShoppingList
from studio.catalogue.care import LOOKED_UP_TITLE, WORK_WORDS, Work
from studio.catalogue.care_points import Care
from studio.catalogue.hazard import ADVICE
from studio.sheets.care_columns import looked_up_lines, unbroken, unread_lines
from studio.sheets.care_view import ground_text, print_general
from studio.sheets.match_view import caution_lines, grave_text, marked_recipe, mild_note
from studio.sheets.own_tests import own_test_text
from studio.sheets.plan_words import (
    basis_text,
    delta_text,
    drying_text,
    fading_text,
    left_text,
    ml_text,
    palette_text,
    passage_names,
    passage_text,
    served_text,
    shopping_text,
    time_text,
    try_first_texts,
)
from studio.sheets.screen import indented, legend, patch, print_parts, print_table, water_text
from studio.sheets.tables import plain_table

_INDENT = 4
_BELOW = 9


def print_plan(console: Console, plan: Plan, shopping: ShoppingList) -> None:
    """Print a plan from its first passage to its cautions."""
    painting = plan.painting
    indented(console, f"{painting.code}  {painting.title}", 0, "bold")
    indented(
        console,
        f"{painting.width_mm:g} x {painting.height_mm:g} mm on {plan.paper.facts.full_name}; what "
        f"is within ΔE00 {painting.tolerance:g} passes",
        0,
        "dim",
    )
    console.print()
    print_passages(console, plan)
    _print_mixes(console, plan)
    _print_palette(console, plan, shopping)
    _print_list(console, "Time", [*try_first_texts(plan), drying_text(plan), time_text(plan)])
    _print_list(console, "Remarks", plan.remarks)
    _print_cautions(console, plan)
    _print_list(console, "Assumed", plan.assumptions, "dim")
    labs = [each.colour.lab for each in plan.colours]
    labs += [each.chosen.lab for each in plan.colours if each.chosen]
    note = legend(console, *labs)
    if note:
        indented(console, note, 0, "dim")


def print_passages(console: Console, plan: Plan) -> None:
    """Print the passages in working order, each colour beside its mix."""
    names = passage_names(plan)
    for _, of_one in groupby(plan.colours, key=lambda each: each.number):
        colours = list(of_one)
        passage = colours[0].passage
        indented(console, f"{names[passage.id]}  {passage_text(passage, names)}", 0, "bold")
        for each in colours:
            _print_colour(console, plan, each)
        if passage.note:
            indented(console, passage.note, _INDENT, "dim")
        if colours[0].number in plan.drying_steps:
            indented(console, "then wait until it is dry", _INDENT, "dim")
    console.print()


def _print_colour(console: Console, plan: Plan, each: PlannedColour) -> None:
    start = " " * _INDENT
    if each.mix is None or each.chosen is None:
        test = Text("test swatch needed", "bold")
        print_parts(console, start, [patch(console, each.colour.lab), test], _BELOW)
        indented(console, each.needed or "", _BELOW)
        return
    words = "" if each.separation is None else each.separation.sentence
    parts: list[Text | str] = [
        patch(console, each.colour.lab, each.chosen.lab),
        Text(each.mix.letter, "bold"),
        Text(delta_text(each.chosen), "bold"),
        words,
    ]
    print_parts(console, start, parts, _BELOW)
    recipe = marked_recipe(each.mix.recipe)
    indented(console, f"{recipe} · {water_text(each.mix.water)}", _BELOW)
    grave = grave_text(each.mix.recipe)
    if grave is not None:
        indented(console, grave, _BELOW, "bold")
    indented(console, basis_text(each, plan), _BELOW, "dim")


def _print_mixes(console: Console, plan: Plan) -> None:
    if not plan.mixes:
        return
    table = plain_table("mix", "recipe", "water", "ml paint", "ml water", "for", right={2, 3, 4})
    for mix in plan.mixes:
        table.add_row(
            mix.letter,
            " + ".join(_code_part(part, alone=len(mix.recipe) == 1) for part in mix.recipe),
            "?" if mix.water is None else f"{mix.water:g}:1",
            ml_text(mix.paint_ml),
            "?" if mix.water_ml is None else ml_text(mix.water_ml),
            served_text(mix, plan),
        )
    console.print("Mixes, with what stays in the well", style="bold")
    print_table(console, table)
    console.print()


def _code_part(part: Ingredient, *, alone: bool) -> str:
    return part.paint.facts.code if alone else f"{part.parts} {part.paint.facts.code}"


def _print_palette(console: Console, plan: Plan, shopping: ShoppingList) -> None:
    if not plan.palette:
        return
    indented(console, palette_text(plan), 0, "bold")
    table = plain_table("code", "paint", "needs", "left", "short", right={2, 3, 4})
    for need in plan.palette:
        table.add_row(
            need.paint.facts.code,
            need.paint.facts.full_name,
            ml_text(need.ml),
            left_text(need.left_ml),
            ml_text(need.short_ml) if need.short_ml else "",
        )
    print_table(console, table)
    indented(console, shopping_text(shopping, plan.paints), 0)
    console.print()


def _print_list(console: Console, title: str, sentences: Iterable[str], style: str = "") -> None:
    every = list(sentences)
    if not every:
        return
    console.print(title, style="bold")
    for sentence in every:
        indented(console, f"{sentence[0].upper()}{sentence[1:]}", 2, style)
    console.print()


def _print_cautions(console: Console, plan: Plan) -> None:
    """Light and care for the whole painting, by the rules of a match and of care."""
    if not plan.palette:
        return
    console.print("Light and care", style="bold")
    indented(console, fading_text(plan.paints))
    for own in plan.own_tests:
        if own.needs_attention:
            indented(console, own_test_text(own))
    for line in caution_lines([Ingredient(paint, 1) for paint in plan.paints], unknown=False):
        indented(console, line)
    mild = mild_note(plan.paints)
    if mild is not None:
        indented(console, mild)
    _print_other_paints(console, plan)
    for care in plan.cares:
        if care.work is not Work.BRUSH:
            _print_care(console, care)
    indented(console, ADVICE, 0, "dim")
    console.print()


def _print_other_paints(console: Console, plan: Plan) -> None:
    """The paints that no line above speaks of: nothing is said for them by that."""
    unread = [paint for paint in plan.paints if paint.unread]
    milder = [p.facts.code for p in plan.paints if p.hazards and not p.cautions]
    for line in unread_lines(unread):
        indented(console, f"{line}; read label and data sheet first")
    for line in looked_up_lines(plan.paints):
        indented(console, f"{LOOKED_UP_TITLE}: {line}")
    for code in milder:
        indented(console, f"{code}: what to watch for: studio care {code}")


def _print_care(console: Console, care: Care) -> None:
    words = WORK_WORDS[care.work]
    for point in care.points:
        if any(ground.basis is not None for ground in point.grounds):
            lead = f"avoid for {words}: " if point.avoid else f"{words}: "
            indented(console, f"{lead}{point.text} ({point.source})")
            for ground in point.grounds:
                indented(console, unbroken(ground_text(ground)), 4, "dim")
    print_general(console, f"With every paint, {words}", care.general)

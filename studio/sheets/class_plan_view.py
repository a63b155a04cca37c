"""A painting planned for a class in the terminal: supplies, what stays at home, care."""

from collections.abc import Sequence

from rich.console import Console

from studio.actions.painting.class_plan import ClassPlan, LeftHome
from studio.catalogue.care import UNREAD_HOW, UNREAD_TITLE, WORK_WORDS
from studio.catalogue.care_points import own_grounds
from studio.catalogue.hazard import ADVICE
from studio.catalogue.paint import never_text
from studio.catalogue.stock import amount_text
from studio.sheets.care_columns import unbroken
from studio.sheets.care_view import document_text, ground_text, print_general
from studio.sheets.class_plan_words import (
    containers_text,
    left_home_text,
    paper_text,
    reserve_text,
    small_text,
    spatter_text,
    students_text,
    substitute_lines,
)
from studio.sheets.plan_view import print_passages
from studio.sheets.plan_words import fading_text, left_text, ml_text
from studio.sheets.screen import indented, print_table
from studio.sheets.shopping_page import total_text
from studio.sheets.tables import plain_table


def print_class_plan(console: Console, plan: ClassPlan) -> None:
    """Print what a class needs, from its supplies to its cautions."""
    painting = plan.plan.painting
    indented(console, f"{painting.code}  {painting.title}, {students_text(plan)}", 0, "bold")
    console.print()
    print_passages(console, plan.plan)
    if plan.small is not None:
        console.print("Small parts", style="bold")
        for sentence in small_text(plan.small):
            indented(console, sentence)
        console.print()
    _print_left_home(console, plan)
    _print_supplies(console, plan)
    _print_substitutes(console, plan)
    _print_care(console, plan)
    indented(console, ADVICE, 0, "dim")


def _print_left_home(console: Console, plan: ClassPlan) -> None:
    unread = [left for left in plan.left_home if left.is_unread]
    home = [left for left in plan.left_home if not left.is_unread]
    if home or plan.never:
        indented(console, f"Left at home: {WORK_WORDS[plan.kind]}", 0, "bold")
    for paint in plan.never:
        indented(console, never_text(paint))
    _print_each(console, plan, home)
    if unread:
        indented(console, UNREAD_TITLE, 0, "bold")
        _print_each(console, plan, unread)
        indented(console, UNREAD_HOW)
    if home or unread or plan.never:
        console.print()


def _print_each(console: Console, plan: ClassPlan, listed: Sequence[LeftHome]) -> None:
    for left in listed:
        facts = left.paint.facts
        indented(console, f"{facts.code} {facts.full_name}: {left_home_text(left, plan.small)}")
        for ground in left.care.avoided_for:
            indented(console, unbroken(ground_text(ground)), 4, "dim")


def _print_supplies(console: Console, plan: ClassPlan) -> None:
    if not plan.supplies:
        return
    console.print("Bring, once label and data sheet allow it", style="bold")
    table = plain_table("code", "paint", "each", "all", "is", "left", right={2, 3, 4, 5})
    for supply in plan.supplies:
        table.add_row(
            supply.paint.facts.code,
            supply.paint.facts.name,
            ml_text(supply.each_ml),
            ml_text(supply.all_ml),
            containers_text(supply),
            left_text(supply.paint.stock.left),
        )
    print_table(console, table)
    indented(console, paper_text(plan), 0)
    indented(console, reserve_text(plan), 0, "dim")
    console.print()
    if not plan.shopping.orders:
        indented(console, "Nothing to buy.", 0, "bold")
        console.print()
        return
    console.print("To buy", style="bold")
    table = plain_table("code", "item", "buy", "each", "cost", "why", right={2, 3, 4})
    for order in plan.shopping.orders:
        size = "" if order.size is None else amount_text(order.size, order.item.stock.unit)
        cost = "no price" if order.cost is None else f"{order.cost} {order.currency}"
        facts = order.item.facts
        table.add_row(facts.code, facts.name, str(order.quantity), size, cost, order.reason)
    print_table(console, table)
    indented(console, f"{total_text(plan.shopping)}.", 0)
    console.print()


def _print_substitutes(console: Console, plan: ClassPlan) -> None:
    if not plan.substitutes:
        return
    console.print("Where a paint is missing", style="bold")
    for substitute in plan.substitutes:
        first, *more = substitute_lines(substitute, plan.plan.paints)
        indented(console, first)
        for line in more:
            indented(console, line, 4)
        known = {paint.id for paint in plan.plan.paints}
        for ground in own_grounds((p for p in substitute.more if p.id not in known), plan.kind):
            indented(console, unbroken(ground_text(ground)), 4, "dim")
    console.print()


def _print_care(console: Console, plan: ClassPlan) -> None:
    words = WORK_WORDS[plan.kind]
    spatter = spatter_text(plan)
    indented(console, f"Care in {words}", 0, "bold")
    if spatter:
        indented(console, spatter)
    for point in plan.care.points:
        indented(console, f"{point.text} ({point.source})")
        for ground in point.grounds:
            indented(console, unbroken(ground_text(ground)), 4, "dim")
    if plan.supplies:
        indented(console, fading_text(plan.plan.paints))
    print_general(console, "With every paint", plan.care.general)
    if plan.documents:
        console.print("Where to verify", style="bold")
    for document in plan.documents:
        indented(console, document_text(document))

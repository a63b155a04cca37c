"""The plan of a painting as a sheet to pin up beside the easel."""

from datetime import date
from typing import Final

from studio.actions.match_colour import Ingredient
from studio.actions.painting.plan import Plan, PlannedColour
from studio.actions.reorder_stock import ShoppingList
from studio.catalogue.care import LOOKED_UP_TITLE
from studio.catalogue.hazard import ADVICE, EVERY_PAINT
from studio.catalogue.painting import Passage
from studio.sheets.blocks import (
    Block,
    Bullets,
    Grid,
    Heading,
    Held,
    Illustration,
    Page,
    Paragraph,
    Step,
    Steps,
)
from studio.sheets.care_columns import looked_up_lines, unread_lines
from studio.sheets.match_view import (
    caution_lines,
    grave_text,
    marked_recipe,
    mild_note,
    recipe_text,
)
from studio.sheets.own_tests import own_test_text
from studio.sheets.plan_picture import Mark
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
    shopping_text,
    time_text,
    try_first_texts,
)
from studio.sheets.screen import day_text, water_text

_MIXES: Final = ("mix", "parts of paint", "water", "ml paint", "ml water", "for")
_PAINTS: Final = ("paint", "name", "needs", "on the shelf", "short")


def marks_of(plan: Plan) -> list[Mark]:
    """The spots of its reference that its colours were picked from, with the sheet's numbers.

    A colour that was picked from an earlier reference has no spot on this one.
    """
    reference = plan.painting.reference
    return [
        Mark(each.colour.at, colour_number(plan, each))
        for each in plan.colours
        if each.colour.at is not None and each.colour.picture == reference
    ]


def colour_number(plan: Plan, colour: PlannedColour) -> str:
    """The number of its passage, and its own where that has several: 3, or 3.1 and 3.2."""
    of_passage = [each for each in plan.colours if each.number == colour.number]
    if len(of_passage) == 1:
        return f"{colour.number}"
    return f"{colour.number}.{of_passage.index(colour) + 1}"


def plan_page(
    plan: Plan,
    shopping: ShoppingList,
    reference: Illustration | None,
    missing: str | None,
    day: date,
) -> Page:
    """The sheet: reference, passages in working order, mixes, palette, remarks, cautions.

    Args:
        plan: the plan.
        shopping: what it makes to be bought.
        reference: its picture with grid and marks; None where there is none to be had.
        missing: what to know of the picture, such as that it is gone; None where all is well.
        day: the day of the sheet.
    """
    painting = plan.painting
    blocks: list[Block] = [] if reference is None else [reference]
    if missing is not None:
        blocks.append(Paragraph(f"{missing[0].upper()}{missing[1:]}."))
    blocks += [Heading("In working order"), Steps(_steps(plan))]
    if plan.mixes:
        blocks += [Heading("Mixes, with what stays in the well"), _mixes(plan)]
        blocks += [Heading(palette_text(plan)), _palette(plan)]
        blocks.append(Paragraph(shopping_text(shopping, plan.paints)))
    blocks += [
        Heading("Before and between"),
        Bullets((*try_first_texts(plan), drying_text(plan), time_text(plan))),
    ]
    if plan.remarks:
        blocks += [Heading("Remarks"), Bullets(plan.remarks)]
    blocks += [Heading("Light and care"), Bullets(tuple(_cautions(plan)))]
    if plan.assumptions:
        blocks += [Heading("Assumed"), Paragraph(" ".join(plan.assumptions), small=True)]
    size = f"{painting.width_mm:g} x {painting.height_mm:g} mm"
    lead = (
        f"{painting.code}; {size} on {plan.paper.facts.full_name}; what is within ΔE00 "
        f"{painting.tolerance:g} passes (D50/2°); {day_text(day)}"
    )
    foot = f"{painting.code} {painting.title}, planned on {day_text(day)}. {ADVICE}"
    return Page(painting.title, lead, tuple(blocks), foot, day=day)


def _steps(plan: Plan) -> tuple[Step, ...]:
    return tuple(
        _step(plan, number, passage)
        for number, passage in enumerate(plan.painting.passages, start=1)
    )


def _step(plan: Plan, number: int, passage: Passage) -> Step:
    names = passage_names(plan)
    colours = [each for each in plan.colours if each.number == number]
    lines = [] if colours else ["No colour is chosen for it."]
    if passage.note:
        lines.append(passage.note)
    if number in plan.drying_steps:
        lines.append("Then wait until it is dry.")
    return Step(
        names[passage.id],
        passage_text(passage, names),
        tuple(_held(plan, each) for each in colours),
        tuple(lines),
    )


def _held(plan: Plan, colour: PlannedColour) -> Held:
    wanted = f"{colour_number(plan, colour)} wanted"
    if colour.mix is None or colour.chosen is None:
        needed = (colour.needed,) if colour.needed else ()
        return Held(colour.colour.lab, None, wanted, "test swatch needed", needed)
    grave = grave_text(colour.mix.recipe)
    words = "" if colour.separation is None else f": {colour.separation.sentence}"
    recipe = (
        f"{marked_recipe(colour.mix.recipe)}, {water_text(colour.mix.water)}; "
        f"{ml_text(colour.wash_ml)} of wash"
    )
    return Held(
        colour.colour.lab,
        colour.chosen.lab,
        wanted,
        f"mix {colour.mix.letter}, {basis_text(colour, plan)}",
        (recipe, f"{delta_text(colour.chosen)}{words}", *([grave] if grave else [])),
    )


def _mixes(plan: Plan) -> Grid:
    rows, chips = [], []
    for mix in plan.mixes:
        served = [colour_number(plan, each) for each in plan.colours if each.mix == mix]
        rows.append(
            (
                mix.letter,
                recipe_text(mix.recipe),
                "not recorded" if mix.water is None else f"{mix.water:g}:1",
                ml_text(mix.paint_ml),
                "try" if mix.water_ml is None else ml_text(mix.water_ml),
                ", ".join(served),
            )
        )
        chips.append((mix.lab,))
    numbers = frozenset({2, 3, 4})
    return Grid(_MIXES, tuple(rows), (9, 44, 10, 12, 12, 13), numbers, chips=tuple(chips))


def _palette(plan: Plan) -> Grid:
    rows = tuple(
        (
            need.paint.facts.code,
            need.paint.facts.full_name,
            ml_text(need.ml),
            left_text(need.left_ml),
            ml_text(need.short_ml) if need.short_ml > 0 else "",
        )
        for need in plan.palette
    )
    return Grid(_PAINTS, rows, (10, 48, 14, 16, 12), frozenset({2, 3, 4}))


def _cautions(plan: Plan) -> list[str]:
    """Lightfastness and the usual cautions of every paint, and where to verify them."""
    own = [own_test_text(each) for each in plan.own_tests if each.needs_attention]
    cautions = caution_lines([Ingredient(paint, 1) for paint in plan.paints], unknown=False)
    mild = mild_note(plan.paints)
    cautions += [mild] if mild else []
    unread = [paint for paint in plan.paints if paint.unread]
    unknown = [f"{line}; read label and data sheet first" for line in unread_lines(unread)]
    unknown += [f"{LOOKED_UP_TITLE}: {line}" for line in looked_up_lines(plan.paints)]
    grounded = [
        f"{point.text} ({point.source})"
        for care in plan.cares
        for point in care.points
        if any(ground.basis is not None for ground in point.grounds)
    ]
    every = (*own, *cautions, *unknown, *dict.fromkeys(grounded), EVERY_PAINT, ADVICE)
    return [fading_text(plan.paints), *every]

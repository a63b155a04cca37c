"""The plan of a painting as a sheet to pin up beside the easel."""

from collections.abc import Sequence
from datetime import date
from typing import Final

from studio.actions.painting.plan import Basis, Plan, PlannedColour, PlannedMix
from studio.catalogue.hazard import ADVICE, EVERY_PAINT
from studio.catalogue.paint import Paint
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
from studio.sheets.match_view import caution_lines, recipe_text
from studio.sheets.plan_picture import Mark
from studio.sheets.screen import day_text, verified_text, water_text

_MIXES: Final = ("mix", "recipe", "water", "paint", "for", "rests on")
_PAINTS: Final = ("paint", "name", "needed", "on the shelf", "to buy", "lightfastness")


def marks_of(plan: Plan) -> list[Mark]:
    """The spots that its colours were picked from, with the numbers that the sheet gives them."""
    return [
        Mark(each.colour.at, colour_number(plan, each))
        for each in plan.colours
        if each.colour.at is not None
    ]


def colour_number(plan: Plan, colour: PlannedColour) -> str:
    """The number of its passage, and a letter where that has several: 3, or 3a and 3b."""
    of_passage = [each for each in plan.colours if each.number == colour.number]
    if len(of_passage) == 1:
        return f"{colour.number}"
    return f"{colour.number}{chr(ord('a') + of_passage.index(colour))}"


def plan_page(plan: Plan, reference: Illustration | None, missing: str | None, day: date) -> Page:
    """The sheet: reference, passages in working order, mixes, palette, remarks.

    Args:
        plan: the plan.
        reference: its picture with grid and marks; None where there is none to be had.
        missing: why there is none, in a sentence; None where there never was one.
        day: the day of the sheet.
    """
    painting = plan.painting
    blocks: list[Block] = []
    if reference is not None:
        blocks.append(reference)
    if missing is not None:
        blocks.append(Paragraph(missing, strong=True))
    blocks += [Heading("In working order"), Steps(_steps(plan))]
    if plan.mixes:
        blocks += [Heading("Mixes, each made once"), _mixes(plan)]
        blocks += [Heading("Palette"), _palette(plan)]
    if plan.remarks:
        blocks += [Heading("Worth a look"), Bullets(plan.remarks)]
    blocks += [Heading("Cautions"), *_cautions(plan)]
    blocks += [Heading("What this rests on"), Bullets(plan.assumptions)]
    size = f"{painting.width_mm:g} x {painting.height_mm:g} mm"
    lead = (
        f"{painting.code}; {plan.paper.facts.full_name}, {size}; colours within ΔE00 "
        f"{painting.tolerance:g} under D50/2°; {day_text(day)}"
    )
    foot = f"{painting.code} {painting.title}, planned on {day_text(day)}. {ADVICE}"
    return Page(painting.title, lead, tuple(blocks), foot, day=day)


def _steps(plan: Plan) -> tuple[Step, ...]:
    numbers = dict.fromkeys(each.number for each in plan.colours)
    return tuple(
        _step(plan, [each for each in plan.colours if each.number == number]) for number in numbers
    )


def _step(plan: Plan, colours: Sequence[PlannedColour]) -> Step:
    first = colours[0]
    passage = first.passage
    lead = f"{passage.technique}"
    if passage.layers > 1:
        lead += f", {passage.layers} layers, each dry before the next"
    lines = []
    if first.number in plan.drying_steps:
        lines.append("Wait until it is dry.")
    if passage.note:
        lines.append(passage.note)
    return Step(
        f"{first.number}  {passage.name}",
        lead,
        tuple(_held(plan, each) for each in colours),
        tuple(lines),
    )


def _held(plan: Plan, colour: PlannedColour) -> Held:
    mix = colour.mix
    wanted = f"{colour_number(plan, colour)} wanted"
    if mix is None:
        needed = (colour.needed,) if colour.needed else ()
        return Held(colour.colour.lab, None, wanted, "test swatch needed", needed)
    of = (
        f"card {mix.swatch.facts.code}" if mix.swatch and mix.basis is Basis.RECORDED else mix.basis
    )
    recipe = f"{recipe_text(mix.recipe)}, {water_text(mix.water)}; {colour.wash_ml:.1f} ml of wash"
    apart = ""
    if colour.delta_e is not None and colour.separation is not None:
        apart = f"ΔE00 {colour.delta_e:.1f}: {colour.separation.sentence}"
    return Held(colour.colour.lab, mix.lab, wanted, f"mix {mix.letter}, {of}", (recipe, apart))


def _mixes(plan: Plan) -> Grid:
    rows, chips = [], []
    for mix in plan.mixes:
        served = [colour_number(plan, each) for each in plan.colours if each.mix is mix]
        rows.append(
            (
                mix.letter,
                recipe_text(mix.recipe),
                water_text(mix.water).removeprefix("water "),
                f"{mix.paint_ml:.2f} ml",
                ", ".join(served),
                _rests_on(mix),
            )
        )
        chips.append((mix.lab,))
    return Grid(_MIXES, tuple(rows), (9, 32, 10, 10, 10, 29), chips=tuple(chips))


def _rests_on(mix: PlannedMix) -> str:
    if mix.basis is Basis.PREDICTED or mix.swatch is None:
        return (
            f"predicted, about ± ΔE00 {mix.error:.1f}; try it first" if mix.error else "predicted"
        )
    facts = mix.swatch.facts
    where = f", {facts.kept_at}" if facts.kept_at else ""
    if mix.basis is Basis.TINT:
        return f"a tint between swatches, near {facts.code}{where}; try it first"
    return f"swatch {facts.code} of {day_text(facts.made_on)}{where}"


def _palette(plan: Plan) -> Grid:
    rows = [
        (
            need.paint.facts.code,
            need.paint.facts.name,
            f"{need.ml:.2f} ml",
            "not known" if need.left_ml is None else f"{need.left_ml:.1f} ml",
            f"{need.short_ml:.2f} ml" if need.short_ml > 0 else "",
            _rating(need.paint),
        )
        for need in plan.palette
    ]
    return Grid(_PAINTS, tuple(rows), (10, 30, 14, 14, 12, 20))


def _rating(paint: Paint) -> str:
    rating = paint.worst_rating
    if rating is None:
        return "not every pigment is rated"
    return f"{rating.category}, {verified_text(rating.verified_on)}"


def _cautions(plan: Plan) -> list[Block]:
    every = tuple(part for mix in plan.mixes for part in mix.recipe)
    lines = caution_lines(list({part.paint.id: part for part in every}.values()))
    return [Paragraph(ADVICE, strong=True), Bullets((*lines, EVERY_PAINT))]

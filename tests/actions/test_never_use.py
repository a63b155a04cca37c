"""What is never to be used is shown as such, and no proposal holds it."""

import io
from datetime import date
from typing import Final

import pytest
from rich.console import Console

from studio.actions.adjust_paints import MayAdd
from studio.actions.adjust_swatch import adjust_swatch
from studio.actions.between_tints import between_tints
from studio.actions.find import find_paint
from studio.actions.formulate_colour import Laying, formulate_colour
from studio.actions.match_colour import Wanted, match_colour
from studio.actions.paint_model import PaintModel, paint_model
from studio.actions.painting.find_painting import find_painting
from studio.actions.painting.plan_class import plan_class
from studio.actions.painting.plan_painting import plan_painting
from studio.actions.read_target import Target, read_target
from studio.catalogue.care import Work
from studio.catalogue.hazard import Use
from studio.catalogue.paint import Paint
from studio.errors import BadInput
from studio.sheets.match_view import print_match
from studio.storage.unit_of_work import UnitOfWork
from tests.sheets.conftest import printed

TODAY: Final = date(2026, 11, 25)


@pytest.fixture
def never(demo_work: UnitOfWork) -> Paint:
    """A paint of the demo whose caution says never to use it."""
    (pigment,) = find_paint(demo_work, "CB").pigments
    for hazard in pigment.hazards:
        demo_work.pigments.complete_hazard(hazard, Use.NEVER, ())
    demo_work.forget()
    paint = find_paint(demo_work, "CB")
    assert paint.never_use
    return paint


@pytest.fixture
def target(demo_work: UnitOfWork, never: Paint) -> Target:
    """The very colour of that paint, so that nothing would come nearer."""
    result = match_colour(demo_work, read_target(demo_work, "#3c5f8f"), Wanted(only=[never]))
    assert result.nearest is not None
    return Target(result.nearest.swatch.lab, "a blue")


@pytest.fixture
def model(demo_work: UnitOfWork, never: Paint) -> PaintModel:
    """The paints of that studio."""
    assert never.facts.code == "CB"
    return paint_model(demo_work, TODAY)


def test_a_match_shows_it_first_on_the_line(
    demo_work: UnitOfWork, never: Paint, target: Target
) -> None:
    result = match_colour(demo_work, target, Wanted(), count=3)
    assert result.matches[0].never_use == (never,)
    console = Console(file=io.StringIO(), width=80, highlight=False, markup=False)
    print_match(console, result)
    (line,) = [line for line in printed(console).splitlines() if line.startswith("  1  ")]
    assert line.startswith(f"  1  DO NOT USE {never.facts.code}")
    assert f"never use {never.pigments[0].ci_name} ({never.facts.code}): " in printed(console)


def test_no_predicted_recipe_holds_it_and_that_is_said(
    demo_work: UnitOfWork, model: PaintModel, never: Paint, target: Target
) -> None:
    result = formulate_colour(demo_work, model, target, Wanted(), Laying(most=1), count=20)
    assert result.proposals
    assert never not in {part.paint for mix in result.proposals for part in mix.recipe}
    assert result.paints.never == (never,)
    for wanted in (Wanted(using=[never]), Wanted(only=[never])):
        with pytest.raises(BadInput, match="is never to be used: PB28, so no recipe"):
            formulate_colour(demo_work, model, target, wanted, Laying())


def test_no_correction_adds_it_and_no_mix_of_it_is_corrected(
    demo_work: UnitOfWork, model: PaintModel, never: Paint, target: Target
) -> None:
    result = match_colour(demo_work, target, Wanted(without=[never]))
    assert result.nearest is not None
    patch = result.nearest.swatch
    own = next(mix for mix in demo_work.mixes.all() if never.id in mix.recipe.paints)
    swatch = demo_work.swatches.of_mix(own.id)[0]
    told = adjust_swatch(demo_work, model, patch, target, MayAdd())
    assert told.never == (never,)
    held = {part.paint for way in told.proposed for part in way.recipe}
    assert never not in held
    with pytest.raises(BadInput, match="is never to be used"):
        adjust_swatch(demo_work, model, patch, target, MayAdd(using=[never]))
    with pytest.raises(BadInput, match=f"{swatch.facts.code} is not adjusted"):
        adjust_swatch(demo_work, model, swatch, target, MayAdd())


def test_no_tint_between_holds_it(
    demo_work: UnitOfWork, model: PaintModel, never: Paint, target: Target
) -> None:
    found = between_tints(demo_work, model, target, Wanted(), 20)
    assert never not in {part.paint for tint in found.tints for part in tint.recipe}
    assert never in found.never


def test_no_plan_and_no_class_mixes_with_it_and_that_is_said(
    demo_work: UnitOfWork, model: PaintModel, never: Paint
) -> None:
    painting = find_painting(demo_work, "P1")
    plan = plan_painting(demo_work, model, painting, Wanted())
    assert never not in plan.paints
    said = "Left out of every mix: Cobalt Blue is never to be used: PB28."
    assert said in plan.remarks
    planned = plan_class(
        demo_work, model, painting, Wanted(), students=2, kind=Work.ADULTS, today=TODAY
    )
    assert planned.never == (never,)
    assert never not in planned.plan.paints
    assert never not in {paint for each in planned.substitutes for paint in each.more}

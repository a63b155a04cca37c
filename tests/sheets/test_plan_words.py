"""The small texts of a plan, at their edges."""

from dataclasses import replace

import pytest

from studio.actions.find import find_paint
from studio.actions.match_colour import Wanted
from studio.actions.paint_model import paint_model
from studio.actions.painting.assemble import letter_of
from studio.actions.painting.plan_painting import plan_painting
from studio.actions.painting.shopping import shopping_for
from studio.actions.reorder_stock import ShoppingList
from studio.catalogue.stock import Stock, Unit
from studio.sheets.plan_words import (
    fading_text,
    hours_text,
    ml_text,
    palette_text,
    shopping_text,
)
from studio.storage.unit_of_work import UnitOfWork
from tests.conftest import TODAY


@pytest.mark.parametrize(
    ("place", "letter"), [(0, "A"), (25, "Z"), (26, "AA"), (51, "AZ"), (52, "BA"), (701, "ZZ")]
)
def test_mixes_are_lettered_as_columns_are(place: int, letter: str) -> None:
    assert letter_of(place) == letter


@pytest.mark.parametrize(
    ("minutes", "text"), [(1, "5 min"), (57, "55 min"), (58, "1 h"), (135, "2 h 15 min")]
)
def test_minutes_as_people_say_them(minutes: float, text: str) -> None:
    assert hours_text(minutes) == text


@pytest.mark.parametrize(
    ("ml", "text"), [(0.0, "0.0 ml"), (0.04, "under 0.1 ml"), (0.05, "0.1 ml"), (12.34, "12.3 ml")]
)
def test_small_amounts_are_never_nothing(ml: float, text: str) -> None:
    assert ml_text(ml) == text


def test_what_has_no_known_stock_is_named_and_not_ordered(demo_work: UnitOfWork) -> None:
    paint = find_paint(demo_work, "FU")
    unknown = replace(paint, stock=Stock(None, Unit.ML, None))
    text = shopping_text(ShoppingList((), 0.0), [unknown, paint])
    assert text == (
        "Nothing to buy, as far as the stock is known. Stock not known: French Ultramarine."
    )


def test_what_is_short_is_bought_at_the_price_last_paid(demo_work: UnitOfWork) -> None:
    model = paint_model(demo_work, TODAY)
    painting = demo_work.paintings.with_code("P2")
    assert painting is not None
    plan = plan_painting(demo_work, model, painting, Wanted())
    needs = {need.paint.facts.code: need for need in plan.palette}
    shopping = shopping_for(demo_work, plan, TODAY)
    for order in shopping.orders:
        need = needs[order.item.facts.code]
        left, mark = need.left_ml or 0.0, need.paint.low_at or 0.0
        assert order.item.is_low or left - need.ml < mark
        assert order.needed == pytest.approx(max(0.0, need.ml + mark - left), abs=1e-3)
    assert {code for code, need in needs.items() if need.short_ml} <= {
        order.item.facts.code for order in shopping.orders
    }
    assert "no fewer make all of these" in palette_text(plan)
    assert "ran out of time" in palette_text(replace(plan, fewest_proven=False))


def test_the_worst_rating_is_told_with_source_and_mark(demo_work: UnitOfWork) -> None:
    every = demo_work.paints.all()
    text = fading_text(every)
    worst = max(paint.worst_known_rating.rank for paint in every if paint.worst_known_rating)
    assert f"Lightfastness {['I', 'II', 'III', 'IV', 'V'][worst - 1]} by " in text
    assert "verified" in text
    assert fading_text([]) == "No paint, so nothing that fades"

"""What to buy: what is low, what will run out, what is planned, and what it costs."""

from datetime import date, timedelta
from decimal import Decimal

import pytest

from studio.actions.find_stock import Item
from studio.actions.reorder_stock import Order, ShoppingList, forecast_item, reorder_stock
from studio.actions.use_stock import correct_stock, move_container, use_stock
from studio.catalogue.container import ContainerKind
from studio.catalogue.paint import Status
from studio.catalogue.stock import StockKind
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork
from tests.actions.stock_things import a_paint, a_paper, bought, entry
from tests.conftest import TODAY

LONG_AGO = date(2026, 1, 20)


def _use(work: UnitOfWork, item: Item, amount: float, *, times: int = 1) -> None:
    """Uses of the last seven weeks, the last one today."""
    for number in range(times):
        day = TODAY - timedelta(days=(times - 1 - number) * 3)
        use_stock(work, item, entry(StockKind.USED, amount, day), TODAY)


def _orders(shopping: ShoppingList) -> dict[str, Order]:
    return {order.item.facts.code: order for order in shopping.orders}


def test_with_plenty_of_everything_there_is_nothing_to_buy(work: UnitOfWork) -> None:
    bought(work, a_paint(work))
    bought(work, a_paper(work), 10.0)
    a_paint(work, "AZ")  # never counted
    shopping = reorder_stock(work, TODAY)
    assert shopping == ShoppingList((), 8.0)
    assert (shopping.costs, shopping.unpriced) == ({}, 0)


def test_what_is_low_is_bought_at_the_price_last_paid(work: UnitOfWork) -> None:
    paint = a_paint(work, price="9.00")
    bought(work, paint, price="10.20", currency="GBP", on=LONG_AGO)
    tube = bought(work, paint, price="11.80", currency="GBP", on=LONG_AGO)
    move_container(work, tube, entry(StockKind.DISCARDED), TODAY)
    _use(work, paint, 11.5)
    order = _orders(reorder_stock(work, TODAY, weeks=0))["SG"]
    assert order.reason == "low: 2.5 ml left"
    assert (order.size, order.quantity, order.price, order.currency) == (
        14.0,
        1,
        Decimal("11.80"),
        "GBP",
    )
    assert order.needed == pytest.approx(0.3)  # up to its mark, a fifth of 14 ml
    assert order.cost == Decimal("11.80")


def test_what_will_run_out_within_the_weeks_is_bought(work: UnitOfWork) -> None:
    """14 uses of 0.5 ml since 20 January: 7 ml in 309 days, so 1 ml lasts 6.3 weeks."""
    paint = a_paint(work, low_at=6.0, price="9.40")
    bought(work, paint, on=LONG_AGO)
    _use(work, paint, 0.5, times=14)
    expected = forecast_item(work, paint_now(work), TODAY)
    assert expected is not None
    assert expected.per_week == pytest.approx(7 / 309 * 7)
    assert _orders(reorder_stock(work, TODAY, weeks=6)) == {}
    order = _orders(reorder_stock(work, TODAY, weeks=8))["SG"]
    assert order.reason == f"7 ml left, about {7 / expected.per_week:.0f} weeks"
    assert order.needed == pytest.approx(6 + 8 * 49 / 309 - 7, abs=1e-3)
    assert (order.quantity, order.price, order.currency) == (1, Decimal("9.40"), "EUR")


def paint_now(work: UnitOfWork) -> Item:
    """The paint SG with its stock as it is now."""
    return next(paint for paint in work.paints.all() if paint.facts.code == "SG")


@pytest.mark.parametrize(
    ("students", "quantity"), [(0, 0), (1, 0), (11, 0), (12, 1), (25, 1), (26, 2), (39, 2), (40, 3)]
)
def test_a_class_needs_as_many_times_as_there_are_students(
    work: UnitOfWork, students: int, quantity: int
) -> None:
    """A full tube of 14 ml, a mark of 2.8 ml; each student needs 1 ml: 11 are enough."""
    bought(work, a_paint(work), price="11.80", currency="GBP")
    found = _orders(reorder_stock(work, TODAY, planned={"SG": 1.0 * students}))
    if quantity == 0:
        assert found == {}
        return
    assert found["SG"].quantity == quantity
    assert found["SG"].reason == f"{students} ml planned"
    assert found["SG"].cost == Decimal("11.80") * quantity


def test_what_was_never_counted_is_bought_as_planned(work: UnitOfWork) -> None:
    a_paint(work, price="9.40")
    a_paper(work)
    found = _orders(reorder_stock(work, TODAY, planned={"SG": 20.0, "MR": 3.0}))
    assert (found["SG"].needed, found["SG"].quantity) == (22.8, 2)
    assert (found["MR"].needed, found["MR"].size, found["MR"].quantity) == (5.0, None, 1)
    assert found["MR"].cost is None


def test_a_retired_paint_is_bought_only_for_a_plan(work: UnitOfWork) -> None:
    paint = a_paint(work, status=Status.RETIRED)
    correct_stock(work, paint, entry(StockKind.CORRECTED, 0.0), TODAY, None)
    assert _orders(reorder_stock(work, TODAY)) == {}
    assert _orders(reorder_stock(work, TODAY, planned={"SG": 2.0}))["SG"].reason == "2 ml planned"


def test_size_and_price_are_of_one_container(work: UnitOfWork) -> None:
    """A small tube bought last: its price is not that of a large one."""
    paint = a_paint(work, price="11.80")
    bought(work, paint, 5.0, left=0.5, price="5.40", currency="GBP")
    order = _orders(reorder_stock(work, TODAY, planned={"SG": 10.0}))["SG"]
    assert (order.size, order.price, order.currency) == (5.0, Decimal("5.40"), "GBP")
    assert order.quantity == 3  # 10 planned and 2.8 to keep, of which 0.5 are there: 12.3 ml
    bought(work, paint, 37.0, left=0.1)  # a gift without a price
    assert _orders(reorder_stock(work, TODAY, planned={"SG": 10.0}))["SG"].size == 5.0


def test_without_a_price_paid_the_label_counts_and_else_the_last_size(work: UnitOfWork) -> None:
    labelled, bare = a_paint(work, price="11.80"), a_paint(work, "AZ", volume=None)
    bought(work, labelled, 37.0, left=1.0)
    bought(work, bare, 21.0, left=1.0)
    found = _orders(reorder_stock(work, TODAY, planned={"SG": 5.0, "AZ": 5.0}))
    assert (found["SG"].size, found["SG"].price) == (14.0, Decimal("11.80"))
    assert (found["AZ"].size, found["AZ"].price) == (21.0, None)


def test_paper_is_low_at_two_sheets_or_a_metre_of_a_roll(work: UnitOfWork) -> None:
    sheets, roll = a_paper(work), a_paper(work, "WR")
    bought(work, sheets, 10.0, left=2.0, price="46.00", currency="GBP")
    bought(work, roll, 10_000, left=900, kind=ContainerKind.ROLL, price="128.00", currency="EUR")
    shopping = reorder_stock(work, TODAY)
    found = _orders(shopping)
    assert found["MR"].reason == "low: 2 sheets left"
    assert found["WR"].reason == "low: 900 mm left"
    assert shopping.costs == {"GBP": Decimal("46.00"), "EUR": Decimal("128.00")}


def test_costs_are_added_by_currency_and_what_has_no_price_is_told(work: UnitOfWork) -> None:
    for code, price, currency in (
        ("AA", "10.10", "GBP"),
        ("AB", "4.20", "GBP"),
        ("AC", "7.00", "EUR"),
        ("AD", None, None),
    ):
        bought(work, a_paint(work, code), left=0.5, price=price, currency=currency)
    shopping = reorder_stock(work, TODAY)
    assert shopping.costs == {"GBP": Decimal("14.30"), "EUR": Decimal("7.00")}
    assert shopping.unpriced == 1


def test_what_is_used_up_is_bought_even_without_a_mark(work: UnitOfWork) -> None:
    paint = a_paint(work, volume=None)
    correct_stock(work, paint, entry(StockKind.CORRECTED, 0.0), TODAY, None)
    order = _orders(reorder_stock(work, TODAY))["SG"]
    assert (order.reason, order.needed, order.size, order.quantity) == (
        "low: 0 ml left",
        0.0,
        None,
        1,
    )


@pytest.mark.parametrize(
    ("weeks", "planned", "refusal"),
    [
        (-1.0, {}, "the number of weeks must be at least 0"),
        (521.0, {}, "the number of weeks must be .* at most 520"),
        (float("nan"), {}, "the number of weeks"),
        (8.0, {"SG": -2.0}, "what is planned of SG must be at least 0"),
        (8.0, {"SG": float("inf")}, "what is planned of SG must be"),
    ],
)
def test_impossible_plans_are_refused(
    work: UnitOfWork, weeks: float, planned: dict[str, float], refusal: str
) -> None:
    a_paint(work)
    with pytest.raises(BadInput, match=refusal):
        reorder_stock(work, TODAY, weeks=weeks, planned=planned)

"""What is left follows from the ledger: purchases add, use takes away, a count sets."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.catalogue.stock import Stock, StockEvent, StockKind, Unit, fold
from studio.errors import BadInput

START = date(2026, 1, 1)


def _ledger(*entries: tuple[StockKind, float], unit: Unit = Unit.ML) -> list[StockEvent]:
    return [
        StockEvent(kind, amount, unit, START + timedelta(days=day))
        for day, (kind, amount) in enumerate(entries)
    ]


BOUGHT, USED, COUNTED, DISCARDED = StockKind
hundredths = st.integers(1, 5000)
kinds = st.sampled_from(StockKind)


def test_an_empty_ledger_says_nothing() -> None:
    assert fold([], Unit.SHEETS) == Stock(None, Unit.SHEETS, None)


def test_purchases_add_and_use_takes_away() -> None:
    events = _ledger((BOUGHT, 15), (USED, 4), (BOUGHT, 5), (DISCARDED, 1.5))
    assert fold(events, Unit.ML) == Stock(14.5, Unit.ML, START + timedelta(days=3))


@given(st.floats(0.0, 1000.0), st.lists(hundredths))
def test_a_count_sets_what_is_left_whatever_went_before(count: float, bought: list[int]) -> None:
    events = _ledger(*((BOUGHT, amount / 100) for amount in bought), (COUNTED, count))
    assert fold(events, Unit.ML).left == round(count, 6)


def test_a_count_of_nothing_is_nothing_left_and_not_unknown() -> None:
    assert fold(_ledger((BOUGHT, 15), (COUNTED, 0)), Unit.ML).left == 0.0


@given(st.lists(st.tuples(kinds, hundredths)))
def test_it_is_the_plain_sum_and_never_below_zero(entries: list[tuple[StockKind, int]]) -> None:
    expected: int | None = None  # in whole hundredths, so that nothing is rounded
    kept = []
    for kind, amount in entries:
        if kind is COUNTED:
            expected = amount
        elif kind is BOUGHT:
            expected = (expected or 0) + amount
        elif expected is not None and amount <= expected:
            expected -= amount
        else:
            continue
        kept.append((kind, amount / 100))
    found = fold(_ledger(*kept), Unit.ML).left
    assert (found is None) == (expected is None)
    assert found is None or found >= 0.0
    assert found is None or found == pytest.approx((expected or 0) / 100, abs=1e-5)


@given(st.lists(hundredths, min_size=1))
def test_using_up_exactly_what_was_bought_leaves_exactly_nothing(amounts: list[int]) -> None:
    bought = [(BOUGHT, amount / 100) for amount in amounts]
    used = [(USED, amount / 100) for amount in reversed(amounts)]
    assert fold(_ledger(*bought, *used), Unit.ML).left == 0.0


@pytest.mark.parametrize("kind", [USED, DISCARDED])
def test_more_than_there_was_is_refused_with_what_is_on_record(kind: StockKind) -> None:
    with pytest.raises(BadInput, match=f"4 ml {kind} on 2026-01-02, but only 3.5 ml are on record"):
        fold(_ledger((BOUGHT, 3.5), (kind, 4)), Unit.ML)


@pytest.mark.parametrize("kind", [USED, DISCARDED])
def test_use_before_any_purchase_is_refused(kind: StockKind) -> None:
    with pytest.raises(BadInput, match="only 0 sheets are on record; record the purchase or a"):
        fold(_ledger((kind, 1), unit=Unit.SHEETS), Unit.SHEETS)


def test_the_order_of_the_ledger_counts() -> None:
    counted_last = fold(_ledger((BOUGHT, 15), (COUNTED, 5)), Unit.ML)
    bought_last = fold(_ledger((COUNTED, 5), (BOUGHT, 15)), Unit.ML)
    assert (counted_last.left, bought_last.left) == (5.0, 20.0)


def test_the_remainder_of_a_rounded_tenth_is_no_stock() -> None:
    assert fold(_ledger((BOUGHT, 0.1), (BOUGHT, 0.2), (USED, 0.3)), Unit.ML).left == 0.0

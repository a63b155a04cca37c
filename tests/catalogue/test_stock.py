"""What is left of a paint or paper over its containers."""

from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from studio.catalogue.container import total
from studio.catalogue.stock import Stock, StockEvent, StockKind, Unit
from tests.catalogue.shelf import MANY, PAD, TUBE, entry, holding, hundredths


def test_without_a_container_nothing_is_known() -> None:
    assert total((), Unit.SHEETS) == Stock(None, Unit.SHEETS, None)


@given(st.lists(hundredths, min_size=1, max_size=12))
def test_it_is_the_sum_over_the_containers(amounts: list[float]) -> None:
    shelf = [holding(MANY, entry(StockKind.BOUGHT, amount)) for amount in amounts]
    found = total(shelf, Unit.ML)
    assert found.left == round(sum(amounts), 6)
    assert found.as_of == date(2026, 1, 1)


def test_what_is_lent_or_discarded_does_not_count() -> None:
    full = entry(StockKind.BOUGHT, 14.0)
    lent = holding(TUBE, full, entry(StockKind.LENT, None, 8))
    gone = holding(TUBE, full, entry(StockKind.DISCARDED, None, 9))
    assert total((holding(TUBE, full), lent, gone), Unit.ML) == Stock(
        14.0, Unit.ML, date(2026, 1, 10)
    )
    assert total((lent, gone), Unit.ML).left == 0.0


def test_nothing_left_is_known_and_not_unknown() -> None:
    used_up = holding(PAD, entry(StockKind.BOUGHT, 20.0), entry(StockKind.USED, 20.0))
    assert total((used_up,), Unit.SHEETS).left == 0.0


def test_it_is_an_estimate_if_a_container_on_the_shelf_is() -> None:
    full = entry(StockKind.BOUGHT, 14.0)
    guess = StockEvent(StockKind.USED, date(2026, 1, 2), 1.0, estimated=True)
    guessed = holding(TUBE, full, guess)
    assert total((holding(TUBE, full), guessed), Unit.ML).estimated
    away = holding(TUBE, full, guess, entry(StockKind.LENT, None, 4))
    assert not total((holding(TUBE, full), away), Unit.ML).estimated


def test_the_unit_is_that_of_the_containers() -> None:
    assert total((holding(PAD, entry(StockKind.BOUGHT, 4.0)),), Unit.MM).unit is Unit.SHEETS

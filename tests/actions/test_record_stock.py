"""The ledger folds the same in whatever order it was written, and never says what cannot be."""

from datetime import date, timedelta
from typing import Final

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from studio.actions.record_stock import find_item, record_stock, unit_of

from studio.actions.add_paint import add_paint
from studio.actions.add_paper import add_paper
from studio.actions.edit_paint import retire_paint
from studio.catalogue.paint import PaintFacts
from studio.catalogue.paper import PaperFacts
from studio.catalogue.stock import StockEvent, StockKind, Unit, fold
from studio.errors import BadInput, NotFound
from studio.storage.unit_of_work import UnitOfWork
from tests.actions.conftest import DAY, Shelf
from tests.conftest import TODAY

BOUGHT, USED, COUNTED, DISCARDED = (
    StockKind.BOUGHT, StockKind.USED, StockKind.COUNTED, StockKind.DISCARDED,
)  # fmt: skip


def _event(kind: StockKind, amount: float, day: date = TODAY, unit: Unit = Unit.ML) -> StockEvent:
    return StockEvent(kind, amount, unit, day)


@pytest.mark.parametrize(
    ("name", "code"),
    [("um", "UM"), ("Sedge Rag", "SR"), ("smooth", "SM"), ("hard & quay tide", "TG")],
)
def test_an_item_is_found_among_paints_and_papers(shelf: Shelf, name: str, code: str) -> None:
    assert find_item(shelf.work, name).facts.code == code


def test_a_name_that_fits_several_is_refused_with_every_candidate(shelf: Shelf) -> None:
    with pytest.raises(NotFound, match="'sedge' fits 3 items; say which by its code") as caught:
        find_item(shelf.work, "sedge")
    assert caught.value.candidates == (
        "SO (Hard & Quay Sedge Ochre)",
        "SM (Tidewrack Mill Sedge Smooth)",
        "SR (Tidewrack Mill Sedge Rag)",
    )


def test_two_paints_and_a_paper_of_one_name_are_not_taken_for_the_paper(work: UnitOfWork) -> None:
    for code in ("A1", "A2"):
        add_paint(work, PaintFacts(code, "Hard & Quay", f"Marsh {code}"), TODAY)
    add_paper(work, PaperFacts("MR", "Tidewrack Mill", "Marsh Rag"), TODAY)
    with pytest.raises(NotFound, match="fits 3 items"):
        find_item(work, "marsh")


def test_a_code_is_meant_before_a_part_of_another_name(work: UnitOfWork) -> None:
    add_paint(work, PaintFacts("SG", "Hard & Quay", "Marsh Green"), TODAY)
    add_paper(work, PaperFacts("MAR", "Tidewrack Mill", "Rush Rag"), TODAY)
    assert find_item(work, "mar").facts.code == "MAR"


def test_a_retired_paint_gives_way_to_a_paper_of_that_name(shelf: Shelf) -> None:
    retire_paint(shelf.work, shelf.paint("SO"))
    with pytest.raises(NotFound, match="fits 2 items"):
        find_item(shelf.work, "sedge")
    assert find_item(shelf.work, "ochre").facts.code == "SO"


def test_a_name_of_nothing_is_refused_with_a_way_on(shelf: Shelf) -> None:
    with pytest.raises(NotFound, match="no paint or paper is called 'zinc'; see: studio stock"):
        find_item(shelf.work, "zinc")
    with pytest.raises(NotFound, match="near it: BS") as caught:
        find_item(shelf.work, "burnt sienne")
    assert "BS (Saltings Colour Burnt Sienna)" in caught.value.candidates


def test_an_entry_counts_at_once_for_paints_and_papers(shelf: Shelf) -> None:
    paint, paper = shelf.paint("UM"), shelf.paper("SM")
    assert (unit_of(paint), unit_of(paper)) == (Unit.ML, Unit.SHEETS)
    record_stock(shelf.work, paint, _event(USED, 2.5), TODAY)
    record_stock(shelf.work, paper, _event(COUNTED, 3, unit=Unit.SHEETS), TODAY)
    assert shelf.paint("UM").stock.left == 11.5
    assert shelf.paper("SM").stock.left == 3.0
    shelf.work.forget()
    assert shelf.paint("UM").stock.left == 11.5
    assert shelf.paper("SM").stock.left == 3.0


@pytest.mark.parametrize(
    ("event", "said"),
    [
        (_event(USED, 1, unit=Unit.SHEETS), "Ultramarine is counted in ml, not in sheets"),
        (_event(USED, 1, TODAY + timedelta(days=1)), "the day 2026-11-26 lies in the future"),
        (_event(USED, 0), "the amount must be above 0"),
        (_event(BOUGHT, -1), "the amount must be above 0"),
        (_event(COUNTED, -0.5), "the amount must be at least 0"),
        (_event(BOUGHT, 1e6 + 1), "at most 1000000"),
        (_event(BOUGHT, float("nan")), "the amount"),
        (_event(USED, 14.1), "14.1 ml used on 2026-11-25, but only 14 ml are on record"),
        (_event(DISCARDED, 15), "15 ml discarded on 2026-11-25, but only 14 ml"),
        (_event(USED, 1, DAY), "1 ml used on 2026-05-04, but only 0 ml"),
    ],
)
def test_an_impossible_entry_is_refused_and_the_ledger_stays(
    shelf: Shelf, event: StockEvent, said: str
) -> None:
    paint = shelf.paint("UM")
    before = shelf.work.stock.of(paint)
    with pytest.raises(BadInput, match=said):
        record_stock(shelf.work, paint, event, TODAY)
    assert shelf.work.stock.of(paint) == before
    assert shelf.paint("UM") == paint


def test_a_paper_is_counted_in_sheets(shelf: Shelf) -> None:
    with pytest.raises(BadInput, match="Sedge Smooth is counted in sheets, not in ml"):
        record_stock(shelf.work, shelf.paper("SM"), _event(USED, 1), TODAY)


def test_a_use_that_a_later_entry_relied_on_cannot_be_booked_behind_it(shelf: Shelf) -> None:
    paint = shelf.paint("TG")
    for event in (_event(BOUGHT, 10, DAY), _event(USED, 8, TODAY)):
        record_stock(shelf.work, paint, event, TODAY)
    with pytest.raises(BadInput, match="8 ml used on 2026-11-25, but only 7 ml"):
        record_stock(shelf.work, paint, _event(USED, 3, DAY + timedelta(days=9)), TODAY)


def test_a_count_of_nothing_means_used_up(shelf: Shelf) -> None:
    record_stock(shelf.work, shelf.paint("UM"), _event(COUNTED, 0), TODAY)
    assert shelf.paint("UM").stock.left == 0.0
    assert not shelf.paint("UM").in_stock


YEAR: Final = (
    _event(BOUGHT, 14, date(2026, 1, 2)),
    _event(USED, 3.3, date(2026, 2, 2)),
    _event(COUNTED, 10.5, date(2026, 3, 2)),
    _event(BOUGHT, 14, date(2026, 4, 2)),
    _event(DISCARDED, 0.5, date(2026, 5, 2)),
    _event(USED, 4.7, date(2026, 6, 2)),
)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(order=st.permutations(YEAR))
def test_entries_fold_the_same_in_every_order_they_can_be_written_in(
    shelf: Shelf, order: list[StockEvent]
) -> None:
    savepoint = shelf.work.connection.begin_nested()
    paint = shelf.paint("TG")
    waiting = order
    while waiting:  # an entry that is not possible yet is written when it is
        refused = []
        for event in waiting:
            try:
                record_stock(shelf.work, paint, event, TODAY)
            except BadInput:
                refused.append(event)
        assert len(refused) < len(waiting)
        waiting = refused
    expected = fold(YEAR, Unit.ML)
    assert shelf.work.stock.of(paint) == YEAR
    assert shelf.paint("TG").stock == expected
    shelf.work.forget()
    assert shelf.work.stock.of(paint) == YEAR
    assert shelf.paint("TG").stock == expected
    assert expected.left == pytest.approx(19.3)
    savepoint.rollback()
    shelf.work.forget()


def test_entries_of_one_day_keep_the_order_they_were_written_in(shelf: Shelf) -> None:
    paint = shelf.paint("TG")
    for event in (_event(COUNTED, 5), _event(BOUGHT, 14), _event(COUNTED, 18), _event(USED, 1)):
        record_stock(shelf.work, paint, event, TODAY)
    assert shelf.paint("TG").stock.left == 17.0
    shelf.work.forget()
    assert shelf.paint("TG").stock.left == 17.0

"""Rows of the stock ledger: every kind, twice without harm, and what is refused with its line."""

import re
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Final

import pytest

from studio.actions.importing.tables import ImportResult, import_tables, kind_named
from studio.catalogue.container import Container, ContainerKind
from studio.catalogue.stock import StockKind, Unit
from studio.storage.unit_of_work import UnitOfWork
from tests.actions.stock_things import a_paint, a_paper
from tests.conftest import TODAY

EVERYTHING: Final = """
item,container,kind,amount,unit,weight_g,weighed_as,estimated,other,container_kind,capacity,happened_on,price,currency,lot,note
SG,SG-1,bought,14,ml,25.2,full,,,,,2026-01-10,11.80,GBP,P26-1,from the quay
SG,SG-2,bought,14,ml,25.3,full,,,,,2026-01-10,11.80,GBP,P26-1,from the quay
SG,SG-3,bought,0.4,ml,,,,,half pan,1.8,2026-01-10,,,,
MR,MR-1,bought,20,sheets,,,,,block,,2026-01-10,24.50,GBP,,
WR,WR-1,bought,10000,mm,,,,,roll,10000,2026-01-10,128,GBP,,
SG,SG-1,opened,,,,,,,,,2026-01-11,,,,
SG,SG-1,used,2.5,ml,,,,,,,2026-01-12,,,,mud bank
SG,SG-1,used,3,ml,,,yes,,,,2026-02-12,,,,class
SG,SG-3,refilled,1.2,ml,,,,SG-1,,,2026-02-13,,,,
SG,SG-1,poured,0.2,ml,,,,SG-3,,,2026-02-14,,,,
SG,SG-1,weighed,,ml,15.05,,,,,,2026-02-15,,,,
SG,SG-1,weighed,,ml,4.9,empty,,,,,2026-03-01,,,,
SG,SG-1,discarded,,,,,,,,,2026-03-01,,,,empty
SG,SG-2,lent,,,,,,,,,2026-03-02,,,,to a neighbour
SG,SG-2,returned,,,,,,,,,2026-03-09,,,,
SG,SG-2,corrected,13.5,ml,,,,,,,2026-03-10,,,,by eye
MR,MR-1,used,4,sheets,,,,,,,2026-03-11,,,,
MR,,discarded,1,sheets,,,,,,,2026-03-12,,,,buckled
WR,,used,600,mm,,,no,,,,2026-03-13,,,,panorama
MR,,counted,14,sheets,,,,,,,2026-03-14,,,,
"""


def _import(work: UnitOfWork, folder: Path, text: str) -> ImportResult:
    file = folder / "stock.csv"
    file.write_text(text.lstrip(), encoding="utf-8")
    return import_tables(work, [(kind_named("stock"), file)], TODAY)


@pytest.fixture
def shelf(work: UnitOfWork) -> UnitOfWork:
    """A paint, a paper in sheets and one on a roll, without stock."""
    a_paint(work)
    a_paper(work)
    a_paper(work, "WR")
    return work


def _container(work: UnitOfWork, code: str) -> Container:
    container = work.containers.with_code(code)
    assert container is not None
    return container


def test_every_kind_of_row_is_recorded(shelf: UnitOfWork, tmp_path: Path) -> None:
    result = _import(shelf, tmp_path, EVERYTHING)
    assert (result.faults, result.added) == ((), {"stock": 20})
    first, second, pan = (_container(shelf, f"SG-{number}") for number in (1, 2, 3))
    assert [line.event.kind.value for line in first.lines] == [
        "bought", "opened", "used", "used", "poured", "poured", "weighed", "weighed", "discarded",
    ]  # fmt: skip
    # 14 - (25.2 - 15.05) / 1.5 by the assumed density, which is 1.45 once the tube is empty.
    assert first.lines[6].left == pytest.approx(7.233)
    assert (first.left, first.on_shelf) == (0.0, False)
    assert first.density == pytest.approx(1.45)
    assert [event.estimated for event in first.events[2:5]] == [False, True, True]
    assert (pan.kind, pan.capacity) == (ContainerKind.HALF_PAN, 1.8)
    assert pan.left == pytest.approx(1.8)
    assert [event.other for event in pan.events] == [None, "SG-1", "SG-1"]
    assert (second.left, second.on_shelf, second.lot) == (13.5, True, "P26-1")
    assert second.events[0].price == Decimal("11.80")
    roll, block = _container(shelf, "WR-1"), _container(shelf, "MR-1")
    assert (roll.unit, roll.left) == (Unit.MM, 9400.0)
    assert (block.kind, block.capacity, block.left) == (ContainerKind.BLOCK, 20.0, 14.0)
    assert [event.kind for event in block.events] == [
        StockKind.BOUGHT, StockKind.USED, StockKind.DISCARDED, StockKind.CORRECTED,
    ]  # fmt: skip


def test_a_table_that_is_there_already_changes_nothing(shelf: UnitOfWork, tmp_path: Path) -> None:
    _import(shelf, tmp_path, EVERYTHING)
    before = shelf.containers.all()
    again = _import(shelf, tmp_path, EVERYTHING)
    assert (again.added, again.present, again.faults) == ({}, {"stock": 20}, ())
    assert shelf.containers.all() == before
    shelf.forget()
    assert shelf.containers.all() == before


def test_two_alike_bought_on_one_day_are_two_by_their_codes(
    shelf: UnitOfWork, tmp_path: Path
) -> None:
    rows = "item,container,kind,amount,happened_on\n"
    rows += "SG,SG-1,bought,14,2026-01-10\nSG,SG-2,bought,14,2026-01-10\n"
    assert _import(shelf, tmp_path, rows).added == {"stock": 2}
    assert [each.code for each in shelf.containers.all()] == ["SG-1", "SG-2"]
    assert _import(shelf, tmp_path, rows).present == {"stock": 2}


def test_a_table_of_the_first_release_is_read(shelf: UnitOfWork, tmp_path: Path) -> None:
    """Amounts by item alone: a purchase is a container, use is spread, a count settles one."""
    rows = """
item,kind,amount,unit,happened_on,price,currency,lot,note
SG,bought,14,ml,2026-01-10,11.80,GBP,P26-1,
SG,bought,28,ml,2026-01-11,20.00,GBP,,two in a box
SG,used,20,ml,2026-02-01,,,,
MR,counted,12,sheets,2026-02-01,,,,
MR,used,3,sheets,2026-02-02,,,,
MR,counted,8,sheets,2026-02-03,,,,
"""
    result = _import(shelf, tmp_path, rows)
    assert (result.added, result.faults) == ({"stock": 6}, ())
    assert {each.code: each.left for each in shelf.containers.all()} == {
        "SG-1": 0.0,
        "SG-2": 22.0,
        "MR-1": 8.0,
    }
    assert _container(shelf, "SG-2").capacity == 28.0
    assert _container(shelf, "MR-1").kind is ContainerKind.ASSORTED
    again = _import(shelf, tmp_path, rows)
    assert (again.added, again.present) == ({}, {"stock": 6})


HEADER: Final = (
    "item,container,kind,amount,unit,weight_g,weighed_as,estimated,other,container_kind,"
    "happened_on,price,currency\n"
)
BOUGHT: Final = "SG,SG-1,bought,14,ml,25.2,full,,,,2026-03-10,,\n"


@pytest.mark.parametrize(
    ("row", "reason"),
    [
        (",,used,1,,,,,,,2026-03-11,,", "item is empty"),
        ("heron,,used,1,,,,,,,2026-03-11,,", "no paint or paper is called 'heron'"),
        ("SG,SG-9,used,1,,,,,,,2026-03-11,,", "no container has the code 'SG-9'; book its"),
        ("MR,SG-1,used,1,,,,,,,2026-03-11,,", "container SG-1 holds .* Sea SG, not 'MR'"),
        ("SG,MR-1,bought,14,,,,,,,2026-03-11,,", "must be the item's code and a number: SG-1"),
        ("SG,SG-1,bought,12,,,,,,,2026-03-11,,", "container code SG-1 is taken"),
        ("SG,,sunk,1,,,,,,,2026-03-11,,", "kind 'sunk' is not known"),
        ("SG,,used,,,,,,,,2026-03-11,,", "amount is empty"),
        ("SG,,used,much,,,,,,,2026-03-11,,", "amount 'much' is not a number"),
        ("SG,,used,0,,,,,,,2026-03-11,,", "the amount must be above 0"),
        ("SG,,used,1,sheets,,,,,,2026-03-11,,", "is counted in ml, not in sheets"),
        ("SG,,used,1,,,,,,,2026-03-09,,", "SG-1 has an entry of 2026-03-10"),
        ("SG,,used,1,,,,,,,2026-11-26,,", "lies in the future"),
        ("SG,,used,1,,,,,,,11 March,,", "happened_on '11 March' is not a date"),
        ("SG,,used,1,,20.1,,,,,2026-03-11,,", "would break a rule of the database"),
        ("SG,,used,1,,,,perhaps,,,2026-03-11,,", "estimated 'perhaps' is not clear; write yes"),
        ("SG,SG-1,weighed,,,,,,,,2026-03-11,,", "a weighing needs weight_g"),
        ("SG,SG-1,weighed,,,26,,,,,2026-03-11,,", "SG-1 weighs 25.2 g full, and 26 g is more"),
        ("SG,SG-1,weighed,,,5,half,,,,2026-03-11,,", "weighed_as 'half' is not known"),
        ("SG,SG-1,refilled,1,,,,,,,2026-03-11,,", "other is empty"),
        ("SG,SG-1,refilled,1,,,,,SG-1,,2026-03-11,,", "cannot be refilled from itself"),
        ("SG,SG-1,returned,,,,,,,,2026-03-11,,", "SG-1 was not lent"),
        ("SG,SG-1,corrected,15,,,,,,,2026-03-11,,", "SG-1 holds 14 ml; it cannot have 15"),
        ("SG,,bought,14,,,,,,pad,2026-03-11,,", "does not come as a pad"),
        ("SG,,bought,14,,,,,,,2026-03-11,a lot,", "price 'a lot' is not a price"),
    ],
)
def test_a_bad_row_is_left_out_with_its_line_and_reason(
    shelf: UnitOfWork, tmp_path: Path, row: str, reason: str
) -> None:
    good = "SG,SG-1,used,1,ml,,,,,,2026-03-12,,\n"
    result = _import(shelf, tmp_path, f"{HEADER}{BOUGHT}{row}\n{good}")
    assert result.added == {"stock": 2}
    ((file, line, said),) = [(fault.file, fault.line, fault.reason) for fault in result.faults]
    assert (file, line) == ("stock.csv", 3)
    assert re.search(reason, said), said
    assert _container(shelf, "SG-1").left == 13.0


def test_estimates_are_yes_or_no_in_any_case(shelf: UnitOfWork, tmp_path: Path) -> None:
    words = {"yes": True, "No": False, "TRUE": True, "false": False, "1": True, "0": False}
    rows = "item,kind,amount,estimated,happened_on,note\nSG,bought,14,,2026-03-01,\n"
    rows += "".join(f"SG,used,1,{word},2026-03-02,{word}\n" for word in words)
    assert _import(shelf, tmp_path, rows).faults == ()
    events = _container(shelf, "SG-1").events[1:]
    assert {event.note: event.estimated for event in events} == words
    assert events[0].happened_on == date(2026, 3, 2)


def test_rows_alike_are_as_many_entries_and_no_more_a_second_time(
    shelf: UnitOfWork, tmp_path: Path
) -> None:
    text = (
        "item,kind,amount,weight_g,happened_on\nSG,bought,14,25.2,2026-01-10\n"
        + "SG,used,0.5,,2026-01-12\n" * 3
        + "SG,weighed,,20.7,2026-01-13\n" * 2
    )
    first = _import(shelf, tmp_path, text)
    assert (first.faults, first.added, first.present) == ((), {"stock": 6}, {})
    again = _import(shelf, tmp_path, text)
    assert (again.faults, again.added, again.present) == ((), {}, {"stock": 6})


def test_a_use_that_was_split_stands_there_already(shelf: UnitOfWork, tmp_path: Path) -> None:
    text = (
        "item,container,kind,amount,happened_on\nSG,SG-1,bought,14,2026-01-10\n"
        "SG,SG-2,bought,14,2026-01-10\nSG,,used,20,2026-01-12\n"
    )
    assert _import(shelf, tmp_path, text).added == {"stock": 3}
    assert [_container(shelf, code).left for code in ("SG-1", "SG-2")] == [0.0, 8.0]
    assert _import(shelf, tmp_path, text).added == {}
    rows = [f"SG,SG-2,used,{amount},2026-01-13" for amount in (1, 2, 3)]
    two = "\n".join(["item,container,kind,amount,happened_on", *rows])
    assert _import(shelf, tmp_path, two).added == {"stock": 3}

"""The check in the terminal: data sheets in a line, and papers in their own unit."""

from dataclasses import replace
from datetime import date
from typing import Final

from studio.actions.advise_care import Document, document_of
from studio.actions.check_shelf import ShelfReport
from studio.actions.find import find_paint
from studio.catalogue.data_sheet import DataSheet
from studio.catalogue.stock import Stock, Unit
from studio.sheets.check_view import print_check, sheets_text
from studio.storage.unit_of_work import UnitOfWork
from tests.sheets.conftest import Terminal, printed

TODAY: Final = date(2026, 11, 25)


def _documents(work: UnitOfWork, sheet: DataSheet | None) -> list[Document]:
    return [document_of(replace(paint, data_sheet=sheet), TODAY) for paint in work.paints.all()]


def test_data_sheets_are_counted_and_the_first_few_named(demo_work: UnitOfWork) -> None:
    old, undated = (
        DataSheet("a.pdf", date(2020, 1, 5), None, TODAY),
        DataSheet("a.pdf", None, None, TODAY),
    )
    missing = _documents(demo_work, None)
    assert sheets_text(missing[:2]) == "2 not on record (AC, BS)"
    assert sheets_text(missing) == (
        f"{len(missing)} not on record (AC, BS, BT, BU, CB, CE and {len(missing) - 6} more)"
    )
    told = sheets_text(
        [_documents(demo_work, old)[0], _documents(demo_work, undated)[1], missing[2]]
    )
    assert told == "1 old (AC); 1 undated (BS); 1 not on record (BT)"
    assert sheets_text(_documents(demo_work, DataSheet("a.pdf", TODAY, None, TODAY))) == ""


def test_a_roll_is_told_in_its_own_unit(demo_work: UnitOfWork, terminal: Terminal) -> None:
    paper = replace(next(iter(demo_work.papers.all())), stock=Stock(700.0, Unit.MM, None))
    console = terminal(None)
    print_check(console, ShelfReport((), (paper,), (), (), ()))
    assert " sheets" not in printed(console)
    assert "mm left (low at " in printed(console) or " m left (low at " in printed(console)


def test_a_paint_of_the_shelf_has_a_document(demo_work: UnitOfWork) -> None:
    assert document_of(find_paint(demo_work, "FU"), TODAY).fault is None

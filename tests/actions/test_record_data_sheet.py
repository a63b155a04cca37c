"""What is on record of a paint's documents: recorded, amended, imported, refused."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from studio.actions.add_paint import add_paint
from studio.actions.find import find_paint
from studio.actions.importing.tables import ImportResult, import_tables, kind_named
from studio.actions.record_data_sheet import amend_data_sheet, record_data_sheet
from studio.catalogue.data_sheet import DataSheet
from studio.catalogue.paint import Paint, PaintFacts
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork

TODAY = date(2026, 11, 25)
EARLIER = date(2026, 3, 1)
SHEET = DataSheet("sheets/fu.pdf", date(2026, 1, 5), "AP, GHS07", EARLIER)


@pytest.fixture
def paint(work: UnitOfWork) -> Paint:
    """A paint without documents."""
    add_paint(work, PaintFacts("FU", "Pellow & Strand", "French Ultramarine", ("PB29",)), TODAY)
    return find_paint(work, "FU")


def _sheet(work: UnitOfWork) -> DataSheet | None:
    return find_paint(work, "FU").data_sheet


def test_a_sheet_is_kept_as_recorded(work: UnitOfWork, paint: Paint) -> None:
    assert record_data_sheet(work, paint, SHEET, TODAY) == SHEET
    assert _sheet(work) == SHEET


def test_a_later_sheet_takes_the_place_of_an_earlier(work: UnitOfWork, paint: Paint) -> None:
    record_data_sheet(work, paint, SHEET, TODAY)
    later = DataSheet("https://example.org/fu.pdf", None, None, TODAY)
    record_data_sheet(work, paint, later, TODAY)
    assert _sheet(work) == later


def test_white_space_is_folded(work: UnitOfWork, paint: Paint) -> None:
    record_data_sheet(work, paint, replace(SHEET, label_marks="  AP,\tGHS07 "), TODAY)
    assert _sheet(work) == SHEET


def test_what_is_not_named_stays(work: UnitOfWork, paint: Paint) -> None:
    record_data_sheet(work, paint, SHEET, TODAY)
    amend_data_sheet(work, find_paint(work, "FU"), TODAY, label_marks="CL")
    assert _sheet(work) == replace(SHEET, label_marks="CL", recorded_on=TODAY)
    amend_data_sheet(work, find_paint(work, "FU"), TODAY, dated_on=date(2026, 2, 1))
    sheet = _sheet(work)
    assert sheet is not None
    assert (sheet.location, sheet.dated_on) == ("sheets/fu.pdf", date(2026, 2, 1))


def test_another_sheet_does_not_inherit_the_date(work: UnitOfWork, paint: Paint) -> None:
    record_data_sheet(work, paint, SHEET, TODAY)
    amend_data_sheet(work, find_paint(work, "FU"), TODAY, location="sheets/fu-2.pdf")
    assert _sheet(work) == DataSheet("sheets/fu-2.pdf", None, "AP, GHS07", TODAY)


def test_an_empty_text_removes_the_marks(work: UnitOfWork, paint: Paint) -> None:
    record_data_sheet(work, paint, SHEET, TODAY)
    amend_data_sheet(work, find_paint(work, "FU"), TODAY, label_marks="")
    sheet = _sheet(work)
    assert sheet is not None
    assert sheet.label_marks is None


@pytest.mark.parametrize(
    ("sheet", "reason"),
    [
        (DataSheet(None, None, None, TODAY), "needs a file or an address"),
        (DataSheet(" ", None, " ", TODAY), "needs a file or an address"),
        (DataSheet(None, date(2026, 1, 5), "AP", TODAY), "the date belongs to a data sheet"),
        (DataSheet("x", date(2026, 11, 26), None, TODAY), "lies in the future"),
        (DataSheet("x", None, None, date(2026, 11, 26)), "lies in the future"),
    ],
)
def test_what_says_nothing_or_lies_ahead_is_refused(
    work: UnitOfWork, paint: Paint, sheet: DataSheet, reason: str
) -> None:
    with pytest.raises(BadInput, match=reason):
        record_data_sheet(work, paint, sheet, TODAY)
    assert _sheet(work) is None


def test_nothing_to_record_is_refused(work: UnitOfWork, paint: Paint) -> None:
    with pytest.raises(BadInput, match="nothing to record"):
        amend_data_sheet(work, paint, TODAY)


def _import(work: UnitOfWork, folder: Path, *lines: str) -> ImportResult:
    path = folder / "data_sheets.csv"
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return import_tables(work, [(kind_named("data_sheets"), path)], TODAY)


HEADER = "paint,location,dated_on,label_marks,recorded_on"


def test_a_table_of_sheets_is_imported_once(work: UnitOfWork, paint: Paint, tmp_path: Path) -> None:
    assert paint.data_sheet is None
    row = 'french ultramarine,sheets/fu.pdf,2026-01-05,"AP, GHS07",2026-03-01'
    assert _import(work, tmp_path, HEADER, row).added == {"data_sheets": 1}
    assert _sheet(work) == SHEET
    again = _import(work, tmp_path, HEADER, row)
    assert (again.added, again.present, again.faults) == ({}, {"data_sheets": 1}, ())


def test_a_row_without_a_day_is_noted_today(work: UnitOfWork, paint: Paint, tmp_path: Path) -> None:
    assert paint.data_sheet is None
    assert _import(work, tmp_path, "paint,label_marks", "FU,AP").added == {"data_sheets": 1}
    assert _sheet(work) == DataSheet(None, None, "AP", TODAY)
    assert _import(work, tmp_path, "paint,label_marks", "FU,AP").present == {"data_sheets": 1}
    record_data_sheet(work, paint, SHEET, TODAY)
    whole = "FU,sheets/fu.pdf,2026-01-05,CL,"
    assert _import(work, tmp_path, HEADER, whole).added == {"data_sheets": 1}
    assert _sheet(work) == replace(SHEET, label_marks="CL", recorded_on=TODAY)


def test_bad_rows_are_listed(work: UnitOfWork, paint: Paint, tmp_path: Path) -> None:
    assert paint.data_sheet is None
    rows = ("XX,a.pdf,,,", "FU,,,,", "FU,a.pdf,5 Jan,,", "FU,,2026-01-05,AP,", "FU,a,2027-01-01,,")
    result = _import(work, tmp_path, HEADER, *rows)
    assert [fault.line for fault in result.faults] == [2, 3, 4, 5, 6]
    assert _sheet(work) is None

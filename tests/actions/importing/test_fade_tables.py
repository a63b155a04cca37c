"""Tables of fade tests: one row a reading, and a second import adds nothing."""

from pathlib import Path

import pytest

from studio.actions.importing.tables import ImportResult, import_tables, tables_at
from studio.catalogue.paint import PaintFacts
from studio.catalogue.paper import PaperFacts
from studio.colour.lab import Lab
from studio.colour.science import adapted
from studio.storage.unit_of_work import UnitOfWork
from tests.conftest import TODAY

HEADER = (
    "code,item,place,started_on,ended_on,paper,note,read_on,covered_l,covered_a,covered_b,"
    "exposed_l,exposed_a,exposed_b,blue_wool,reading_note"
)
START = "F1,FU,south window,2026-03-01,,SR,class strip,,,,,,,,,"
MAY = "F1,FU,south window,2026-03-01,,,,2026-05-01,40,10,-30,43,10,-30,2,clear edge"
JULY = "F1,FU,south window,2026-03-01,2026-07-01,,,2026-07-01,40,10,-30,45,10,-30,3,"


@pytest.fixture
def shelf(work: UnitOfWork) -> UnitOfWork:
    """A paint and a paper on record."""
    work.paints.add(PaintFacts("FU", "Pellow & Strand", "French Ultramarine", ("PB29",)))
    work.papers.add(PaperFacts("SR", "Eddering Mill", "Slipway Rag"))
    work.papers.add(PaperFacts("HM", "Eddering Mill", "Hull Mat"))
    return work


def _import(work: UnitOfWork, folder: Path, *rows: str, header: str = HEADER) -> ImportResult:
    path = folder / "fade_tests.csv"
    path.write_text("\n".join((header, *rows)) + "\n", encoding="utf-8")
    return import_tables(work, tables_at([folder]), TODAY)


def test_rows_of_one_code_start_read_and_end_one_test(shelf: UnitOfWork, tmp_path: Path) -> None:
    result = _import(shelf, tmp_path, START, MAY, JULY)
    assert (result.added, result.present, result.faults) == ({"fade_tests": 3}, {}, ())
    (test,) = shelf.fade_tests.all()
    assert (test.code, test.place, test.note) == ("F1", "south window", "class strip")
    assert str(test.ended_on) == "2026-07-01"
    assert [(str(r.read_on), r.delta_e, r.blue_wool, r.note) for r in test.readings] == [
        ("2026-05-01", 3.0, 2, "clear edge"),
        ("2026-07-01", 5.0, 3, None),
    ]


def test_a_second_import_adds_nothing(shelf: UnitOfWork, tmp_path: Path) -> None:
    _import(shelf, tmp_path, START, MAY, JULY)
    before = shelf.fade_tests.all()
    result = _import(shelf, tmp_path, START, MAY, JULY)
    assert (result.added, result.present, result.faults) == ({}, {"fade_tests": 3}, ())
    assert shelf.fade_tests.all() == before


def test_later_rows_add_to_a_recorded_test(shelf: UnitOfWork, tmp_path: Path) -> None:
    _import(shelf, tmp_path, START, MAY)
    result = _import(shelf, tmp_path, MAY, JULY)
    assert (result.added, result.present) == ({"fade_tests": 1}, {"fade_tests": 1})


def test_a_mix_is_named_by_its_recipe(shelf: UnitOfWork, tmp_path: Path) -> None:
    (tmp_path / "mixes.csv").write_text("recipe\nFU\n", encoding="utf-8")
    result = _import(shelf, tmp_path, START.replace("F1,FU", "F4,M1"))
    assert result.faults == ()
    assert [test.mix_id for test in shelf.fade_tests.all()] == [1]


def test_another_white_is_adapted_and_stays_the_same_reading(
    shelf: UnitOfWork, tmp_path: Path
) -> None:
    header, row = f"{HEADER},illuminant,observer", f"{MAY},D65,10"
    _import(shelf, tmp_path, row, header=header)
    (reading,) = shelf.fade_tests.all()[0].readings
    assert reading.covered == adapted(Lab(40, 10, -30, "D65", 10))
    assert reading.note == "adapted from D65/10°; clear edge"
    assert _import(shelf, tmp_path, row, header=header).present == {"fade_tests": 1}


@pytest.mark.parametrize(
    ("row", "reason"),
    [
        (START.replace("F1,", ",", 1), "code is empty"),
        (START.replace("FU", "Gorse"), "no paint or mix is called"),
        (START.replace("south window", ""), "place is empty"),
        (START.replace("2026-03-01", "March"), "is not a date"),
        (START.replace("2026-03-01", "2026-12-01"), "lies in the future"),
        (START.replace("SR", "Sailcloth"), "no paper is called"),
        (MAY.replace("2026-05-01", ""), "read_on is empty"),
        (MAY.replace(",40,10,-30,43", ",,,,43"), "the covered half is missing"),
        (MAY.replace("43,10,-30", ",,"), "the exposed half is missing"),
        (MAY.replace(",40,10,-30,43", ",40,,-30,43"), "a Lab needs all of covered_l"),
        (MAY.replace("2026-05-01", "2026-02-01"), "is older than the test F1"),
        (MAY.replace(",2,clear", ",9,clear"), "the blue wool step must be"),
        (MAY.replace(",2,clear", ",2.5,clear"), "is not a whole number"),
        (JULY.replace("2026-07-01,,,", "2026-06-01,,,"), "it on that day or later"),
    ],
)
def test_a_bad_row_is_left_out_whole_with_the_reason(
    shelf: UnitOfWork, tmp_path: Path, row: str, reason: str
) -> None:
    result = _import(shelf, tmp_path, row)
    assert result.added == {}
    assert [fault.line for fault in result.faults] == [2]
    assert reason in result.faults[0].reason
    assert shelf.fade_tests.all() == ()


@pytest.mark.parametrize(
    "row",
    [
        START.replace("south window", "north sill"),
        START.replace("2026-03-01", "2026-03-02"),
        START.replace("SR", "HM"),
        START.replace("class strip", "another strip"),
    ],
)
def test_a_code_that_means_another_test_is_refused(
    shelf: UnitOfWork, tmp_path: Path, row: str
) -> None:
    result = _import(shelf, tmp_path, START, row)
    assert result.added == {"fade_tests": 1}
    assert "is recorded already as another test" in result.faults[0].reason


def test_another_reading_of_the_same_day_is_refused(shelf: UnitOfWork, tmp_path: Path) -> None:
    result = _import(shelf, tmp_path, MAY, MAY.replace(",43,", ",44,"))
    assert "was read on 2026-05-01 already" in result.faults[0].reason

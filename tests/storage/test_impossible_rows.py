"""SQLite itself refuses what cannot be, whoever writes it: no program stands before these rows."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from studio.storage.schema import connect
from tests.storage.rows import (
    BAD_WORDS,
    BOUNDS,
    CODES,
    DAYS,
    DOUBLES,
    GOOD,
    LONG,
    NO_DAYS,
    PARENTS,
    TEXTS,
    UNLIKELY,
    Cells,
)


@pytest.fixture(scope="module")
def database(empty_template: Path) -> Iterator[sqlite3.Connection]:
    """A studio in memory with a few rows for others to refer to."""
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as connection:
        with closing(connect(empty_template)) as template:
            template.backup(connection)
        connection.execute("PRAGMA foreign_keys = ON")
        for key in (1, 2, 3):
            _insert(connection, "paint", {"code": f"P{key}", "name": f"Paint {key}"})
        _insert(connection, "paper", {"code": "P1", "name": "Paper"})
        _insert(connection, "mix", {"code": "M1", "recipe_key": "1*1"})
        _insert(connection, "swatch", {"code": "S1"})
        connection.execute("DELETE FROM hazard_code WHERE hazard_id = 1")
        connection.execute("DELETE FROM hazard_metal WHERE hazard_id = 1")
        yield connection


@pytest.fixture
def rows(database: sqlite3.Connection) -> Iterator[sqlite3.Connection]:
    """That studio; what a test writes is undone."""
    database.execute("BEGIN")
    yield database
    database.execute("ROLLBACK")


def _insert(connection: sqlite3.Connection, table: str, changes: Cells) -> None:
    cells = GOOD[table] | changes
    marks = ", ".join("?" for _ in cells)
    connection.execute(
        f"INSERT INTO {table} ({', '.join(cells)}) VALUES ({marks})", tuple(cells.values())
    )


def _each(columns: dict[str, tuple[str, ...]]) -> list[tuple[str, str]]:
    return [(table, column) for table, listed in columns.items() for column in listed]


@pytest.mark.parametrize("table", GOOD)
def test_a_possible_row_is_accepted(rows: sqlite3.Connection, table: str) -> None:
    _insert(rows, table, {})


@pytest.mark.parametrize("table", GOOD)
def test_a_row_without_a_needed_cell_is_refused(rows: sqlite3.Connection, table: str) -> None:
    needed = [row[1] for row in rows.execute(f"PRAGMA table_info({table})") if row[3]]
    needed = [column for column in needed if column != "id"]
    assert needed
    for column in needed:
        with pytest.raises(sqlite3.IntegrityError, match=rf"NOT NULL.*{table}\.{column}"):
            _insert(rows, table, {column: None})


@pytest.mark.parametrize(("table", "column"), _each(BAD_WORDS))
def test_a_word_of_no_vocabulary_is_refused(
    rows: sqlite3.Connection, table: str, column: str
) -> None:
    for word in ("brackish", "", str(GOOD[table].get(column, "x")).swapcase()):
        with pytest.raises(sqlite3.IntegrityError, match=f"CHECK.*ck_{table}_"):
            _insert(rows, table, {column: word})


@pytest.mark.parametrize(
    ("table", "column"), [(table, column) for table, listed in BOUNDS.items() for column in listed]
)
def test_a_number_beyond_its_bounds_or_no_number_is_refused(
    rows: sqlite3.Connection, table: str, column: str
) -> None:
    beyond = (*BOUNDS[table][column], float("inf"), float("-inf"), "murky", "", b"\x01")
    for value in beyond:
        with pytest.raises(sqlite3.IntegrityError, match="CHECK"):
            _insert(rows, table, {column: value})


@pytest.mark.parametrize("column", ["lightness", "a", "b"])
@pytest.mark.parametrize("table", ["swatch", "reading"])
def test_a_colour_that_is_no_number_is_refused(
    rows: sqlite3.Connection, table: str, column: str
) -> None:
    with pytest.raises(sqlite3.IntegrityError, match="NOT NULL"):
        _insert(rows, table, {column: float("nan")})


@pytest.mark.parametrize(("table", "column"), _each(TEXTS))
def test_a_text_that_says_nothing_or_too_much_is_refused(
    rows: sqlite3.Connection, table: str, column: str
) -> None:
    for value in ("", "   ", LONG):
        with pytest.raises(sqlite3.IntegrityError, match=f"{column}_says_something"):
            _insert(rows, table, {column: value})


@pytest.mark.parametrize("value", NO_DAYS)
@pytest.mark.parametrize(("table", "column"), DAYS.items())
def test_what_is_no_day_is_refused(
    rows: sqlite3.Connection, table: str, column: str, value: object
) -> None:
    with pytest.raises(sqlite3.IntegrityError, match=f"{column}_is_a_day"):
        _insert(rows, table, {column: value})


@pytest.mark.parametrize("code", CODES)
@pytest.mark.parametrize("table", ["paint", "paper", "mix", "swatch"])
def test_a_code_of_another_form_is_refused(rows: sqlite3.Connection, table: str, code: str) -> None:
    with pytest.raises(sqlite3.IntegrityError, match=f"ck_{table}_code_form"):
        _insert(rows, table, {"code": code})


@pytest.mark.parametrize(("table", "changes"), UNLIKELY)
def test_cells_that_contradict_each_other_are_refused(
    rows: sqlite3.Connection, table: str, changes: Cells
) -> None:
    with pytest.raises(sqlite3.IntegrityError, match=f"CHECK.*ck_{table}_"):
        _insert(rows, table, changes)


@pytest.mark.parametrize(("table", "column"), _each(PARENTS))
def test_a_reference_to_nothing_is_refused(
    rows: sqlite3.Connection, table: str, column: str
) -> None:
    with pytest.raises(sqlite3.IntegrityError, match="FOREIGN KEY"):
        _insert(rows, table, {column: "H000" if column == "code" else 99_999})


@pytest.mark.parametrize("parent", ["pigment", "paint", "paper", "mix", "swatch", "hazard"])
def test_what_others_refer_to_cannot_be_removed(rows: sqlite3.Connection, parent: str) -> None:
    for table in GOOD:
        if table not in {"paint", "paper", "mix", "swatch", "pigment", "h_statement", "hazard"}:
            _insert(rows, table, {})
    with pytest.raises(sqlite3.IntegrityError, match="FOREIGN KEY"):
        rows.execute(f"DELETE FROM {parent} WHERE id = 1")


@pytest.mark.parametrize(("table", "changes"), DOUBLES)
def test_what_is_there_cannot_be_recorded_again(
    rows: sqlite3.Connection, table: str, changes: Cells
) -> None:
    _insert(rows, table, {})
    with pytest.raises(sqlite3.IntegrityError, match="UNIQUE"):
        _insert(rows, table, changes)


def test_paints_that_differ_in_lot_alone_are_two(rows: sqlite3.Connection) -> None:
    for code, lot in (("A", None), ("B", "T8"), ("C", "T9")):
        _insert(rows, "paint", {"code": code, "lot": lot})
    with pytest.raises(sqlite3.IntegrityError, match="uq_paint_maker_name_form_lot"):
        _insert(rows, "paint", {"code": "D", "lot": None})


def test_papers_that_differ_in_surface_or_weight_alone_are_two(rows: sqlite3.Connection) -> None:
    for code, surface, weight in (("A", None, None), ("B", "rough", None), ("C", None, 300.0)):
        _insert(rows, "paper", {"code": code, "surface": surface, "weight_gsm": weight})
    with pytest.raises(sqlite3.IntegrityError, match="uq_paper_maker_name_surface_weight"):
        _insert(rows, "paper", {"code": "D", "surface": None, "weight_gsm": None})

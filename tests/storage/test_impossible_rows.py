"""SQLite itself refuses what cannot be, whoever writes it: no program stands before these rows."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from itertools import product
from pathlib import Path

import pytest
from sqlalchemy import Table

from studio.catalogue.container import ContainerKind
from studio.catalogue.stock import StockKind, Unit
from studio.storage.rules import RULES, metadata
from studio.storage.schema import connect
from tests.storage.painting_cells import PARENT_ROWS
from tests.storage.rows import (
    BAD_WORDS,
    BOUNDS,
    CODES,
    DAYS,
    DOUBLES,
    GOOD,
    LONGEST,
    NEEDED,
    NO_DAYS,
    NO_NUMBERS,
    NO_WORDS,
    OPENED,
    ORPHANS,
    PAD,
    PARENTS,
    POSSIBLE,
    TEXTS,
    UNLIKELY,
    USED,
    WHOLE,
    Cells,
    half_more,
    impossible,
)

pytestmark = pytest.mark.file_only("test_server_rules.py tries the rules of a server")


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
        _insert(connection, "measurement_file", {"sha256": "1b" * 32})
        for code in ("P1-1", "P1-2"):
            _insert(connection, "container", {"code": code})
        _insert(connection, "fade_test", {"code": "F1"})
        for table, changes in PARENT_ROWS.items():
            _insert(connection, table, changes)
        _insert(connection, "command", {"kind": "recorded", "takes_back": None})
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
    cells = GOOD.get(table, {}) | changes
    marks = ", ".join("?" for _ in cells)
    connection.execute(
        f"INSERT INTO {table} ({', '.join(cells)}) VALUES ({marks})", tuple(cells.values())
    )


def _refused(connection: sqlite3.Connection, table: str, changes: Cells, said: str) -> None:
    with pytest.raises(sqlite3.IntegrityError, match=said):
        _insert(connection, table, changes)


def _each(columns: dict[str, tuple[str, ...]]) -> list[tuple[str, str]]:
    return [(table, column) for table, listed in columns.items() for column in listed]


@pytest.mark.parametrize("table", GOOD)
def test_a_possible_row_is_accepted(rows: sqlite3.Connection, table: str) -> None:
    _insert(rows, table, {})


@pytest.mark.parametrize(("table", "changes"), POSSIBLE)
def test_an_odd_row_is_accepted(rows: sqlite3.Connection, table: str, changes: Cells) -> None:
    _insert(rows, table, changes)


@pytest.mark.parametrize("kind", ContainerKind)
@pytest.mark.parametrize("unit", Unit)
def test_every_kind_of_container_is_accepted(
    rows: sqlite3.Connection, kind: ContainerKind, unit: Unit
) -> None:
    holds = None if kind is ContainerKind.ASSORTED else 14.0
    of: Cells = {} if unit is Unit.ML else PAD
    _insert(rows, "container", of | {"kind": kind, "unit": unit, "capacity": holds})


@pytest.mark.parametrize("kind", StockKind)
def test_every_kind_of_entry_is_accepted(rows: sqlite3.Connection, kind: StockKind) -> None:
    moved = kind in {StockKind.OPENED, StockKind.LENT, StockKind.RETURNED}
    _insert(rows, "stock_event", (OPENED if moved else USED) | {"kind": kind})


@pytest.mark.parametrize("table", GOOD)
def test_a_row_without_a_needed_cell_is_refused(rows: sqlite3.Connection, table: str) -> None:
    needed = {row[1] for row in rows.execute(f"PRAGMA table_info({table})") if row[3]} - {"id"}
    assert needed
    assert needed == NEEDED.get(table, needed)
    for column in needed:
        _refused(rows, table, {column: None}, rf"NOT NULL.*{table}\.{column}")


@pytest.mark.parametrize(("table", "column"), _each(BAD_WORDS))
def test_a_word_of_no_vocabulary_is_refused(
    rows: sqlite3.Connection, table: str, column: str
) -> None:
    for word in (*NO_WORDS, str(GOOD[table].get(column, "x")).swapcase()):
        _refused(rows, table, {column: word}, f"CHECK.*ck_{table}_")


@pytest.mark.parametrize(
    ("table", "column"), [(table, column) for table, listed in BOUNDS.items() for column in listed]
)
def test_a_number_beyond_its_bounds_or_no_number_is_refused(
    rows: sqlite3.Connection, table: str, column: str
) -> None:
    for value in (*BOUNDS[table][column], *NO_NUMBERS):
        _refused(rows, table, {column: value}, f"CHECK.*ck_{table}_")


@pytest.mark.parametrize(("table", "column"), _each(WHOLE))
def test_a_fraction_where_numbers_are_whole_is_refused(
    rows: sqlite3.Connection, table: str, column: str
) -> None:
    _refused(rows, table, {column: half_more(table, column)}, f"ck_{table}_{column}_is_whole")


@pytest.mark.parametrize(
    ("table", "column"),
    [
        *product(("swatch", "reading", "target", "passage_colour"), ("lightness", "a", "b")),
        *(("fade_reading", column) for column in GOOD["fade_reading"] if "posed_" in column),
        *(("fade_reading", column) for column in GOOD["fade_reading"] if "covered_" in column),
    ],
)
def test_a_colour_that_is_no_number_is_refused(
    rows: sqlite3.Connection, table: str, column: str
) -> None:
    _refused(rows, table, {column: float("nan")}, "NOT NULL")


@pytest.mark.parametrize(("table", "column"), _each(TEXTS))
def test_a_text_that_says_nothing_or_too_much_is_refused(
    rows: sqlite3.Connection, table: str, column: str
) -> None:
    most = LONGEST.get((table, column), 1000)
    for value in ("", "   ", "x" * (most + 1)):
        _refused(rows, table, {column: value}, f"ck_{table}_{column}_says_something")
    _insert(rows, table, {column: "x" * most})


@pytest.mark.parametrize("value", NO_DAYS)
@pytest.mark.parametrize(("table", "column"), _each(DAYS))
def test_what_is_no_day_is_refused(
    rows: sqlite3.Connection, table: str, column: str, value: object
) -> None:
    # As a text it may come before the day a test was started, which is refused first.
    early = "|ck_fade_test_ends_after_start" if column == "ended_on" else ""
    _refused(rows, table, {column: value}, f"ck_{table}_{column}_is_a_day{early}")


@pytest.mark.parametrize(
    ("table", "code"), [(table, code) for table, codes in CODES.items() for code in codes]
)
def test_a_code_of_another_form_is_refused(rows: sqlite3.Connection, table: str, code: str) -> None:
    _refused(rows, table, {"code": code}, f"ck_{table}_code_form")


@pytest.mark.parametrize(
    ("table", "rule", "changes"),
    [
        (table, rule, changes)
        for table, rules in UNLIKELY.items()
        for rule, listed in rules.items()
        for changes in listed
    ],
)
def test_cells_that_contradict_each_other_are_refused(
    rows: sqlite3.Connection, table: str, rule: str, changes: Cells
) -> None:
    _refused(rows, table, changes, f"CHECK.*ck_{table}_{rule}$")


@pytest.mark.parametrize("table", RULES, ids=lambda table: str(table.name))
def test_every_rule_refuses_one_of_these_rows_by_itself(
    rows: sqlite3.Connection, table: Table
) -> None:
    columns = ", ".join(f"{row[1]} {row[2]}" for row in rows.execute(f"PRAGMA table_info({table})"))
    for rule in RULES[table]:
        rows.execute(f"CREATE TEMP TABLE lone ({columns}, CHECK ({rule.sqltext}))")
        _insert(rows, "lone", GOOD[table.name])
        refused = 0
        for changes in impossible(table.name):
            try:
                _insert(rows, "lone", GOOD[table.name] | changes)
            except sqlite3.IntegrityError:
                refused += 1
        assert refused, rule.name
        rows.execute("DROP TABLE lone")


def test_every_table_has_its_rows() -> None:
    assert set(GOOD) == set(metadata.tables)


@pytest.mark.parametrize(
    ("table", "changes"),
    [*((table, {column: 99_999}) for table, column in _each(PARENTS)), *ORPHANS],
)
def test_a_reference_to_nothing_is_refused(
    rows: sqlite3.Connection, table: str, changes: Cells
) -> None:
    _refused(rows, table, changes, "FOREIGN KEY")


@pytest.mark.parametrize(
    "parent",
    [
        *("pigment", "paint", "paper", "mix", "swatch", "hazard", "container", "fade_test"),
        *("measurement_file", "painting", "passage", "passage_colour"),
    ],
)
def test_what_others_refer_to_cannot_be_removed(rows: sqlite3.Connection, parent: str) -> None:
    free = {"paint", "paper", "mix", "swatch", "pigment", "h_statement", "hazard", "fade_test"}
    for table in GOOD:
        if table not in free | {"container"}:
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

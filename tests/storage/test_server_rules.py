"""A server refuses the same impossible rows as SQLite, by the same rules or by its types."""

from collections.abc import Iterator
from typing import Any

import psycopg
import pytest
from psycopg import errors, sql
from sqlalchemy import Table

from studio.storage.address import Database, ServerAddress
from studio.storage.rules import RULES
from tests.servers import SERVER, by_hand, drop, new_database
from tests.storage.painting_cells import PARENT_ROWS
from tests.storage.rows import (
    BAD_WORDS,
    BOUNDS,
    CODES,
    DAYS,
    DOUBLES,
    GOOD,
    LONGEST,
    NO_NUMBERS,
    NO_WORDS,
    ORPHANS,
    PARENTS,
    POSSIBLE,
    TEXTS,
    UNLIKELY,
    WHOLE,
    Cells,
    impossible,
)

pytestmark = pytest.mark.skipif(SERVER is None, reason="needs a server: .ci/with_server pytest")

Server = psycopg.Connection[Any]
BROKEN = errors.CheckViolation, errors.DataError, errors.DatatypeMismatch


@pytest.fixture(scope="module")
def database(empty_template: Database) -> Iterator[Server]:
    """A studio on the server with a few rows for others to refer to."""
    assert isinstance(empty_template, ServerAddress)
    address = new_database(template=empty_template)
    with by_hand(address) as connection:
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
        connection.commit()
        yield connection
    drop(address)


@pytest.fixture
def rows(database: Server) -> Iterator[Server]:
    """That studio; what a test writes is undone."""
    with database.transaction(force_rollback=True):
        yield database


def _insert(connection: Server, table: str, changes: Cells) -> None:
    cells = GOOD.get(table, {}) | changes
    statement = sql.SQL("INSERT INTO {} ({}) VALUES ({})").format(
        sql.Identifier(table),
        sql.SQL(", ").join(map(sql.Identifier, cells)),
        sql.SQL(", ").join(sql.Placeholder() * len(cells)),
    )
    connection.execute(statement, tuple(cells.values()))


def _refused(
    connection: Server,
    table: str,
    changes: Cells,
    kind: type[psycopg.Error] | tuple[type[psycopg.Error], ...],
    said: str = ".",
) -> None:
    with pytest.raises(kind, match=said), connection.transaction():
        _insert(connection, table, changes)


def test_possible_and_odd_rows_are_accepted(rows: Server) -> None:
    for table, changes in (*((table, {}) for table in GOOD), *POSSIBLE):
        with rows.transaction(force_rollback=True):
            _insert(rows, table, changes)


@pytest.mark.parametrize("table", GOOD)
def test_a_row_without_a_needed_cell_is_refused(rows: Server, table: str) -> None:
    needed = rows.execute(
        "SELECT column_name FROM information_schema.columns WHERE table_name = %s "
        "AND is_nullable = 'NO' AND column_name <> 'id'",
        (table,),
    ).fetchall()
    assert needed
    for (column,) in needed:
        _refused(rows, table, {column: None}, errors.NotNullViolation, f'"{column}"')


@pytest.mark.parametrize("table", BAD_WORDS)
def test_a_word_of_no_vocabulary_is_refused(rows: Server, table: str) -> None:
    for column in BAD_WORDS[table]:
        for word in (*NO_WORDS, str(GOOD[table].get(column, "x")).swapcase()):
            _refused(rows, table, {column: word}, errors.CheckViolation, f"ck_{table}_")


@pytest.mark.parametrize("table", BOUNDS)
def test_a_number_beyond_its_bounds_or_no_number_is_refused(rows: Server, table: str) -> None:
    for column, beyond in BOUNDS[table].items():
        for value in (*beyond, *NO_NUMBERS, float("nan")):
            _refused(rows, table, {column: value}, BROKEN)


@pytest.mark.parametrize(
    ("columns", "possible"),
    [(WHOLE, {"integer", "bigint"}), (DAYS, {"date"})],
    ids=["whole", "days"],
)
def test_columns_of_whole_numbers_and_of_days_can_hold_nothing_else(
    rows: Server, columns: dict[str, tuple[str, ...]], possible: set[str]
) -> None:
    found = rows.execute(
        "SELECT table_name, column_name, data_type FROM information_schema.columns "
        "WHERE table_schema = 'public'"
    ).fetchall()
    kinds = {(table, column): data_type for table, column, data_type in found}
    listed = {(table, column) for table, names in columns.items() for column in names}
    assert {kinds[each] for each in listed} == possible


@pytest.mark.parametrize("table", DAYS)
def test_a_day_that_is_none_is_refused(rows: Server, table: str) -> None:
    for column in DAYS[table]:
        for value in ("2026-13-01", "2026-02-30", "0000-05-01", ""):
            _refused(rows, table, {column: value}, errors.DataError)


@pytest.mark.parametrize("table", TEXTS)
def test_a_text_that_says_nothing_or_too_much_is_refused(rows: Server, table: str) -> None:
    for column in TEXTS[table]:
        most = LONGEST.get((table, column), 1000)
        for value in ("", "   ", "x" * (most + 1)):
            rule = f"ck_{table}_{column}_(says_something|form)"
            _refused(rows, table, {column: value}, errors.CheckViolation, rule)
        with rows.transaction(force_rollback=True):
            _insert(rows, table, {column: "é" * most if column != "name" else "x" * most})


@pytest.mark.parametrize("table", CODES)
def test_a_code_of_another_form_is_refused(rows: Server, table: str) -> None:
    for code in CODES[table]:
        _refused(rows, table, {"code": code}, errors.CheckViolation, f"ck_{table}_code_form")


@pytest.mark.parametrize("table", UNLIKELY)
def test_cells_that_contradict_each_other_are_refused(rows: Server, table: str) -> None:
    for rule, listed in UNLIKELY[table].items():
        if rule.endswith(("_is_a_day", "_is_a_moment")):
            continue  # SQLite's alone
        for changes in listed:
            _refused(rows, table, changes, errors.CheckViolation, f"ck_{table}_{rule}")


@pytest.mark.parametrize("table", RULES, ids=lambda table: str(table.name))
def test_every_rule_refuses_one_of_these_rows_by_itself(rows: Server, table: Table) -> None:
    rules = [
        rule
        for rule in RULES[table]
        if not str(rule.name).endswith(("_is_a_day", "_is_a_moment", "_whole"))
    ]
    for rule in (rule for rule in rules if not str(rule.name).endswith("_is_whole")):
        with rows.transaction(force_rollback=True):
            rows.execute(f"CREATE TEMP TABLE lone AS SELECT * FROM {table.name} LIMIT 0".encode())
            rows.execute(f"ALTER TABLE lone ADD CHECK ({rule.sqltext})".encode())
            _insert(rows, "lone", GOOD[table.name])
            refused = 0
            for changes in impossible(table.name):
                try:
                    with rows.transaction():
                        _insert(rows, "lone", GOOD[table.name] | changes)
                except errors.CheckViolation:
                    refused += 1
                except psycopg.Error:
                    continue  # its type refuses it before any rule is asked
            assert refused, rule.name


def test_a_reference_to_nothing_is_refused(rows: Server) -> None:
    for table, listed in PARENTS.items():
        for column in listed:
            _refused(rows, table, {column: 99_999}, errors.ForeignKeyViolation)
    for table, changes in ORPHANS:
        _refused(rows, table, changes, errors.ForeignKeyViolation)


def test_what_is_there_cannot_be_recorded_again(rows: Server) -> None:
    for table, changes in DOUBLES:
        with rows.transaction(force_rollback=True):
            _insert(rows, table, {})
            _refused(rows, table, changes, errors.UniqueViolation)


def test_lots_surfaces_and_weights_that_are_unknown_count_as_one(rows: Server) -> None:
    for code, lot in (("A", None), ("B", "T8"), ("C", "T9")):
        _insert(rows, "paint", {"code": code, "lot": lot})
    _refused(rows, "paint", {"code": "D", "lot": None}, errors.UniqueViolation, "form_lot")
    for code, surface, weight in (("A", None, None), ("B", "rough", None), ("C", None, 300.0)):
        _insert(rows, "paper", {"code": code, "surface": surface, "weight_gsm": weight})
    twice: Cells = {"code": "D", "surface": None, "weight_gsm": None}
    _refused(rows, "paper", twice, errors.UniqueViolation, "surface_weight")

"""SQLite itself refuses containers and ledger entries that cannot be; every rule is tried."""

import re
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Final

import pytest

from studio.catalogue.container import ContainerKind
from studio.catalogue.stock import StockKind, Unit, WeighedAs
from studio.storage.schema import connect

Cells = dict[str, object]

LONG: Final = "x" * 1001
TUBE: Final[Cells] = {
    "code": "SG-2", "paint_id": 1, "kind": "tube", "unit": "ml", "capacity": 14.0, "lot": "L9",
}  # fmt: skip
PAD: Final[Cells] = {
    "code": "MR-1", "paper_id": 1, "kind": "pad", "unit": "sheets", "capacity": 20.0,
}  # fmt: skip
BOUGHT: Final[Cells] = {
    "container_id": 1, "kind": "bought", "happened_on": "2026-05-04", "amount": 14.0,
    "weight_g": 25.2, "weighed_as": "full", "estimated": 0, "price_hundredths": 1180,
    "currency": "GBP", "note": "from the quay",
}  # fmt: skip
USED: Final[Cells] = {
    "container_id": 1, "kind": "used", "happened_on": "2026-05-04", "amount": 2.0, "estimated": 1,
}  # fmt: skip
POURED: Final[Cells] = USED | {"kind": "poured", "other_id": 2}
OPENED: Final[Cells] = USED | {"kind": "opened", "amount": None}
WEIGHED: Final[Cells] = USED | {"kind": "weighed", "weight_g": 20.0}

Tried = list[tuple[Cells, Cells]]
"""Possible rows, each with the cells that make it impossible."""


def _each(row: Cells, column: str, *values: object) -> Tried:
    return [(row, {column: value}) for value in values]


# rule -> what breaks it
CONTAINERS: Final[dict[str, Tried]] = {
    "of_one_thing": [(PAD, {"paper_id": None}), (TUBE, {"paper_id": 1})],
    "code_form": _each(TUBE, "code", "", "sg-2", "SG-2" + "0" * 17),
    "kind_known": _each(TUBE, "kind", "bucket", "Tube", ""),
    "unit_known": _each(PAD, "unit", "reams", "", "Sheets"),
    "unit_of_its_thing": [(TUBE, {"unit": "sheets"}), (PAD, {"unit": "ml"})],
    "capacity_known": [(TUBE, {"capacity": None}), (TUBE, {"kind": "assorted"})],
    "capacity_above_zero": _each(TUBE, "capacity", 0, -1.0, 1_000_001, float("inf"), "much"),
    "lot_says_something": _each(TUBE, "lot", "", "  ", LONG),
}

EVENTS: Final[dict[str, Tried]] = {
    "kind_known": _each(USED, "kind", "sunk", "Used", "counted"),
    "amount_where_measured": [
        (USED, {"amount": None}),
        (WEIGHED, {"amount": None}),
        (BOUGHT, {"amount": None}),
        (POURED, {"amount": None}),
        *_each(OPENED | {"amount": 1.0}, "kind", "opened", "lent", "returned"),
    ],
    "amount_in_range": [
        *_each(USED, "amount", 0, -1.0, 1_000_001, float("inf"), "much"),
        *_each(BOUGHT, "amount", 0, -0.5),
        *_each(POURED | {"amount": 0}, "kind", "poured", "refilled"),
        (USED, {"kind": "discarded", "amount": 0}),
        (WEIGHED, {"amount": -0.5}),
    ],
    "weight_g_in_range": _each(WEIGHED, "weight_g", -0.1, 1_000_001, float("inf"), "heavy"),
    "weight_if_weighed": [
        (USED, {"weight_g": 20.0}),
        (OPENED, {"weight_g": 20.0}),
        (POURED, {"weight_g": 20.0}),
        (USED, {"kind": "corrected", "weight_g": 20.0}),
    ],
    "weighed_as_known": _each(WEIGHED, "weighed_as", "half", "", "Full"),
    "mark_of_a_weight": [
        (USED, {"weighed_as": "full"}),
        (WEIGHED | {"weighed_as": "empty"}, {"weight_g": None}),
    ],
    "estimated_in_range": _each(USED, "estimated", 2, -1, "yes"),
    "other_if_poured": [(USED, {"other_id": 2}), (BOUGHT, {"other_id": 2})],
    "other_is_another": [(POURED, {"other_id": 1}), (POURED, {"kind": "refilled", "other_id": 1})],
    "price_hundredths_in_range": _each(BOUGHT, "price_hundredths", -1, 100_000_001, "dear"),
    "price_has_currency": [(BOUGHT, {"currency": None}), (BOUGHT, {"price_hundredths": None})],
    "currency_form": _each(BOUGHT, "currency", "gbp", "£", "POUND", ""),
    "note_says_something": _each(BOUGHT, "note", "", " ", LONG),
    "happened_on_is_a_day": _each(
        USED, "happened_on", "2026-13-01", "4 May", "20260504", "", 20260504
    ),
}


def _tried(rules: dict[str, Tried]) -> list[tuple[str, Cells]]:
    return [(rule, row | broken) for rule, rows in rules.items() for row, broken in rows]


@pytest.fixture(scope="module")
def database(empty_template: Path) -> Iterator[sqlite3.Connection]:
    """A studio in memory with a paint, a paper and two tubes for others to refer to."""
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as connection:
        with closing(connect(empty_template)) as template:
            template.backup(connection)
        connection.execute("PRAGMA foreign_keys = ON")
        maker = "'Saltings Colour'"
        connection.execute(
            "INSERT INTO paint (id, code, maker, name, form, status) "
            f"VALUES (1, 'SG', {maker}, 'Sea Grey', 'tube', 'in use')"
        )
        connection.execute(
            f"INSERT INTO paper (id, code, maker, name) VALUES (1, 'MR', {maker}, 'Mud Rag')"
        )
        for code in ("SG-1", "SG-3"):
            _insert(connection, "container", TUBE | {"code": code})
        yield connection


@pytest.fixture
def rows(database: sqlite3.Connection) -> Iterator[sqlite3.Connection]:
    """That studio; what a test writes is undone."""
    database.execute("BEGIN")
    yield database
    database.execute("ROLLBACK")


def _insert(connection: sqlite3.Connection, table: str, cells: Cells) -> None:
    marks = ", ".join("?" for _ in cells)
    connection.execute(
        f"INSERT INTO {table} ({', '.join(cells)}) VALUES ({marks})", tuple(cells.values())
    )


@pytest.mark.parametrize("kind", ContainerKind)
@pytest.mark.parametrize("unit", Unit)
def test_every_kind_of_container_is_possible(
    rows: sqlite3.Connection, kind: ContainerKind, unit: Unit
) -> None:
    holds = None if kind is ContainerKind.ASSORTED else 14.0
    base = TUBE if unit is Unit.ML else PAD
    _insert(rows, "container", base | {"kind": kind, "unit": unit, "capacity": holds})


@pytest.mark.parametrize("kind", StockKind)
def test_every_kind_of_entry_is_possible(rows: sqlite3.Connection, kind: StockKind) -> None:
    moved = kind in {StockKind.OPENED, StockKind.LENT, StockKind.RETURNED}
    _insert(rows, "stock_event", USED | {"kind": kind, "amount": None if moved else 2.0})


@pytest.mark.parametrize(
    "cells",
    [
        BOUGHT,
        WEIGHED | {"amount": 0, "weighed_as": "empty"},
        USED | {"kind": "corrected", "amount": 0},
        OPENED | {"kind": "discarded"},
        POURED,
        POURED | {"kind": "refilled"},
        BOUGHT | {"amount": 1_000_000, "weight_g": 1_000_000, "price_hundredths": 0},
    ],
)
def test_an_unlikely_entry_is_possible(rows: sqlite3.Connection, cells: Cells) -> None:
    _insert(rows, "stock_event", cells)


@pytest.mark.parametrize(("rule", "cells"), _tried(CONTAINERS))
def test_an_impossible_container_is_refused(
    rows: sqlite3.Connection, rule: str, cells: Cells
) -> None:
    with pytest.raises(sqlite3.IntegrityError, match=f"ck_container_{rule}"):
        _insert(rows, "container", cells)


@pytest.mark.parametrize(("rule", "cells"), _tried(EVENTS))
def test_an_impossible_entry_is_refused(rows: sqlite3.Connection, rule: str, cells: Cells) -> None:
    with pytest.raises(sqlite3.IntegrityError, match=f"ck_stock_event_{rule}"):
        _insert(rows, "stock_event", cells)


@pytest.mark.parametrize(
    ("table", "cells", "missing"),
    [
        ("container", TUBE, {"code", "kind", "unit"}),
        ("stock_event", USED, {"container_id", "kind", "happened_on", "estimated"}),
    ],
)
def test_a_needed_cell_must_be_there(
    rows: sqlite3.Connection, table: str, cells: Cells, missing: set[str]
) -> None:
    needed = {row[1] for row in rows.execute(f"PRAGMA table_info({table})") if row[3]} - {"id"}
    assert needed == missing
    for column in needed:
        with pytest.raises(sqlite3.IntegrityError, match=rf"NOT NULL.*{table}\.{column}"):
            _insert(rows, table, cells | {column: None})


@pytest.mark.parametrize(
    ("table", "cells"),
    [
        ("container", TUBE | {"paint_id": 99}),
        ("container", PAD | {"paper_id": 99}),
        ("stock_event", USED | {"container_id": 99}),
        ("stock_event", POURED | {"other_id": 99}),
    ],
)
def test_what_it_refers_to_must_be_there(
    rows: sqlite3.Connection, table: str, cells: Cells
) -> None:
    with pytest.raises(sqlite3.IntegrityError, match="FOREIGN KEY"):
        _insert(rows, table, cells)


def test_a_code_names_one_container(rows: sqlite3.Connection) -> None:
    with pytest.raises(sqlite3.IntegrityError, match=r"UNIQUE.*container\.code"):
        _insert(rows, "container", TUBE | {"code": "SG-1"})


def test_what_has_a_ledger_cannot_go(rows: sqlite3.Connection) -> None:
    _insert(rows, "stock_event", USED)
    for table in ("container", "paint"):
        with pytest.raises(sqlite3.IntegrityError, match="FOREIGN KEY"):
            rows.execute(f"DELETE FROM {table} WHERE id = 1")


@pytest.mark.parametrize(("table", "rules"), [("container", CONTAINERS), ("stock_event", EVENTS)])
def test_every_rule_of_the_table_was_tried(
    database: sqlite3.Connection, table: str, rules: dict[str, object]
) -> None:
    (sql,) = database.execute("SELECT sql FROM sqlite_master WHERE name = ?", (table,)).fetchone()
    assert set(re.findall(rf"ck_{table}_(\w+)", sql)) == set(rules)
    assert {*WeighedAs} == {"full", "empty"}

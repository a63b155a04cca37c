"""Studios to be killed, damaged and carried over, and what stands in them."""

import hashlib
import random
import sqlite3
from contextlib import closing
from functools import cache
from pathlib import Path
from typing import Final

from studio.actions.check_database import expected_definitions
from studio.actions.check_records import check_records
from studio.cli.app import main
from studio.storage.migrate import build
from studio.storage.schema import HEAD, connect, revision_of
from studio.storage.sqlite_copy import problems
from studio.storage.sqlite_schema import Definitions, definitions, schema_differences
from studio.storage.unit_of_work import UnitOfWork
from tests.storage.old_studio import fill

SHELF: Final = (
    ("paint", "add", "French Ultramarine", "--maker", "Pellow & Strand", "--pigments", "PB29",
     "--volume", "14"),
    ("paint", "add", "Burnt Sienna", "--maker", "Pellow & Strand", "--pigments", "PBr7",
     "--volume", "14"),
    ("paper", "add", "Slipway Rag", "--maker", "Eddering Mill", "--weight", "140lb", "--surface",
     "rough", "--sheets", "10"),
    ("swatch", "log", "2 FU + 1 BS", "--lab", "41,2,-12", "--water", "3:1"),
    ("swatch", "log", "1 FU + 1 BS", "--lab", "38,5,-3", "--kept", "box 1, row 2"),
    ("swatch", "read", "S1", "--lab", "41.5,2.2,-11.5"),
)  # fmt: skip
"""What is recorded before anything is killed."""

_CLOCKS: Final = {"happened_at"}


def made_by_commands(path: Path, lines: tuple[tuple[str, ...], ...] = SHELF) -> Path:
    """A studio made by command lines.

    Raises:
        RuntimeError: one of them failed.
    """
    for words in lines:
        status = main(["--db", str(path), *words])
        if status:
            msg = f"{' '.join(words)} ended with {status}"
            raise RuntimeError(msg)
    return path


def made_by_the_first_release(path: Path) -> Path:
    """A studio at the first schema, with forty ledgers."""
    build(path, "0001")
    with closing(connect(path)) as connection:
        connection.execute("BEGIN")
        fill(connection)
        connection.execute("COMMIT")
    return path


def table_of_swatches(path: Path, rows: int) -> Path:
    """A CSV table of swatches of two paints, each with a reading; half of the recipes are new."""
    chance = random.Random(rows)  # noqa: S311 - a plan of tests, always the same
    lines = ["recipe,paper,water,lab_l,lab_a,lab_b,made_on,kept_at"]
    for number in range(rows):
        lab = ",".join(f"{chance.uniform(low, high):.2f}" for low, high in SPAN)
        lines.append(
            f"{chance.randrange(1, 9)} FU + {chance.randrange(1, 9)} BS,SR,{number % 7},{lab},"
            f"2026-05-04,box {number}"
        )
    path.write_text("\n".join(lines) + "\n")
    return path


SPAN: Final = ((20.0, 90.0), (-8.0, 30.0), (-40.0, 30.0))
"""L*, a* and b* of swatches that are made up."""


def content(path: Path) -> str:
    """A digest of every row of every table, the history with them; only the clock is left out."""
    try:
        return _digest(path)
    except sqlite3.Error as error:
        return f"cannot be read: {error}"


def _digest(path: Path) -> str:
    digest = hashlib.sha256()
    with closing(connect(path)) as connection:
        tables = connection.execute(
            "SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name"
        ).fetchall()
        for (table,) in tables:
            columns = [row[1] for row in connection.execute(f"PRAGMA table_info({table})")]
            kept = ", ".join(f'"{name}"' for name in columns if name not in _CLOCKS)
            digest.update(f"{table} {kept}".encode())
            order = ", ".join(str(place) for place in range(1, kept.count(",") + 2))
            for row in connection.execute(f"SELECT {kept} FROM {table} ORDER BY {order}"):
                digest.update(repr(row).encode())
    return digest.hexdigest()


def damage_of(path: Path) -> list[str]:
    """What SQLite's own check finds."""
    try:
        with closing(connect(path)) as connection:
            return problems(connection)
    except (sqlite3.Error, OSError) as error:
        return [f"it does not open: {error}"]


def faults_of(path: Path) -> list[str]:
    """What SQLite's check and `studio db check` would find; the schema is built once for all."""
    found = damage_of(path)
    if found or revision_of(path) != HEAD:
        return found
    with closing(connect(path)) as connection:
        there = definitions(connection)
    with UnitOfWork(path) as work:
        records = [fault.text for fault in check_records(work)]
    return [*schema_differences(there, _expected()), *records]


@cache
def _expected() -> Definitions:
    return expected_definitions()

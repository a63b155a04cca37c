"""The keys of new rows, and the mark of removed ones."""

from typing import Any

from sqlalchemy import Connection, CursorResult, Integer, RowMapping, Table, cast, func, select

from studio.catalogue.removal import Removal


def inserted_key(result: CursorResult[Any]) -> int:
    """The integer primary key of a one-row INSERT."""
    key = result.inserted_primary_key
    assert key is not None  # noqa: S101 - every INSERT of one row into these tables has a key
    return int(key[0])


def next_code(connection: Connection, table: Table, letter: str) -> str:
    """The code after the highest of a series such as S1, S2, … in a table's `code` column."""
    number = cast(func.substr(table.c.code, 2), Integer)
    highest = connection.execute(
        select(func.max(number)).where(func.substr(table.c.code, 1, 1) == letter)
    ).scalar_one()
    return f"{letter}{(highest or 0) + 1}"


def removal_of(row: RowMapping) -> Removal | None:
    """The mark of a row of swatches, readings or targets; None where it was not removed."""
    if row["removed_on"] is None:
        return None
    return Removal(row["removed_on"], row["removed_because"])


def marked(removal: Removal | None) -> dict[str, object]:
    """The cells of a mark; None restores."""
    return {
        "removed_on": removal.on if removal else None,
        "removed_because": removal.because if removal else None,
    }

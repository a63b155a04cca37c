"""The keys of new rows, and the mark of removed ones."""

from collections.abc import Iterable, Iterator
from itertools import islice
from typing import Any, Final

from sqlalchemy import (
    BigInteger,
    Connection,
    CursorResult,
    RowMapping,
    Table,
    case,
    cast,
    func,
    select,
)

from studio.catalogue.removal import Removal


def inserted_key(result: CursorResult[Any]) -> int:
    """The integer primary key of a one-row INSERT."""
    key = result.inserted_primary_key
    assert key is not None  # noqa: S101 - every INSERT of one row into these tables has a key
    return int(key[0])


def next_code(connection: Connection, table: Table, letter: str) -> str:
    """The code after the highest of a series such as S1, S2, … in a table's `code` column."""
    rest = func.substr(table.c.code, 2)
    # SQLite's cast takes the digits that a text begins with; a server wants nothing but digits.
    digits = func.length(rest) - func.length(func.ltrim(rest, "0123456789"))
    number = case((digits > 0, cast(func.substr(rest, 1, digits), BigInteger)))
    highest = connection.execute(
        select(func.max(number)).where(func.substr(table.c.code, 1, 1) == letter)
    ).scalar_one()
    return f"{letter}{(highest or 0) + 1}"


AT_ONCE: Final = 1000
"""So many values stand in one IN list, and so many rows in one INSERT."""


def keys_of(
    connection: Connection, table: Table, column: str, texts: Iterable[str]
) -> dict[str, int]:
    """The ids of the rows whose column is one of some texts, by that text."""
    wanted = iter(dict.fromkeys(texts))
    found: dict[str, int] = {}
    for part in _parts(wanted):
        statement = select(table.c[column], table.c.id).where(table.c[column].in_(part))
        found |= dict(map(tuple, connection.execute(statement)))
    return found


def _parts(texts: Iterator[str]) -> Iterator[list[str]]:
    while part := list(islice(texts, AT_ONCE)):
        yield part


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

"""The keys of rows: of new ones, of those that have some texts, and the next code of a series."""

from collections.abc import Iterable, Iterator
from itertools import islice
from typing import Any, Final

from sqlalchemy import (
    BigInteger,
    Connection,
    CursorResult,
    Table,
    case,
    cast,
    func,
    select,
)


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

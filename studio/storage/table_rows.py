r"""Every table as rows of plain text and back, exact to the last bit, whatever database holds it.

Numbers are written as Python's `repr` has them (the shortest digits that give the same double),
days as ISO 8601, NULL as \N; a text that begins with a backslash gets one more before it. What is
stored as bytes is handed out beside the rows.
"""

import warnings
from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import date, datetime
from typing import Any, Final

from sqlalchemy import (
    Column,
    Connection,
    Date,
    DateTime,
    Float,
    Integer,
    LargeBinary,
    MetaData,
    Table,
    delete,
    func,
    insert,
    select,
    update,
)

from studio.storage import tables as t

DERIVED: Final = frozenset({"characterisation"})
"""Tables that hold only what is computed from the others, anew where it is missing."""

NULL: Final = "\\N"

_BATCH: Final = 500

KeepBytes = Callable[[bytes, str | None], str]
"""Takes the bytes of a cell and the name of its row, and gives the text that stands for them."""

FindBytes = Callable[[str], bytes]
"""Gives the bytes for the text that stands for them."""


def kept_tables(metadata: MetaData = t.metadata) -> list[Table]:
    """The tables that make up a studio, each after those that it refers to."""
    return [table for table in metadata.sorted_tables if table.name not in DERIVED]


def reflected(connection: Connection) -> MetaData:
    """The tables that a database of an earlier revision has."""
    found = MetaData()
    names = {"alembic_version", *DERIVED}
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of indexes on expressions, which are not asked for
        found.reflect(connection, only=lambda name, _: name not in names)
    return found


def rows_of(connection: Connection, table: Table, keep_bytes: KeepBytes) -> Iterator[list[str]]:
    """The rows of a table as text, in the order of its key.

    Args:
        connection: a transaction, so that all tables are of one moment.
        table: the table.
        keep_bytes: what to do with bytes.
    """
    names = [column.name for column in table.columns]
    writers = [_writer(column) for column in table.columns]
    named = names.index("name") if "name" in names else None
    statement = select(table).order_by(*table.primary_key.columns)
    for row in connection.execute(statement).yield_per(_BATCH):
        name = row[named] if named is not None else None
        yield [
            NULL
            if value is None
            else keep_bytes(value, name)
            if isinstance(value, bytes)
            else write(value)
            for write, value in zip(writers, row, strict=True)
        ]


def values_of(table: Table, cells: Sequence[str], find_bytes: FindBytes) -> dict[str, Any]:
    """The values of a row of text.

    Raises:
        ValueError: a cell is not what its column holds, or there are too many or too few.
    """
    if len(cells) != len(table.columns):
        msg = f"it has {len(cells)} cells, and the table {len(table.columns)}"
        raise ValueError(msg)
    values = {}
    for column, cell in zip(table.columns, cells, strict=True):
        try:
            values[column.name] = None if cell == NULL else _reader(column, find_bytes)(cell)
        except ValueError as error:
            msg = f"{column.name} is {cell[:40]!r}: {error}"
            raise ValueError(msg) from None
    return values


def empty_all(connection: Connection, tables: Sequence[Table]) -> None:
    """Remove every row of some tables, those first that refer to others."""
    for table in reversed(tables):
        connection.execute(delete(table))


def add_rows(connection: Connection, table: Table, rows: Iterable[dict[str, Any]]) -> int:
    """Insert rows with their own keys, which rise; how many there were.

    A row may refer to a later one of its own table.
    """
    loops = _own_references(table)
    key = next(iter(table.primary_key.columns))
    later: list[tuple[Any, dict[str, Any]]] = []
    batch: list[dict[str, Any]] = []
    count = 0
    for row in rows:
        own = row[key.name]
        references = {
            name: row[name] for name in loops if row[name] is not None and row[name] > own
        }
        if references:
            later.append((own, references))
        batch.append(row | dict.fromkeys(references))
        count += 1
        if len(batch) == _BATCH:
            connection.execute(insert(table), batch)
            batch = []
    if batch:
        connection.execute(insert(table), batch)
    for identity, references in later:
        connection.execute(update(table).where(key == identity).values(references))
    return count


def count_of(connection: Connection, table: Table) -> int:
    """How many rows a table has."""
    return connection.execute(select(func.count()).select_from(table)).scalar_one()


def kind_of(column: Column[Any]) -> str:
    """What a column holds, in words."""
    for kind, words in _WORDS.items():
        if isinstance(column.type, kind):
            return words
    return "text"


def _own_references(table: Table) -> list[str]:
    return [key.parent.name for key in table.foreign_keys if key.column.table.name == table.name]


_WORDS: Final = {
    DateTime: "moment",
    Date: "day",
    Float: "number",
    Integer: "whole number",
    LargeBinary: "name of a file",
}


def _writer(column: Column[Any]) -> Callable[[Any], str]:
    if isinstance(column.type, (Date, DateTime)):
        return lambda value: str(value.isoformat())
    if isinstance(column.type, Float):
        return lambda value: repr(float(value))
    if isinstance(column.type, Integer):
        return lambda value: str(int(value))
    return _escaped


def _escaped(value: Any) -> str:  # noqa: ANN401 - a text column of SQLite may hold what it likes
    text = str(value)
    return "\\" + text if text.startswith("\\") else text


def _reader(column: Column[Any], find_bytes: FindBytes) -> Callable[[str], Any]:
    for kind, read in _READERS.items():
        if isinstance(column.type, kind):
            return read
    if isinstance(column.type, LargeBinary):
        return find_bytes
    return lambda cell: cell.removeprefix("\\")


def _whole(cell: str) -> int:
    number = int(cell)
    if str(number) != cell:
        msg = "a whole number is written with digits alone"
        raise ValueError(msg)
    return number


_READERS: Final[dict[type, Callable[[str], Any]]] = {
    DateTime: datetime.fromisoformat,
    Date: date.fromisoformat,
    Float: float,
    Integer: _whole,
}

"""Many rows by few statements, as the import of a long table adds them.

Core hands one row after the other to the driver, which takes as long as writing it, and SQLite
sets up anew for each what a CHECK compares with. Here a statement has as many rows as it may have
values.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date
from enum import StrEnum
from itertools import chain, islice
from operator import itemgetter
from typing import Any, Final, NamedTuple

from sqlalchemy import Column, Connection, ExecutionContext, Table, func, select

_VALUES: Final = 30_000
"""SQLite takes 32,766 in a statement, a server twice as many."""
_OPTION: Final = "studio_added"


class AddedRows(NamedTuple):
    """What a statement adds to a table."""

    table: Table
    rows: Sequence[Mapping[str, Any]]


def insert_many(
    connection: Connection, table: Table, rows: Iterable[Mapping[str, Any]]
) -> Sequence[int]:
    """Add rows, all of the same columns and none with an id of its own.

    Returns:
        The ids that they took, in their order; none where the table has another key.
    """
    rows = iter(rows)
    first = next(rows, None)
    if first is None:
        return ()
    rows = chain((first,), rows)
    names = tuple(first)
    cells_of = itemgetter(*names)
    preparer = connection.dialect.identifier_preparer
    sign = "?" if connection.dialect.paramstyle == "qmark" else "%s"
    ids: list[int] = []
    while some := list(islice(rows, _VALUES // len(names))):
        columns = dict(zip(names, zip(*map(cells_of, some), strict=True), strict=True))
        # What none of them has is not handed over either.
        held = {name: cells for name, cells in columns.items() if cells.count(None) < len(cells)}
        written = [_written(connection, table.c[name], cells) for name, cells in held.items()]
        of = f"{qualified(connection, table.name)} ({','.join(map(preparer.quote, held))})"
        row = f"({','.join(sign for _ in held)})"
        connection.exec_driver_sql(
            f"INSERT INTO {of} VALUES {','.join(row for _ in some)}",  # noqa: S608  # nosec B608
            tuple(chain.from_iterable(zip(*written, strict=True))),
            execution_options={_OPTION: AddedRows(table, some)},
        )
        if "id" in table.c:
            last = highest_id(connection, table)
            ids += range(last - len(some) + 1, last + 1)
    return ids


def qualified(connection: Connection, table: str) -> str:
    """The name of a table as a statement written by hand needs it."""
    quote = connection.dialect.identifier_preparer.quote
    schemas = connection.get_execution_options().get("schema_translate_map") or {}
    schema = schemas.get(None)
    return quote(table) if schema is None else f"{quote(schema)}.{quote(table)}"


def added_by(context: ExecutionContext) -> AddedRows | None:
    """What a statement added, were it one of `insert_many`."""
    added: AddedRows | None = context.execution_options.get(_OPTION)
    return added


def highest_id(connection: Connection, table: Table) -> int:
    """The highest id of a table's rows, 0 where there is none.

    Nobody else writes meanwhile, so the ids of rows that one statement added rise by one to it.
    """
    return int(connection.execute(select(func.coalesce(func.max(table.c.id), 0))).scalar_one())


def _written(connection: Connection, column: Column[Any], cells: Sequence[Any]) -> Sequence[Any]:
    """The cells of a column as the driver takes them."""
    process: Callable[[Any], Any] | None = (
        _plain
        if isinstance(cells[0], StrEnum)  # SQLite's driver takes long to see that it is a text
        else column.type.dialect_impl(connection.dialect).bind_processor(connection.dialect)
    )
    if process is None:
        return cells
    if isinstance(cells[0], date | StrEnum):  # few, and each many times
        process = {cell: process(cell) for cell in set(cells)}.__getitem__
    return tuple(map(process, cells))


def _plain(word: StrEnum | None) -> str | None:
    return None if word is None else word.value

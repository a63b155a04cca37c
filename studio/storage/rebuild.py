"""A table that a migration makes anew under the same name; imported by migrations alone."""

import re
from collections.abc import Collection, Iterator, Mapping
from contextlib import contextmanager

from sqlalchemy import Connection


@contextmanager
def made_anew(connection: Connection, table: str) -> Iterator[None]:
    """Lets a new table take over the name of an old one inside the block.

    SQLite needs nothing of it: its foreign keys are off meanwhile, and its names of keys are the
    table's own. On a server the old table gives up the names of its indexes and of the sequence of
    its ids, and what refers to it refers to the new one afterwards.

    Args:
        connection: the migration's own.
        table: the table; after the block one of that name is there, with the rows it shall have.
    """
    if connection.dialect.name != "postgresql":
        yield
        return
    references = connection.exec_driver_sql(
        "SELECT conrelid::regclass, conname, pg_get_constraintdef(oid) FROM pg_constraint "
        "WHERE contype = 'f' AND confrelid = %s::regclass AND conrelid <> confrelid "
        "ORDER BY conname",
        (table,),
    ).fetchall()
    for child, name, _ in references:
        connection.exec_driver_sql(f"ALTER TABLE {child} DROP CONSTRAINT {name}")
    indexes = connection.exec_driver_sql(
        "SELECT indexrelid::regclass FROM pg_index WHERE indrelid = %s::regclass", (table,)
    ).fetchall()
    for (name,) in indexes:
        connection.exec_driver_sql(f"ALTER INDEX {name} RENAME TO {name}_old")
    _rename_sequence(connection, table, f"{table}_id_seq_old")
    yield
    for child, name, definition in references:
        connection.exec_driver_sql(f"ALTER TABLE {child} ADD CONSTRAINT {name} {definition}")
    _rename_sequence(connection, table, f"{table}_id_seq")
    connection.exec_driver_sql(
        f"SELECT setval('{table}_id_seq', coalesce(max(id), 1), max(id) IS NOT NULL) FROM {table}"  # noqa: S608  # nosec B608
    )


def _rename_sequence(connection: Connection, table: str, name: str) -> None:
    sequence = connection.exec_driver_sql(
        "SELECT pg_get_serial_sequence(%s, 'id')::regclass", (table,)
    ).scalar_one()
    if sequence != name:
        connection.exec_driver_sql(f"ALTER SEQUENCE {sequence} RENAME TO {name}")


def with_columns(  # noqa: PLR0913 - a table before and after
    connection: Connection,
    table: str,
    columns: Mapping[str, str],
    checks: Mapping[str, str],
    *,
    filled: Mapping[str, str] | None = None,
    keys: Mapping[str, str] | None = None,
    without: Collection[str] = (),
) -> None:
    """Give a table of SQLite more columns with rules, for it adds rules to new tables only.

    The new table is made from the definition that stands in the database, whatever revisions before
    gave it, and takes over rows, indexes and triggers.

    Args:
        connection: the migration's own.
        table: the table.
        columns: the new columns, each with its type and whether it may be NULL.
        checks: the new rules by name.
        keys: columns that are unique together, by the name of the rule.
        filled: what new columns hold in the rows that are there, in SQL; NULL by itself.
        without: lines of the definition that go.
    """
    made = connection.exec_driver_sql(
        "SELECT sql FROM sqlite_master WHERE type = 'table' AND name = ?", (table,)
    ).scalar_one()
    beside = connection.exec_driver_sql(
        "SELECT sql FROM sqlite_master WHERE type != 'table' AND tbl_name = ?", (table,)
    ).scalars()
    again = [sql for sql in beside if sql is not None]
    there = [row.name for row in connection.exec_driver_sql(f"PRAGMA table_info({table})")]
    head, rest = made.split("(", 1)
    inside = rest.rsplit(")", 1)[0].strip()
    lines = [line.strip(" ,\t") for line in inside.splitlines()]
    kept = [line for line in lines if line not in without]
    first = next(index for index, line in enumerate(kept) if line.startswith("CONSTRAINT"))
    new = [
        *(f"{name} {kind}" for name, kind in columns.items()),
        *(f"CONSTRAINT {name} CHECK ({rule})" for name, rule in checks.items()),
        *(f"CONSTRAINT {name} UNIQUE ({unique})" for name, unique in (keys or {}).items()),
    ]
    definition = ", \n\t".join([*kept[:first], *new, *kept[first:]])
    named = re.sub(rf'"?{table}"?\s*$', f"{table}_new ", head)
    connection.exec_driver_sql(f"{named}(\n\t{definition}\n)")
    values = {name: name for name in there} | dict(filled or {})
    connection.exec_driver_sql(
        f"INSERT INTO {table}_new ({', '.join(values)}) "  # noqa: S608  # nosec B608
        f"SELECT {', '.join(values.values())} FROM {table}"
    )
    connection.exec_driver_sql(f"DROP TABLE {table}")
    connection.exec_driver_sql(f"ALTER TABLE {table}_new RENAME TO {table}")
    for sql in again:
        connection.exec_driver_sql(sql)

"""A table that a migration makes anew under the same name; imported by migrations alone."""

from collections.abc import Iterator
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

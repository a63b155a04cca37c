"""Making and upgrading a studio's database with Alembic; the only importer of Alembic."""

import tempfile
from collections.abc import Callable
from contextlib import closing
from datetime import datetime
from functools import cache
from pathlib import Path

from alembic import command
from alembic.config import Config
from sqlalchemy import Connection, NullPool, create_engine, event

from studio.errors import DatabaseTrouble
from studio.storage.address import ServerAddress
from studio.storage.pigments import Pigments
from studio.storage.schema import APPLICATION_ID, HEAD, connect, revision_of
from studio.storage.server import MARK, building, revision_on
from studio.storage.shipped import shipped_folder
from studio.storage.sqlite_backup import back_up
from studio.storage.sqlite_file import settle_journal, take_name
from studio.storage.sqlite_schema import Definitions, definitions, refuse_other_than
from studio.storage.trouble import in_plain_words
from studio.storage.unit_of_work import UnitOfWork

Refresh = Callable[[Pigments], None]
"""Brings the pigment reference of a database in line with the one that ships."""


def build(path: Path, revision: str | None = None) -> None:
    """An empty studio database in a new file.

    Args:
        path: where it is to be.
        revision: the schema it is to have, the newest unless one is named.

    Raises:
        DatabaseTrouble: the file cannot be made.
    """
    with in_plain_words(path):
        path.touch(mode=0o600, exist_ok=False)
        to_head(path, revision)
        settle_journal(path)


@cache
def schema_at(revision: str) -> Definitions:
    """The schema that a database built now has at a revision."""
    with tempfile.TemporaryDirectory() as folder:
        fresh = Path(folder, "fresh.sqlite3")
        build(fresh, revision)
        with closing(connect(fresh)) as connection:
            return definitions(connection)


def refuse_other_schema(path: Path, named: Path) -> None:
    """Holds a database to the schema of its own revision.

    Args:
        path: the database, at whatever revision.
        named: what to call it.

    Raises:
        DatabaseTrouble: it holds what no studio makes.
    """
    with in_plain_words(path), closing(connect(path)) as connection:
        refuse_other_than(definitions(connection), schema_at(revision_of(path)), named)


def put_in_place(built: Path, path: Path) -> None:
    """Gives a finished database its name; an existing file is never replaced.

    Raises:
        DatabaseTrouble: there is a file of that name by now.
    """
    with in_plain_words(path):
        take_name(built, path)


def upgrade(path: Path, now: datetime, refresh: Refresh | None = None) -> Path:
    """Brings an older database to this program's schema, after a verified backup.

    Args:
        path: the database.
        now: the moment, for the backup's name.
        refresh: brings its pigment reference in line, in the same transaction.

    Returns:
        The backup.

    Raises:
        DatabaseTrouble: backup or upgrade failed; the database is as it was.
    """
    with in_plain_words(path):
        refuse_other_schema(path, path)
        backup = back_up(path, now, why=f"before-upgrade-from-{revision_of(path)}")
        to_head(path, refresh=refresh)
        # The first versions kept no log; a studio that is only looked at would go on without one.
        settle_journal(path)
    return backup.path


def build_on_server(work: UnitOfWork, address: ServerAddress) -> None:
    """The tables of an empty database on a server, in the transaction of a unit that writes.

    Raises:
        DatabaseTrouble: another command began a studio there meanwhile, or the server refuses.
    """
    if revision_on(address) is not None:
        msg = f"there is a studio at {address} by now; run the command again"
        raise DatabaseTrouble(msg)
    with in_plain_words(address):
        _run_revisions(work.connection)


def upgrade_on_server(address: ServerAddress, refresh: Refresh | None = None) -> None:
    """Brings an older database on a server to this program's schema, whole or not at all.

    Args:
        address: the database.
        refresh: brings its pigment reference in line, in the same transaction.

    Raises:
        DatabaseTrouble: the upgrade failed; the database is as it was.
    """
    with UnitOfWork(address, write=True, in_history=False) as work:
        _run_revisions(work.connection)
        if refresh is not None:
            refresh(work.pigments)
        work.commit()


def to_head(path: Path, revision: str | None = None, *, refresh: Refresh | None = None) -> None:
    """Runs the missing revisions in one transaction, foreign keys off while tables are rebuilt.

    Args:
        path: the database.
        revision: the one to come to, the newest unless one is named.
        refresh: brings the pigment reference of the newest in line, in the same transaction.

    Raises:
        DatabaseTrouble: references of it are broken.
    """
    engine = create_engine("sqlite://", creator=lambda: connect(path), poolclass=NullPool)
    event.listen(engine, "begin", lambda connection: connection.exec_driver_sql("BEGIN EXCLUSIVE"))
    event.listen(
        engine,
        "connect",
        # A rebuilt table would take its child rows along (SQLite's default is off, but no promise).
        lambda connection, _record: connection.execute("PRAGMA foreign_keys = OFF"),
    )
    with engine.connect() as connection, connection.begin():
        _run_revisions(connection, revision)
        if refresh is not None:
            refresh(Pigments(connection))
        dangling = connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall()
        if dangling:
            msg = f"{path} has {len(dangling)} broken references and was not upgraded"
            raise DatabaseTrouble(msg)


def _run_revisions(connection: Connection, revision: str | None = None) -> None:
    """Runs the missing revisions in an open transaction, and marks the database as a studio's."""
    config = Config()
    config.set_main_option("script_location", str(shipped_folder("migrations")).replace("%", "%%"))
    config.attributes["connection"] = connection
    if connection.dialect.name != "postgresql":
        command.upgrade(config, revision or HEAD)
        connection.exec_driver_sql(f"PRAGMA application_id = {APPLICATION_ID}")
        return
    import studio.storage.server_types  # noqa: F401, PLC0415 - columns as a server makes them

    connection.exec_driver_sql("SET LOCAL statement_timeout = 0")
    with building(connection):
        command.upgrade(config, revision or HEAD)
        connection.exec_driver_sql(f"COMMENT ON TABLE alembic_version IS '{MARK}'")

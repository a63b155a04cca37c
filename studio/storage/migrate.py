"""Making and upgrading a studio's database with Alembic; the only importer of Alembic."""

import os
import sqlite3
from contextlib import closing
from datetime import datetime
from pathlib import Path

from alembic import command
from alembic.config import Config
from sqlalchemy import Connection, NullPool, create_engine, event

from studio.errors import DatabaseTrouble
from studio.storage.address import ServerAddress
from studio.storage.schema import APPLICATION_ID, HEAD, connect, revision_of
from studio.storage.server import MARK, revision_on
from studio.storage.shipped import shipped_folder
from studio.storage.trouble import in_plain_words
from studio.storage.unit_of_work import UnitOfWork


def build(path: Path) -> None:
    """An empty studio database in a new file.

    Raises:
        DatabaseTrouble: the file cannot be made.
    """
    with in_plain_words(path):
        path.touch(mode=0o600, exist_ok=False)
        _to_head(path)


def put_in_place(built: Path, path: Path) -> None:
    """Gives a finished database its name; an existing file is never replaced.

    Raises:
        DatabaseTrouble: there is a file of that name by now.
    """
    with in_plain_words(path):
        try:
            os.link(built, path)
        except FileExistsError:
            raise
        except OSError:  # a file system without hard links
            if path.exists():
                raise FileExistsError from None
            built.rename(path)
        else:
            built.unlink()


def upgrade(path: Path, now: datetime) -> Path:
    """Brings an older database to this program's schema, after a verified backup beside it.

    Args:
        path: the database.
        now: the moment, for the backup's name.

    Returns:
        The backup.

    Raises:
        DatabaseTrouble: backup or upgrade failed; the database is as it was.
    """
    with in_plain_words(path):
        backup = path.with_name(
            f"{path.name}.before-{HEAD}-from-{revision_of(path)}-{now:%Y%m%dT%H%M%S}"
        )
        copy(path, backup)
        _to_head(path)
    return backup


def copy(path: Path, target: Path) -> None:
    """A copy of a database by SQLite's online backup, checked before it counts.

    Raises:
        DatabaseTrouble: the copy cannot be made or does not pass SQLite's check.
    """
    with in_plain_words(target):
        target.touch(mode=0o600, exist_ok=False)
    try:
        with (
            in_plain_words(path),
            closing(connect(path)) as source,
            closing(connect(target)) as copied,
        ):
            source.backup(copied)
            faults = problems(copied)
    except BaseException:
        target.unlink()
        raise
    if faults:
        target.unlink()
        msg = f"{path} is damaged ({faults[0]}); it was left as it is"
        raise DatabaseTrouble(msg)


def problems(connection: sqlite3.Connection) -> list[str]:
    """What SQLite's own checks find: damaged pages, broken CHECKs, dangling foreign keys."""
    found = [str(row[0]) for row in connection.execute("PRAGMA integrity_check")]
    faults = [] if found == ["ok"] else found
    for table, row, parent, _ in connection.execute("PRAGMA foreign_key_check"):
        faults.append(f"{table} {row} refers to a missing {parent}")
    return faults


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


def upgrade_on_server(address: ServerAddress) -> None:
    """Brings an older database on a server to this program's schema, whole or not at all.

    Raises:
        DatabaseTrouble: the upgrade failed; the database is as it was.
    """
    with UnitOfWork(address, write=True) as work:
        _run_revisions(work.connection)
        work.commit()


def _to_head(path: Path) -> None:
    """Runs the missing revisions in one transaction, foreign keys off while tables are rebuilt."""
    engine = create_engine("sqlite://", creator=lambda: connect(path), poolclass=NullPool)
    event.listen(engine, "begin", lambda connection: connection.exec_driver_sql("BEGIN EXCLUSIVE"))
    event.listen(
        engine,
        "connect",
        # A rebuilt table would take its child rows along (SQLite's default is off, but no promise).
        lambda connection, _record: connection.execute("PRAGMA foreign_keys = OFF"),
    )
    with engine.connect() as connection, connection.begin():
        _run_revisions(connection)
        dangling = connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall()
        if dangling:
            msg = f"{path} has {len(dangling)} broken references and was not upgraded"
            raise DatabaseTrouble(msg)


def _run_revisions(connection: Connection) -> None:
    """Runs the missing revisions in an open transaction, and marks the database as a studio's."""
    on_server = connection.dialect.name == "postgresql"
    if on_server:
        import studio.storage.server_types  # noqa: F401, PLC0415 - columns as a server makes them

        connection.exec_driver_sql("SET LOCAL statement_timeout = 0")
    config = Config()
    config.set_main_option("script_location", str(shipped_folder("migrations")).replace("%", "%%"))
    config.attributes["connection"] = connection
    command.upgrade(config, HEAD)
    connection.exec_driver_sql(
        f"COMMENT ON TABLE alembic_version IS '{MARK}'"
        if on_server
        else f"PRAGMA application_id = {APPLICATION_ID}"
    )

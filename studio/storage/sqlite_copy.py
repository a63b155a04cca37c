"""Exact copies of a database by SQLite's online backup, checked, while others read and write it."""

import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Final

from studio.errors import DatabaseTrouble
from studio.storage.schema import APPLICATION_ID, HEAD, connect
from studio.storage.sqlite_file import SIDES, beside, make_lasting
from studio.storage.sqlite_patience import stop_when_busy
from studio.storage.sqlite_schema import refuse_strange
from studio.storage.trouble import in_plain_words

_OF_THE_TARGET: Final = {
    sqlite3.SQLITE_FULL,
    sqlite3.SQLITE_IOERR,
    sqlite3.SQLITE_READONLY,
    sqlite3.SQLITE_CANTOPEN,
}


def copy(path: Path, target: Path) -> None:
    """A copy of a studio's database in a new file, checked before it counts.

    Raises:
        DatabaseTrouble: the copy cannot be made, does not pass SQLite's check or holds what no
            studio makes; there is none.
    """
    with in_plain_words(target):
        target.touch(mode=0o600, exist_ok=False)
    try:
        copy_into(path, target)
        with in_plain_words(target), closing(connect(target)) as copied:
            (application,) = copied.execute("PRAGMA application_id").fetchone()
            _refuse(path, problems(copied), application)
            if copied.execute("SELECT version_num FROM alembic_version").fetchall() == [(HEAD,)]:
                refuse_strange(copied, path)
        with in_plain_words(target):
            make_lasting(target)
    except BaseException:
        target.unlink(missing_ok=True)
        for side in SIDES:
            beside(target, side).unlink(missing_ok=True)
        raise


def _refuse(path: Path, faults: list[str], application: int) -> None:
    if faults:
        msg = f"{path} is damaged ({faults[0]}); it was left as it is"
        raise DatabaseTrouble(msg)
    if application != APPLICATION_ID:
        msg = f"{path} is not a studio's database; it was left as it is"
        raise DatabaseTrouble(msg)


def copy_into(path: Path, target: Path) -> None:
    """Every page of a database into an existing empty file, in one transaction, unchecked.

    The copy needs no file beside it, so that it can be carried elsewhere.

    Raises:
        DatabaseTrouble: one of them cannot be read or written.
    """
    with in_plain_words(path), closing(connect(path)) as source:
        source.execute("SELECT count(*) FROM sqlite_master").fetchone()
        with closing(connect(target)) as copied:
            try:
                source.backup(copied, progress=stop_when_busy)
                copied.execute("PRAGMA journal_mode = DELETE")
            except sqlite3.Error as error:
                code = getattr(error, "sqlite_errorcode", None)
                if code is None or (code & 0xFF) not in _OF_THE_TARGET:
                    raise
                with in_plain_words(target):
                    raise


def problems(connection: sqlite3.Connection) -> list[str]:
    """What SQLite's own checks find: damaged pages, broken CHECKs, dangling foreign keys.

    One line each: SQLite puts what it finds in the tree of pages below a heading, in one row.
    """
    rows = [str(row[0]) for row in connection.execute("PRAGMA integrity_check")]
    found = [line for row in rows for line in row.splitlines() if not line.startswith("***")]
    faults = [] if found == ["ok"] else found
    for table, row, parent, _ in connection.execute("PRAGMA foreign_key_check"):
        faults.append(f"{table} {row} refers to a missing {parent}")
    return faults

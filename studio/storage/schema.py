"""What state a database file is in, found out without loading Alembic."""

import sqlite3
from contextlib import closing
from enum import Enum, auto
from pathlib import Path
from typing import Final

from studio.errors import DatabaseTrouble
from studio.storage.trouble import in_plain_words

REVISIONS: Final = ("0001", "0002", "0003", "0004", "0005")
"""Every revision of migrations/, oldest first; a test holds it to Alembic's own history."""

HEAD: Final = REVISIONS[-1]

APPLICATION_ID: Final = 0x53574348
"""Marks a file as a studio's (SQLite header, offset 68): the letters SWCH."""


class SchemaState(Enum):
    """How a file stands to this program."""

    MISSING = auto()
    CURRENT = auto()
    OLD = auto()


def state_of(path: Path) -> SchemaState:
    """How a database file stands to this program.

    Raises:
        DatabaseTrouble: it is no database, belongs to another program, or is newer than this one.
    """
    if not path.exists():
        return SchemaState.MISSING
    revision = revision_of(path)
    if revision == HEAD:
        return SchemaState.CURRENT
    if revision in REVISIONS:
        return SchemaState.OLD
    msg = (
        f"{path} was written by a newer studio (schema {revision}); install that version, or "
        "name another file with --db"
    )
    raise DatabaseTrouble(msg)


def revision_of(path: Path) -> str:
    """The schema revision a studio's database is at.

    Raises:
        DatabaseTrouble: it is no database, or not a studio's.
    """
    if not path.is_file():
        msg = f"{path} is not a file; name a database file with --db"
        raise DatabaseTrouble(msg)
    with in_plain_words(path), closing(connect(path)) as connection:
        (application,) = connection.execute("PRAGMA application_id").fetchone()
        if application == APPLICATION_ID:
            row = connection.execute("SELECT version_num FROM alembic_version").fetchone()
            if row is not None:
                return str(row[0])
    msg = f"{path} is not a studio's database; name another file with --db"
    raise DatabaseTrouble(msg)


def connect(path: Path, *, timeout: float = 5.0) -> sqlite3.Connection:
    """A bare connection to an existing file, without implicit transactions.

    Args:
        path: the database file; it is never created.
        timeout: how long to wait for another program's lock, s.
    """
    return sqlite3.connect(
        f"{path.resolve().as_uri()}?mode=rw", uri=True, timeout=timeout, isolation_level=None
    )

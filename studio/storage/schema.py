"""What state a database is in, found out without loading Alembic."""

import sqlite3
from contextlib import closing
from enum import Enum, auto
from pathlib import Path
from typing import Final

from studio.errors import DatabaseTrouble
from studio.storage.address import Database
from studio.storage.sqlite_file import in_memory, only_in_memory
from studio.storage.trouble import in_plain_words

REVISIONS: Final = ("0001", "0002", "0003", "0004", "0005", "0006", "0007", "0008", "0009")
"""Every revision of migrations/, oldest first; a test holds it to Alembic's own history."""

HEAD: Final = REVISIONS[-1]

APPLICATION_ID: Final = 0x53574348
"""Marks a file as a studio's (SQLite header, offset 68): the letters SWCH."""


class SchemaState(Enum):
    """How a database stands to this program."""

    MISSING = auto()
    CURRENT = auto()
    OLD = auto()


def state_of(path: Database) -> SchemaState:
    """How a database stands to this program; one on a server that holds nothing yet is missing.

    Raises:
        DatabaseTrouble: it is no database, belongs to another program, or is newer than this one.
    """
    if isinstance(path, Path):
        with in_plain_words(path):  # some names no system can look for
            missing = not path.exists()
        if missing:
            return SchemaState.MISSING
        revision = revision_of(path)
    else:
        from studio.storage.server import revision_on  # noqa: PLC0415 - few studios lie on one

        found = revision_on(path)
        if found is None:
            return SchemaState.MISSING
        revision = found
    if revision == HEAD:
        return SchemaState.CURRENT
    if revision in REVISIONS:
        return SchemaState.OLD
    msg = (
        f"{path} was written by a newer studio (schema {revision}); install that version, or "
        f"name another {'file' if isinstance(path, Path) else 'one'} with --db"
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
        kinds = connection.execute("SELECT type FROM sqlite_master WHERE name = 'alembic_version'")
        # A view of that name might never end.
        if application == APPLICATION_ID and kinds.fetchall() in ([], [("table",)]):
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

    Where the folder cannot be written, a database with a write-ahead log is read from a copy in
    memory.
    """
    if only_in_memory(path):
        return in_memory(path)
    connection = sqlite3.connect(
        f"{path.resolve().as_uri()}?mode=rw", uri=True, timeout=timeout, isolation_level=None
    )
    # No view or trigger may call what reaches beyond the database (SQLite, "trusted_schema").
    connection.execute("PRAGMA trusted_schema = OFF")
    return connection

"""Waiting for others who write the same file, and noticing that it is another file by now."""

import sqlite3
import time
from collections.abc import Callable
from pathlib import Path
from typing import Final

from studio.errors import DatabaseTrouble
from studio.storage.sqlite_file import identity

_FIRST_LOOK: Final = 0.02
"""Until the first further look at whether the lock is free, s; after 1 s it is a tenth of that."""


def is_busy(error: BaseException) -> bool:
    """Whether another program held the database, as the driver or SQLAlchemy tells it."""
    code = getattr(getattr(error, "orig", error), "sqlite_errorcode", None)
    return code is not None and (code & 0xFF) in {sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED}


def begin_writing(connection: sqlite3.Connection) -> None:
    """Take the write lock at once, waiting for whoever holds it twice as long as is usual.

    SQLite's own waiting sleeps ever longer between two looks, and whoever comes new looks at once:
    among many writers some would never have their turn. Here who waits longer looks more often.

    Raises:
        sqlite3.OperationalError: others held it throughout.
    """
    (wait,) = connection.execute("PRAGMA busy_timeout").fetchone()
    connection.execute("PRAGMA busy_timeout = 0")
    came = time.monotonic()
    try:
        retried_once(lambda: _begin_within(connection, wait / 1000.0, came))
    finally:
        connection.execute(f"PRAGMA busy_timeout = {int(wait)}")


def _begin_within(connection: sqlite3.Connection, seconds: float, came: float) -> None:
    last = time.monotonic() + seconds
    while True:
        try:
            connection.execute("BEGIN IMMEDIATE")
        except sqlite3.OperationalError as error:
            if not is_busy(error) or time.monotonic() >= last:
                raise
        else:
            return
        time.sleep(_FIRST_LOOK / (1.0 + 10.0 * (time.monotonic() - came)))


def retried_once(attempt: Callable[[], object]) -> None:
    """Make an attempt, and a second one where another program held the database throughout."""
    try:
        attempt()
    except Exception as error:
        if not is_busy(error):
            raise
        attempt()


def stop_when_busy(status: int, _remaining: int, _total: int) -> None:
    """For the progress of a backup: two waits are enough, where Python would wait for ever.

    Raises:
        sqlite3.OperationalError: the database is in use by another program.
    """
    if status in {sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED}:
        error = sqlite3.OperationalError("database is locked")
        error.sqlite_errorcode = sqlite3.SQLITE_BUSY
        raise error


def unless_replaced(path: Path, opened: tuple[int, int] | None) -> None:
    """Refuse to go on with a file that lost its name since it was opened.

    Raises:
        DatabaseTrouble: the name stands for another file by now, or for none.
    """
    now = identity(path)
    if now == opened:
        return
    happened = "is gone" if now is None else "was replaced by another file"
    msg = (
        f"{path} {happened} while this command ran, and what it recorded is not there; "
        "see that it lies in its place, then run the command again"
    )
    raise DatabaseTrouble(msg)

"""Waiting for others who write the same file, and noticing that it is another file by now."""

import sqlite3
from collections.abc import Callable
from pathlib import Path

from studio.errors import DatabaseTrouble
from studio.storage.sqlite_file import identity


def is_busy(error: BaseException) -> bool:
    """Whether another program held the database, as the driver or SQLAlchemy tells it."""
    code = getattr(getattr(error, "orig", error), "sqlite_errorcode", None)
    return code is not None and (code & 0xFF) in {sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED}


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

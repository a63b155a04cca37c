"""Telling a damaged file from a defect where a command meets a value that cannot be."""

import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Final

from studio.errors import DatabaseTrouble
from studio.storage.address import Database
from studio.storage.schema import connect

_OF_VALUES: Final = (
    ArithmeticError, AssertionError, AttributeError, LookupError, TypeError, ValueError,
)  # fmt: skip
"""What code raises that meets a value which the rules of the database do not allow."""


def unless_damaged(path: Database, error: BaseException) -> None:
    """Asks SQLite whether the file is damaged, where an error may come of that and not of a defect.

    Args:
        path: the database; a server is asked nothing.
        error: what a command failed with.

    Raises:
        DatabaseTrouble: it is damaged.
    """
    if not (isinstance(path, Path) and isinstance(error, _OF_VALUES)):
        return
    from studio.storage.sqlite_copy import problems  # noqa: PLC0415 - hardly ever needed

    try:
        with closing(connect(path)) as connection:
            found = problems(connection)
    except sqlite3.DatabaseError as unreadable:
        found = [str(unreadable)]
    if found:
        msg = f"{path} is damaged ({found[0]}); restore a backup (studio backup list shows them)"
        raise DatabaseTrouble(msg) from error

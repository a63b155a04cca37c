"""A SQLite database as a file: its kind of journal, its private copy in memory, what it is."""

import errno
import os
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Final

from studio.storage.sqlite_place import unfit_place

_VERSIONS: Final = slice(18, 20)
"""Bytes of the header that say how the file is read and written: 2 is the write-ahead log."""

SIDES: Final = ("-wal", "-shm", "-journal")
"""What SQLite keeps beside a database while it is open, or after a crash."""


def beside(path: Path, side: str) -> Path:
    """The file that SQLite keeps beside a database."""
    return path.with_name(path.name + side)


def uses_wal(path: Path) -> bool:
    """Whether a database is kept with a write-ahead log."""
    try:
        with path.open("rb") as file:
            return file.read(20)[_VERSIONS] == b"\2\2"
    except OSError:
        return False


def refuses_writing(path: Path) -> bool:
    """Whether a header tells SQLite that a later one alone may write the file, as damage may."""
    with path.open("rb") as file:
        return file.read(20)[_VERSIONS][:1] > b"\2"


def settle_journal(path: Path) -> str | None:
    """Give a database the journal that its place allows; why the place is unfit, if it is.

    A write-ahead log lets others read while one writes. Where files are shared between machines
    it would damage the database, and the older journal is kept there.

    Args:
        path: an existing database.
    """
    unfit = unfit_place(path)
    mode = "delete" if unfit else "wal"
    if os.access(path.parent, os.W_OK):
        try:
            # Never by opening the file itself: closing it would release the locks that SQLite
            # holds for other connections of this process.
            uri = f"{path.resolve().as_uri()}?mode=rw"
            with closing(sqlite3.connect(uri, uri=True, timeout=0.1)) as connection:
                if connection.execute("PRAGMA journal_mode").fetchone() != (mode,):
                    connection.execute(f"PRAGMA journal_mode = {mode}")
        except sqlite3.Error:
            pass  # another program has it open; the next one that writes will change it
    return unfit


def only_in_memory(path: Path) -> bool:
    """Whether a database can only be read from a copy: SQLite makes a file beside a log's."""
    if os.access(path.parent, os.W_OK):
        return False
    log = beside(path, "-wal")
    return not (log.exists() and log.stat().st_size) and uses_wal(path)


def in_memory(path: Path) -> sqlite3.Connection:
    """A database in a folder that cannot be written, as it is now; writing to it is refused.

    Raises:
        sqlite3.OperationalError: it changed while it was read.
    """
    before = path.stat()
    content = bytearray(path.read_bytes())
    after = path.stat()
    if (before.st_mtime_ns, before.st_size) != (after.st_mtime_ns, len(content)):
        error = sqlite3.OperationalError("it changed while it was read")
        error.sqlite_errorcode = sqlite3.SQLITE_BUSY
        raise error
    content[_VERSIONS] = b"\1\1"  # memory has no log
    connection = sqlite3.connect(":memory:", isolation_level=None)
    connection.deserialize(bytes(content))
    connection.execute("PRAGMA query_only = ON")
    return connection


def identity(path: Path) -> tuple[int, int] | None:
    """Which file a name stands for now; None where there is none."""
    try:
        status = path.stat()
    except OSError:
        return None
    return status.st_dev, status.st_ino


def make_lasting(path: Path) -> None:
    """Have the disk keep a file, or the names in a folder, beyond a loss of power."""
    try:
        descriptor = os.open(path, os.O_RDONLY)
    except (OSError, ValueError):  # a folder, where the system does not open one
        return
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)


def take_name(built: Path, path: Path) -> None:
    """Gives a finished file its name, and never that of a file that is there.

    Raises:
        FileExistsError: there is one.
    """
    try:
        os.link(built, path)
    except FileExistsError:
        raise
    except OSError:  # a file system without hard links
        if path.exists():
            raise FileExistsError(errno.EEXIST, os.strerror(errno.EEXIST)) from None
        built.rename(path)
    else:
        built.unlink()

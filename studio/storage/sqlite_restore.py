"""Putting a backup in the place of a database, so that a crash leaves the one or the other."""

import os
import shutil
import sqlite3
from contextlib import closing
from datetime import datetime
from pathlib import Path
from typing import Final, Self

from studio.errors import DatabaseTrouble
from studio.storage.schema import APPLICATION_ID, SchemaState, connect, state_of
from studio.storage.sqlite_backup import Backup, keep_as_it_is
from studio.storage.sqlite_copy import copy, copy_into, problems
from studio.storage.sqlite_file import (
    SIDES,
    beside,
    make_lasting,
    refuses_writing,
    settle_journal,
    take_name,
)
from studio.storage.sqlite_patience import is_busy, stop_when_busy
from studio.storage.trouble import in_plain_words
from studio.storage.unfinished import unfinished_folder

_ATTEMPTS: Final = 2
_STEP: Final = 64
"""Pages that are copied before the first look at whether somebody wrote in between."""

_COUNTER: Final = 24
"""Offset of the header's four bytes that count the changes where there is no log."""

_TABLES: Final = {"alembic_version", "paint_pigment", "mix_component", "swatch", "reading"}
"""Of every schema; no other program has all of them."""


class _Changed(Exception):
    """Somebody wrote between the copy of the database as it was and its being replaced."""


def restore(backup: Path, path: Path, now: datetime) -> Backup | None:
    """Puts a backup in the place of a database.

    The backup is checked in a new file first, and upgraded there where it is older. A database that
    can be opened gets its content in one transaction, which other programs that have it open see as
    any other; one that cannot be opened is replaced as a file.

    Args:
        backup: a backup, or any other studio's database.
        path: the database.
        now: the moment.

    Returns:
        What was there before, None where there was nothing.

    Raises:
        DatabaseTrouble: it cannot be done; the database is as it was.
    """
    if state_of(backup) is SchemaState.MISSING:
        msg = f"there is no backup {backup}; studio backup list shows them"
        raise DatabaseTrouble(msg)
    with in_plain_words(path):
        if path.exists() and path.samefile(backup):
            msg = f"{path} cannot be restored from itself; name a backup"
            raise DatabaseTrouble(msg)
    with unfinished_folder(path) as folder:
        fresh = folder / path.name
        copy(backup, fresh)
        # Alembic takes most of a second to load, and few commands need it.
        from studio.storage.migrate import refuse_other_schema, to_head  # noqa: PLC0415

        refuse_other_schema(fresh, backup)
        if state_of(fresh) is SchemaState.OLD:
            with in_plain_words(fresh):
                to_head(fresh)
        before = _replace(path, fresh, now)
    settle_journal(path)
    return before


def _replace(path: Path, fresh: Path, now: datetime) -> Backup | None:
    with in_plain_words(path):
        if not path.exists():
            left = [beside(path, side) for side in SIDES if beside(path, side).exists()]
            before = _set_aside(path, now) if left else None
            take_name(fresh, path)
            make_lasting(path.parent)
            return before
        try:
            if not refuses_writing(path):
                return _replace_content(path, fresh, now)
        except sqlite3.DatabaseError as error:
            code = (getattr(error, "sqlite_errorcode", None) or 0) & 0xFF
            if code not in {sqlite3.SQLITE_NOTADB, sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_ERROR}:
                raise
        before = _set_aside(path, now)
        fresh.replace(path)
        make_lasting(path.parent)
        return before


def _replace_content(path: Path, fresh: Path, now: datetime) -> Backup:
    """By a transaction in the database itself.

    Raises:
        sqlite3.DatabaseError: it is damaged so far that it cannot be opened.
    """
    with closing(connect(path)) as live, closing(connect(fresh)) as source:
        (application,) = live.execute("PRAGMA application_id").fetchone()
        (tables,) = live.execute("SELECT count(*) FROM sqlite_master").fetchone()
        if application != APPLICATION_ID and tables and not _is_like_a_studio(live):
            msg = f"{path} is not a studio's database; name another file with --db"
            raise DatabaseTrouble(msg)
        _give_pages_the_size_of(live, source)
        for _ in range(_ATTEMPTS):
            with _Watch(path, live) as watch:
                before = copy_as_it_is(path, now)
                try:
                    source.backup(live, pages=_STEP, progress=watch.look)
                except _Changed:
                    continue
            return before
    msg = f"{path} is being written by another program; let it finish and try again"
    raise DatabaseTrouble(msg)


def _is_like_a_studio(live: sqlite3.Connection) -> bool:
    """Whether a database without a studio's mark, which may be damaged, has a studio's tables."""
    listed = "SELECT name FROM sqlite_master WHERE type = 'table'"
    return {name for (name,) in live.execute(listed)} >= _TABLES


class _Watch:
    """Tells whether a database changed between two looks, the second under its write lock.

    Args:
        path: the database.
        live: the connection that will replace its content.
    """

    def __init__(self, path: Path, live: sqlite3.Connection) -> None:
        self._looked = False
        self._reader: sqlite3.Connection | None = None
        self._file: int | None = None
        if live.execute("PRAGMA journal_mode").fetchone() == ("wal",):
            self._reader = connect(path)
        else:
            # Nobody can read under the lock. Closing any descriptor of a file releases SQLite's own
            # locks on it (POSIX), so this one stays open until the transaction is over.
            self._file = os.open(path, os.O_RDONLY)
        self._seen = self._version()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        if self._reader is not None:
            self._reader.close()
        if self._file is not None:
            os.close(self._file)

    def look(self, status: int, remaining: int, total: int) -> None:
        """The progress of the transaction: once it holds the lock, nobody else can write."""
        stop_when_busy(status, remaining, total)
        if not self._looked:
            self._looked = True
            if self._version() != self._seen:
                raise _Changed

    def _version(self) -> object:
        if self._reader is not None:
            return self._reader.execute("PRAGMA data_version").fetchone()
        assert self._file is not None  # noqa: S101 - the one or the other was opened
        os.lseek(self._file, _COUNTER, os.SEEK_SET)
        return os.read(self._file, 4)


def copy_as_it_is(path: Path, now: datetime) -> Backup:
    """A copy of a database as it is, sound or not, among its backups."""

    def fill(unfinished: Path) -> None:
        copy_into(path, unfinished)

    why = "before-restore"
    with closing(connect(path)) as connection:
        try:
            if problems(connection):
                why = "damaged"
        except sqlite3.DatabaseError as error:
            if is_busy(error):
                raise
            why = "damaged"
    return keep_as_it_is(path, now, why, fill)


def _set_aside(path: Path, now: datetime) -> Backup:
    """The files of a database that cannot be opened, copied; then what lay beside it is removed.

    A log that outlived its database would be played into the one that takes its place.
    """

    def fill(unfinished: Path) -> None:
        if path.exists():
            shutil.copyfile(path, unfinished)

    kept = keep_as_it_is(path, now, "damaged", fill)
    for side in SIDES:
        there = beside(path, side)
        if there.exists():
            aside = beside(kept.path, side)
            aside.touch(mode=0o600)
            shutil.copyfile(there, aside)
            make_lasting(aside)
            there.unlink()
    make_lasting(kept.path.parent)
    return kept


def _give_pages_the_size_of(live: sqlite3.Connection, source: sqlite3.Connection) -> None:
    (wanted,) = live.execute("PRAGMA page_size").fetchone()
    if source.execute("PRAGMA page_size").fetchone() != (wanted,):
        source.execute(f"PRAGMA page_size = {int(wanted)}")
        source.execute("VACUUM")

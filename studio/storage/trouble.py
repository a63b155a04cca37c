"""SQLite's errors as one sentence for the painter; a server's stand in server_trouble.py."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Final

from studio.errors import BadInput, DatabaseTrouble, StudioError
from studio.storage.address import Database

_SENTENCES: Final = {
    sqlite3.SQLITE_BUSY: "{path} is in use by another program; let it finish and try again",
    sqlite3.SQLITE_LOCKED: "{path} is in use by another program; let it finish and try again",
    sqlite3.SQLITE_READONLY: (
        "{path} cannot be written; give yourself write permission for it and its folder, or name "
        "another file with --db"
    ),
    sqlite3.SQLITE_FULL: "the disk that holds {path} is full; free some space and try again",
    sqlite3.SQLITE_IOERR: "{path} cannot be read or written; check the disk and its free space",
    sqlite3.SQLITE_NOTADB: "{path} is not a database; name another file with --db",
    sqlite3.SQLITE_CORRUPT: "{path} is damaged; restore a backup (studio backup list shows them)",
    sqlite3.SQLITE_CANTOPEN: (
        "{path} cannot be opened; check that its folder exists and that you may write in it"
    ),
    sqlite3.SQLITE_PERM: "{path} cannot be opened; check its permissions",
    sqlite3.SQLITE_AUTH: "{path} cannot be opened; check its permissions",
}

_NO_TEXT: Final = "Could not decode to UTF-8"


def sentence(error: sqlite3.Error, path: Database) -> str:
    """What a SQLite error means and what to do about it."""
    code = getattr(error, "sqlite_errorcode", None)
    if code is not None and (code & 0xFF) in _SENTENCES:
        return _SENTENCES[code & 0xFF].format(path=path)
    if code is None and str(error).startswith(_NO_TEXT):  # Python's own words, with all of the text
        return _SENTENCES[sqlite3.SQLITE_CORRUPT].format(path=path)
    said = " ".join(str(error).split())
    return f"{path} cannot be used ({said}); check it with: studio db check"


@contextmanager
def in_plain_words(path: Database) -> Iterator[None]:
    """Turns errors of the database and the file system inside the block into `DatabaseTrouble`."""
    try:
        yield
    except sqlite3.Error as error:
        raise _trouble(error, path) from error
    except OSError as error:
        msg = f"{path} cannot be used: {(error.strerror or str(error)).lower()}"
        raise DatabaseTrouble(msg) from error
    except StudioError:
        raise
    except Exception as error:
        # SQLAlchemy wraps the driver's error; it is found without importing SQLAlchemy here.
        original = getattr(error, "orig", error)
        if isinstance(original, sqlite3.Error):
            raise _trouble(original, path) from error
        # Nor is psycopg, which most studios do without.
        if not type(original).__module__.startswith("psycopg"):
            raise
        from studio.storage.server_trouble import trouble_of  # noqa: PLC0415

        raise trouble_of(original, path) from error


def _trouble(error: sqlite3.Error, path: Database) -> StudioError:
    if isinstance(error, sqlite3.IntegrityError):
        msg = f"this would break a rule of the database ({error}); nothing was changed"
        return BadInput(msg)
    return DatabaseTrouble(sentence(error, path))

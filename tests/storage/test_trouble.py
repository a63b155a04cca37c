"""Every SQLite or file error becomes one sentence that names the file and says what to do."""

import errno
import os
import resource
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path
from typing import Final

import pytest
from sqlalchemy import Connection, text

from studio.errors import BadInput, DatabaseTrouble, ExitStatus, NotFound
from studio.storage import unit_of_work
from studio.storage.schema import connect
from studio.storage.trouble import in_plain_words, sentence
from studio.storage.unit_of_work import UnitOfWork

PATH: Final = Path("marsh.sqlite3")

SAID: Final = {
    sqlite3.SQLITE_BUSY: "is in use by another program; let it finish and try again",
    sqlite3.SQLITE_BUSY_SNAPSHOT: "is in use by another program; let it finish and try again",
    sqlite3.SQLITE_LOCKED: "is in use by another program; let it finish and try again",
    sqlite3.SQLITE_LOCKED_SHAREDCACHE: "is in use by another program",
    sqlite3.SQLITE_READONLY: "cannot be written; give yourself write permission",
    sqlite3.SQLITE_READONLY_DIRECTORY: "cannot be written; give yourself write permission",
    sqlite3.SQLITE_FULL: "is full; free some space and try again",
    sqlite3.SQLITE_IOERR: "cannot be read or written; check the disk and its free space",
    sqlite3.SQLITE_IOERR_WRITE: "cannot be read or written; check the disk and its free space",
    sqlite3.SQLITE_IOERR_SHORT_READ: "cannot be read or written; check the disk",
    sqlite3.SQLITE_NOTADB: "is not a database; name another file with --db",
    sqlite3.SQLITE_CORRUPT: "is damaged; restore a backup",
    sqlite3.SQLITE_CORRUPT_INDEX: "is damaged; restore a backup",
    sqlite3.SQLITE_CANTOPEN: "cannot be opened; check that its folder exists",
    sqlite3.SQLITE_CANTOPEN_ISDIR: "cannot be opened; check that its folder exists",
    sqlite3.SQLITE_PERM: "cannot be opened; check its permissions",
    sqlite3.SQLITE_AUTH: "cannot be opened; check its permissions",
}


def _error(code: int | None, kind: type[sqlite3.Error] = sqlite3.OperationalError) -> sqlite3.Error:
    error = kind("the driver's own words")
    if code is not None:
        error.sqlite_errorcode = code
    return error


@pytest.mark.parametrize(("code", "said"), SAID.items())
def test_each_code_and_its_extended_codes_have_their_sentence(code: int, said: str) -> None:
    found = sentence(_error(code), PATH)
    assert said in found
    assert "marsh.sqlite3" in found
    assert "driver" not in found


@pytest.mark.parametrize("code", [None, sqlite3.SQLITE_SCHEMA, sqlite3.SQLITE_ERROR])
def test_an_error_of_another_code_keeps_the_words_of_sqlite(code: int | None) -> None:
    assert sentence(_error(code), PATH) == (
        "marsh.sqlite3 cannot be used (the driver's own words); check it with: studio db check"
    )


def test_a_broken_rule_is_bad_input_and_all_else_is_trouble_with_the_database() -> None:
    with (
        pytest.raises(BadInput, match="would break a rule of the database") as refused,
        in_plain_words(PATH),
    ):
        raise _error(sqlite3.SQLITE_CONSTRAINT_CHECK, sqlite3.IntegrityError)
    assert refused.value.status is ExitStatus.BAD_INPUT
    with pytest.raises(DatabaseTrouble, match="in use") as trouble, in_plain_words(PATH):
        raise _error(sqlite3.SQLITE_BUSY)
    assert trouble.value.status is ExitStatus.DATABASE


def test_an_error_of_the_file_system_is_trouble() -> None:
    with pytest.raises(DatabaseTrouble, match="used: no space left"), in_plain_words(PATH):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
    without_number = OSError("Torn off")
    with pytest.raises(DatabaseTrouble, match="used: torn off"), in_plain_words(PATH):
        raise without_number


@pytest.mark.parametrize(
    "error", [NotFound("no such paint"), KeyError("a defect"), KeyboardInterrupt()]
)
def test_what_is_no_error_of_the_database_passes_as_it_is(error: BaseException) -> None:
    with pytest.raises(type(error)) as caught, in_plain_words(PATH):
        raise error
    assert caught.value is error


@pytest.mark.file_only("the words of SQLite")
def test_an_error_that_sqlalchemy_wrapped_is_translated(work: UnitOfWork) -> None:
    with pytest.raises(DatabaseTrouble, match=r"no such table: tide"), in_plain_words(PATH):
        work.connection.execute(text("SELECT * FROM tide"))
    with pytest.raises(BadInput, match=r"NOT NULL.*mix\.code"), in_plain_words(PATH):
        work.connection.execute(text("INSERT INTO mix (recipe_key) VALUES ('1*1')"))


@pytest.mark.file_only("the words of SQLite")
def test_a_read_only_database_refuses_in_plain_words(empty_db: Path) -> None:
    def write() -> None:
        with UnitOfWork(empty_db, write=True) as work:
            work.connection.execute(text("PRAGMA query_only = ON"))
            _fill(work.connection)

    with pytest.raises(DatabaseTrouble, match=f"{empty_db} cannot be written"):
        write()


@pytest.mark.file_only("the words of SQLite")
def test_a_file_opened_read_only_can_be_read_and_refuses_a_writer(
    empty_db: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def read_only(path: Path) -> sqlite3.Connection:
        return sqlite3.connect(f"{path.as_uri()}?mode=ro", uri=True, isolation_level=None)

    monkeypatch.setattr(unit_of_work, "connect", read_only)
    with (
        pytest.raises(DatabaseTrouble, match="cannot be written"),
        UnitOfWork(empty_db, write=True) as writer,
    ):
        _fill(writer.connection)
    with UnitOfWork(empty_db) as reader:
        assert reader.swatches.count() == 0


def _fill(connection: Connection) -> None:
    connection.execute(
        text(
            "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 5000) "
            "INSERT INTO pigment (ci_name, note) SELECT 'tide ' || i, printf('%0900d', i) FROM n"
        )
    )


def _pigments(path: Path) -> int:
    with closing(connect(path)) as connection:
        (count,) = connection.execute("SELECT count(*) FROM pigment").fetchone()
        return int(count)


@pytest.mark.file_only("the words of SQLite")
def test_a_full_disk_is_named_and_nothing_is_kept(empty_db: Path) -> None:
    def write() -> None:
        with UnitOfWork(empty_db, write=True) as work:
            pages = work.connection.execute(text("PRAGMA page_count")).scalar_one()
            work.connection.execute(text(f"PRAGMA max_page_count = {pages + 8}"))
            _fill(work.connection)
            work.commit()

    before = _pigments(empty_db)
    with pytest.raises(DatabaseTrouble, match=f"the disk that holds {empty_db} is full"):
        write()
    assert _pigments(empty_db) == before


WRITER: Final = """
import signal, sys
from pathlib import Path
from sqlalchemy import text
from studio.errors import StudioError
from studio.storage.unit_of_work import UnitOfWork

signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
try:
    with UnitOfWork(Path(sys.argv[1]), write=True) as work:
        for i in range(5000):
            work.connection.execute(
                text("INSERT INTO pigment (ci_name, note) VALUES (:name, :note)"),
                {"name": f"tide {i}", "note": "x" * 900},
            )
        work.commit()
except StudioError as error:
    print(error)
    sys.exit(int(error.status))
"""


@pytest.mark.file_only("the words of SQLite")
def test_a_write_that_the_system_refuses_is_told_and_leaves_the_database_whole(
    empty_db: Path,
) -> None:
    before = empty_db.read_bytes()
    limit = len(before) + 100_000

    def small_files() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))

    done = subprocess.run(
        [sys.executable, "-c", WRITER, str(empty_db)],
        capture_output=True,
        text=True,
        check=False,
        preexec_fn=small_files,
    )
    assert done.returncode == ExitStatus.DATABASE, done.stderr
    assert str(empty_db) in done.stdout
    assert "cannot be read or written" in done.stdout or "is full" in done.stdout
    with closing(connect(empty_db)) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        assert connection.execute("SELECT max(length(note)) FROM pigment").fetchone()[0] != 900
    assert empty_db.read_bytes() == before

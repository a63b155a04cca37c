"""A unit of work keeps all or nothing, keeps others from writing meanwhile, and survives a kill."""

import signal
import sqlite3
import subprocess
import sys
import time
from collections.abc import Callable
from contextlib import closing
from functools import partial
from pathlib import Path
from typing import Final

import pytest
from sqlalchemy import text

from studio.catalogue.paint import PaintFacts
from studio.catalogue.paper import PaperFacts
from studio.errors import BadInput, DatabaseTrouble
from studio.storage import server, unit_of_work
from studio.storage.schema import connect
from studio.storage.unit_of_work import UnitOfWork
from tests.servers import names_alone

MARSH: Final = PaintFacts("MG", "Saltings Colour", "Marsh Green", ("PG7",))


@pytest.fixture
def impatient(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nobody waits for another program's lock."""
    monkeypatch.setattr(unit_of_work, "connect", partial(connect, timeout=0.01))
    monkeypatch.setitem(server.SETTINGS, "lock_timeout", "10ms")


def _codes(path: Path) -> list[str]:
    with UnitOfWork(path) as work:
        return [paint.facts.code for paint in work.paints.all()]


def test_what_was_committed_is_there_for_the_next(empty_db: Path) -> None:
    with UnitOfWork(empty_db, write=True) as work:
        work.paints.add(MARSH)
        work.commit()
    assert _codes(empty_db) == ["MG"]


def test_leaving_without_a_commit_keeps_nothing(empty_db: Path) -> None:
    with UnitOfWork(empty_db, write=True) as work:
        work.paints.add(MARSH)
        assert [paint.facts for paint in work.paints.all()] == [MARSH]
    assert _codes(empty_db) == []


@pytest.mark.parametrize("error", [RuntimeError("a defect"), KeyboardInterrupt()])
def test_an_exception_keeps_nothing_and_passes(empty_db: Path, error: BaseException) -> None:
    def fail() -> None:
        with UnitOfWork(empty_db, write=True) as work:
            work.paints.add(MARSH)
            raise error

    with pytest.raises(type(error)) as caught:
        fail()
    assert caught.value is error
    assert _codes(empty_db) == []


def test_what_comes_after_a_commit_is_another_transaction(empty_db: Path) -> None:
    with UnitOfWork(empty_db, write=True) as work:
        work.paints.add(MARSH)
        work.commit()
        work.papers.add(PaperFacts("SR", "Tidewrack Mill", "Sedge Rag"))
    with UnitOfWork(empty_db) as reader:
        assert [paint.facts for paint in reader.paints.all()] == [MARSH]
        assert reader.papers.all() == ()


def test_a_row_that_breaks_a_rule_is_refused_in_plain_words_and_nothing_is_kept(
    empty_db: Path,
) -> None:
    def add_twice() -> None:
        with UnitOfWork(empty_db, write=True) as work:
            work.paints.add(MARSH)
            work.paints.add(MARSH)

    with pytest.raises(BadInput, match="would break a rule of the database"):
        add_twice()
    assert _codes(empty_db) == []


@pytest.mark.file_only("a setting of SQLite")
def test_foreign_keys_are_enforced_in_every_transaction(work: UnitOfWork) -> None:
    for _ in range(2):
        assert work.connection.execute(text("PRAGMA foreign_keys")).scalar_one() == 1
        work.commit()


@pytest.mark.usefixtures("impatient")
def test_a_writer_keeps_others_from_writing_from_its_first_moment(empty_db: Path) -> None:
    with UnitOfWork(empty_db, write=True):
        with (
            pytest.raises(DatabaseTrouble, match="in use by another program"),
            UnitOfWork(empty_db, write=True),
        ):
            pytest.fail("two writers at once")
        assert _codes(empty_db) == []  # readers are let in
    with UnitOfWork(empty_db, write=True) as later:
        later.paints.add(MARSH)
        later.commit()
    assert _codes(empty_db) == ["MG"]


@pytest.fixture
def without_log(empty_db: Path) -> Path:
    """A studio as it is kept on a network drive: who writes keeps readers out."""
    with closing(connect(empty_db)) as connection:
        connection.execute("PRAGMA journal_mode = DELETE")
    return empty_db


@pytest.mark.file_only("a log that readers and writer share")
def test_one_writes_while_others_read_what_was_there(empty_db: Path) -> None:
    with UnitOfWork(empty_db) as reader:
        assert reader.paints.all() == ()
        with UnitOfWork(empty_db, write=True) as writer:
            writer.paints.add(MARSH)
            writer.commit()
        reader.forget()
        assert reader.paints.all() == ()
        assert _codes(empty_db) == ["MG"]


@pytest.mark.file_only("locks of SQLite")
@pytest.mark.usefixtures("impatient")
def test_a_database_that_another_program_holds_is_told_of(without_log: Path) -> None:
    empty_db = without_log
    with closing(connect(empty_db)) as other:
        other.execute("BEGIN EXCLUSIVE")
        for write in (True, False):
            with (
                pytest.raises(DatabaseTrouble, match="in use by another program"),
                UnitOfWork(empty_db, write=write) as work,
            ):
                work.paints.all()


@pytest.mark.file_only("locks of SQLite")
@pytest.mark.usefixtures("impatient")
def test_a_commit_that_a_reader_holds_up_keeps_nothing(without_log: Path) -> None:
    empty_db = without_log

    def write() -> None:
        with UnitOfWork(empty_db, write=True) as work:
            work.paints.add(MARSH)
            work.commit()

    with closing(connect(empty_db)) as reader:
        reader.execute("BEGIN")
        reader.execute("SELECT count(*) FROM paint").fetchone()
        with pytest.raises(DatabaseTrouble, match="in use by another program"):
            write()
    assert _codes(empty_db) == []


@pytest.mark.file_only("locks of SQLite")
def test_a_writer_that_is_refused_leaves_no_connection_open(
    empty_db: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened: list[sqlite3.Connection] = []

    def counted(path: Path) -> sqlite3.Connection:
        opened.append(connect(path, timeout=0.01))
        return opened[-1]

    monkeypatch.setattr(unit_of_work, "connect", counted)
    with closing(connect(empty_db)) as other:
        other.execute("BEGIN EXCLUSIVE")
        with pytest.raises(DatabaseTrouble):
            UnitOfWork(empty_db, write=True).__enter__()
    assert len(opened) == 1
    with pytest.raises(sqlite3.ProgrammingError, match="closed"):
        opened[0].execute("SELECT 1")


def test_a_database_that_is_gone_is_told_of_and_not_made(tmp_path: Path) -> None:
    path = tmp_path / "gone.sqlite3"
    with pytest.raises(DatabaseTrouble, match=f"{path} cannot be opened"), UnitOfWork(path):
        pytest.fail("a missing database was opened")
    assert not path.exists()


KILLED: Final = """
import os, signal, sys
from pathlib import Path
from sqlalchemy import text
from studio.storage.unit_of_work import UnitOfWork

with UnitOfWork(Path(sys.argv[1]), write=True) as work:
    work.connection.execute(text("PRAGMA cache_size = 1"))  # pages go to the file at once
    work.connection.execute(text("DELETE FROM reading"))
    work.connection.execute(text("UPDATE swatch SET lightness = 0, note = 'half done'"))
    work.connection.execute(text("INSERT INTO mix (code, recipe_key, created_on) "
                                 "SELECT 'K' || id, 'k' || id, '2026-05-04' FROM swatch"))
    os.kill(os.getpid(), signal.SIGKILL)
"""


@pytest.mark.file_only("test_server.py kills in the middle too")
def test_a_kill_in_the_middle_leaves_the_database_as_it_was(demo_db: Path) -> None:
    with UnitOfWork(demo_db) as work:
        before = work.swatches.all(), work.mixes.all(), work.paints.all()
    done = subprocess.run([sys.executable, "-c", KILLED, str(demo_db)], check=False)
    assert done.returncode == -signal.SIGKILL
    assert Path(f"{demo_db}-wal").stat().st_size > 0  # it was in the middle indeed
    with UnitOfWork(demo_db, write=True) as work:
        assert (work.swatches.all(), work.mixes.all(), work.paints.all()) == before
    with closing(connect(demo_db)) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]


def test_a_kill_after_the_commit_loses_nothing(empty_db: Path) -> None:
    script = (
        "import os, signal, sys\n"
        "from studio.storage.address import database_at\n"
        "from studio.catalogue.paint import PaintFacts\n"
        "from studio.storage.unit_of_work import UnitOfWork\n"
        "with UnitOfWork(database_at(sys.argv[1]), write=True) as work:\n"
        "    work.paints.add(PaintFacts('MG', 'Saltings Colour', 'Marsh Green'))\n"
        "    work.commit()\n"
        "    os.kill(os.getpid(), signal.SIGKILL)\n"
    )
    done = subprocess.run([sys.executable, "-c", script, str(empty_db)], check=False)
    assert done.returncode == -signal.SIGKILL
    assert _codes(empty_db) == ["MG"]


def _remembered(work: UnitOfWork) -> list[object]:
    return [work.pigments, work.paints, work.papers, work.containers, work.fade_tests]


@pytest.mark.parametrize("forget", [UnitOfWork.commit, UnitOfWork.forget])
def test_repositories_read_anew_after_a_commit_or_when_told_to_forget(
    work: UnitOfWork, forget: Callable[[UnitOfWork], None]
) -> None:
    before = _remembered(work)
    assert all(a is b for a, b in zip(before, _remembered(work), strict=True))
    names_alone(work.connection)
    work.connection.execute(text("UPDATE pigment SET note = 'seen' WHERE ci_name = 'PB29'"))
    forget(work)
    assert not any(a is b for a, b in zip(before, _remembered(work), strict=True))
    found = work.pigments.get("PB29")
    assert found is not None
    assert found.note == "seen"


@pytest.mark.file_only("a file and SQLite's own locks")
def test_a_writer_waits_twice_for_its_turn(empty_db: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    held = connect(empty_db)
    held.execute("BEGIN IMMEDIATE")
    waited: list[float] = []

    def let_go(statement: str) -> None:
        """Another program lets go of the database after the first wait is over."""
        if statement.startswith("BEGIN IMMEDIATE"):
            waited.append(time.monotonic())
            if held.in_transaction and waited[-1] > waited[0] + 0.06:
                held.execute("ROLLBACK")

    def traced(path: Path) -> sqlite3.Connection:
        connection = connect(path, timeout=0.05)
        connection.set_trace_callback(let_go)
        return connection

    monkeypatch.setattr(unit_of_work, "connect", traced)
    with closing(held), UnitOfWork(empty_db, write=True) as work:
        work.paints.add(MARSH)
        work.commit()
    assert waited[-1] - waited[0] < 1
    assert _codes(empty_db) == ["MG"]


def _write_over(path: Path, change: Callable[[Path], object]) -> None:
    with UnitOfWork(path, write=True) as work:
        work.paints.add(MARSH)
        change(path)
        work.commit()


@pytest.mark.file_only("a file and SQLite's own locks")
def test_a_database_replaced_while_it_is_open_is_told_of(empty_db: Path, demo_db: Path) -> None:
    before = demo_db.read_bytes()
    with pytest.raises(DatabaseTrouble, match="was replaced by another file while this command"):
        _write_over(empty_db, demo_db.replace)
    assert empty_db.read_bytes() == before


@pytest.mark.file_only("a file and SQLite's own locks")
def test_a_folder_that_vanished_while_it_is_open_is_told_of(empty_db: Path, tmp_path: Path) -> None:
    folder = tmp_path / "card"
    folder.mkdir()
    path = empty_db.rename(folder / "studio.sqlite3")
    with pytest.raises(DatabaseTrouble, match=f"{path} is gone while this command ran"):
        _write_over(path, lambda _: folder.rename(tmp_path / "unplugged"))
    assert _codes(tmp_path / "unplugged" / "studio.sqlite3") == []
    assert not folder.exists()


@pytest.mark.file_only("a file and SQLite's own locks")
def test_the_log_and_its_index_are_as_private_as_the_database(empty_db: Path) -> None:
    with UnitOfWork(empty_db, write=True) as work:
        work.paints.add(MARSH)
        work.commit()
        for side in ("-wal", "-shm"):
            assert Path(f"{empty_db}{side}").stat().st_mode & 0o777 == 0o600


@pytest.mark.file_only("a file and SQLite's own locks")
def test_what_was_recorded_is_synchronised_to_the_disk(work: UnitOfWork) -> None:
    assert work.connection.execute(text("PRAGMA synchronous")).scalar_one() == 2  # FULL

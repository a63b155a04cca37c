"""Databases that cannot be used: exit status 5 for every command, and the file is left alone."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from studio.storage.schema import connect
from tests.conftest import Run
from tests.servers import execute, fingerprint

LOOKING = (
    ("match", "tan"),
    ("check",),
    ("paint", "list"),
    ("paint", "show", "FU"),
    ("paper", "list"),
    ("mix", "list"),
    ("swatch", "list"),
    ("stock", "list"),
    ("pigment", "list"),
    ("db", "check"),
    ("db", "upgrade"),
)
RECORDING = (("mix", "add", "2 FU + 1 BS"), ("stock", "use", "FU", "1"))


def _refused(run: Run, path: Path, words: tuple[str, ...]) -> str:
    outcome = run(*words, db=path)
    assert (outcome.status, outcome.out) == (5, "")
    assert outcome.err.startswith("studio: ")
    assert str(path) in outcome.err
    assert outcome.err.count("\n") == 1
    return outcome.err


@pytest.mark.parametrize("words", LOOKING, ids=" ".join)
def test_looking_at_a_missing_studio_says_how_to_start_and_makes_nothing(
    words: tuple[str, ...], run: Run, tmp_path: Path, data_home: Path
) -> None:
    path = tmp_path / "nowhere" / "studio.sqlite3"
    said = _refused(run, path, words)
    assert "studio paint add" in said
    assert "studio demo" in said
    assert not path.parent.exists()
    assert not data_home.exists()


@pytest.mark.parametrize("words", [LOOKING[0], LOOKING[-2], *RECORDING], ids=" ".join)
def test_a_text_file_is_no_database(words: tuple[str, ...], run: Run, tmp_path: Path) -> None:
    path = tmp_path / "paints.csv"
    path.write_text("maker,name\nOrsel Pans,Locker Brown\n" * 40)
    before = path.read_bytes()
    assert "is not a database" in _refused(run, path, words)
    assert path.read_bytes() == before
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.parametrize("words", [LOOKING[0], *RECORDING], ids=" ".join)
def test_the_database_of_another_program_is_left_alone(
    words: tuple[str, ...], run: Run, tmp_path: Path
) -> None:
    path = tmp_path / "tides.sqlite3"
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("CREATE TABLE tide (high_water TEXT)")
    before = path.read_bytes()
    assert "is not a studio's database" in _refused(run, path, words)
    assert path.read_bytes() == before


@pytest.mark.parametrize("words", [LOOKING[0], LOOKING[-1], *RECORDING], ids=" ".join)
def test_a_newer_database_is_left_alone(words: tuple[str, ...], run: Run, demo_db: Path) -> None:
    execute(demo_db, "UPDATE alembic_version SET version_num = '9999'")
    before = fingerprint(demo_db)
    said = _refused(run, demo_db, words)
    assert "newer studio (schema 9999)" in said
    assert fingerprint(demo_db) == before


@pytest.mark.parametrize("words", [LOOKING[0], *RECORDING], ids=" ".join)
def test_a_folder_is_no_database(words: tuple[str, ...], run: Run, tmp_path: Path) -> None:
    assert "is not a file" in _refused(run, tmp_path, words)


@pytest.fixture
def locked(demo_db: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """A database that another program writes; waiting for it is cut short.

    It is kept without a log, as on a network drive: with one, others may read meanwhile.
    """
    assert connect.__kwdefaults__ == {"timeout": 5.0}
    monkeypatch.setitem(connect.__kwdefaults__, "timeout", 0.01)
    with closing(sqlite3.connect(demo_db, isolation_level=None)) as other:
        other.execute("PRAGMA journal_mode = DELETE")
        other.execute("BEGIN EXCLUSIVE")
        yield demo_db
        other.execute("ROLLBACK")


@pytest.mark.parametrize("words", [LOOKING[0], LOOKING[2], *RECORDING], ids=" ".join)
@pytest.mark.file_only("locks of SQLite")
def test_a_locked_database_says_so(words: tuple[str, ...], run: Run, locked: Path) -> None:
    before = locked.read_bytes()
    assert "in use by another program" in _refused(run, locked, words)
    assert locked.read_bytes() == before


def test_a_damaged_database_is_reported_by_the_check(run: Run, demo_db: Path) -> None:
    execute(demo_db, "UPDATE swatch SET a = a + 20 WHERE code = 'S7'")
    outcome = run("db", "check", db=demo_db)
    assert outcome.status == 5
    assert outcome.out.startswith("swatch S7 is searched by another colour")
    assert "mend it with: studio db check --mend" in outcome.out
    assert outcome.err == f"studio: {demo_db} has 1 fault\n"


@pytest.mark.file_only("a log that readers and writer share")
@pytest.mark.parametrize("words", LOOKING[:2], ids=" ".join)
def test_looking_goes_on_while_another_program_writes(
    words: tuple[str, ...], run: Run, demo_db: Path
) -> None:
    with closing(connect(demo_db)) as other:
        other.execute("BEGIN IMMEDIATE")
        other.execute("DELETE FROM stock_event")
        assert run(*words, db=demo_db).status in {0, 10}


def test_a_command_that_records_starts_a_missing_studio(run: Run, tmp_path: Path) -> None:
    path = tmp_path / "new" / "studio.sqlite3"
    outcome = run("paint", "add", "Locker Brown", "--maker", "Orsel Pans", db=path)
    assert outcome.status == 0
    assert outcome.err == f"studio: started a new studio at {path}\n"
    assert run("paint", "list", db=path).out.splitlines()[1].startswith("LB    Orsel Pans Locker")

"""Damage anywhere ends in a sentence, in short; tests/proofs/damage.py has the full form."""

import shutil
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from studio.storage.schema import connect
from studio.storage.sqlite_backup import backup_folder
from studio.storage.sqlite_copy import problems
from tests.conftest import Run
from tests.proofs.studios import content as content_of

pytestmark = pytest.mark.file_only("damage to a file")


def test_damage_in_random_places_ends_in_sentences_and_looking_changes_nothing() -> None:
    command = [sys.executable, "-m", "tests.proofs.damage", "--places", "6"]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    assert "6 places in " in done.stdout


def _said(run: Run, path: Path, *words: str) -> str:
    before = path.read_bytes()
    outcome = run(*words, db=path)
    assert (outcome.status, outcome.out) == (5, "")
    assert outcome.err.startswith(f"studio: {path} ")
    assert outcome.err.count("\n") == 1
    assert path.read_bytes() == before
    return outcome.err


def test_a_row_that_is_gone_is_told_as_damage_and_not_as_a_defect(run: Run, demo_db: Path) -> None:
    with closing(connect(demo_db)) as connection:
        connection.execute("PRAGMA journal_mode = DELETE")
        connection.execute("DELETE FROM mix WHERE id IN (SELECT mix_id FROM swatch)")
    said = _said(run, demo_db, "match", "#5b5f6e")
    assert "is damaged (swatch " in said
    assert "refers to a missing mix); restore a backup" in said


def test_a_defect_stays_a_defect_where_the_file_is_sound(
    run: Run, demo_db: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from studio.storage.mixes import Mixes

    def fails(_self: Mixes) -> None:
        raise KeyError(76)

    monkeypatch.setattr(Mixes, "all", fails)
    outcome = run("mix", "list", db=demo_db)
    assert outcome.status == 1
    assert "a defect in the program (KeyError: 76)" in outcome.err


def _break(path: Path, text: str) -> None:
    """A reading's note becomes text whose bytes are no UTF-8."""
    with closing(connect(path)) as connection:
        connection.execute("PRAGMA journal_mode = DELETE")
        connection.execute(
            "UPDATE reading SET note = CAST(? AS TEXT) WHERE id = 1", (text.encode() + b"\xff",)
        )


@pytest.mark.parametrize("words", [("swatch", "list"), ("db", "check")], ids=" ".join)
def test_text_that_is_none_is_told_as_damage_in_one_line(
    words: tuple[str, ...], run: Run, demo_db: Path
) -> None:
    _break(demo_db, "low\ntide")
    with closing(connect(demo_db)) as connection:
        assert problems(connection) == []
    assert "is damaged; restore a backup" in _said(run, demo_db, *words)


def test_pages_in_the_wrong_place_are_told_in_one_line_each(run: Run, demo_db: Path) -> None:
    with closing(connect(demo_db)) as connection:
        connection.execute("PRAGMA journal_mode = DELETE")
        connection.execute("DELETE FROM reading WHERE id > 200")
        free = connection.execute("PRAGMA freelist_count").fetchone()
    assert free > (0,)
    content = bytearray(demo_db.read_bytes())
    content[32:36] = (99_999).to_bytes(4, "big")  # the first page of the list of free ones
    demo_db.write_bytes(content)
    said = _said(run, demo_db, "backup")
    assert "is damaged (Main freelist: invalid page number 99999)" in said
    shutil.rmtree(backup_folder(demo_db))
    outcome = run("db", "check", db=demo_db)
    assert outcome.status == 5
    assert all("; mend it with: " in line for line in outcome.out.splitlines())


@pytest.mark.parametrize(
    ("place", "value"), [(18, b"\x07"), (68, b"\xa5\xa5\xa5\xa5")], ids=["version", "mark"]
)
def test_a_backup_comes_back_whatever_the_header_says(
    place: int, value: bytes, run: Run, demo_db: Path
) -> None:
    assert run("backup", db=demo_db).status == 0
    (backup,) = backup_folder(demo_db).iterdir()
    content = bytearray(demo_db.read_bytes())
    content[place : place + len(value)] = value
    demo_db.write_bytes(content)
    outcome = run("restore", str(backup), "--yes", db=demo_db)
    assert (outcome.status, outcome.err) == (0, "")
    assert content_of(demo_db) == content_of(backup)
    assert len(list(backup_folder(demo_db).iterdir())) == 2
    assert run("swatch", "list", db=demo_db).status == 0

"""A backup is whole, checked, private and never in the way of another; full disks leave none."""

import errno
import os
import shutil
import signal
import sqlite3
import stat
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Final

import pytest

from studio.errors import DatabaseTrouble
from studio.storage import sqlite_backup
from studio.storage.schema import connect, state_of
from studio.storage.sqlite_backup import back_up, backup_folder, backups_in
from studio.storage.sqlite_copy import problems
from studio.storage.sqlite_file import uses_wal
from studio.storage.unit_of_work import UnitOfWork

pytestmark = pytest.mark.file_only("copies of a file")

NOW: Final = datetime(2026, 11, 25, 17, 12, tzinfo=UTC)


def _dump(path: Path) -> list[str]:
    with closing(connect(path)) as connection:
        return list(connection.iterdump())


def test_a_backup_holds_everything_and_is_of_its_owner_alone(demo_db: Path) -> None:
    made = back_up(demo_db, NOW)
    assert made.path == demo_db.with_name("backups") / "demo-20261125T171200Z.sqlite3"
    assert _dump(made.path) == _dump(demo_db)
    assert stat.S_IMODE(made.path.stat().st_mode) == 0o600
    assert stat.S_IMODE(made.path.parent.stat().st_mode) == 0o700
    assert not uses_wal(made.path)  # one file, that can be carried elsewhere
    assert list(made.path.parent.iterdir()) == [made.path]


def test_a_backup_is_of_what_was_committed_while_another_writes(demo_db: Path) -> None:
    before = _dump(demo_db)
    with closing(connect(demo_db)) as writer:
        writer.execute("BEGIN IMMEDIATE")
        writer.execute("DELETE FROM stock_event")
        made = back_up(demo_db, NOW)
        writer.execute("COMMIT")
    assert _dump(made.path) == before
    assert _dump(demo_db) != before


def test_what_lies_in_the_log_alone_is_in_the_backup(demo_db: Path) -> None:
    with closing(connect(demo_db)) as writer:
        writer.execute("PRAGMA wal_autocheckpoint = 0")
        writer.execute("UPDATE paint SET note = 'in the log' WHERE id = 1")
        made = back_up(demo_db, NOW)
    with closing(connect(made.path)) as connection:
        assert connection.execute("SELECT note FROM paint WHERE id = 1").fetchone() == (
            "in the log",
        )


def test_two_of_one_second_and_of_a_clock_set_back_all_stay(empty_db: Path) -> None:
    first, second = back_up(empty_db, NOW), back_up(empty_db, NOW)
    back = back_up(empty_db, NOW - timedelta(days=400), why="before-import")
    again = back_up(empty_db, NOW - timedelta(days=400), why="before-import")
    assert second.path.name == "studio-20261125T171200Z-2.sqlite3"
    assert again.path.name == "studio-20251021T171200Z-2-before-import.sqlite3"
    assert [each.path for each in backups_in(backup_folder(empty_db), "studio")] == [
        back.path, again.path, first.path, second.path,
    ]  # fmt: skip


def test_old_ones_go_by_the_rule_and_other_files_never(empty_db: Path) -> None:
    folder = backup_folder(empty_db)
    folder.mkdir()
    names = ("letter.txt", "studio-old.sqlite3", "other-20200101T000000Z.sqlite3")
    mine = [folder / name for name in names]
    for file in mine:
        file.write_text("mine")
    for minute in range(14):
        back_up(empty_db, NOW + timedelta(minutes=minute))
    assert all(file.read_text() == "mine" for file in mine)
    there = [each.path.name for each in backups_in(folder, "studio")]
    assert len(there) == 10
    assert there[-1] == "studio-20261125T172500Z.sqlite3"


def test_an_unchanged_studio_is_not_kept_twice_where_that_is_asked(demo_db: Path) -> None:
    first = back_up(demo_db, NOW)
    with UnitOfWork(demo_db, write=True) as work:  # opened for writing, and left
        work.swatches.derive_colour(1)
    again = back_up(demo_db, NOW + timedelta(hours=1), why="before-import", unless_same=True)
    assert again == first
    with closing(connect(demo_db)) as connection:
        connection.execute("UPDATE swatch SET note = 'x' WHERE id = 1")
    changed = back_up(demo_db, NOW + timedelta(hours=2), why="before-import", unless_same=True)
    assert changed.path != first.path
    assert len(list(first.path.parent.iterdir())) == 2


@pytest.mark.parametrize("links", [True, False])
def test_a_file_system_without_hard_links_serves_too(
    empty_db: Path, monkeypatch: pytest.MonkeyPatch, *, links: bool
) -> None:
    def no_link(_source: Path, _target: Path) -> None:
        raise OSError(errno.EPERM, os.strerror(errno.EPERM))

    if not links:
        monkeypatch.setattr(os, "link", no_link)
    made = [back_up(empty_db, NOW).path for _ in range(3)]
    assert len(set(made)) == 3
    assert all(_dump(path) == _dump(empty_db) for path in made)


def test_a_damaged_database_is_not_backed_up_as_if_it_were_sound(demo_db: Path) -> None:
    with closing(connect(demo_db)) as connection:
        connection.execute("DELETE FROM paper")
    with pytest.raises(DatabaseTrouble, match=f"{demo_db} is damaged"):
        back_up(demo_db, NOW)
    assert list(backup_folder(demo_db).iterdir()) == []


def test_the_database_of_another_program_is_not_backed_up(tmp_path: Path) -> None:
    path = tmp_path / "tides.sqlite3"
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("CREATE TABLE tide (height REAL)")
    with pytest.raises(DatabaseTrouble, match="is not a studio's database"):
        back_up(path, NOW)
    assert list(backup_folder(path).iterdir()) == []


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of 3 MB, which holds the demo studio once."""
    folder = tmp_path / "disk"
    folder.mkdir()
    mount = [shutil.which("mount") or "", "-t", "tmpfs", "-o", "size=3m", "tmpfs", str(folder)]
    if not mount[0] or subprocess.run(mount, check=False).returncode:
        pytest.skip("a small disk cannot be mounted here")
    yield folder
    subprocess.run([shutil.which("umount") or "", str(folder)], check=True)


def test_a_full_disk_leaves_no_half_backup_and_the_studio_as_it_was(
    demo_db: Path, small_disk: Path
) -> None:
    path = Path(shutil.copy(demo_db, small_disk / "studio.sqlite3"))
    before = path.read_bytes()
    with pytest.raises(DatabaseTrouble, match=r"the disk that holds .* is full") as told:
        back_up(path, NOW)
    assert "\n" not in str(told.value)
    assert list(backup_folder(path).iterdir()) == []
    assert path.read_bytes() == before


def test_a_full_disk_keeps_what_was_recorded_and_says_so_for_the_rest(
    empty_db: Path, small_disk: Path
) -> None:
    path = Path(shutil.copy(empty_db, small_disk / "studio.sqlite3"))

    def record(number: int) -> None:
        with UnitOfWork(path, write=True) as work:
            work.connection.exec_driver_sql(
                f"INSERT INTO pigment (ci_name, note) VALUES ('tide {number}', hex(zeroblob(450)))"
            )
            work.commit()

    kept_so_far: list[int] = []

    def record_all() -> None:
        for number in range(5000):
            record(number)
            kept_so_far.append(number)

    with pytest.raises(DatabaseTrouble, match=f"the disk that holds {path} is full"):
        record_all()
    assert len(kept_so_far) > 50
    with closing(connect(path)) as connection:
        assert problems(connection) == []
        (kept,) = connection.execute(
            "SELECT count(*) FROM pigment WHERE ci_name LIKE 'tide %'"
        ).fetchone()
    assert kept == len(kept_so_far)


KILLED: Final = """
import os, signal, sys
from datetime import UTC, datetime
from pathlib import Path
from studio.storage import sqlite_backup

sqlite_backup.take_name = lambda *_: os.kill(os.getpid(), signal.SIGKILL)
sqlite_backup.back_up(Path(sys.argv[1]), datetime.now(UTC))
"""


def test_a_kill_before_the_end_leaves_no_backup_of_a_name(demo_db: Path) -> None:
    done = subprocess.run([sys.executable, "-c", KILLED, str(demo_db)], check=False)
    assert done.returncode == -signal.SIGKILL
    assert list(backup_folder(demo_db).iterdir()) != []  # it was in the middle indeed
    assert backups_in(backup_folder(demo_db), "demo") == ()
    assert state_of(back_up(demo_db, NOW).path)


def test_what_a_kill_left_goes_when_no_copy_can_take_so_long(demo_db: Path) -> None:
    folder = backup_folder(demo_db)
    folder.mkdir()
    ages = {".unfinished-old": 25, ".unfinished-old-wal": 25, ".unfinished-new": 23, "mine": 900}
    for name, hours in ages.items():
        (folder / name).touch()
        then = (NOW - timedelta(hours=hours)).timestamp()
        os.utime(folder / name, (then, then))
    made = back_up(demo_db, NOW)
    assert {file.name for file in folder.iterdir()} == {".unfinished-new", "mine", made.path.name}


def test_a_database_that_is_held_for_good_is_given_up(
    demo_db: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert connect.__kwdefaults__ == {"timeout": 5.0}
    monkeypatch.setitem(connect.__kwdefaults__, "timeout", 0.01)
    with closing(connect(demo_db)) as other:
        other.execute("PRAGMA journal_mode = DELETE")
        other.execute("BEGIN EXCLUSIVE")
        with pytest.raises(DatabaseTrouble, match="in use by another program"):
            back_up(demo_db, NOW)
    assert sqlite_backup.backups_in(backup_folder(demo_db), "demo") == ()

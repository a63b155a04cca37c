"""A restore replaces all or nothing, loses no writes of others, and keeps what was there."""

import shutil
import signal
import stat
import subprocess
import sys
from collections.abc import Callable
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

import pytest

from studio.errors import DatabaseTrouble
from studio.storage import migrate, sqlite_restore
from studio.storage.schema import REVISIONS, connect, revision_of
from studio.storage.sqlite_backup import Backup, back_up, backup_folder
from studio.storage.sqlite_copy import copy
from studio.storage.sqlite_file import uses_wal
from studio.storage.sqlite_restore import restore

pytestmark = pytest.mark.file_only("a file that takes another one's place")

NOW: Final = datetime(2026, 11, 25, 17, 12, tzinfo=UTC)


def _dump(path: Path) -> list[str]:
    with closing(connect(path)) as connection:
        return list(connection.iterdump())


def _write(path: Path, sql: str = "UPDATE paint SET note = 'since then'") -> None:
    with closing(connect(path)) as connection:
        connection.execute(sql)


@pytest.fixture
def backup(demo_db: Path) -> Path:
    """A backup of the demo studio, which is written to since."""
    made = back_up(demo_db, NOW).path
    _write(demo_db)
    return made


def _without_log(path: Path) -> None:
    _write(path, "PRAGMA journal_mode = DELETE")


@pytest.mark.parametrize("prepare", [lambda _path: None, _without_log], ids=["log", "no log"])
def test_everything_is_as_it_was_and_what_was_there_is_kept(
    demo_db: Path, backup: Path, prepare: Callable[[Path], None]
) -> None:
    prepare(demo_db)
    since = _dump(demo_db)
    before = restore(backup, demo_db, NOW)
    assert before is not None
    assert before.path.name == "demo-20261125T171200Z-before-restore.sqlite3"
    assert _dump(demo_db) == _dump(backup)
    assert _dump(before.path) == since
    assert uses_wal(demo_db)
    assert {stat.S_IMODE(path.stat().st_mode) for path in (demo_db, before.path)} == {0o600}
    assert sorted(path.name for path in demo_db.parent.iterdir()) == ["backups", "demo.sqlite3"]
    restore(before.path, demo_db, NOW)
    assert _dump(demo_db) == since


def test_who_has_it_open_sees_the_old_then_the_new_and_may_write_on(
    demo_db: Path, backup: Path
) -> None:
    with closing(connect(demo_db)) as other:
        other.execute("BEGIN")
        note = "SELECT note FROM paint WHERE id = 1"
        assert other.execute(note).fetchone() == ("since then",)
        restore(backup, demo_db, NOW)
        assert other.execute(note).fetchone() == ("since then",)  # its own moment
        other.execute("COMMIT")
        assert other.execute(note).fetchone() != ("since then",)
        other.execute("UPDATE paint SET note = 'after it' WHERE id = 1")
    with closing(connect(demo_db)) as connection:
        assert connection.execute(note).fetchone() == ("after it",)


@pytest.mark.parametrize("prepare", [lambda _path: None, _without_log], ids=["log", "no log"])
def test_what_is_written_while_it_is_kept_is_kept_too(
    demo_db: Path,
    backup: Path,
    monkeypatch: pytest.MonkeyPatch,
    prepare: Callable[[Path], None],
) -> None:
    prepare(demo_db)
    real = sqlite_restore.copy_as_it_is
    copies: list[Backup] = []

    def then_somebody_writes(path: Path, now: datetime) -> Backup:
        copies.append(real(path, now))
        if len(copies) == 1:
            _write(path, "UPDATE paint SET note = 'at the last moment'")
        return copies[-1]

    monkeypatch.setattr(sqlite_restore, "copy_as_it_is", then_somebody_writes)
    before = restore(backup, demo_db, NOW)
    assert before == copies[1]
    with closing(connect(copies[1].path)) as connection:
        assert connection.execute("SELECT DISTINCT note FROM paint").fetchall() == [
            ("at the last moment",)
        ]
    assert _dump(demo_db) == _dump(backup)


def test_a_writer_in_the_middle_is_waited_for_and_told_of(
    demo_db: Path, backup: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert connect.__kwdefaults__ == {"timeout": 5.0}
    monkeypatch.setitem(connect.__kwdefaults__, "timeout", 0.01)
    with closing(connect(demo_db)) as writer:
        writer.execute("BEGIN IMMEDIATE")
        writer.execute("UPDATE paint SET note = 'half done'")
        with pytest.raises(DatabaseTrouble, match="in use by another program"):
            restore(backup, demo_db, NOW)
        writer.execute("COMMIT")
    with closing(connect(demo_db)) as connection:
        assert connection.execute("SELECT DISTINCT note FROM paint").fetchall() == [("half done",)]


def _ruin_header(path: Path) -> None:
    path.write_bytes(b"\xa5" * 100 + path.read_bytes()[100:])


def _ruin_middle(path: Path) -> None:
    content = bytearray(path.read_bytes())
    content[40_960:49_152] = b"\xa5" * 8192
    path.write_bytes(content)


def _cut(path: Path) -> None:
    path.write_bytes(path.read_bytes()[:10_000])


def _empty(path: Path) -> None:
    path.write_bytes(b"")


@pytest.mark.parametrize("ruin", [_ruin_header, _ruin_middle, _cut, _empty])
def test_a_damaged_studio_is_replaced_and_kept_as_it_is(
    demo_db: Path, backup: Path, ruin: Callable[[Path], None]
) -> None:
    ruin(demo_db)
    ruined = demo_db.read_bytes()
    log = demo_db.with_name("demo.sqlite3-wal")
    if ruin is _ruin_header:
        log.write_bytes(b"the log of another day")
    before = restore(backup, demo_db, NOW)
    assert before is not None
    assert before.name.why in {"damaged", "before-restore"}
    assert _dump(demo_db) == _dump(backup)
    assert not log.exists()
    if ruin in {_ruin_header, _cut}:
        assert before.name.why == "damaged"
        assert before.path.read_bytes() == ruined


def test_a_studio_that_is_gone_comes_back_and_a_log_left_alone_is_not_played_into_it(
    demo_db: Path, backup: Path
) -> None:
    demo_db.unlink()
    log = demo_db.with_name("demo.sqlite3-wal")
    log_before = b"the log of another day"
    log.write_bytes(log_before)
    before = restore(backup, demo_db, NOW)
    assert _dump(demo_db) == _dump(backup)
    assert before is not None
    assert before.path.with_name(f"{before.path.name}-wal").read_bytes() == log_before
    assert not log.exists()
    demo_db.unlink()
    assert restore(backup, demo_db, NOW) is None


def test_a_folder_that_is_gone_is_made_again(backup: Path, tmp_path: Path) -> None:
    path = tmp_path / "new machine" / "studio.sqlite3"
    assert restore(backup, path, NOW) is None
    assert _dump(path) == _dump(backup)


def test_an_older_backup_is_upgraded_before_it_takes_the_place(
    empty_db: Path, tmp_path: Path
) -> None:
    old = tmp_path / "old.sqlite3"
    migrate.build(old, REVISIONS[0])
    _write(old, "INSERT INTO pigment (ci_name, note) VALUES ('PO999', 'mud')")
    before = old.read_bytes()
    restore(old, empty_db, NOW)
    assert revision_of(empty_db) == REVISIONS[-1]
    with closing(connect(empty_db)) as connection:
        assert connection.execute("SELECT ci_name, note FROM pigment").fetchall() == [
            ("PO999", "mud")
        ]
    assert old.read_bytes() == before


def _letter(path: Path) -> None:
    path.write_text("Dear harbour master, the slipway is under water again." * 20)


def _newer(path: Path) -> None:
    _write(path, "UPDATE alembic_version SET version_num = '9999'")


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        (_letter, "is not a database"),
        (_newer, "newer studio"),
        (_ruin_middle, "is damaged"),
        (_cut, "is damaged"),
        (Path.unlink, "there is no backup"),
    ],
)
def test_a_backup_that_is_no_good_is_refused_and_nothing_changes(
    demo_db: Path, backup: Path, spoil: Callable[[Path], None], said: str
) -> None:
    spoil(backup)
    before, files = demo_db.read_bytes(), sorted(demo_db.parent.rglob("*"))
    with pytest.raises(DatabaseTrouble, match=said):
        restore(backup, demo_db, NOW)
    assert demo_db.read_bytes() == before
    assert sorted(demo_db.parent.rglob("*")) == files


def test_neither_itself_nor_over_another_programs_database(
    demo_db: Path, backup: Path, tmp_path: Path
) -> None:
    with pytest.raises(DatabaseTrouble, match="cannot be restored from itself"):
        restore(demo_db, demo_db, NOW)
    other = tmp_path / "tides.sqlite3"
    other.touch()
    _write(other, "CREATE TABLE tide (height REAL)")
    before = other.read_bytes()
    with pytest.raises(DatabaseTrouble, match="is not a studio's database"):
        restore(backup, other, NOW)
    assert other.read_bytes() == before


KILLED: Final = """
import os, signal, sys
from datetime import UTC, datetime
from pathlib import Path
from studio.storage import sqlite_restore

moment, backup, path = sys.argv[1], Path(sys.argv[2]), Path(sys.argv[3])
die = lambda *_: os.kill(os.getpid(), signal.SIGKILL)
if moment == "copied":
    sqlite_restore.copy_as_it_is = die
elif moment == "half":
    look, seen = sqlite_restore._Watch.look, []
    sqlite_restore._STEP = 8
    def half(self, status, remaining, total):
        look(self, status, remaining, total)
        if remaining < total / 2:
            die()
    sqlite_restore._Watch.look = half
elif moment == "aside":
    sqlite_restore.make_lasting = die
sqlite_restore.restore(backup, path, datetime.now(UTC))
die()
"""


@pytest.mark.parametrize(("moment", "new"), [("copied", False), ("half", False), ("after", True)])
@pytest.mark.parametrize("log", [True, False])
def test_a_kill_leaves_the_old_or_the_new_never_a_mixture(
    demo_db: Path, backup: Path, moment: str, *, new: bool, log: bool
) -> None:
    if not log:
        _without_log(demo_db)
    old = _dump(demo_db)
    command = [sys.executable, "-c", KILLED, moment, str(backup), str(demo_db)]
    assert subprocess.run(command, check=False).returncode == -signal.SIGKILL
    assert _dump(demo_db) == (_dump(backup) if new else old)


def test_a_kill_in_the_middle_of_replacing_a_ruined_file_leaves_its_copy(
    demo_db: Path, backup: Path
) -> None:
    _ruin_header(demo_db)
    ruined = demo_db.read_bytes()
    command = [sys.executable, "-c", KILLED, "aside", str(backup), str(demo_db)]
    assert subprocess.run(command, check=False).returncode == -signal.SIGKILL
    assert demo_db.read_bytes() == ruined
    restore(backup, demo_db, NOW)
    assert _dump(demo_db) == _dump(backup)
    assert any(
        path.read_bytes() == ruined for path in backup_folder(demo_db).glob("*-damaged.sqlite3")
    )


def test_a_full_disk_refuses_and_changes_nothing(
    demo_db: Path, backup: Path, tmp_path: Path
) -> None:
    disk = tmp_path / "disk"
    disk.mkdir()
    size = demo_db.stat().st_size * 5 // 2
    mount = [shutil.which("mount") or "", "-t", "tmpfs", "-o", f"size={size}", "tmpfs", str(disk)]
    if not mount[0] or subprocess.run(mount, check=False).returncode:
        pytest.skip("a small disk cannot be mounted here")
    try:
        path = disk / "studio.sqlite3"
        copy(demo_db, path)
        old = _dump(path)
        with pytest.raises(DatabaseTrouble, match=r"full|no space left"):
            restore(backup, path, NOW)
        assert _dump(path) == old
    finally:
        subprocess.run([shutil.which("umount") or "", str(disk)], check=True)

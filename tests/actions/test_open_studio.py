"""A studio is opened, begun or upgraded; what is begun is whole or leaves nothing."""

import signal
import stat
import subprocess
import sys
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

import pytest

from studio.actions import load_reference, open_studio
from studio.actions.check_database import check_database
from studio.actions.importing.tables import kind_named
from studio.actions.open_studio import create_studio
from studio.errors import DatabaseTrouble, StudioError
from studio.storage import migrate
from studio.storage.schema import SchemaState
from studio.storage.shipped import shipped_folder
from studio.storage.unit_of_work import UnitOfWork
from tests.conftest import TODAY
from tests.servers import fingerprint

NOW: Final = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)


def _open(path: Path, *, write: bool) -> tuple[UnitOfWork, list[str]]:
    told: list[str] = []
    return open_studio.open_studio(path, write=write, now=NOW, tell=told.append), told


def test_looking_at_a_studio_that_is_not_there_says_how_to_start_and_makes_nothing(
    tmp_path: Path,
) -> None:
    path = tmp_path / "new" / "studio.sqlite3"
    with pytest.raises(DatabaseTrouble, match=r"there is no studio at .* yet; start one with"):
        _open(path, write=False)
    assert list(tmp_path.iterdir()) == []


def test_recording_in_a_studio_that_is_not_there_begins_it_and_tells(tmp_path: Path) -> None:
    path = tmp_path / "a" / "b" / "studio.sqlite3"
    opened, told = _open(path, write=True)
    assert told == [f"started a new studio at {path}"]
    assert opened.writes
    with opened as work:
        assert len(work.pigments.all()) > 200
        assert work.paints.all() == ()
    assert list(path.parent.iterdir()) == [path]
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert check_database(path) == []


@pytest.mark.parametrize("write", [False, True])
def test_a_studio_that_is_there_is_opened_without_a_word(empty_db: Path, *, write: bool) -> None:
    before = fingerprint(empty_db)
    opened, told = _open(empty_db, write=write)
    assert (opened.path, opened.writes, told) == (empty_db, write, [])
    assert fingerprint(empty_db) == before


@pytest.mark.parametrize("write", [False, True])
@pytest.mark.file_only("test_server.py tries the upgrade of a server")
def test_an_old_studio_is_upgraded_first_and_the_backup_named(
    empty_db: Path, monkeypatch: pytest.MonkeyPatch, *, write: bool
) -> None:
    upgraded: list[tuple[Path, datetime]] = []

    def upgrade(path: Path, now: datetime, refresh: object) -> Path:
        assert refresh is load_reference.refresh_reference
        upgraded.append((path, now))
        return path.with_suffix(".before")

    monkeypatch.setattr(open_studio, "state_of", lambda _path: SchemaState.OLD)
    monkeypatch.setattr(migrate, "upgrade", upgrade)
    _, told = _open(empty_db, write=write)
    assert upgraded == [(empty_db, NOW)]
    assert told == [
        f"upgraded {empty_db}; the database as it was is kept at {empty_db.with_suffix('.before')}"
    ]


def test_what_is_no_studio_is_not_opened(tmp_path: Path) -> None:
    path = tmp_path / "letter.txt"
    path.write_text("Dear harbour master, the slipway is under water again.", encoding="utf-8")
    for write in (True, False):
        with pytest.raises(DatabaseTrouble):
            _open(path, write=write)
    assert path.read_text(encoding="utf-8").startswith("Dear harbour master")


def _fail(error: BaseException) -> Callable[[UnitOfWork], None]:
    def fill(work: UnitOfWork) -> None:
        assert work.pigments.all()
        raise error

    return fill


@pytest.mark.parametrize(
    "error", [StudioError("bad row"), ValueError("defect"), KeyboardInterrupt()]
)
def test_a_studio_whose_filling_fails_leaves_no_file(tmp_path: Path, error: BaseException) -> None:
    with pytest.raises(type(error)):
        create_studio(tmp_path / "studio.sqlite3", _fail(error))
    assert list(tmp_path.iterdir()) == []


def test_a_studio_whose_reference_cannot_be_loaded_leaves_no_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shared = tmp_path / "shared"
    shared.mkdir()
    for name in load_reference.TABLES:
        table = (shipped_folder("shared") / f"{name}.csv").read_text(encoding="utf-8")
        (shared / f"{name}.csv").write_text(table, encoding="utf-8")
    with (shared / "hazards.csv").open("a", encoding="utf-8") as file:
        file.write("PB29,mud,,Wash it off.,H999,none,,,,,,memory,from memory\n")
    monkeypatch.setattr(load_reference, "shipped_folder", lambda _name: shared)
    path = tmp_path / "home" / "studio.sqlite3"
    with pytest.raises(StudioError, match=r"the program's own hazards\.csv, line \d+: .*H999"):
        _open(path, write=True)
    assert list(path.parent.iterdir()) == []


def test_a_studio_is_never_begun_over_a_file(tmp_path: Path) -> None:
    path = tmp_path / "studio.sqlite3"
    path.write_text("a letter", encoding="utf-8")
    with pytest.raises(DatabaseTrouble):
        create_studio(path)
    assert path.read_text(encoding="utf-8") == "a letter"
    assert list(tmp_path.iterdir()) == [path]


def test_a_studio_cannot_be_begun_below_a_file(tmp_path: Path) -> None:
    (tmp_path / "letter").write_text("not a folder", encoding="utf-8")
    path = tmp_path / "letter" / "studio.sqlite3"
    with pytest.raises(DatabaseTrouble, match="cannot be used"):
        create_studio(path)
    with pytest.raises(DatabaseTrouble, match="cannot be used"):
        _open(path, write=True)


@pytest.mark.file_only("test_server.py tries two that begin at once")
def test_a_studio_that_another_command_began_meanwhile_is_opened_without_a_word(
    empty_template: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "studio.sqlite3"

    def overtaken(_path: Path) -> None:
        path.write_bytes(empty_template.read_bytes())
        msg = "there is a file of that name"
        raise DatabaseTrouble(msg)

    monkeypatch.setattr(open_studio, "create_studio", overtaken)
    opened, told = _open(path, write=True)
    assert (opened.path, told) == (path, [])


def test_a_change_of_what_is_on_record_begins_no_studio(tmp_path: Path) -> None:
    path = tmp_path / "studio.sqlite3"
    with pytest.raises(DatabaseTrouble, match="there is no studio at"):
        open_studio.open_studio(path, write=True, now=NOW, tell=print, create=False)
    assert list(tmp_path.iterdir()) == []


KILLED: Final = """
import os, signal, sys
from pathlib import Path
from sqlalchemy import text
from studio.actions.open_studio import create_studio

def die(work):
    work.connection.execute(text("PRAGMA cache_size = 1"))
    work.connection.execute(text("UPDATE pigment SET note = 'half done'"))
    os.kill(os.getpid(), signal.SIGKILL)

create_studio(Path(sys.argv[1]), die)
"""


def test_a_beginning_that_was_killed_does_not_hinder_the_next(tmp_path: Path) -> None:
    path = tmp_path / "studio.sqlite3"
    done = subprocess.run([sys.executable, "-c", KILLED, str(path)], check=False)
    assert done.returncode == -signal.SIGKILL
    assert not path.exists()
    assert list(tmp_path.iterdir()) != []  # it was in the middle indeed
    create_studio(path)
    assert check_database(path) == []
    with UnitOfWork(path) as work:
        assert "half done" not in {pigment.note for pigment in work.pigments.all()}


BEGUN: Final = """
import sys
from datetime import UTC, datetime
from pathlib import Path
from studio.actions.open_studio import open_studio

with open_studio(Path(sys.argv[1]), write=True, now=datetime.now(UTC), tell=print) as work:
    print(len(work.pigments.all()))
"""


def test_commands_that_begin_a_studio_at_once_all_find_one_studio(tmp_path: Path) -> None:
    path = tmp_path / "studio.sqlite3"
    command = [sys.executable, "-c", BEGUN, str(path)]
    running = [
        subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
        for _ in range(3)
    ]
    printed = [process.communicate() for process in running]
    assert [process.returncode for process in running] == [0, 0, 0], printed
    assert sum("started a new studio" in out for out, _ in printed) == 1
    assert len({out.split()[-1] for out, _ in printed}) == 1
    assert list(tmp_path.iterdir()) == [path]


def test_the_reference_is_loaded_once_and_owners_changes_stay(empty_db: Path) -> None:
    with UnitOfWork(empty_db, write=True) as work:
        before = work.pigments.all()
        assert work.pigments.verify(
            "PB31", "from memory", TODAY, "label", ratings=True, hazards=True
        )
        verified = work.pigments.get("PB31")
        load_reference.load_reference(work)
        work.commit()
        assert len(work.pigments.all()) == len(before)
        assert work.pigments.get("PB31") == verified
        assert [p for p in work.pigments.all() if p.ci_name != "PB31"] == [
            p for p in before if p.ci_name != "PB31"
        ]


def test_every_table_of_the_reference_has_a_kind() -> None:
    assert [kind_named(name).name for name in load_reference.TABLES] == list(load_reference.TABLES)

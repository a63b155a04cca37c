"""Each command on a disk that is full by a little more or less: all or nothing, and one sentence.

On a disk with room for nothing, then for ever more, a command is run until it succeeds. The proof
has no longer form: `STEP` tells how much more room there is each time.
"""

import shutil
import subprocess
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

import pytest

from studio.storage.schema import HEAD, revision_of
from studio.storage.sqlite_backup import back_up, backups_in
from studio.storage.sqlite_file import SIDES, beside
from tests.conftest import Run
from tests.proofs.studios import content, faults_of, made_by_the_first_release, table_of_swatches

NOW: Final = datetime(2026, 11, 25, 17, 12, tzinfo=UTC)
DISK: Final = 24 << 20
STEP: Final = 8
"""By what the room grows from one try to the next."""

pytestmark = pytest.mark.file_only("a full disk under a file")


@pytest.fixture
def disk(tmp_path: Path) -> Iterator[Path]:
    """A small disk."""
    folder = tmp_path / "disk"
    folder.mkdir()
    mount = [shutil.which("mount") or "", "-t", "tmpfs", "-o", f"size={DISK}", "tmpfs", str(folder)]
    if not mount[0] or subprocess.run(mount, check=False).returncode:
        pytest.skip("a small disk cannot be mounted here")
    yield folder
    subprocess.run([shutil.which("umount") or "", str(folder)], check=True)


def _leave(disk: Path, room: int) -> None:
    """Fill a disk until so much is free."""
    filler = disk / "filler"
    filler.unlink(missing_ok=True)
    free = shutil.disk_usage(disk).free
    filler.write_bytes(bytes(max(0, free - room)))


def _log(_studio: Path, _elsewhere: Path) -> tuple[str, ...]:
    return ("swatch", "log", "2 FU + 1 BS", "--lab", "41,2,-12", "--paper", "ECP")


def _import(_studio: Path, elsewhere: Path) -> tuple[str, ...]:
    table = table_of_swatches(elsewhere / "swatches.csv", 40)
    table.write_text(table.read_text().replace(",SR,", ",ECP,"))
    return ("import", str(table))


def _backup(_studio: Path, _elsewhere: Path) -> tuple[str, ...]:
    return ("backup",)


def _export(studio: Path, _elsewhere: Path) -> tuple[str, ...]:
    return ("export", str(studio.parent / "written"))


def _restore(studio: Path, elsewhere: Path) -> tuple[str, ...]:
    return ("restore", str(back_up(studio, NOW, folder=elsewhere / "kept").path), "--yes")


COMMANDS: Final[dict[str, Callable[[Path, Path], tuple[str, ...]]]] = {
    "swatch log": _log, "import": _import, "backup": _backup, "export": _export,
    "restore": _restore,
}  # fmt: skip


def _refused_until_there_is_room(run: Run, disk: Path, studio: Path, words: tuple[str, ...]) -> int:
    """How often it was refused; each time with one sentence and the studio as it was."""
    before, revision = content(studio), revision_of(studio)
    there, backups = set(disk.rglob("*")), studio.parent / "backups"
    refused, room = 0, 0
    while True:
        _leave(disk, room)
        outcome = run(*words, db=studio)
        if outcome.status == 0:
            return refused
        refused += 1
        assert (outcome.status, outcome.out) == (5, "")
        *told, refusal = outcome.err.splitlines()
        assert all("as it was is kept at" in line for line in told)  # the backup had room
        assert refusal.startswith("studio: ")
        assert "disk" in refusal or "space" in refusal
        (disk / "filler").unlink()
        left = set(disk.rglob("*")) - there - {beside(studio, side) for side in SIDES}
        assert left <= {backups, *(each.path for each in backups_in(backups, studio.stem))}
        assert (content(studio), revision_of(studio)) == (before, revision)
        assert faults_of(studio) == []
        room = max(4096, room * STEP)
        assert room < DISK


@pytest.mark.parametrize("name", COMMANDS)
def test_a_command_without_room_leaves_the_studio_as_it_was(
    name: str, run: Run, demo_db: Path, disk: Path, tmp_path: Path
) -> None:
    studio = Path(shutil.copy(demo_db, disk / "studio.sqlite3"))
    words = COMMANDS[name](studio, tmp_path)
    assert _refused_until_there_is_room(run, disk, studio, words) >= 1
    assert faults_of(studio) == []


def test_an_upgrade_without_room_leaves_the_older_studio(
    run: Run, disk: Path, tmp_path: Path
) -> None:
    made = made_by_the_first_release(tmp_path / "studio.sqlite3")
    studio = Path(shutil.copy(made, disk / "studio.sqlite3"))
    assert _refused_until_there_is_room(run, disk, studio, ("swatch", "list")) >= 1
    assert revision_of(studio) == HEAD
    assert faults_of(studio) == []

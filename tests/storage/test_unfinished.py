"""What killed commands leave is removed by the next one, and never what one still writes."""

import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Final

import pytest

from studio.storage.unfinished import abandoned_in, remove_abandoned, unfinished_folder
from tests.conftest import Run

pytestmark = [
    pytest.mark.file_only("about folders"),
    pytest.mark.skipif(sys.platform == "win32", reason="locks of POSIX"),
]

ROOT: Final = Path(__file__).resolve().parents[2]

WRITER: Final = """
import sys, time
from pathlib import Path
from studio.storage.unfinished import unfinished_folder
with unfinished_folder(Path(sys.argv[1])) as folder:
    (folder / "copy").write_text("all of the studio")
    print(folder, flush=True)
    time.sleep(60)
"""


@pytest.fixture
def place(tmp_path: Path) -> Path:
    """A folder with nothing else in it."""
    folder = tmp_path / "place"
    folder.mkdir()
    return folder


@pytest.fixture
def writer(place: Path) -> Iterator["subprocess.Popen[str]"]:
    """A process that is making something in an unfinished folder."""
    process = subprocess.Popen(
        [sys.executable, "-c", WRITER, str(place / "studio.sqlite3")],
        stdout=subprocess.PIPE,
        text=True,
        cwd=ROOT,
    )
    assert process.stdout is not None
    assert Path(process.stdout.readline().strip()).parent == place
    yield process
    process.kill()
    process.wait()
    process.stdout.close()


def test_what_lives_stays_and_what_was_killed_goes(
    writer: "subprocess.Popen[str]", place: Path
) -> None:
    assert abandoned_in(place) == []
    with unfinished_folder(place / "other") as ours:
        left = sorted(place.iterdir())
        assert (len(left), ours in left) == (2, True)
        remove_abandoned(place)
        assert sorted(place.iterdir()) == left
    (theirs,) = place.iterdir()
    writer.send_signal(signal.SIGKILL)
    writer.wait()
    assert (theirs / "copy").exists()
    assert abandoned_in(place) == [theirs]
    with unfinished_folder(place / "other") as ours:
        assert list(place.iterdir()) == [ours]
    assert list(place.iterdir()) == []


def test_a_folder_without_a_lock_goes_when_none_can_be_at_work_on_it(place: Path) -> None:
    young, old = place / ".whole.unfinished-a", place / ".whole.unfinished-b"
    for folder in (young, old):
        (folder / "files").mkdir(parents=True)
        (folder / "files" / "copy").touch()
    long_ago = time.time() - 2 * 86_400
    for each in (old / "files" / "copy", old / "files", old):
        os.utime(each, (long_ago, long_ago))
    assert abandoned_in(place) == [old]
    remove_abandoned(place)
    assert list(place.iterdir()) == [young]


def test_nothing_else_is_touched(place: Path) -> None:
    elsewhere = place / "elsewhere"
    elsewhere.mkdir()
    (elsewhere / "being-written").touch()
    (place / ".link.unfinished-x").symlink_to(elsewhere)
    (place / ".file.unfinished-x").touch()
    (place / "shown.unfinished-x").mkdir()
    (place / "shown.unfinished-x" / "being-written").touch()
    before = sorted(place.rglob("*"))
    remove_abandoned(place)
    remove_abandoned(place / "gone")
    assert sorted(place.rglob("*")) == before


def _killed_in(place: Path) -> Path:
    folder = place / ".demo.sqlite3.unfinished-x"
    folder.mkdir(mode=0o700)
    (folder / "being-written").touch(mode=0o600)
    (folder / "demo.sqlite3").write_bytes(b"all of the studio")
    return folder


@pytest.mark.parametrize(
    "words", [("export", "{place}/whole"), ("restore", "{backup}", "--yes")], ids=" ".join
)
def test_the_next_command_removes_it(words: tuple[str, ...], run: Run, demo_db: Path) -> None:
    assert run("backup", db=demo_db).status == 0
    (backup,) = (demo_db.parent / "backups").iterdir()
    left = _killed_in(demo_db.parent)
    named = {"place": demo_db.parent, "backup": backup}
    assert run(*(word.format(**named) for word in words), db=demo_db).status == 0
    assert not left.exists()
    assert abandoned_in(demo_db.parent) == []
    whole = demo_db.parent / "whole"
    assert not whole.exists() or not (whole / "being-written").exists()


def test_the_check_tells_of_it_and_mends_it(run: Run, demo_db: Path) -> None:
    left = _killed_in(demo_db.parent)
    found = run("db", "check", db=demo_db)
    assert found.status == 10
    assert f"a command that was killed left {left.name} beside it" in found.out
    assert left.exists()
    mended = run("db", "check", "--mend", db=demo_db)
    assert mended.status == 0, mended.out
    assert "mended: a command that was killed left" in mended.out
    assert not left.exists()

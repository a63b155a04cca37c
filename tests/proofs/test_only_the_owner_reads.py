"""Whatever the umask, nobody else reads the records, not even while they are being written."""

import os
import stat
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, Final

import pytest

from studio.storage import migrate
from studio.storage.schema import REVISIONS
from tests.conftest import Run
from tests.proofs.studio_beside import FILES

pytestmark = pytest.mark.file_only("about permissions of files")

EVENTS: Final = {
    "open", "os.rename", "os.link", "os.remove", "os.mkdir", "os.rmdir", "os.chmod",
    "sqlite3.connect", "os.listdir", "os.scandir",
}  # fmt: skip


class _Watch:
    """Looks over a folder whenever this process touches the file system."""

    folder: Path | None = None
    seen: set[str] = set()  # noqa: RUF012 - one watch for a process, as hooks stay
    looked = 0
    busy = False


def _hook(event: str, _about: tuple[Any, ...]) -> None:
    if _Watch.folder is None or _Watch.busy or event not in EVENTS:
        return
    _Watch.busy = True
    try:
        _Watch.looked += 1
        for root, folders, files in os.walk(_Watch.folder):
            for name in (*folders, *files):
                try:
                    mode = Path(root, name).lstat().st_mode
                except FileNotFoundError:
                    continue
                if stat.S_IMODE(mode) & 0o077:
                    _Watch.seen.add(f"{name}: {stat.S_IMODE(mode):o}")
    finally:
        _Watch.busy = False


_hooked: list[bool] = []


@contextmanager
def _watched(folder: Path) -> Iterator[set[str]]:
    if not _hooked:
        sys.addaudithook(_hook)
        _hooked.append(True)
    _Watch.folder, _Watch.seen, _Watch.looked = folder, set(), 0
    old = os.umask(0)
    try:
        yield _Watch.seen
    finally:
        os.umask(old)
        _Watch.folder = None
    assert _Watch.looked > 0


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder in which everything is written, temporary files as well."""
    import tempfile

    folder = tmp_path / "place"
    (folder / "temporary").mkdir(parents=True, mode=0o700)
    folder.chmod(0o700)
    monkeypatch.setattr(tempfile, "tempdir", str(folder / "temporary"))
    monkeypatch.setenv("XDG_DATA_HOME", str(folder / "data"))
    return folder


def test_the_watch_sees_a_file_that_others_may_read(place: Path) -> None:
    with _watched(place) as seen:
        (place / "loose").touch(mode=0o644)
        (place / "loose").unlink()
    assert seen == {"loose: 644"}


def test_a_new_studio_and_all_that_is_made_of_it(place: Path, run: Run) -> None:
    db = place / "studio.sqlite3"
    whole = place / "whole"
    with _watched(place) as seen:
        for words in (
            ("import", str(FILES / "paints.csv"), str(FILES / "papers.csv")),
            ("swatch", "log", "2 FU + 1 BS", "--lab", "41,2,-12", "--paper", "ECP"), ("backup",),
            ("backup", "--to", str(place / "backups of mine")), ("export", str(whole)),
            ("import", str(FILES / "data_sheets.csv")), ("undo",), ("redo",),
            ("db", "check", "--mend"),
        ):  # fmt: skip
            assert run(*words, db=db).status in {0, 6, 10}, words
        backups = sorted((place / "backups").iterdir())
        assert run("restore", str(backups[0]), "--yes", db=db).status == 0
        db.write_bytes(b"damaged")
        assert run("restore", str(backups[0]), "--yes", db=db).status == 0
        assert run("import", str(whole), db=place / "again.sqlite3").status == 0
        assert run("import", str(whole), "--dry-run", db=place / "third.sqlite3").status == 0
    assert seen == set()


def test_a_new_studio_in_the_data_folder(place: Path, run: Run) -> None:
    with _watched(place) as seen:
        assert run("import", str(FILES / "paints.csv")).status == 0
    assert {each for each in seen if not each.startswith("data: ")} == set()


def test_an_upgrade_with_its_backup(place: Path, run: Run) -> None:
    db = place / "old.sqlite3"
    with _watched(place) as seen:
        migrate.build(db, REVISIONS[0])
        assert run("paint", "list", db=db).status == 0
    assert seen == set()
    assert len(list((place / "backups").iterdir())) == 1


def test_the_log_beside_an_open_studio(place: Path, run: Run) -> None:
    from studio.storage.unit_of_work import UnitOfWork

    db = place / "studio.sqlite3"
    with _watched(place) as seen:
        assert run("import", str(FILES / "paints.csv"), db=db).status == 0
        with UnitOfWork(db, write=True) as work:
            work.paints.all()
            work.connection.exec_driver_sql("UPDATE paint SET note = 'tide'")
            beside = {path.name for path in place.iterdir()}
            work.commit()
    assert {"studio.sqlite3-wal", "studio.sqlite3-shm"} <= beside
    assert seen == set()

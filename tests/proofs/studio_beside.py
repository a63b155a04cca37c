"""A studio in a folder of its own for each command line of a proof, and what became of it."""

import csv
import hashlib
import io
import os
import shutil
import sqlite3
import sys
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager, redirect_stderr, redirect_stdout
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import Final
from unittest import mock

from studio.actions.build_demo import build_demo
from studio.actions.paint_model import paint_model
from studio.cli.app import main
from studio.storage.unit_of_work import UnitOfWork
from tests.proofs.fence import fenced

FILES: Final = Path(__file__).resolve().parents[2] / "seed_demo"

NOT_KEPT: Final = frozenset({"characterisation"})
"""Tables of what is computed, which a command that only looks may fill."""


@dataclass(frozen=True, slots=True)
class Ended:
    """How a command line ended."""

    status: int
    out: str
    err: str
    raised: str = ""


def run_line(words: list[str]) -> Ended:
    """A command line in this process, with streams as strict as those of a terminal."""
    out, err = io.BytesIO(), io.BytesIO()
    raised = ""
    status = -1
    with (
        redirect_stdout(io.TextIOWrapper(out, "utf-8", "strict", write_through=True)) as stdout,
        redirect_stderr(
            io.TextIOWrapper(err, "utf-8", "backslashreplace", write_through=True)
        ) as _,
        mock.patch.object(sys, "stdin", io.StringIO()),
    ):
        try:
            status = int(main(words))
            stdout.flush()
        except (Exception, SystemExit) as error:  # noqa: BLE001 - nothing may come out of main
            raised = f"{type(error).__name__}: {error}"
        return Ended(status, out.getvalue().decode(), err.getvalue().decode(), raised)


def records(database: Path) -> str:
    """A digest of every row of every table, but for what is computed."""
    digest = hashlib.sha256()
    with closing(sqlite3.connect(database)) as connection:
        connection.text_factory = bytes
        names = connection.execute(
            "SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name"
        ).fetchall()
        for (name,) in names:
            table = name.decode()
            if table in NOT_KEPT:
                continue
            digest.update(name)
            for row in connection.execute(f'SELECT * FROM "{table}" ORDER BY rowid'):
                digest.update(repr(row).encode())
    return digest.hexdigest()


def _seen(folder: Path) -> dict[str, tuple[int, int, int]]:
    """Everything below a folder with its size, time and permissions."""
    found: dict[str, tuple[int, int, int]] = {}
    stack = [folder]
    while stack:
        with os.scandir(stack.pop()) as entries:
            for entry in entries:
                about = entry.stat(follow_symlinks=False)
                if entry.is_dir(follow_symlinks=False):
                    stack.append(Path(entry.path))
                    found[entry.path] = (0, 0, about.st_mode)
                else:
                    found[entry.path] = (about.st_size, about.st_mtime_ns, about.st_mode)
    return found


@dataclass
class Beside:
    """A folder with a studio and files around it, the same for every command line.

    Args:
        template: the database that each command line gets a copy of.
        root: an empty folder to build it in.
    """

    template: Path
    root: Path
    before: dict[str, tuple[int, int, int]] = field(default_factory=dict)
    kept: str = ""

    @property
    def database(self) -> Path:
        """The studio."""
        return self.root / "studio" / "studio.sqlite3"

    @property
    def here(self) -> Path:
        """The folder that command lines are run in."""
        return self.root / "here"

    def __post_init__(self) -> None:
        """Lay out the files."""
        for name in ("studio", "given", "tmp", "data"):
            (self.root / name).mkdir()
        demo = self.root / "data" / "painters-studio" / "demo"
        demo.mkdir(parents=True)
        shutil.copy(self.template, demo / "studio.sqlite3")
        given = self.root / "given"
        for path in (*FILES.glob("*.csv"), *(FILES / "files").iterdir()):
            shutil.copy(path, given)
        (given / "folder").mkdir()
        (given / "empty.csv").touch()
        (given / "map.csv").write_text("sample,swatch\nS12,S12\nS13,\n")
        (given / "spectrum.csv").write_text(
            "".join(f"{nm},{0.1 + (nm - 380) / 700:.3f}\n" for nm in range(380, 740, 10))
        )
        shutil.copy(self.template, self.database)
        self.kept = records(self.database)
        self.renew()
        with self.inside():
            run_line(["--db", str(self.database), "export", str(given / "whole")])
        self.renew()

    def renew(self) -> None:
        """Put everything back as it was."""
        inside = self.here.exists() and Path.cwd() == self.here
        if inside:
            os.chdir(self.root)
        for name in ("studio", "here", "beside", "tmp"):
            folder = self.root / name
            if folder.exists():
                shutil.rmtree(folder)
            folder.mkdir(mode=0o700)
        shutil.copyfile(self.template, self.database)
        self.database.chmod(0o600)
        for name in ("old.html", "old.csv"):
            (self.here / name).write_text("older")
        (self.here / "folder").mkdir()
        self.look()
        if inside:
            os.chdir(self.here)

    def run(self, *words: str, database: Path | None = None) -> Ended:
        """A command line on the studio, which can write nothing outside of the folder."""
        with fenced(self.root):
            return run_line(["--db", str(database or self.database), *words])

    def look(self) -> None:
        """Take what lies there now as what was there before."""
        self.before = _seen(self.root)

    @contextmanager
    def inside(self) -> Iterator[None]:
        """Where command lines find themselves."""
        old = Path.cwd()
        os.chdir(self.here)
        environment = {
            "XDG_DATA_HOME": str(self.root / "data"), "COLUMNS": "80",
            "TMPDIR": str(self.root / "tmp"),
        }  # fmt: skip
        try:
            with (
                mock.patch.dict(os.environ, environment),
                mock.patch.object(tempfile, "tempdir", str(self.root / "tmp")),
            ):
                os.environ.pop("STUDIO_DB", None)
                yield
        finally:
            os.chdir(old)

    def changed(self) -> list[Path]:
        """What was written, changed or removed around the studio, the database apart."""
        after = _seen(self.root)
        different = {path for path, about in after.items() if self.before.get(path) != about}
        different |= set(self.before) - set(after)
        own = {f"{self.database}{end}" for end in ("", "-wal", "-shm", "-journal")}
        return sorted(Path(path) for path in different - own)

    def records_changed(self) -> bool:
        """Whether anything that was recorded is another now."""
        log = Path(f"{self.database}-wal")
        about = self.database.stat()
        as_before = self.before[str(self.database)] == (
            about.st_size,
            about.st_mtime_ns,
            about.st_mode,
        )
        if as_before and not (log.exists() and log.stat().st_size):
            return False
        return records(self.database) != self.kept


def furnished(path: Path, today: date) -> Path:
    """The demo studio with something in every corner: removed, undone, named, rated.

    Args:
        path: where to write it; a demo studio lies there already, or nothing.
        today: for the demo's days.
    """
    if not path.exists():
        build_demo(path, today)
    for line in (
        ["target", "add", "kelp", "#5a5a32", "--note", "at low water"],
        ["target", "add", "wet slip", "#6b7a5e"],
        ["target", "add", "old tar", "#222222"],
        ["target", "remove", "old tar"],
        ["swatch", "remove", "S9", "--because", "smudged"],
        [
            "swatch",
            "read",
            "S12",
            "--file",
            str(FILES / "files" / "readings.cxf"),
            "--sample",
            "S12",
        ],
        ["stock", "open", "CB-4"],
        ["stock", "lend", "BU-1"],
        ["swatch", "read", "S7", "--lab", "41,2,-12"],
        ["undo"],
    ):
        run_line(["--db", str(path), *line])
    with UnitOfWork(path, write=True) as unit:
        paint_model(unit, today)  # each line would compute it anew
        unit.commit()
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    return path


def cells(path: Path) -> list[list[str]]:
    """The rows of a CSV file."""
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.reader(file))

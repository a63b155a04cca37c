"""Databases to work on (copies of templates built once) and the command line as a function."""

import os
import shutil
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path

import pytest
from hypothesis import settings

from studio.actions.build_demo import build_demo
from studio.actions.open_studio import create_studio
from studio.cli.app import main
from studio.storage.unit_of_work import UnitOfWork

settings.register_profile("no deadline", deadline=None)  # how long an example takes says nothing
settings.load_profile("no deadline")

# Tests run on every core already; more threads would only wait for each other.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

TODAY = date(2026, 11, 25)
"""The day of tests that pass one in; every record of the demo studio is older."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a command line printed, and its exit status."""

    status: int
    out: str
    err: str


Run = Callable[..., Outcome]


@pytest.fixture(scope="session")
def empty_template(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A new studio: the pigment reference and nothing else. Copy it, do not write to it."""
    path = tmp_path_factory.mktemp("empty") / "studio.sqlite3"
    create_studio(path)
    return path


@pytest.fixture(scope="session")
def demo_template(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo studio, its model of the paints computed. Copy it, do not write to it."""
    from studio.actions.paint_model import paint_model

    path = tmp_path_factory.mktemp("demo") / "studio.sqlite3"
    run = os.environ.get("PYTEST_XDIST_TESTRUNUID")
    shared = tmp_path_factory.getbasetemp().parent / f"demo-{run}.sqlite3"
    if run is not None and shared.exists():
        return Path(shutil.copy(shared, path))  # as another process of this run made it
    build_demo(path, TODAY)
    with UnitOfWork(path, write=True) as unit:
        paint_model(unit, TODAY)
        unit.commit()
    if run is not None:
        Path(shutil.copy(path, path.with_suffix(".copy"))).replace(shared)
    return path


@pytest.fixture
def empty_db(empty_template: Path, tmp_path: Path) -> Path:
    """A new studio of this test's own."""
    return Path(shutil.copy(empty_template, tmp_path / "studio.sqlite3"))


@pytest.fixture
def demo_db(demo_template: Path, tmp_path: Path) -> Path:
    """A demo studio of this test's own."""
    return Path(shutil.copy(demo_template, tmp_path / "demo.sqlite3"))


@pytest.fixture
def work(empty_db: Path) -> Iterator[UnitOfWork]:
    """An open unit of work on a new studio."""
    with UnitOfWork(empty_db, write=True) as unit:
        yield unit


@pytest.fixture
def demo_work(demo_db: Path) -> Iterator[UnitOfWork]:
    """An open unit of work on a demo studio."""
    with UnitOfWork(demo_db, write=True) as unit:
        yield unit


@pytest.fixture
def data_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A data folder of this test's own, so that no test touches a real studio."""
    home = tmp_path / "data"
    monkeypatch.setenv("XDG_DATA_HOME", str(home))
    monkeypatch.delenv("STUDIO_DB", raising=False)
    monkeypatch.setenv("COLUMNS", "80")
    return home


@pytest.fixture
def run(data_home: Path, capsys: pytest.CaptureFixture[str]) -> Run:
    """`run("match", "tan", db=path)`: a command line in this process."""
    del data_home

    def run_command(*words: str, db: Path | None = None) -> Outcome:
        capsys.readouterr()
        named = [] if db is None else ["--db", str(db)]
        status = main([*named, *words])
        printed = capsys.readouterr()
        return Outcome(int(status), printed.out, printed.err)

    return run_command

"""Databases to work on (copies of templates built once) and the command line as a function."""

import os
import shutil
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Final

import pytest
from hypothesis import settings

from studio.actions.build_demo import build_demo
from studio.actions.open_studio import create_studio
from studio.cli.app import main
from studio.storage.address import Database, ServerAddress
from studio.storage.unit_of_work import UnitOfWork
from tests.servers import SERVER, copy_of, drop, new_database, on_server, shared_template

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


OF_A_STUDIO: Final = {
    "demo_db", "demo_template", "demo_work", "empty_db", "empty_template", "server_db", "work",
}  # fmt: skip
"""The fixtures that give a studio: what is tested with them is tested on a server too."""


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """On a server only what needs a studio is tried again, and nothing that is about files."""
    if SERVER is None:
        return
    again = [item for item in items if OF_A_STUDIO & set(getattr(item, "fixturenames", ()))]
    config.hook.pytest_deselected(items=[item for item in items if item not in set(again)])
    items[:] = again
    for item in items:
        marker = item.get_closest_marker("file_only")
        if marker is not None:
            item.add_marker(pytest.mark.skip(reason=f"files only: {marker.args[0]}"))


@pytest.fixture(scope="session")
def empty_template(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """A new studio: the pigment reference and nothing else. Copy it, do not write to it."""
    if SERVER is not None:
        address = new_database()
        create_studio(address)
        yield on_server(address)
        drop(address)
        return
    path = tmp_path_factory.mktemp("empty") / "studio.sqlite3"
    create_studio(path)
    yield path


@pytest.fixture(scope="session")
def demo_template(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """The demo studio, its model of the paints computed. Copy it, do not write to it."""
    if SERVER is not None:
        yield on_server(shared_template(_build_demo))
        return
    path = tmp_path_factory.mktemp("demo") / "studio.sqlite3"
    run = os.environ.get("PYTEST_XDIST_TESTRUNUID")
    shared = tmp_path_factory.getbasetemp().parent / f"demo-{run}.sqlite3"
    if run is not None and shared.exists():
        yield Path(shutil.copy(shared, path))  # as another process of this run made it
        return
    _build_demo(path)
    if run is not None:
        Path(shutil.copy(path, path.with_suffix(".copy"))).replace(shared)
    yield path


def _build_demo(database: Database) -> None:
    from studio.actions.paint_model import paint_model

    build_demo(database, TODAY)
    with UnitOfWork(database, write=True) as unit:
        paint_model(unit, TODAY)
        unit.commit()


@pytest.fixture
def empty_db(empty_template: Path, tmp_path: Path) -> Iterator[Path]:
    """A new studio of this test's own."""
    with copy_of(empty_template, tmp_path / "studio.sqlite3") as database:
        yield on_server(database)


@pytest.fixture
def demo_db(demo_template: Path, tmp_path: Path) -> Iterator[Path]:
    """A demo studio of this test's own."""
    with copy_of(demo_template, tmp_path / "demo.sqlite3") as database:
        yield on_server(database)


@pytest.fixture
def server_db() -> Iterator[ServerAddress]:
    """An empty database on the server; only tests of a run on a server have one."""
    if SERVER is None:
        pytest.skip("needs a server: .ci/with_server pytest")
    address = new_database()
    yield address
    drop(address)


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
def run(
    data_home: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> Run:
    """`run("match", "tan", db=path)`: a command line in this process, the studio by STUDIO_DB."""
    del data_home

    def run_command(*words: str, db: Database | None = None) -> Outcome:
        capsys.readouterr()
        with monkeypatch.context() as environment:
            if db is not None:
                environment.setenv("STUDIO_DB", str(db))
            status = main(list(words))
        printed = capsys.readouterr()
        return Outcome(int(status), printed.out, printed.err)

    return run_command

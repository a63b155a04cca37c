"""The demo studio is built once, whole or not at all, and removed only when it is one."""

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from studio.actions import build_demo as demo
from studio.actions.build_demo import build_demo, remove_demo
from studio.actions.check_database import check_database
from studio.errors import DatabaseTrouble, StudioError
from studio.storage.schema import SchemaState, state_of
from studio.storage.unit_of_work import UnitOfWork
from tests.conftest import TODAY


@pytest.mark.file_only("the demo of a data folder")
def test_a_demo_that_another_command_built_meanwhile_is_taken_as_it_is(
    demo_template: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "studio.sqlite3"

    def overtaken(_path: Path, _fill: Callable[[UnitOfWork], None]) -> None:
        path.write_bytes(demo_template.read_bytes())
        msg = "there is a file of that name"
        raise DatabaseTrouble(msg)

    monkeypatch.setattr(demo, "create_studio", overtaken)
    assert build_demo(path, TODAY) is False
    assert path.read_bytes() == demo_template.read_bytes()


def test_a_demo_that_cannot_be_written_is_trouble(tmp_path: Path) -> None:
    (tmp_path / "letter").write_text("not a folder", encoding="utf-8")
    with pytest.raises(DatabaseTrouble, match="cannot be used"):
        build_demo(tmp_path / "letter" / "studio.sqlite3", TODAY)


@pytest.mark.file_only("the demo of a data folder")
def test_the_demo_is_built_once_and_then_left_as_it_is(demo_template: Path, tmp_path: Path) -> None:
    path = tmp_path / "demo" / "studio.sqlite3"
    path.parent.mkdir()
    path.write_bytes(demo_template.read_bytes())
    assert build_demo(path, TODAY) is False
    assert path.read_bytes() == demo_template.read_bytes()


def test_a_demo_that_was_removed_is_built_anew(tmp_path: Path) -> None:
    path = tmp_path / "studio.sqlite3"
    remove_demo(path)  # nothing there is no trouble
    assert build_demo(path, TODAY) is True
    assert check_database(path) == []
    remove_demo(path)
    assert not path.exists()


def test_a_file_that_is_no_demo_is_not_removed(tmp_path: Path) -> None:
    path = tmp_path / "letter.txt"
    path.write_text("Dear harbour master", encoding="utf-8")
    with pytest.raises(DatabaseTrouble):
        remove_demo(path)
    assert path.exists()


def test_a_demo_with_a_row_that_cannot_be_recorded_is_not_built(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    seed = tmp_path / "seed"
    seed.mkdir()
    (seed / "paints.csv").write_text("maker,name,form\nHard & Quay,Grey,bucket\n", encoding="utf-8")
    monkeypatch.setattr(demo, "shipped_folder", lambda _name: seed)
    with pytest.raises(StudioError, match=r"own paints\.csv, line 2: form 'bucket' is not known"):
        build_demo(tmp_path / "studio.sqlite3", TODAY)
    assert list(tmp_path.iterdir()) == [seed]


def test_a_demo_built_before_its_records_would_hold_the_future_and_is_refused(
    tmp_path: Path,
) -> None:
    with pytest.raises(StudioError, match="lies in the future"):
        build_demo(tmp_path / "studio.sqlite3", date(2026, 10, 20))
    assert state_of(tmp_path / "studio.sqlite3") is SchemaState.MISSING

"""A studio of the second schema keeps every reading when readings learn where they came from."""

import json
import sqlite3
from contextlib import closing
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Final

import pytest

from studio.actions.check_database import check_database
from studio.catalogue.reading import Origin, State
from studio.colour.reflectance import Reflectance
from studio.storage import migrate
from studio.storage.schema import SchemaState, connect, revision_of, state_of
from studio.storage.sqlite_copy import problems
from studio.storage.unit_of_work import UnitOfWork
from tests.storage.old_studio import WHITE, Cells, insert

NOW: Final = datetime(2026, 11, 25, 14, 30, 5, tzinfo=UTC)

SPECTRUM: Final = tuple(round(0.1 + 0.021 * index, 3) for index in range(31))
READINGS: Final[list[Cells]] = [
    WHITE | {"state": "wet", "lightness": 40.125, "read_on": "2026-03-02", "note": "at once"},
    WHITE | {"lightness": 42.5, "instrument": "quay meter", "condition": "M1"},
    WHITE | {
        "origin": "from spectrum", "lightness": 44.0, "method": "spectrophotometer",
        "spectrum_start_nm": 400.0, "spectrum_step_nm": 10.0,
        "spectrum_values": json.dumps(SPECTRUM), "error_delta_e": 0.3,
    },
    WHITE | {"origin": "adapted", "given_illuminant": "FL11", "given_observer": 10},
]  # fmt: skip
"""A reading of each origin and state, as 0002 could hold them."""


@pytest.fixture
def old(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A studio made by the migrations as far as 0002, filled by SQL; ids have gaps."""
    path = tmp_path / "studio.sqlite3"
    with monkeypatch.context() as patch:
        patch.setattr(migrate, "HEAD", "0002")
        migrate.build(path)
    with closing(connect(path)) as connection:
        connection.execute("PRAGMA foreign_keys = ON")
        maker = {"maker": "Saltings Colour"}
        paint = insert(
            connection, "paint", code="SG", name="Sea Grey", form="tube", status="in use", **maker
        )
        paper = insert(connection, "paper", code="SR", name="Sedge Rag", **maker)
        mix = insert(connection, "mix", code="M1", recipe_key="1*1", created_on="2026-03-01")
        insert(connection, "mix_component", mix_id=mix, paint_id=paint, position=1, parts=1)
        swatch = insert(
            connection, "swatch", code="S1", mix_id=mix, paper_id=paper, layers=1,
            application="flat wash", made_on="2026-03-02", state="dry",
            lightness=(42.5 + 44.0 + 96.25) / 3, a=-0.5, b=2.75,
        )  # fmt: skip
        for number, cells in enumerate(READINGS):
            insert(connection, "reading", id=3 + 4 * number, swatch_id=swatch, **cells)
        insert(connection, "reading", paper_id=paper, **WHITE)
        container = insert(
            connection, "container", code="SG-1", paint_id=paint, kind="tube", unit="ml",
            capacity=14.0,
        )  # fmt: skip
        insert(
            connection, "stock_event", container_id=container, kind="bought", amount=14.0,
            happened_on="2026-03-01", estimated=0,
        )  # fmt: skip
    return path


def _everything(path: Path) -> dict[str, list[tuple[object, ...]]]:
    """Every row of every table that 0002 has, without the columns that came after it."""
    later = {"geometry", "backing", "sample", "file_id", "removed_on", "removed_because"}
    later |= {"paint_marks_low", "paint_marks_high"}
    found = {}
    with closing(connect(path)) as connection:
        tables = [
            name
            for (name,) in connection.execute(
                "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT IN "
                "('alembic_version', 'measurement_file', 'target', 'characterisation', "
                "'command', 'change')"
            )
        ]
        for table in tables:
            columns = [row[1] for row in connection.execute(f"PRAGMA table_info({table})")]
            listed = ", ".join(column for column in columns if column not in later)
            found[table] = sorted(
                connection.execute(f"SELECT {listed} FROM {table}").fetchall(), key=repr
            )
    return found


def test_every_row_of_every_table_is_as_it_was(old: Path) -> None:
    before = _everything(old)
    assert state_of(old) is SchemaState.OLD
    assert {len(before[table]) for table in ("swatch", "container", "stock_event")} == {1}
    assert len(before["reading"]) == 5
    backup = migrate.upgrade(old, NOW)
    assert state_of(old) is SchemaState.CURRENT
    after = _everything(old)
    assert {table: after[table] for table in before} == before
    assert revision_of(backup) == "0002"
    assert _everything(backup) == before


def test_readings_are_read_as_they_were_and_say_nothing_of_files(old: Path) -> None:
    migrate.upgrade(old, NOW)
    with UnitOfWork(old) as work:
        (swatch,) = work.swatches.all()
        (paper,) = work.papers.all()
        assert work.files.all() == ()
        assert work.targets.all() == ()
    readings = swatch.readings
    assert [reading.lab.lightness for reading in readings] == [40.125, 42.5, 44.0, 96.25]
    assert [reading.state for reading in readings] == [State.WET, *[State.DRY] * 3]
    assert readings[2].origin is Origin.SPECTRUM
    assert readings[2].spectrum == Reflectance(400.0, 10.0, SPECTRUM)
    assert readings[3].given.white == ("FL11", 10)
    assert readings[0].read_on == date(2026, 3, 2)
    for reading in (*readings, *paper.white):
        assert (reading.geometry, reading.backing, reading.sample, reading.file) == (None,) * 4


def test_references_are_whole_and_the_program_finds_nothing_wrong(old: Path) -> None:
    migrate.upgrade(old, NOW)
    with closing(connect(old)) as connection:
        assert problems(connection) == []
        names = {row[0] for row in connection.execute("SELECT name FROM sqlite_master")}
    assert {"ix_reading_swatch_id", "ix_reading_paper_id"} <= names
    assert "reading_new" not in names
    # The Lab of these made-up readings was never computed from what was read.
    assert [fault for fault in check_database(old) if not fault.derived] == []


def test_readings_go_on_under_the_rules_of_the_new_schema(old: Path) -> None:
    migrate.upgrade(old, NOW)
    with closing(connect(old)) as connection:
        connection.execute("PRAGMA foreign_keys = ON")
        key = insert(connection, "reading", swatch_id=1, **(WHITE | {"given_illuminant": "LED-B3"}))
        assert key == 17
        with pytest.raises(sqlite3.IntegrityError, match="ck_reading_backing_known"):
            insert(connection, "reading", swatch_id=1, **(WHITE | {"backing": "grey"}))
        with pytest.raises(sqlite3.IntegrityError, match="FOREIGN KEY"):
            insert(connection, "reading", swatch_id=1, **(WHITE | {"file_id": 1}))
        with pytest.raises(sqlite3.IntegrityError, match="FOREIGN KEY"):
            connection.execute("DELETE FROM swatch")

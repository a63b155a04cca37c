"""A studio of the third schema is the same studio once results of the model can be kept."""

import sqlite3
from contextlib import closing
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Final

import pytest

from studio.actions.check_database import check_database
from studio.storage import migrate
from studio.storage.characterisations import KeptCharacterisation
from studio.storage.schema import SchemaState, connect, revision_of, state_of
from studio.storage.unit_of_work import UnitOfWork
from tests.storage.old_studio import WHITE, insert

NOW: Final = datetime(2027, 3, 8, 10, 5, 0, tzinfo=UTC)

MUD: Final = "af07ff91ab7ce2a7d1f97d2ef9d92ee40d450e86ff1e34ff410f6937d5c700a8"
"""SHA-256 of what the measurement file holds."""


@pytest.fixture
def old(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A studio made by the migrations as far as 0003, filled by SQL."""
    path = tmp_path / "studio.sqlite3"
    with monkeypatch.context() as patch:
        patch.setattr(migrate, "HEAD", "0003")
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
            application="flat wash", made_on="2026-03-02", state="dry", lightness=96.25, a=-0.5,
            b=2.75,
        )  # fmt: skip
        file = insert(
            connection, "measurement_file", name="quay.cgats", sha256=MUD, size=3,
            content=b"mud", read_on="2026-03-02",
        )  # fmt: skip
        insert(connection, "reading", swatch_id=swatch, **WHITE, backing="black", file_id=file)
        insert(
            connection, "target", name="wet mud", lightness=50.0, a=1.0, b=9.0, file_id=file,
            created_on="2026-03-03",
        )  # fmt: skip
    return path


def _everything(path: Path) -> dict[str, list[tuple[object, ...]]]:
    """Every row of every table that 0003 has, without the columns that came after it."""
    with closing(connect(path)) as connection:
        tables = [
            name
            for (name,) in connection.execute(
                "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT IN "
                "('alembic_version', 'characterisation', 'command', 'change')"
            )
        ]
        found = {}
        for table in tables:
            listed = connection.execute(f"PRAGMA table_info({table})")
            columns = ", ".join(
                row[1] for row in listed if not row[1].startswith(("removed_", "paint_marks_"))
            )
            rows = connection.execute(f"SELECT {columns} FROM {table}").fetchall()
            found[table] = sorted(rows, key=repr)
        return found


def test_every_row_of_every_table_is_as_it_was(old: Path) -> None:
    before = _everything(old)
    assert {len(before[table]) for table in ("swatch", "reading", "target", "paint")} == {1}
    assert state_of(old) is SchemaState.OLD
    backup = migrate.upgrade(old, NOW)
    assert state_of(old) is SchemaState.CURRENT
    after = _everything(old)
    assert {table: after[table] for table in before} == before
    assert revision_of(backup) == "0003"
    assert _everything(backup) == before
    assert check_database(old) == []


def test_nothing_is_kept_of_the_model_yet_and_can_be_from_now_on(old: Path) -> None:
    migrate.upgrade(old, NOW)
    result = KeptCharacterisation("0b" * 32, "1", 12, 3, b"mud", date(2027, 3, 8))
    with UnitOfWork(old, write=True) as work:
        assert work.characterisations.last() is None
        work.characterisations.keep(result)
        work.commit()
    with UnitOfWork(old) as work:
        assert work.characterisations.last() == result


def test_what_is_kept_is_held_to_its_rules(old: Path) -> None:
    migrate.upgrade(old, NOW)
    cells = {"inputs_sha256": "0b" * 32, "model": "1", "computed_on": "2027-03-08"}
    with closing(connect(old)) as connection:
        insert(connection, "characterisation", swatches=2, estimated=2, content=b"m", **cells)
        with pytest.raises(sqlite3.IntegrityError, match="ck_characterisation_estimated_in_range"):
            insert(connection, "characterisation", swatches=2, estimated=3, content=b"m", **cells)

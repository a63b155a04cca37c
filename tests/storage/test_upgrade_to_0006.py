"""A studio of the fifth schema is the same studio once there is a history and marks."""

import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

import pytest

from studio.actions.check_database import check_database
from studio.actions.undo_commands import undo_commands
from studio.catalogue.history import CommandKind
from studio.errors import BadInput
from studio.storage import migrate
from studio.storage.schema import SchemaState, connect, revision_of, state_of
from studio.storage.unit_of_work import UnitOfWork
from tests.storage.old_studio import WHITE, insert

NOW: Final = datetime(2027, 3, 8, 10, 5, 0, tzinfo=UTC)
MARKED: Final = ("swatch", "reading", "target")

MUD: Final = "af07ff91ab7ce2a7d1f97d2ef9d92ee40d450e86ff1e34ff410f6937d5c700a8"
"""SHA-256 of what the measurement file holds."""


@pytest.fixture
def old(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A studio made by the migrations as far as 0005, filled by SQL; ids have gaps."""
    path = tmp_path / "studio.sqlite3"
    with monkeypatch.context() as patch:
        patch.setattr(migrate, "HEAD", "0005")
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
        file = insert(
            connection, "measurement_file", name="quay.cgats", sha256=MUD, size=3,
            content=b"mud", read_on="2026-03-02",
        )  # fmt: skip
        for number in (1, 2, 5):
            insert(
                connection, "swatch", id=number, code=f"S{number}", mix_id=mix, paper_id=paper,
                layers=1, application="flat wash", made_on="2026-03-02", state="dry",
                lightness=96.25, a=-0.5, b=2.75, note="it's 10:30, (mud)",
            )  # fmt: skip
            insert(connection, "reading", id=3 * number, swatch_id=number, **WHITE, file_id=file)
            insert(
                connection, "target", id=2 * number, name=f"wet mud {number}", lightness=50.0,
                a=1.0, b=9.0, file_id=file, created_on="2026-03-03",
            )  # fmt: skip
    return path


def _everything(path: Path) -> dict[str, list[tuple[object, ...]]]:
    """Every row of every table that 0005 has, without the columns that came after it."""
    with closing(connect(path)) as connection:
        names = connection.execute(
            "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT IN "
            "('alembic_version', 'command', 'change')"
        ).fetchall()
        found = {}
        for (table,) in names:
            listed = connection.execute(f"PRAGMA table_info({table})")
            columns = ", ".join(
                row[1] for row in listed if not row[1].startswith(("removed_", "paint_marks_"))
            )
            found[table] = connection.execute(f"SELECT {columns} FROM {table}").fetchall()
        return found


def test_every_row_of_every_table_is_as_it_was_and_nothing_is_marked(old: Path) -> None:
    before = _everything(old)
    assert {len(before[table]) for table in MARKED} == {3}
    assert state_of(old) is SchemaState.OLD
    backup = migrate.upgrade(old, NOW)
    assert state_of(old) is SchemaState.CURRENT
    after = _everything(old)
    assert {table: after[table] for table in before} == before
    assert (revision_of(backup), _everything(backup)) == ("0005", before)
    assert check_database(old) == []
    with closing(connect(old)) as connection:
        for table in MARKED:
            marked = f"SELECT count(removed_on), count(removed_because) FROM {table}"
            assert connection.execute(marked).fetchone() == (0, 0)


def test_what_was_recorded_before_cannot_be_undone_and_what_comes_after_can(old: Path) -> None:
    migrate.upgrade(old, NOW)
    with (
        pytest.raises(BadInput, match="before the studio kept a history cannot be taken back"),
        UnitOfWork(old, write=True) as work,
    ):
        undo_commands(work)
    before = _everything(old)
    with UnitOfWork(old, write=True) as work:
        work.mixes.describe(1, "reed", None)
        work.commit()
    with UnitOfWork(old, write=True) as work:
        assert len(work.history.standing(CommandKind.RECORDED)) == 1
        undo_commands(work)
        work.commit()
    assert _everything(old) == before


def test_the_rebuilt_tables_keep_their_rules_indexes_and_children(old: Path) -> None:
    migrate.upgrade(old, NOW)
    with closing(connect(old)) as connection:
        connection.execute("PRAGMA foreign_keys = ON")
        with pytest.raises(sqlite3.IntegrityError, match="FOREIGN KEY"):
            connection.execute("DELETE FROM swatch")
        with pytest.raises(sqlite3.IntegrityError, match="ck_swatch_code_form"):
            connection.execute("UPDATE swatch SET code = 's1' WHERE id = 1")
        with pytest.raises(sqlite3.IntegrityError, match="UNIQUE"):
            connection.execute("UPDATE target SET name = 'wet mud 1'")
        connection.execute("UPDATE target SET removed_on = '2026-05-04' WHERE id = 2")
        connection.execute("UPDATE target SET name = 'wet mud 1' WHERE id = 4")
        names = {row[0] for row in connection.execute("SELECT name FROM sqlite_master")}
    assert {"ix_swatch_search", "ix_swatch_mix_id", "ix_reading_swatch_id"} <= names
    assert not {name for name in names if "_new" in name}

"""A studio from before there were paintings is the same studio with room for them."""

from contextlib import closing
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Final

import pytest

from studio.actions.check_database import check_database
from studio.actions.undo_commands import undo_commands
from studio.catalogue.painting import Painting, Passage
from studio.catalogue.swatch import Application
from studio.storage import migrate
from studio.storage.schema import REVISIONS, SchemaState, connect, revision_of, state_of
from studio.storage.unit_of_work import UnitOfWork
from tests.storage.old_studio import fill

NOW: Final = datetime(2027, 3, 8, 10, 5, 0, tzinfo=UTC)
BEFORE: Final = REVISIONS[REVISIONS.index("0008") - 1]
LATER: Final = {"looked_up", "use"}
"""Columns that came after this revision."""
NEW: Final = {"painting", "passage", "passage_colour", "colour_try", "painting_record",
              "hazard_listing"}  # fmt: skip

pytestmark = pytest.mark.file_only("a shared studio is tried in test_server_rules.py")


@pytest.fixture
def old(tmp_path: Path) -> Path:
    """A studio of the revision before, with rows of the first schema and a command."""
    path = tmp_path / "studio.sqlite3"
    migrate.build(path, "0001")
    with closing(connect(path)) as connection:
        connection.execute("BEGIN")
        fill(connection)
        connection.execute("COMMIT")
    migrate.to_head(path, BEFORE)
    with closing(connect(path)) as connection:
        connection.execute(
            "INSERT INTO command (id, happened_at, who, program, words, kind) VALUES "
            "(3, '2027-01-04T09:30:00Z', 'skipper', '0.9.0', 'mix edit M1', 'recorded')"
        )
        connection.execute(
            "INSERT INTO change (command_id, table_name, first_id, last_id, before, after) VALUES "
            '(3, \'mix\', 1, 1, \'{"id":1}\', \'{"id":1,"name":"reed"}\')'
        )
    return path


def _everything(path: Path) -> dict[str, list[tuple[object, ...]]]:
    with closing(connect(path)) as connection:
        names = connection.execute(
            "SELECT name FROM sqlite_master WHERE type = 'table' AND name != 'alembic_version'"
        ).fetchall()
        found = {}
        for (name,) in names:
            columns = [row[1] for row in connection.execute(f"PRAGMA table_info({name})")]
            kept = ", ".join(column for column in columns if column not in LATER)
            rows = connection.execute(f"SELECT {kept} FROM {name}").fetchall()
            found[name] = sorted(rows, key=repr)
        return found


def test_every_row_is_as_it_was_and_the_new_tables_are_empty(old: Path) -> None:
    before = _everything(old)
    assert not NEW & before.keys()
    assert len(before["swatch"]) > 0
    assert len(before["change"]) == 1
    assert state_of(old) is SchemaState.OLD
    backup = migrate.upgrade(old, NOW)
    assert state_of(old) is SchemaState.CURRENT
    after = _everything(old)
    assert {table: rows for table, rows in after.items() if table not in NEW} == before
    assert [after[table] for table in NEW] == [[]] * len(NEW)
    assert (revision_of(backup), _everything(backup)) == (BEFORE, before)
    assert check_database(old) == []


def test_a_painting_can_be_recorded_and_taken_back_there(old: Path) -> None:
    migrate.upgrade(old, NOW)
    before = _everything(old)
    with UnitOfWork(old, write=True) as work:
        paper = work.papers.all()[0].id
        key = work.paintings.add(
            Painting(0, "P1", "Low water", paper, 380.0, 280.0, 3.0, date(2027, 3, 8))
        )
        work.paintings.add_passage(key, Passage(0, "sky", Application.GRADED_WASH))
        work.commit()
    with UnitOfWork(old, write=True) as work:
        undo_commands(work)
        work.commit()
    after = _everything(old)
    for table in ("command", "change"):
        del before[table], after[table]
    assert after == before

"""A database is made, upgraded or copied whole or not at all, and an upgrade keeps every row."""

import errno
import os
import shutil
import sqlite3
import stat
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

import pytest

from studio.errors import DatabaseTrouble
from studio.storage import migrate, schema
from studio.storage.migrate import build, put_in_place, upgrade
from studio.storage.schema import HEAD, REVISIONS, SchemaState, connect, revision_of, state_of
from studio.storage.shipped import shipped_folder
from studio.storage.sqlite_copy import copy, problems
from studio.storage.sqlite_file import SIDES, beside, uses_wal
from tests.storage.rows import GOOD

pytestmark = pytest.mark.file_only("test_server.py tries the upgrade of a server")

NOW: Final = datetime(2026, 11, 25, 14, 30, 5, tzinfo=UTC)

REVISION: Final = """
import sqlalchemy as sa
from alembic import op

revision = "{new}"
down_revision = "{before}"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table("tide", sa.Column("height", sa.Float()))
    with op.batch_alter_table("mix", recreate="always") as batch:
        batch.add_column(sa.Column("shelf", sa.Text()))
    {last}
"""

NEW: Final = "9999"
TAKEN: Final = f"demo-20261125T143005Z-before-upgrade-from-{HEAD}.sqlite3"


def _rows(path: Path) -> dict[str, list[tuple[object, ...]]]:
    with closing(connect(path)) as connection:
        found = {}
        for table in GOOD:
            listed = connection.execute(f"PRAGMA table_info({table})")
            columns = ", ".join(row[1] for row in listed if row[1] != "shelf")
            found[table] = connection.execute(f"SELECT {columns} FROM {table}").fetchall()
        return found


def _add_revision(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, last: str, folder: str = "migrations"
) -> None:
    """One more revision, in a copy of the migrations folder: it ends with the statement `last`."""
    versions = tmp_path / folder
    shutil.copytree(shipped_folder("migrations"), versions)
    (versions / "versions" / f"{NEW}_next.py").write_text(
        REVISION.format(last=last, new=NEW, before=HEAD), encoding="utf-8"
    )
    monkeypatch.setattr(migrate, "shipped_folder", lambda _name: versions)
    for module in (migrate, schema):
        monkeypatch.setattr(module, "HEAD", NEW)
    monkeypatch.setattr(schema, "REVISIONS", (*REVISIONS, NEW))


def test_a_built_database_is_empty_current_whole_and_private(tmp_path: Path) -> None:
    path = tmp_path / "new.sqlite3"
    build(path)
    assert state_of(path) is SchemaState.CURRENT
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert uses_wal(path)
    assert list(tmp_path.iterdir()) == [path]  # nothing is left to be written
    assert all(rows == [] for rows in _rows(path).values())
    with closing(connect(path)) as connection:
        assert problems(connection) == []


def test_building_never_touches_a_file_that_is_there(tmp_path: Path) -> None:
    path = tmp_path / "new.sqlite3"
    path.write_text("a letter", encoding="utf-8")
    with pytest.raises(DatabaseTrouble, match="file exists"):
        build(path)
    assert path.read_text(encoding="utf-8") == "a letter"


def test_an_upgrade_keeps_every_row_and_leaves_a_verified_backup(
    demo_db: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = _rows(demo_db)
    _add_revision(monkeypatch, tmp_path, "pass")
    assert state_of(demo_db) is SchemaState.OLD
    backup = upgrade(demo_db, NOW)
    assert state_of(demo_db) is SchemaState.CURRENT
    assert _rows(demo_db) == before
    assert len(before["mix_component"]) > 100  # children of the table that was rebuilt
    with closing(connect(demo_db)) as connection:
        assert problems(connection) == []
        assert connection.execute("SELECT count(*), count(shelf) FROM mix").fetchone() == (
            len(before["mix"]),
            0,
        )
    assert backup == demo_db.with_name("backups") / TAKEN
    assert stat.S_IMODE(backup.parent.stat().st_mode) == 0o700
    assert stat.S_IMODE(backup.stat().st_mode) == 0o600
    assert revision_of(backup) == HEAD
    assert _rows(backup) == before


def test_the_rebuilt_table_keeps_its_rules_and_its_children_theirs(
    demo_db: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _add_revision(monkeypatch, tmp_path, "pass")
    upgrade(demo_db, NOW)
    with closing(connect(demo_db)) as connection:
        connection.execute("PRAGMA foreign_keys = ON")
        with pytest.raises(sqlite3.IntegrityError, match="code_form"):
            connection.execute("UPDATE mix SET code = 'm1'")
        with pytest.raises(sqlite3.IntegrityError, match="FOREIGN KEY"):
            connection.execute("DELETE FROM mix")


@pytest.mark.parametrize(
    ("last", "said"),
    [
        ('op.execute("INSERT INTO nowhere VALUES (1)")', "no such table: nowhere"),
        ('op.execute("UPDATE paint SET code = char(88)")', "UNIQUE constraint failed"),
        ('op.execute("DELETE FROM mix WHERE id = 3")', "broken references and was not upgraded"),
    ],
)
def test_an_upgrade_that_fails_half_way_leaves_the_database_as_it_was(
    demo_db: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, last: str, said: str
) -> None:
    before = demo_db.read_bytes()
    rows = _rows(demo_db)
    _add_revision(monkeypatch, tmp_path, last)
    with pytest.raises(Exception, match=said) as caught:
        upgrade(demo_db, NOW)
    assert type(caught.value).__name__ in {"DatabaseTrouble", "BadInput"}
    assert revision_of(demo_db) == HEAD
    assert demo_db.read_bytes() == before
    assert _rows(demo_db) == rows
    assert not any(beside(demo_db, side).exists() for side in SIDES)


def test_an_upgrade_runs_from_a_folder_with_a_percent_sign(
    empty_db: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _add_revision(monkeypatch, tmp_path, "pass", folder="50% grey %(here)s")
    upgrade(empty_db, NOW)
    assert revision_of(empty_db) == NEW


def test_no_upgrade_begins_without_its_backup(
    demo_db: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _add_revision(monkeypatch, tmp_path, "pass")
    taken = demo_db.with_name("backups")
    taken.write_text("no folder", encoding="utf-8")
    with pytest.raises(DatabaseTrouble, match=f"{taken} cannot be used: file exists"):
        upgrade(demo_db, NOW)
    assert revision_of(demo_db) == HEAD
    assert taken.read_text(encoding="utf-8") == "no folder"


def _damage(path: Path) -> None:
    """Overwrite the middle of a file, well behind its header and its schema."""
    content = bytearray(path.read_bytes())
    middle = len(content) // 2 // 4096 * 4096
    content[middle : middle + 8192] = b"\xa5" * 8192
    path.write_bytes(content)


def test_a_damaged_database_is_not_upgraded_and_its_copy_does_not_stay(
    demo_db: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _damage(demo_db)
    damaged = demo_db.read_bytes()
    _add_revision(monkeypatch, tmp_path, "pass")
    with pytest.raises(DatabaseTrouble, match=rf"^{demo_db} is damaged"):
        upgrade(demo_db, NOW)
    assert demo_db.read_bytes() == damaged
    assert list(demo_db.with_name("backups").iterdir()) == []


def test_a_copy_that_breaks_off_does_not_stay(demo_db: Path, tmp_path: Path) -> None:
    target = tmp_path / "copy.sqlite3"
    with pytest.raises(DatabaseTrouble, match=r"gone\.sqlite3 cannot be opened"):
        copy(tmp_path / "gone.sqlite3", target)
    assert not target.exists()
    copy(demo_db, target)
    assert _rows(target) == _rows(demo_db)


def test_a_copy_of_a_database_with_dangling_references_does_not_stay(
    demo_db: Path, tmp_path: Path
) -> None:
    with closing(connect(demo_db)) as connection:
        connection.execute("DELETE FROM paper")
    with pytest.raises(DatabaseTrouble, match=rf"^{demo_db} is damaged \(.* missing paper\)"):
        copy(demo_db, tmp_path / "copy.sqlite3")
    assert not (tmp_path / "copy.sqlite3").exists()


def test_dangling_references_are_problems_of_a_database(demo_db: Path) -> None:
    with closing(connect(demo_db)) as connection:
        connection.execute("DELETE FROM mix WHERE id = 3")
        found = problems(connection)
    assert "mix_component 3 refers to a missing mix" in found
    assert any(fault.startswith("swatch ") for fault in found)


def test_a_finished_database_takes_its_name_and_leaves_its_old_one(tmp_path: Path) -> None:
    built, path = tmp_path / "built", tmp_path / "studio.sqlite3"
    built.write_bytes(b"new")
    put_in_place(built, path)
    assert path.read_bytes() == b"new"
    assert not built.exists()


def _no_links(_source: Path, _target: Path) -> None:
    raise OSError(errno.EPERM, os.strerror(errno.EPERM))


@pytest.mark.parametrize("links", [True, False])
def test_putting_in_place_never_replaces_a_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, *, links: bool
) -> None:
    built, path = tmp_path / "built", tmp_path / "studio.sqlite3"
    built.write_bytes(b"new")
    path.write_bytes(b"there before")
    if not links:
        monkeypatch.setattr(os, "link", _no_links)
    with pytest.raises(DatabaseTrouble):
        put_in_place(built, path)
    assert path.read_bytes() == b"there before"


def test_a_file_system_without_hard_links_serves_too(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    built, path = tmp_path / "built", tmp_path / "studio.sqlite3"
    built.write_bytes(b"new")
    monkeypatch.setattr(os, "link", _no_links)
    put_in_place(built, path)
    assert path.read_bytes() == b"new"
    assert not built.exists()

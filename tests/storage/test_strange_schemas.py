"""A stranger's triggers, views and rules are noticed before anything is read or written."""

import sqlite3
from collections.abc import Callable
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

import pytest

from studio.actions.check_database import check_database, remarks_on
from studio.actions.open_studio import open_studio
from studio.errors import DatabaseTrouble
from studio.storage import migrate
from studio.storage.schema import HEAD, REVISIONS, connect, revision_of, state_of
from studio.storage.sqlite_backup import back_up, backups_in
from studio.storage.sqlite_restore import restore
from studio.storage.sqlite_schema import refuse_strange, strange_part
from studio.storage.unit_of_work import UnitOfWork
from tests.conftest import Run
from tests.servers import fingerprint

pytestmark = pytest.mark.file_only("a stranger's file; a server's are tests/storage/test_server.py")

NOW: Final = datetime(2026, 11, 25, 12, tzinfo=UTC)

BLIND: Final = "CREATE TRIGGER {} AFTER INSERT ON paint BEGIN DELETE FROM target; END"


def _rewritten(name: str, old: str, new: str) -> str:
    return (
        f"UPDATE sqlite_master SET sql = replace(sql, '{old}', '{new}') WHERE name = '{name}' "
        f"AND instr(sql, '{old}') RETURNING 1"
    )


def _forged(kind: str, name: str, sql: str) -> str:
    return (
        "INSERT INTO sqlite_master (type, name, tbl_name, rootpage, sql) "
        f"VALUES ('{kind}', '{name}', 'paint', 0, '{sql}') RETURNING 1"
    )


STRANGE: Final = {
    "a trigger": (BLIND.format("blind"),),
    "a trigger with a name of SQLite's own": (
        _forged("trigger", "sqlite_blind", BLIND.format("sqlite_blind")),
    ),
    "a view": ("CREATE VIEW shelf AS SELECT * FROM paint",),
    "a view in the place of a table": (
        "DROP TABLE fade_reading",
        "CREATE VIEW fade_reading AS SELECT 1 AS id",
    ),
    "another table": ("CREATE TABLE tide (height REAL)",),
    "a virtual table": ("CREATE VIRTUAL TABLE tide USING fts5(words)",),
    "an index on an expression": ("CREATE INDEX ix_tide ON paint (length(name))",),
    "an index that is to be unique": (
        "DROP INDEX ix_swatch_mix_id",
        "CREATE UNIQUE INDEX ix_swatch_mix_id ON swatch (mix_id, id)",
    ),
    "an index of another table": (
        "DROP INDEX ix_swatch_mix_id",
        "CREATE INDEX ix_swatch_mix_id ON mix (id)",
    ),
    "a computed column": (
        "ALTER TABLE paint ADD COLUMN tide TEXT GENERATED ALWAYS AS (upper(name)) VIRTUAL",
    ),
    "deleting along": (
        _rewritten("mix_component", "REFERENCES mix (id)", "REFERENCES mix (id) ON DELETE CASCADE"),
    ),
    "replacing instead of refusing": (
        _rewritten("mix", "UNIQUE (code)", "UNIQUE (code) ON CONFLICT REPLACE"),
    ),
    "hidden in a comment": (
        _rewritten("mix", "UNIQUE (code)", "UNIQUE (code) ON/**/CONFLICT/**/REPLACE"),
    ),
}


@pytest.fixture
def studio_db(empty_db: Path) -> Path:
    """A studio with something that a trigger could delete."""
    with closing(connect(empty_db)) as connection:
        connection.execute(
            "INSERT INTO target (name, lightness, a, b, created_on) "
            "VALUES ('wet mud', 50, 1, 9, '2026-11-20')"
        )
    return empty_db


def _make(path: Path, *statements: str) -> None:
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute("PRAGMA writable_schema = ON")
        for statement in statements:
            rows = connection.execute(statement).fetchall()
            assert rows or "RETURNING" not in statement, statement


def _plain(path: Path) -> None:
    """Let the file be compared as bytes: all of it in the file itself."""
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("PRAGMA journal_mode = DELETE")


@pytest.mark.parametrize("what", STRANGE)
def test_it_is_noticed_and_nothing_is_read_or_written(what: str, studio_db: Path) -> None:
    before = fingerprint(studio_db)
    _make(studio_db, *STRANGE[what])
    _plain(studio_db)
    strange = fingerprint(studio_db)
    assert strange != before
    for write in (False, True):
        with (
            pytest.raises(DatabaseTrouble, match="is not as a studio makes it") as refused,
            UnitOfWork(studio_db, write=write),
        ):
            pass
    said = str(refused.value)
    assert said.startswith(f"{studio_db} ")
    assert "restore a backup of your own" in said
    with pytest.raises(DatabaseTrouble, match="is not as a studio makes it"):
        back_up(studio_db, NOW)
    assert backups_in(studio_db.parent / "backups", studio_db.stem) == ()
    assert check_database(studio_db) != []
    assert fingerprint(studio_db) == strange


@pytest.mark.parametrize("what", STRANGE)
def test_no_such_file_is_restored(what: str, studio_db: Path, tmp_path: Path) -> None:
    strange = tmp_path / "strange.sqlite3"
    strange.write_bytes(studio_db.read_bytes())
    _make(strange, *STRANGE[what])
    before = fingerprint(studio_db)
    beside = sorted(tmp_path.iterdir())
    with pytest.raises(DatabaseTrouble, match="is not as a studio makes it") as refused:
        restore(strange, studio_db, NOW)
    assert str(refused.value).startswith(f"{strange} ")
    assert fingerprint(studio_db) == before
    assert sorted(tmp_path.iterdir()) == beside


@pytest.mark.parametrize(
    "change",
    [
        _rewritten("target", "note TEXT", "note TEXT DEFAULT (randomblob(1000000))"),
        _rewritten("target", "note TEXT", "note INTEGER"),
    ],
)
def test_a_restore_compares_every_line_of_a_table(
    change: str, studio_db: Path, tmp_path: Path
) -> None:
    strange = tmp_path / "strange.sqlite3"
    strange.write_bytes(studio_db.read_bytes())
    _make(strange, change)
    with pytest.raises(DatabaseTrouble, match="is not as a studio makes it"):
        restore(strange, studio_db, NOW)


def test_a_trigger_in_the_place_of_an_index_is_refused(studio_db: Path) -> None:
    """By SQLite itself where it notices ("malformed database schema"), else by us."""
    _make(
        studio_db,
        "DROP INDEX ix_swatch_mix_id",
        _forged("index", "ix_swatch_mix_id", BLIND.format("ix_swatch_mix_id")),
    )
    with pytest.raises(DatabaseTrouble), UnitOfWork(studio_db, write=True):
        pass


def test_a_trigger_that_emptied_the_targets_at_the_next_record_does_not(
    run: Run, studio_db: Path
) -> None:
    _make(studio_db, BLIND.format("blind"))
    told = run("paint", "add", "Mud", "--maker", "Orsel", db=studio_db)
    assert (told.status, told.out) == (5, "")
    assert "(the trigger blind is none of the studio's)" in told.err
    assert told.err.count("\n") == 1
    with closing(connect(studio_db)) as connection:
        assert connection.execute("SELECT count(*) FROM target").fetchone() == (1,)
    checked = run("db", "check", db=studio_db)
    assert checked.status == 5
    assert "the trigger blind is none of the studio's; mend it with: studio restore" in checked.out
    _make(studio_db, "DROP TRIGGER blind")
    assert run("paint", "add", "Mud", "--maker", "Orsel", db=studio_db).status == 0


def test_restoring_over_a_strange_studio_puts_it_right(run: Run, studio_db: Path) -> None:
    made = back_up(studio_db, NOW)
    _make(studio_db, BLIND.format("blind"))
    assert run("restore", str(made.path), "--yes", db=studio_db).status == 0
    assert run("db", "check", db=studio_db).status == 0
    with closing(connect(studio_db)) as connection:
        assert strange_part(connection) is None


def test_a_view_in_the_place_of_the_versions_is_not_read(studio_db: Path) -> None:
    _make(
        studio_db,
        "DROP TABLE alembic_version",
        "CREATE VIEW alembic_version AS WITH RECURSIVE n(version_num) AS "
        "(SELECT 1 UNION ALL SELECT version_num + 1 FROM n) SELECT sum(version_num) FROM n",
    )
    with pytest.raises(DatabaseTrouble, match="is not a studio's database"):
        state_of(studio_db)


def test_no_view_or_rule_may_call_what_reaches_beyond_the_database(studio_db: Path) -> None:
    with closing(connect(studio_db)) as connection:
        assert connection.execute("PRAGMA trusted_schema").fetchone() == (0,)


@pytest.fixture
def old_db(tmp_path: Path) -> Callable[[str], Path]:
    """A database of an older revision, as the programs of its time kept it: without a log."""

    def build(revision: str) -> Path:
        path = tmp_path / f"{revision}.sqlite3"
        migrate.build(path, revision)
        _plain(path)
        return path

    return build


@pytest.mark.parametrize("revision", REVISIONS[:-1])
def test_an_older_studio_is_upgraded_to_one_without_faults_or_remarks(
    revision: str, old_db: Callable[[str], Path]
) -> None:
    path = old_db(revision)
    told: list[str] = []
    with open_studio(path, write=False, now=NOW, tell=told.append) as work:
        assert work.paints.all() == ()
    assert (revision_of(path), len(told)) == (HEAD, 1)
    assert check_database(path) == []
    assert remarks_on(path) == []


@pytest.mark.parametrize("revision", REVISIONS[:-1])
def test_an_older_one_of_a_stranger_is_neither_upgraded_nor_restored(
    revision: str, old_db: Callable[[str], Path], empty_db: Path
) -> None:
    path = old_db(revision)
    _make(path, BLIND.format("blind").replace("target", "mix"))
    before, beside = fingerprint(path), sorted(path.parent.iterdir())
    with pytest.raises(DatabaseTrouble, match="the trigger blind is none of the studio's"):
        open_studio(path, write=True, now=NOW, tell=lambda _told: None)
    assert fingerprint(path) == before
    whole = fingerprint(empty_db)
    with pytest.raises(DatabaseTrouble, match="the trigger blind is none of the studio's"):
        restore(path, empty_db, NOW)
    assert fingerprint(empty_db) == whole
    assert sorted(path.parent.iterdir()) == beside


def test_fewer_checks_of_the_first_studios_and_a_lost_index_are_no_stranger(
    old_db: Callable[[str], Path],
) -> None:
    path = old_db("0001")
    _make(
        path,
        "UPDATE sqlite_master SET sql = replace(sql, 'date(created_on, ''+0 days'') IS', "
        "'date(created_on) IS') WHERE name = 'mix' RETURNING 1",
    )
    with open_studio(path, write=False, now=NOW, tell=lambda _told: None) as work:
        assert work.paints.all() == ()
    with closing(connect(path)) as connection:
        connection.execute("DROP INDEX ix_swatch_mix_id")
        refuse_strange(connection, path)
    with UnitOfWork(path, write=True) as work:
        assert work.paints.all() == ()

"""What state a file is in is told without Alembic, and the program's idea of it is Alembic's."""

import sqlite3
import subprocess
import sys
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import create_engine

from studio.errors import DatabaseTrouble, StudioError
from studio.storage import schema, shipped
from studio.storage.rules import metadata
from studio.storage.schema import APPLICATION_ID, HEAD, REVISIONS, SchemaState, connect, state_of
from studio.storage.shipped import shipped_folder


def _definitions(connection: sqlite3.Connection) -> dict[tuple[str, str], list[str]]:
    """The SQL of every table and index, the parts of a table in one order whatever built it."""
    found = {}
    for kind, name, table, sql in connection.execute(
        "SELECT type, name, tbl_name, sql FROM sqlite_master WHERE tbl_name != 'alembic_version'"
    ):
        # A table that took over another's name is kept with its name in quotes.
        lines = (sql or f"automatic, of {table}").replace(f'"{name}"', name).splitlines()
        found[kind, name] = sorted(" ".join(line.strip(" ,\t").split()) for line in lines)
    return found


@pytest.mark.file_only("test_server.py compares what a server holds")
def test_the_migrations_build_the_schema_that_the_program_describes(empty_db: Path) -> None:
    engine = create_engine("sqlite://")
    with engine.connect() as described:
        metadata.create_all(described)
        expected = _definitions(described.connection.driver_connection)  # type: ignore[arg-type]
    engine.dispose()
    with closing(connect(empty_db)) as migrated:
        found = _definitions(migrated)
    assert found == expected
    assert sum("CHECK" in line for lines in found.values() for line in lines) > 100


# Alembic reads no index on an expression; the test above compares those.
@pytest.mark.file_only("test_server.py compares what a server holds")
@pytest.mark.filterwarnings("ignore:Skipped unsupported reflection of expression-based index")
@pytest.mark.filterwarnings("ignore:autogenerate skipping metadata-specified expression-based")
def test_alembic_sees_no_difference_between_database_and_description(empty_db: Path) -> None:
    engine = create_engine("sqlite://", creator=lambda: connect(empty_db))
    with engine.connect() as connection:
        differences = compare_metadata(MigrationContext.configure(connection), metadata)
    engine.dispose()
    assert differences == []


def test_the_revisions_are_those_of_the_migrations_folder_oldest_first() -> None:
    config = Config()
    config.set_main_option("script_location", str(shipped_folder("migrations")))
    scripts = ScriptDirectory.from_config(config)
    assert scripts.get_heads() == [HEAD]
    history = tuple(script.revision for script in scripts.walk_revisions())
    assert history[::-1] == REVISIONS


def test_a_file_that_is_not_there_is_missing_and_is_not_made(tmp_path: Path) -> None:
    path = tmp_path / "gone.sqlite3"
    assert state_of(path) is SchemaState.MISSING
    assert list(tmp_path.iterdir()) == []
    with pytest.raises(sqlite3.OperationalError, match="unable to open"):
        connect(path)


def test_a_database_at_the_head_is_current(empty_db: Path) -> None:
    assert state_of(empty_db) is SchemaState.CURRENT


def test_a_database_at_an_earlier_revision_is_old(
    empty_db: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(schema, "REVISIONS", (*REVISIONS, "9999"))
    monkeypatch.setattr(schema, "HEAD", "9999")
    assert state_of(empty_db) is SchemaState.OLD


@pytest.mark.file_only("test_server.py compares what a server holds")
def test_a_database_at_an_unknown_revision_is_of_a_newer_program(empty_db: Path) -> None:
    with closing(connect(empty_db)) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '0815'")
    with pytest.raises(DatabaseTrouble, match=r"newer studio \(schema 0815\)"):
        state_of(empty_db)


def _text(path: Path) -> None:
    path.write_text("Low water at Corvane Hard, the mud still shining.\n" * 30, encoding="utf-8")


def _empty(path: Path) -> None:
    path.touch()


def _foreign(path: Path) -> None:
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("CREATE TABLE tide (height REAL)")
        connection.execute("PRAGMA application_id = 1196444487")


def _other_with_versions(path: Path) -> None:
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("CREATE TABLE alembic_version (version_num TEXT)")
        connection.execute("INSERT INTO alembic_version VALUES ('0001')")
        connection.commit()


def _marked_only(path: Path) -> None:
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("CREATE TABLE alembic_version (version_num TEXT)")
        connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")


def _marked_without_versions(path: Path) -> None:
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("CREATE TABLE tide (height REAL)")
        connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")


@pytest.mark.parametrize(
    ("make", "said"),
    [
        (_text, "is not a database; name another file with --db"),
        (_empty, "is not a studio's database; name another file with --db"),
        (_foreign, "is not a studio's database; name another file with --db"),
        (_other_with_versions, "is not a studio's database; name another file with --db"),
        (_marked_only, "is not a studio's database; name another file with --db"),
        (_marked_without_versions, "no such table: alembic_version"),
        (Path.mkdir, "is not a file; name a database file with --db"),
    ],
)
def test_what_is_no_studio_is_named_and_left_as_it_is(
    tmp_path: Path, make: Callable[[Path], None], said: str
) -> None:
    path = tmp_path / "tide.sqlite3"
    make(path)
    before = path.read_bytes() if path.is_file() else None
    with pytest.raises(DatabaseTrouble, match=said) as caught:
        state_of(path)
    assert str(path) in str(caught.value)
    assert (path.read_bytes() if path.is_file() else None) == before


@pytest.mark.file_only("a server keeps its own files")
@pytest.mark.parametrize("kept", [0.5, 0.01])
def test_a_truncated_database_is_trouble_and_no_crash(empty_db: Path, kept: float) -> None:
    whole = empty_db.read_bytes()
    empty_db.write_bytes(whole[: int(len(whole) * kept)])
    with pytest.raises(DatabaseTrouble, match="is damaged; restore a backup"):
        state_of(empty_db)


@pytest.mark.file_only("a server keeps its own files")
def test_a_database_may_lie_in_a_folder_of_any_name(empty_template: Path, tmp_path: Path) -> None:
    path = tmp_path / "50% grey? #2 & café" / "studio one.sqlite3"
    path.parent.mkdir()
    path.write_bytes(empty_template.read_bytes())
    assert state_of(path) is SchemaState.CURRENT


def test_the_state_is_told_without_loading_alembic_or_sqlalchemy(empty_db: Path) -> None:
    script = (
        "import sys\nfrom pathlib import Path\nfrom studio.storage.schema import state_of\n"
        f"state_of(Path({str(empty_db)!r}))\n"
        "print(sorted({'alembic', 'sqlalchemy', 'colour'} & set(sys.modules)))"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"


def test_shipped_folders_are_found_in_the_package_first_and_else_beside_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    package = tmp_path / "studio"
    (tmp_path / "shared").mkdir(parents=True)
    monkeypatch.setattr(shipped, "_PACKAGE", package)
    assert shipped_folder("shared") == tmp_path / "shared"
    (package / "_shared").mkdir(parents=True)
    assert shipped_folder("shared") == package / "_shared"
    with pytest.raises(StudioError, match="folder migrations of the program is missing"):
        shipped_folder("migrations")


@pytest.mark.parametrize("name", ["migrations", "seed_demo", "shared"])
def test_this_installation_has_every_shipped_folder(name: str) -> None:
    assert any(shipped_folder(name).iterdir())

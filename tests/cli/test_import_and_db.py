"""studio import and studio db: tables in, the database looked after."""

import json
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Final

import pytest

from tests.cli.conftest import Does
from tests.conftest import Run
from tests.servers import fingerprint

DEMO: Final = Path(__file__).resolve().parents[2] / "seed_demo"
GOOD_AND_BAD: Final = (
    "maker,name,pigments,volume_ml\n"
    "Orsel Pans,Locker Brown,PBr7,2\n"
    "Orsel Pans,,PB29,2\n"
    "Orsel Pans,Bilge Green,green,2\n"
)


@pytest.fixture
def table(tmp_path: Path) -> Path:
    """Two bad rows of three."""
    path = tmp_path / "paints.csv"
    path.write_text(GOOD_AND_BAD)
    return path


def _names(run: Run, db: Path) -> list[str]:
    return [paint["name"] for paint in json.loads(run("paint", "list", "--json", db=db).out)]


def test_good_rows_are_kept_and_bad_ones_listed_by_line(
    run: Run, empty_db: Path, table: Path
) -> None:
    outcome = run("import", str(table), db=empty_db)
    assert (outcome.status, outcome.out) == (6, "paints: 1 added\n")
    lines = outcome.err.splitlines()
    assert lines[0] == "studio: paints.csv, line 3: name is empty"
    assert lines[1].startswith("studio: paints.csv, line 4: 'green' is not a Colour Index name")
    assert _names(run, empty_db) == ["Locker Brown"]


def test_strict_keeps_nothing_when_a_row_is_bad(run: Run, empty_db: Path, table: Path) -> None:
    before = fingerprint(empty_db)
    outcome = run("import", str(table), "--strict", db=empty_db)
    assert outcome.status == 3
    assert outcome.err.splitlines()[-1] == (
        "studio: 2 bad rows, so nothing was imported (--strict)"
    )
    assert fingerprint(empty_db) == before


def test_strict_keeps_all_when_every_row_is_good(does: Does, table: Path) -> None:
    table.write_text("\n".join(GOOD_AND_BAD.splitlines()[:2]))
    assert does("import", str(table), "--strict").out == "paints: 1 added\n"


def test_a_dry_run_only_tells(run: Run, empty_db: Path, table: Path) -> None:
    before = fingerprint(empty_db)
    outcome = run("import", str(table), "--dry-run", db=empty_db)
    assert (outcome.status, outcome.out) == (6, "paints: 1 could be added\n")
    assert fingerprint(empty_db) == before


def test_a_folder_of_tables_is_imported_in_order_and_once(run: Run, empty_db: Path) -> None:
    first = run("import", str(DEMO), db=empty_db)
    assert (first.status, first.err) == (0, "")
    assert first.out.startswith("paints: 24 added\npapers: 4 added\nmixes: 76 added\nswatches: ")
    again = run("import", str(DEMO), db=empty_db)
    assert again.status == 0
    kinds = ("paints", "papers", "mixes", "swatches", "stock", "fade_tests", "data_sheets")
    assert [line.split(":")[0] for line in first.out.splitlines()] == list(kinds)
    assert "paints: 0 added, 24 there already\n" in again.out
    assert all(": 0 added, " in line for line in again.out.splitlines())
    assert len(json.loads(run("swatch", "list", "--json", db=empty_db).out)) == 244


def test_a_table_of_any_name_is_imported_as_its_kind(does: Does, tmp_path: Path) -> None:
    path = tmp_path / "shopping.csv"
    path.write_text("maker,name,surface\nEddering Mill,Creek Rough,rough\n")
    assert does("import", str(path), "--as", "papers").out == "papers: 1 added\n"


def test_where_prints_the_path_alone(does: Does, empty_db: Path) -> None:
    outcome = does("db", "where")
    assert (outcome.out, outcome.err) == (f"{empty_db}\n", "")


@pytest.mark.file_only("looks into the folder of the file")
def test_upgrade_of_the_newest_changes_nothing(does: Does, empty_db: Path) -> None:
    before = fingerprint(empty_db)
    assert does("db", "upgrade").out.startswith(f"{empty_db} is at schema ")
    assert fingerprint(empty_db) == before
    assert sorted(path.name for path in empty_db.parent.iterdir()) == ["studio.sqlite3"]


def test_a_sound_database_passes_the_check(run: Run, demo_db: Path) -> None:
    before = fingerprint(demo_db)
    outcome = run("db", "check", db=demo_db)
    assert (outcome.status, outcome.out) == (0, f"{demo_db}: no faults found\n")
    assert fingerprint(demo_db) == before


@pytest.mark.file_only("a server lets no such thing happen")
def test_a_dangling_reference_fails_the_check(run: Run, demo_db: Path) -> None:
    with closing(sqlite3.connect(demo_db)) as connection, connection:
        connection.execute("DELETE FROM paper WHERE code = 'CRO'")
    outcome = run("db", "check", db=demo_db)
    assert outcome.status == 5
    assert "missing paper" in outcome.out


@pytest.mark.file_only("copies the file")
def test_a_copied_database_is_a_studio_too(run: Run, demo_db: Path, tmp_path: Path) -> None:
    copy = Path(shutil.copy(demo_db, tmp_path / "copy with a % and a space.sqlite3"))
    assert run("mix", "show", "M38", db=copy).out == run("mix", "show", "M38", db=demo_db).out


@pytest.mark.file_only("about files")
def test_a_dry_run_makes_no_studio(run: Run, data_home: Path, tmp_path: Path) -> None:
    (tmp_path / "paints.csv").write_text("maker,name\nOrsel Pans,Bilge\n")
    for words in ((), ("--json",)):
        outcome = run("import", str(tmp_path / "paints.csv"), "--dry-run", *words)
        assert (outcome.status, outcome.err) == (0, "")
        assert "1" in outcome.out
    db = tmp_path / "new" / "studio.sqlite3"
    assert run("import", str(tmp_path / "paints.csv"), "--dry-run", db=db).status == 0
    assert not db.parent.exists()
    assert not data_home.exists() or not any(data_home.rglob("*.sqlite3"))

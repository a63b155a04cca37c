"""A studio of the sixth schema, its history too, is the same once swatches have marks of paints."""

import json
import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

import pytest

from studio.actions.check_database import check_database
from studio.storage import migrate
from studio.storage.schema import connect, revision_of
from tests.conftest import Run
from tests.storage.old_studio import insert

pytestmark = pytest.mark.file_only("a shared studio is tried in test_server.py")

NOW: Final = datetime(2027, 3, 8, 10, 5, 0, tzinfo=UTC)
MARKS: Final = ("paint_marks_low", "paint_marks_high")
Rows = dict[str, list[tuple[object, ...]]]


def _tables(connection: sqlite3.Connection) -> list[str]:
    listed = connection.execute(
        "SELECT name FROM sqlite_master WHERE type = 'table' AND name != 'alembic_version'"
    )
    return [name for (name,) in listed.fetchall()]


def _everything(path: Path) -> Rows:
    with closing(connect(path)) as connection:
        return {
            table: sorted(connection.execute(f"SELECT * FROM {table}").fetchall(), key=repr)
            for table in _tables(connection)
        }


def _without_marks(text: str | None) -> str | None:
    if text is None:
        return None
    image = {name: cell for name, cell in json.loads(text).items() if name not in MARKS}
    return json.dumps(image, ensure_ascii=False, separators=(",", ":"))


def _as_at_0006(path: Path, old: Path) -> None:
    """Write the studio as the sixth schema had it: without the marks, in its history too."""
    migrate.build(old, "0006")
    with closing(connect(path)) as now, closing(connect(old)) as before:
        before.execute("PRAGMA foreign_keys = OFF")
        before.execute("BEGIN")
        for table in _tables(before):
            before.execute(f"DELETE FROM {table}")
            columns = [row[1] for row in before.execute(f"PRAGMA table_info({table})")]
            for row in now.execute(f"SELECT {', '.join(columns)} FROM {table}"):
                cells = dict(zip(columns, row, strict=True))
                if table == "change" and cells["table_name"] == "swatch":
                    cells["before"] = _without_marks(cells["before"])
                    cells["after"] = _without_marks(cells["after"])
                insert(before, table, **cells)
        before.execute("COMMIT")


@pytest.fixture
def lived(run: Run, demo_db: Path) -> Path:
    """A demo studio with many paints, whose swatches were recorded, changed and taken back."""

    def done(*words: str) -> None:
        outcome = run(*words, db=demo_db)
        assert outcome.status == 0, outcome.err

    with closing(connect(demo_db)) as connection:
        # The reference, without what only the ninth schema has a place for.
        connection.execute("DELETE FROM lightfastness_rating WHERE scale = 'words'")
        connection.execute("DELETE FROM hazard_listing")
        connection.execute("UPDATE hazard SET use = NULL")
        connection.execute("UPDATE pigment SET looked_up = NULL")
    with closing(connect(demo_db)) as connection:
        maker = {"maker": "Saltings Colour", "form": "tube", "status": "in use"}
        for key in (62, 63, 125, 126, 127, 200):
            insert(connection, "paint", id=key, code=f"Q{key}", name=f"Silt {key}", **maker)
    with closing(connect(demo_db)) as connection:
        (paper,) = connection.execute("SELECT code FROM paper ORDER BY id LIMIT 1").fetchone()
    log = ("--paper", paper, "--lab")
    done("swatch", "log", "2 Q62 + 1 Q63 + 3 Q125", *log, "50,2.1,9.3")
    done("swatch", "log", "1 Q126 + 1 Q200", *log, "40.7,-2,9")
    done("swatch", "edit", "S9", "--note", "the mud’s edge")
    done("swatch", "remove", "S10")
    done("swatch", "log", "1 Q62 + 2 Q127", *log, "61.3,3,12")
    done("undo")
    # The id of the mix that was taken out is given anew.
    done("swatch", "log", "5 Q125 + 2 Q63", *log, "71.25,3,-12")
    done("swatch", "remove", "S9")
    done("swatch", "log", "5 Q125 + 3 Q63 + 1 Q200", *log, "31.25,3,-12")
    done("undo")
    return demo_db


@pytest.fixture
def old(lived: Path, tmp_path: Path) -> Path:
    """The same studio at 0006."""
    path = tmp_path / "old.sqlite3"
    _as_at_0006(lived, path)
    return path


def test_rows_and_history_come_to_what_this_program_would_have_written(
    lived: Path, old: Path
) -> None:
    with closing(connect(old)) as connection:
        tables = _tables(connection)
    backup = migrate.upgrade(old, NOW)
    assert revision_of(backup) == "0006"
    upgraded, written = _everything(old), _everything(lived)
    assert {name: upgraded[name] for name in tables} == {name: written[name] for name in tables}
    assert not any(upgraded[name] for name in upgraded.keys() - set(tables))
    assert [fault.text for fault in check_database(old)] == []


def test_the_history_of_the_test_holds_what_it_should(lived: Path) -> None:
    with closing(connect(lived)) as connection:
        images = connection.execute(
            "SELECT before, after FROM change WHERE table_name = 'swatch' AND before IS NOT NULL "
            "ORDER BY id"
        ).fetchall()
    gone = [
        tuple(json.loads(before)[name] for name in MARKS) for before, after in images if not after
    ]
    # 62 and 127, of the mix whose id is another's now; 125, 63 and 200.
    assert gone == [(1 << 62 | 1 << 1, 0), (0, 1 << 62 | 1 << 0 | 1 << 11)]
    assert len(images) == 5


def test_what_was_recorded_before_is_undone_and_done_again(
    lived: Path, old: Path, run: Run
) -> None:
    assert run("swatch", "list", db=old).status == 0  # upgrades
    whole = _everything(old)["swatch"]
    for word in ("redo", *["undo"] * 5, *["redo"] * 3):
        here, there = run(word, db=old), run(word, db=lived)
        assert (here.status, here.out) == (there.status, there.out)
        assert here.status == 0, here.err
    assert _everything(old)["swatch"] == _everything(lived)["swatch"] != whole
    assert [fault.text for fault in check_database(old)] == []


def test_the_new_columns_have_rules_and_the_index_has_them(old: Path) -> None:
    migrate.upgrade(old, NOW)
    with closing(connect(old)) as connection:
        for name in MARKS:
            for wrong, rule in ((-1, "counts"), (1.5, "is_whole"), ("mud", "is_whole")):
                with pytest.raises(sqlite3.IntegrityError, match=f"ck_swatch_{name}_{rule}"):
                    connection.execute(f"UPDATE swatch SET {name} = ? WHERE id = 1", (wrong,))
            with pytest.raises(sqlite3.IntegrityError, match=f"NOT NULL.*{name}"):
                connection.execute(f"UPDATE swatch SET {name} = NULL WHERE id = 1")
        columns = [row[2] for row in connection.execute("PRAGMA index_info(ix_swatch_search)")]
    assert {*MARKS, "b", "a", "lightness", "state", "paper_id", "mix_id", "removed_on"} <= {
        *columns
    }


def test_a_swatch_of_a_mix_that_lost_its_recipe_does_not_stop_the_upgrade(old: Path) -> None:
    with closing(connect(old)) as connection:
        connection.execute("DELETE FROM mix_component WHERE mix_id = 1")
    migrate.upgrade(old, NOW)
    with closing(connect(old)) as connection:
        marks = f"SELECT DISTINCT {', '.join(MARKS)} FROM swatch WHERE mix_id = 1"
        assert connection.execute(marks).fetchall() == [(0, 0)]

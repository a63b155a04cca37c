"""A studio of every older schema, filled, comes to the newest one whole, by any command.

The proof has no longer form: one studio goes through every revision, gets rows for what each of
them brought, and from each of them it is taken to the newest in one step.
"""

import hashlib
import json
import shutil
from collections.abc import Mapping
from contextlib import closing
from datetime import date
from pathlib import Path
from typing import Final

import pytest

from studio.actions.check_database import check_database
from studio.actions.load_reference import refresh_reference
from studio.catalogue.painting_record import PaintingRecord
from studio.storage import migrate
from studio.storage.painting_records import document_of
from studio.storage.schema import HEAD, REVISIONS, connect, revision_of
from studio.storage.sqlite_backup import Backup, backups_in
from tests.conftest import Run
from tests.storage import painting_cells
from tests.storage.old_studio import PAINTS, PAPERS, WHITE, fill, insert

OLDER: Final = REVISIONS[:-1]
REFERENCE: Final = (
    "pigment", "lightfastness_rating", "h_statement", "hazard", "hazard_code", "hazard_metal",
)  # fmt: skip
"""Tables that get what the reference of the program has beside the rows that stood there."""
LATER: Final = {"command", "change", "alembic_version"}
"""Tables that a history is kept in, and the one that tells the revision."""

Rows = list[tuple[object, ...]]
Columns = Mapping[str, tuple[str, ...]]

pytestmark = pytest.mark.file_only("a shared studio is tried in test_server_rules.py")


def _first(path: Path) -> None:
    """Rows of every table that the first schema has beside those of old_studio."""
    with closing(connect(path)) as connection:
        connection.execute("BEGIN")
        fill(connection)
        insert(connection, "h_statement", code="H998", hazard_class="Slippery", wording="Slips.",
               source="harbour notes")  # fmt: skip
        hazard = insert(
            connection, "hazard", pigment_id=1, agent="weed", summary="Keep it off food.",
            basis="notified", routes="skin", evidence="owner", source="harbour notes",
            verified_on="2025-04-01", verified_from="tube label",
        )  # fmt: skip
        insert(connection, "hazard_code", hazard_id=hazard, code="H998", hedged=1)
        insert(connection, "hazard_metal", hazard_id=hazard, metal="copper")
        insert(
            connection, "lightfastness_rating", pigment_id=1, scale="blue wool", rating="5-6",
            medium="oil", source="harbour notes", evidence="owner", year=2024,
        )  # fmt: skip
        connection.execute("COMMIT")


def _second(path: Path) -> None:
    """A container with what only a container can tell, a data sheet, a fade test."""
    with closing(connect(path)) as connection:
        connection.execute("BEGIN")
        tube = insert(connection, "container", code="UN-1", paint_id=31, kind="tube", unit="ml",
                      capacity=14.0, lot="P26")  # fmt: skip
        for day, cells in (
            ("2026-03-01", {"kind": "bought", "amount": 14.0}),
            (
                "2026-03-02",
                {"kind": "weighed", "amount": 14.0, "weight_g": 25.25, "weighed_as": "full"},
            ),
            ("2026-03-09", {"kind": "used", "amount": 0.5, "estimated": 1, "note": "ebb"}),
        ):
            insert(connection, "stock_event", container_id=tube,
                   **({"happened_on": day, "estimated": 0} | cells))  # fmt: skip
        insert(connection, "data_sheet", paint_id=31, location="sheets/un.pdf",
               dated_on="2025-01-05", label_marks="AP", recorded_on="2026-03-02")  # fmt: skip
        test = insert(connection, "fade_test", code="F1", paint_id=31, place="south window",
                      started_on="2026-03-01")  # fmt: skip
        insert(connection, "fade_reading", fade_test_id=test, read_on="2026-05-01",
               covered_lightness=41.0, covered_a=2.0, covered_b=-32.0, exposed_lightness=43.0,
               exposed_a=2.0, exposed_b=-29.0, blue_wool=2)  # fmt: skip
        connection.execute("COMMIT")


def _third(path: Path) -> None:
    """A kept file, a target from it, and a reading that names sample, backing and spectrum."""
    with closing(connect(path)) as connection:
        connection.execute("BEGIN")
        file = insert(connection, "measurement_file", name="quay.cgats", size=3, content=b"mud",
                      sha256=hashlib.sha256(b"mud").hexdigest(), read_on="2026-03-02")  # fmt: skip
        insert(connection, "target", name="wet mud", lightness=50.0, a=1.0, b=9.0, file_id=file,
               spread_delta_e=0.5, created_on="2026-03-03")  # fmt: skip
        insert(connection, "reading", swatch_id=1, file_id=file, sample="wet slipway",
               geometry="45/0", backing="black", **(WHITE | {"state": "wet"}))  # fmt: skip
        connection.execute("COMMIT")


def _fourth(path: Path) -> None:
    """Something that was computed of the paints."""
    with closing(connect(path)) as connection:
        insert(connection, "characterisation", inputs_sha256="0a" * 32, model="mud", swatches=1,
               estimated=0, content=json.dumps({"paints": []}).encode(), computed_on="2026-03-04",
               )  # fmt: skip


RECORD: Final = PaintingRecord(
    "P1", "Low water", 380.0, 280.0, 3.0, "R1 rag", None, None, None, date(2026, 5, 4),
    date(2026, 5, 9), None, (), None, (),
)  # fmt: skip
EIGHTH: Final[dict[str, dict[str, object]]] = {
    "painting": {"finished_on": "2026-05-09"},
    "passage": {"position": 1},
    "painting_record": {"content": json.dumps(document_of(RECORD))},
}


def _eighth(path: Path) -> None:
    """A painting with all that belongs to one."""
    with closing(connect(path)) as connection:
        connection.execute("BEGIN")
        for table, cells in painting_cells.GOOD.items():
            changed = painting_cells.PARENT_ROWS.get(table, {})
            insert(connection, table, **(cells | changed | EIGHTH.get(table, {})))
        connection.execute("COMMIT")


BROUGHT: Final = {
    "0001": _first, "0002": _second, "0003": _third, "0004": _fourth, "0008": _eighth,
}  # fmt: skip


@pytest.fixture(scope="module")
def carried(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """One studio at every revision, its rows those of the last and what the revision brought."""
    home = tmp_path_factory.mktemp("carried")
    studios: dict[str, Path] = {}
    for number, revision in enumerate(OLDER):
        path = home / f"{revision}.sqlite3"
        if number:
            shutil.copy(studios[OLDER[number - 1]], path)
            migrate.to_head(path, revision)
        else:
            migrate.build(path, revision)
        if revision in BROUGHT:
            BROUGHT[revision](path)
        studios[revision] = path
    return studios


def _columns(path: Path) -> Columns:
    with closing(connect(path)) as connection:
        names = connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")
        return {
            name: tuple(row[1] for row in connection.execute(f"PRAGMA table_info({name})"))
            for (name,) in names.fetchall()
            if name not in LATER
        }


def _rows(path: Path, columns: Columns) -> dict[str, Rows]:
    with closing(connect(path)) as connection:
        return {
            table: sorted(connection.execute(f"SELECT {', '.join(names)} FROM {table}"), key=repr)
            for table, names in columns.items()
        }


def _compared(revision: str, path: Path) -> Columns:
    """The columns that a revision has and that come through as they are.

    From 0001 the ledger goes from paints and papers to containers and a lot into the note, which
    tests/storage/test_upgrade_to_0002.py follows entry by entry.
    """
    columns = dict(_columns(path))
    if revision == "0001":
        columns["stock_event"] = ("happened_on", "price_hundredths", "currency")
    return columns


def _upgraded(run: Run, before: Path, tmp_path: Path) -> tuple[Path, Backup]:
    path = Path(shutil.copy(before, tmp_path / "studio.sqlite3"))
    outcome = run("swatch", "list", db=path)
    assert outcome.status == 0
    assert outcome.out.splitlines()[1].startswith("S1 ")
    assert outcome.err.startswith(f"studio: upgraded {path}; the database as it was is kept at ")
    (backup,) = backups_in(path.parent / "backups", path.stem)
    return path, backup


@pytest.mark.parametrize("revision", OLDER)
def test_every_table_of_a_revision_has_rows(revision: str, carried: dict[str, Path]) -> None:
    path = carried[revision]
    assert revision_of(path) == revision
    rows = _rows(path, _columns(path))
    assert {table for table, found in rows.items() if not found} == set()
    assert len(rows["stock_event"]) >= sum(map(len, (*PAINTS.values(), *PAPERS.values())))


@pytest.mark.parametrize("revision", OLDER)
def test_every_row_is_as_it_was_and_a_backup_holds_the_studio_before(
    revision: str, carried: dict[str, Path], run: Run, tmp_path: Path
) -> None:
    before = carried[revision]
    columns = _compared(revision, before)
    path, backup = _upgraded(run, before, tmp_path)
    assert revision_of(path) == HEAD
    was, now = _rows(before, columns), _rows(path, columns)
    for table in REFERENCE:
        assert set(was.pop(table)) <= set(now.pop(table, []))
    assert now == was
    assert backup.name.why == f"before-upgrade-from-{revision}"
    assert revision_of(backup.path) == revision
    whole = _columns(before)
    assert _columns(backup.path) == whole
    assert _rows(backup.path, whole) == _rows(before, whole)


@pytest.mark.parametrize("revision", OLDER)
def test_the_history_begins_empty_and_nothing_is_found_wrong(
    revision: str, carried: dict[str, Path], run: Run, tmp_path: Path
) -> None:
    path, _ = _upgraded(run, carried[revision], tmp_path)
    with closing(connect(path)) as connection:
        for table in ("command", "change"):
            assert connection.execute(f"SELECT count(*) FROM {table}").fetchone() == (0,)
    assert [fault.text for fault in check_database(path)] == []
    before = _rows(path, _columns(path))
    assert run("swatch", "log", "1 UN", "--paper", "R1", "--lab", "50,2,9", db=path).status == 0
    assert run("undo", db=path).status == 0
    assert _rows(path, _columns(path)) == before


def test_step_by_step_and_in_one_step_come_to_the_same(
    carried: dict[str, Path], run: Run, tmp_path: Path
) -> None:
    at_once, _ = _upgraded(run, carried["0001"], tmp_path)
    path = Path(shutil.copy(carried["0001"], tmp_path / "slow.sqlite3"))
    for revision in REVISIONS[1:]:
        refresh = refresh_reference if revision == HEAD else None
        migrate.to_head(path, revision, refresh=refresh)
        assert revision_of(path) == revision
    assert _columns(path) == _columns(at_once)
    assert _rows(path, _columns(path)) == _rows(at_once, _columns(path))

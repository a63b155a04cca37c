"""A studio of the first schema keeps every row when its ledgers become containers' ledgers."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, date, datetime
from decimal import Decimal
from pathlib import Path
from typing import Final

import pytest
from sqlalchemy import create_engine

from studio.actions.check_database import check_database
from studio.actions.find_stock import Item
from studio.catalogue.container import Container, ContainerKind
from studio.catalogue.stock import StockKind, Unit
from studio.storage import migrate
from studio.storage.address import file_of
from studio.storage.rules import metadata
from studio.storage.schema import SchemaState, connect, revision_of, state_of
from studio.storage.sqlite_copy import problems
from studio.storage.unit_of_work import UnitOfWork
from tests.storage.old_studio import PAINTS, PAPERS, Cells, fill, fold, insert

NOW: Final = datetime(2026, 11, 25, 14, 30, 5, tzinfo=UTC)

UNTOUCHED: Final = (
    "pigment", "lightfastness_rating", "h_statement", "hazard", "hazard_code", "hazard_metal",
    "paint", "paint_pigment", "paper", "mix", "mix_component", "swatch", "reading",
)  # fmt: skip

LATER: Final = frozenset(
    {
        "low_at_mm",
        "geometry",
        "backing",
        "sample",
        "file_id",
        "removed_on",
        "removed_because",
        "paint_marks_low",
        "paint_marks_high",
        "looked_up",
        "use",
    }
)
"""Columns that came after the first schema."""

Rows = list[tuple[object, ...]]


@pytest.fixture(scope="module")
def old_template(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A studio made by the migrations as far as 0001, and filled by SQL. Copy it."""
    path = tmp_path_factory.mktemp("old") / "studio.sqlite3"
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(migrate, "HEAD", "0001")
        migrate.build(path)
    with closing(connect(path)) as connection:
        connection.execute("PRAGMA foreign_keys = ON")
        connection.execute("BEGIN")
        fill(connection)
        connection.execute("COMMIT")
    return path


@pytest.fixture
def old(old_template: Path, tmp_path: Path) -> Path:
    """A copy of that studio of this test's own."""
    path = tmp_path / "studio.sqlite3"
    path.write_bytes(old_template.read_bytes())
    return path


@pytest.fixture
def upgraded(old: Path) -> Iterator[UnitOfWork]:
    """That studio at the current schema."""
    migrate.upgrade(old, NOW)
    with UnitOfWork(old) as work:
        yield work


def _all(path: Path, table: str) -> Rows:
    with closing(connect(path)) as connection:
        columns = [row[1] for row in connection.execute(f"PRAGMA table_info({table})")]
        columns = [column for column in columns if column not in LATER]
        found: Rows = connection.execute(
            f"SELECT {', '.join(columns)} FROM {table} ORDER BY 1, 2"
        ).fetchall()
    return found


def test_whatever_is_no_ledger_is_as_it_was(old: Path) -> None:
    assert state_of(old) is SchemaState.OLD
    before = {table: _all(old, table) for table in UNTOUCHED}
    migrate.upgrade(old, NOW)
    assert state_of(old) is SchemaState.CURRENT
    assert {table: _all(old, table) for table in UNTOUCHED} == before
    assert len(before["paper"]) == 10
    assert len(before["reading"]) == 12


def test_the_backup_beside_it_is_whole_and_of_the_first_schema(old: Path) -> None:
    before = {table: _all(old, table) for table in (*UNTOUCHED, "stock_event")}
    backup = migrate.upgrade(old, NOW)
    assert backup.parent == old.parent / "backups"
    assert revision_of(backup) == "0001"
    assert {table: _all(backup, table) for table in before} == before
    with closing(connect(backup)) as connection:
        assert problems(connection) == []


def test_what_was_left_is_left(upgraded: UnitOfWork) -> None:
    items: list[Item] = [*upgraded.paints.all(), *upgraded.papers.all()]
    found = {item.facts.code: (item.stock.left, item.stock.as_of) for item in items}
    assert found.pop("UN") == (None, None)
    expected = {
        code: (fold(ledger, whole), date.fromisoformat(str(ledger[-1]["happened_on"])))
        for ledgers, whole in ((PAINTS, 100), (PAPERS, 4))
        for code, ledger in ledgers.items()
    }
    assert found == expected
    assert len({left for left, _ in found.values()}) > 20


def test_every_entry_is_in_the_ledger_of_one_assortment(upgraded: UnitOfWork) -> None:
    for container in upgraded.containers.all():
        ledger = {**PAINTS, **PAPERS}[container.code.removesuffix("-1")]
        assert container.kind is ContainerKind.ASSORTED
        assert container.unit is (Unit.ML if container.paint_id else Unit.SHEETS)
        assert [_entry(event.kind, event.amount) for event in container.events] == [
            (entry["kind"], entry["amount"]) for entry in ledger
        ]
        _same_words(container, ledger)
    assert len(upgraded.containers.all()) == 40


def _entry(kind: StockKind, amount: float | None) -> tuple[str, float | None]:
    return ("counted" if kind is StockKind.CORRECTED else kind.value, amount)


def _same_words(container: Container, ledger: list[Cells]) -> None:
    for event, entry in zip(container.events, ledger, strict=True):
        lot = f"lot {entry['lot']} " if entry["lot"] else ""
        assert (event.note or "") == f"{lot}{entry['note'] or ''}".strip()
        price = entry["price_hundredths"]
        assert event.price == (None if price is None else Decimal(str(price)) / 100)
        assert event.currency == entry["currency"]
        assert event.happened_on.isoformat() == entry["happened_on"]
        assert not event.estimated
        assert event.other is None


def test_low_marks_are_kept(upgraded: UnitOfWork) -> None:
    marks = {paper.facts.code: paper.facts.low_at_sheets for paper in upgraded.papers.all()}
    assert marks == {f"R{n + 1}": n / 2 if n else None for n in range(10)}
    assert {paper.facts.low_at_mm for paper in upgraded.papers.all()} == {None}
    assert next(p for p in upgraded.paints.all() if p.facts.code == "UN").low_at == 2.5


def test_references_are_whole_and_the_program_finds_nothing_wrong(upgraded: UnitOfWork) -> None:
    with closing(connect(file_of(upgraded.path))) as connection:
        assert problems(connection) == []
        names = {row[0] for row in connection.execute("SELECT name FROM sqlite_master")}
    assert not {name for name in names if "0001" in name or "_new" in name}
    assert check_database(upgraded.path) == []


def test_the_ledger_goes_on(old: Path) -> None:
    migrate.upgrade(old, NOW)
    with closing(connect(old)) as connection:
        connection.execute("PRAGMA foreign_keys = ON")
        with pytest.raises(sqlite3.IntegrityError, match="FOREIGN KEY"):
            connection.execute("DELETE FROM container")
        with pytest.raises(sqlite3.IntegrityError, match="FOREIGN KEY"):
            connection.execute("DELETE FROM paper")
        with pytest.raises(sqlite3.IntegrityError, match="ck_paper_low_at_mm_in_range"):
            connection.execute("UPDATE paper SET low_at_mm = -1")


def test_entries_booked_late_stand_where_they_happened(old: Path) -> None:
    with closing(connect(old)) as connection:
        (key,) = connection.execute("SELECT id FROM paint WHERE code = 'UN'").fetchone()
        for day, kind, amount in (
            ("2025-06-01", "counted", 9.0),
            ("2025-06-02", "used", 2.0),
            ("2025-05-01", "bought", 5.0),
            ("2025-05-01", "used", 4.0),
        ):
            insert(
                connection, "stock_event", paint_id=key, kind=kind, amount=amount, happened_on=day
            )
    migrate.upgrade(old, NOW)
    with UnitOfWork(old) as work:
        container = work.containers.with_code("UN-1")
    assert container is not None
    assert [line.left for line in container.lines] == [5.0, 1.0, 9.0, 7.0]


def test_a_paint_and_a_paper_of_one_code_get_containers_of_their_own(old: Path) -> None:
    with closing(connect(old)) as connection:
        connection.execute("UPDATE paper SET code = 'P1' WHERE code = 'R1'")
    migrate.upgrade(old, NOW)
    with UnitOfWork(old) as work:
        codes = {each.code: each.paper_id is not None for each in work.containers.all()}
    assert codes["P1-1"] is False
    assert codes["P1-2"] is True


def test_the_longest_lot_and_note_are_both_kept_whole(old: Path) -> None:
    lot, note = "7" * 1000, "x" * 1000
    with closing(connect(old)) as connection:
        connection.execute("UPDATE stock_event SET lot = ?, note = ? WHERE id = 1", (lot, note))
    migrate.upgrade(old, NOW)
    with UnitOfWork(old) as work:
        container = work.containers.with_code("P1-1")
    assert container is not None
    assert container.events[0].note == f"lot {lot} {note}"


def test_the_schema_is_the_one_the_program_describes(old: Path) -> None:
    engine = create_engine("sqlite://")
    with engine.connect() as described:
        metadata.create_all(described)
        expected = _definitions(described.connection.driver_connection)  # type: ignore[arg-type]
    engine.dispose()
    migrate.upgrade(old, NOW)
    with closing(connect(old)) as connection:
        found = _definitions(connection)
    assert set(found) == set(expected)
    for name, lines in expected.items():
        assert found[name] == lines


def _definitions(connection: sqlite3.Connection) -> dict[tuple[str, str], list[str]]:
    """The SQL of every table and index, the parts of a table in one order whatever built it."""
    found = {}
    for kind, name, table, sql in connection.execute(
        "SELECT type, name, tbl_name, sql FROM sqlite_master WHERE tbl_name != 'alembic_version'"
    ):
        lines = (sql or f"automatic, of {table}").replace('"', "").splitlines()
        found[kind, name] = sorted(" ".join(line.strip(" ,\t").split()) for line in lines)
    return found

"""A studio of the fourth schema is the same studio once it has the index of the search."""

from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

import pytest

from studio.actions.check_database import check_database
from studio.storage import migrate
from studio.storage.schema import SchemaState, connect, revision_of, state_of
from studio.storage.search import SwatchFilter
from studio.storage.unit_of_work import UnitOfWork
from tests.storage.old_studio import WHITE, insert

NOW: Final = datetime(2027, 3, 8, 10, 5, 0, tzinfo=UTC)


@pytest.fixture
def old(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A studio made by the migrations as far as 0004, filled by SQL."""
    path = tmp_path / "studio.sqlite3"
    with monkeypatch.context() as patch:
        patch.setattr(migrate, "HEAD", "0004")
        migrate.build(path)
    with closing(connect(path)) as connection:
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
        insert(connection, "reading", swatch_id=swatch, **WHITE)
    return path


def _rows(path: Path) -> dict[str, list[tuple[object, ...]]]:
    """The rows without the columns that came after 0005."""
    later = {"removed_on", "removed_because", "paint_marks_low", "paint_marks_high"}
    found = {}
    with closing(connect(path)) as connection:
        for name in ("paint", "paper", "mix", "mix_component", "swatch", "reading"):
            columns = [row[1] for row in connection.execute(f"PRAGMA table_info({name})")]
            kept = ", ".join(column for column in columns if column not in later)
            found[name] = connection.execute(f"SELECT {kept} FROM {name} ORDER BY 1").fetchall()
    return found


def test_every_row_is_as_it_was_and_is_found_through_the_index(old: Path) -> None:
    before = _rows(old)
    assert {len(rows) for rows in before.values()} == {1}
    assert state_of(old) is SchemaState.OLD
    backup = migrate.upgrade(old, NOW)
    assert state_of(old) is SchemaState.CURRENT
    assert revision_of(backup) == "0004"
    assert _rows(old) == _rows(backup) == before
    assert check_database(old) == []
    with UnitOfWork(old) as work:
        swatches = work.swatches.searched(SwatchFilter())
        (pillar,) = swatches.pillars()
        assert swatches.within_pillars([(0, pillar)]) == [(1, 1, 96.25, -0.5, 2.75)]

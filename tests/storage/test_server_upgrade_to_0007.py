"""A studio on a server at the sixth schema is the same once swatches have marks of paints."""

import json
from typing import Any, Final

import pytest
from sqlalchemy import select

from studio.actions.check_records import check_records
from studio.storage import tables
from studio.storage.address import Database, ServerAddress
from studio.storage.migrate import upgrade_on_server
from studio.storage.unit_of_work import UnitOfWork
from tests.conftest import Run
from tests.servers import SERVER, by_hand

pytestmark = pytest.mark.skipif(SERVER is None, reason="needs a server: .ci/with_server pytest")

MARKS: Final = ("paint_marks_low", "paint_marks_high")
SCHEMA: Final = (
    (
        "SELECT attname, atttypid::regtype::text, attnotnull, atthasdef FROM pg_attribute "
        "WHERE attrelid = 'swatch'::regclass AND attnum > 0 AND NOT attisdropped ORDER BY attnum"
    ),
    (
        "SELECT conname, pg_get_constraintdef(oid) FROM pg_constraint "
        "WHERE conrelid = 'swatch'::regclass ORDER BY 1"
    ),
    "SELECT indexdef FROM pg_indexes WHERE tablename = 'swatch' ORDER BY 1",
)
BEFORE_0009: Final = (
    "DROP TABLE hazard_listing",
    "ALTER TABLE pigment DROP COLUMN looked_up",
    "ALTER TABLE hazard DROP COLUMN use",
    "ALTER TABLE hazard DROP CONSTRAINT uq_hazard_pigment_id_agent_source",
    "ALTER TABLE hazard ADD CONSTRAINT uq_hazard_pigment_id_agent UNIQUE (pigment_id, agent)",
)


def _everything(address: ServerAddress) -> tuple[list[list[Any]], list[list[Any]]]:
    with UnitOfWork(address) as work, by_hand(address) as server:
        rows = [
            list(work.connection.execute(select(table).order_by(*table.primary_key.columns)))
            for table in (tables.swatch, tables.reading, tables.change)
        ]
        return rows, [server.execute(sql.encode()).fetchall() for sql in SCHEMA]


def _back_to_0006(address: ServerAddress) -> None:
    with by_hand(address) as server:
        server.execute("DROP TABLE painting_record, colour_try, passage_colour, passage, painting")
        for statement in BEFORE_0009:
            server.execute(statement.encode())
        for name in MARKS:  # the index goes with its columns
            server.execute(f"ALTER TABLE swatch DROP COLUMN {name}".encode())
        server.execute(
            "CREATE INDEX ix_swatch_search ON swatch (round(lightness / 4), round(a / 4), b, a, "
            "lightness, state, paper_id, mix_id, removed_on)"
        )
        server.execute("UPDATE alembic_version SET version_num = '0006'")
        for key, *images in server.execute(
            "SELECT id, before, after FROM change WHERE table_name = 'swatch'"
        ).fetchall():
            cells = [None if image is None else json.loads(image) for image in images]
            for image in cells:
                for name in MARKS:
                    assert image is None or image.pop(name) >= 0
            texts = [
                image
                if image is None
                else json.dumps(image, ensure_ascii=False, separators=(",", ":"))
                for image in cells
            ]
            server.execute("UPDATE change SET before = %s, after = %s WHERE id = %s", (*texts, key))


def test_rows_history_and_schema_come_to_what_this_program_would_have_written(
    demo_db: Database, run: Run
) -> None:
    assert isinstance(demo_db, ServerAddress)
    for words in (
        ("swatch", "remove", "S9"),
        ("swatch", "edit", "S10", "--note", "the mud’s edge"),
        ("undo",),
    ):
        outcome = run(*words, db=demo_db)
        assert outcome.status == 0, outcome.err
    before = _everything(demo_db)
    _back_to_0006(demo_db)
    upgrade_on_server(demo_db)
    assert _everything(demo_db) == before
    with UnitOfWork(demo_db) as work:
        assert check_records(work) == []

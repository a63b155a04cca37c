"""Many rows by few statements are the rows that Core writes one by one, and have their history."""

from datetime import date
from typing import Any, Final

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import Connection, Table, insert, select
from sqlalchemy.exc import DatabaseError

from studio.catalogue.reading import Condition, Method, Origin, State
from studio.storage import many_rows
from studio.storage import tables as t
from studio.storage.many_rows import highest_id, insert_many
from studio.storage.unit_of_work import UnitOfWork

DAY: Final = date(2026, 3, 14)
TEXTS: Final = st.one_of(
    st.none(),
    st.sampled_from(["tide 100 %s", "?", ":name %(day)s", "'); --", "Schlick \N{MICRO SIGN}"]),
)
AXES: Final = st.floats(-200.0, 200.0)
READINGS: Final = st.fixed_dictionaries(
    {
        "swatch_id": st.sampled_from([1, 2, 3]),
        "lightness": st.floats(0.0, 100.0),
        "a": AXES,
        "b": st.sampled_from([-0.0, 5e-324, 0.1 + 0.2, 1.0]),
        "given_lightness": st.floats(0.0, 100.0),
        "given_a": AXES,
        "given_b": AXES,
        "given_illuminant": st.sampled_from(["D50", "D65"]),
        "given_observer": st.sampled_from([2, 10]),
        "origin": st.sampled_from([Origin.MEASURED, Origin.ADAPTED]),
        "state": st.sampled_from(list(State)),
        "method": st.sampled_from(list(Method)),
        "condition": st.one_of(st.none(), st.sampled_from(list(Condition))),
        "error_delta_e": st.one_of(st.none(), st.floats(0.0, 100.0)),
        "read_on": st.dates(date(1970, 1, 1), date(2026, 11, 25)),
        "note": TEXTS,
        "sample": TEXTS,
    }
)
GOOD: Final[dict[str, Any]] = {
    "swatch_id": 1, "lightness": 50.0, "a": 0.0, "b": 0.0, "given_lightness": 50.0, "given_a": 0.0,
    "given_b": 0.0, "given_illuminant": "D50", "given_observer": 2, "origin": Origin.MEASURED,
    "state": State.DRY, "method": Method.BY_EYE, "read_on": DAY,
}  # fmt: skip


def _cells(connection: Connection, table: Table, above: int) -> list[tuple[str, ...]]:
    """The rows above an id but for it, each cell to the last bit and with its type."""
    rows = connection.execute(select(table).where(table.c.id > above).order_by(table.c.id))
    return [tuple(map(repr, row[1:])) for row in rows]


@given(st.lists(READINGS, min_size=1, max_size=12), st.integers(17, 200))
@settings(max_examples=30, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_the_rows_are_those_that_core_writes(
    demo_work: UnitOfWork, rows: list[dict[str, Any]], values: int
) -> None:
    connection = demo_work.connection
    before = highest_id(demo_work.connection, t.reading)
    with connection.begin_nested() as savepoint:
        connection.execute(insert(t.reading), rows)
        expected = _cells(connection, t.reading, before)
        savepoint.rollback()
    with connection.begin_nested() as savepoint, pytest.MonkeyPatch.context() as patch:
        patch.setattr(many_rows, "_VALUES", values)
        ids = insert_many(connection, t.reading, iter(rows))
        found = _cells(connection, t.reading, before)
        there = connection.execute(
            select(t.reading.c.id).where(t.reading.c.id > before).order_by(t.reading.c.id)
        )
        assert list(there.scalars()) == list(ids)
        savepoint.rollback()
    assert found == expected


def test_no_rows_are_no_statement(demo_work: UnitOfWork) -> None:
    before = highest_id(demo_work.connection, t.reading)
    assert list(insert_many(demo_work.connection, t.reading, [])) == []
    assert highest_id(demo_work.connection, t.reading) == before


def test_one_that_is_refused_refuses_all_of_its_statement(demo_work: UnitOfWork) -> None:
    before = highest_id(demo_work.connection, t.reading)
    with pytest.raises(DatabaseError), demo_work.connection.begin_nested():
        insert_many(demo_work.connection, t.reading, [GOOD, {**GOOD, "lightness": 101.0}, GOOD])
    assert highest_id(demo_work.connection, t.reading) == before


def test_what_several_statements_added_is_taken_back(
    demo_work: UnitOfWork, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(many_rows, "_VALUES", 2 * len(GOOD))
    ids = insert_many(demo_work.connection, t.reading, [GOOD] * 5)
    part = {"mix_id": 1, "parts": 1}
    some = select(t.paint.c.id).where(
        t.paint.c.id.not_in(select(t.mix_component.c.paint_id).where(t.mix_component.c.mix_id == 1))
    )
    paints = demo_work.connection.execute(some.limit(3)).scalars().all()
    insert_many(
        demo_work.connection,
        t.mix_component,
        [{**part, "paint_id": key, "position": 50 + place} for place, key in enumerate(paints)],
    )
    demo_work.commit()
    command = demo_work.history.last(1)[0]
    changes = demo_work.history.changes_of(command.id)
    assert [each.ids for each in changes if each.table == "reading"] == [(ids[0], ids[-1])]
    assert [each.key for each in changes if each.table == "mix_component"] == [
        (1, paint) for paint in paints
    ]
    assert len(ids) == 5
    assert len(paints) == 3

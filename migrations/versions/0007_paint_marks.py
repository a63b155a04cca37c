"""Marks of its paints beside the colour of each swatch, and in the search index.

Revision ID: 0007
"""

import json
from collections import defaultdict
from collections.abc import Iterable
from typing import Any, Final

import sqlalchemy as sa
from alembic import op

from studio.storage.rebuild import with_columns

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None

BITS: Final = 63
COLUMNS: Final = ("paint_marks_low", "paint_marks_high")
CHECKS: Final = {f"ck_swatch_{column}_counts": f"{column} >= 0" for column in COLUMNS}
WHOLE: Final = {
    f"ck_swatch_{column}_is_whole": f"typeof({column}) IN ('integer', 'null')" for column in COLUMNS
}
CHANGE: Final = sa.table(
    "change", *map(sa.column, ("id", "command_id", "table_name", "before", "after"))
)
FILLED: Final = {
    column: (
        "(SELECT CAST(coalesce(sum(DISTINCT CASE WHEN part.paint_id % 126 / 63 = "
        f"{place} THEN CAST(1 AS BIGINT) << (part.paint_id % 63) END), 0) AS BIGINT) "
        "FROM mix_component AS part WHERE part.mix_id = swatch.mix_id)"
    )
    for place, column in enumerate(COLUMNS)
}


def upgrade() -> None:
    """Add the columns, fill them for the swatches that are there or in the history, index them."""
    op.drop_index("ix_swatch_search", table_name="swatch")
    if op.get_bind().dialect.name == "sqlite":
        types = dict.fromkeys(COLUMNS, "BIGINT NOT NULL")
        with_columns(op.get_bind(), "swatch", types, CHECKS | WHOLE, filled=FILLED)
    else:
        _alter()
    # What is read of every row comes first.
    op.create_index(
        "ix_swatch_search",
        "swatch",
        [
            sa.text("round(lightness / 4)"),
            sa.text("round(a / 4)"),
            *("b", "a", "lightness", *COLUMNS, "state", "paper_id", "mix_id", "removed_on"),
        ],
    )
    _complete_history(op.get_bind())


def _alter() -> None:
    for column in COLUMNS:
        op.add_column("swatch", sa.Column(column, sa.BigInteger(), nullable=True))
    settings = ", ".join(f"{column} = {value}" for column, value in FILLED.items())
    op.execute(f"UPDATE swatch SET {settings}")
    for column in COLUMNS:
        op.alter_column("swatch", column, nullable=False)
    for name, rule in CHECKS.items():
        op.create_check_constraint(op.f(name), "swatch", rule)


def _complete_history(connection: sa.Connection) -> None:
    """What swatches were before has the new columns too, for undo compares and puts back rows."""
    taken_out = _recipes_taken_out(connection)
    statement = (
        sa.select(CHANGE)
        .where(CHANGE.c.table_name == "swatch", CHANGE.c.before.is_not(None))
        .order_by(CHANGE.c.id)
        .limit(1000)
    )
    last = 0
    while rows := connection.execute(statement.where(CHANGE.c.id > last)).all():
        last = rows[-1].id
        for row in rows:
            images = [None if text is None else json.loads(text) for text in row[-2:]]
            for image in images:
                if image is not None:
                    recipes = taken_out.get(image["mix_id"], {})
                    later = [command for command in recipes if command >= row.command_id]
                    paints = (
                        recipes[min(later)] if later else _paints_now(connection, image["mix_id"])
                    )
                    image.update(_marks(paints))
            before, after = (None if image is None else _written(image) for image in images)
            changed = sa.update(CHANGE).where(CHANGE.c.id == row.id)
            connection.execute(changed.values(before=before, after=after))


def _recipes_taken_out(connection: sa.Connection) -> dict[int, dict[int, set[int]]]:
    """The paints of mixes that are gone, by mix id and the command that took them out.

    The history alone knows them, and the id of such a mix may be that of another one by now.
    """
    recipes: dict[int, dict[int, set[int]]] = defaultdict(lambda: defaultdict(set))
    for row in connection.execute(
        sa.select(CHANGE).where(
            CHANGE.c.table_name == "mix_component",
            CHANGE.c.before.is_not(None),
            CHANGE.c.after.is_(None),
        )
    ):
        part = json.loads(row.before)
        recipes[part["mix_id"]][row.command_id].add(part["paint_id"])
    return recipes


def _paints_now(connection: sa.Connection, mix_id: int) -> Iterable[int]:
    part = sa.table("mix_component", sa.column("paint_id"), sa.column("mix_id"))
    return connection.execute(sa.select(part.c.paint_id).where(part.c.mix_id == mix_id)).scalars()


def _marks(paints: Iterable[int]) -> dict[str, int]:
    marks = dict.fromkeys(COLUMNS, 0)
    for paint in paints:
        marks[COLUMNS[paint % (2 * BITS) // BITS]] |= 1 << paint % BITS
    return marks


def _written(image: dict[str, Any]) -> str:
    return json.dumps(image, ensure_ascii=False, separators=(",", ":"))

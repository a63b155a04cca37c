"""The history of commands, and marks for what is removed.

Revision ID: 0006
"""

from typing import Final

import sqlalchemy as sa
from alembic import op

from studio.storage.rebuild import with_columns

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None

MARKED: Final = ("swatch", "reading", "target")


def upgrade() -> None:
    """Create the tables of the history, and let swatches, readings and targets be marked."""
    _create_tables()
    on_sqlite = op.get_bind().dialect.name == "sqlite"
    for table in MARKED:
        (_rebuild if on_sqlite else _alter)(table)
    # The search must not look a swatch up to know that it was removed.
    op.drop_index("ix_swatch_search", table_name="swatch")
    op.create_index(
        "ix_swatch_search",
        "swatch",
        [
            sa.text("round(lightness / 4)"),
            sa.text("round(a / 4)"),
            *("b", "a", "lightness", "state", "paper_id", "mix_id", "removed_on"),
        ],
    )
    op.create_index(
        "uq_target_name",
        "target",
        ["name"],
        unique=True,
        sqlite_where=sa.text("removed_on IS NULL"),
        postgresql_where=sa.text("removed_on IS NULL"),
    )


def _create_tables() -> None:
    op.create_table(
        "command",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("happened_at", sa.Text(), nullable=False),
        sa.Column("who", sa.Text(), nullable=False),
        sa.Column("program", sa.Text(), nullable=False),
        sa.Column("words", sa.Text(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("takes_back", sa.Integer(), nullable=True),
        sa.Column("undone_by", sa.Integer(), nullable=True),
        sa.CheckConstraint(
            "happened_at LIKE '____-__-__T__:__:__Z' AND "
            "strftime('%Y-%m-%dT%H:%M:%SZ', happened_at, '+0 days') IS happened_at",
            name=op.f("ck_command_happened_at_is_a_moment"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "(kind = 'recorded') = (takes_back IS NULL)",
            name=op.f("ck_command_takes_back_a_command"),
        ),
        sa.CheckConstraint(
            "kind IN ('recorded', 'undo', 'redo')", name=op.f("ck_command_kind_known")
        ),
        sa.CheckConstraint(
            "length(trim(program)) BETWEEN 1 AND 1000",
            name=op.f("ck_command_program_says_something"),
        ),
        sa.CheckConstraint(
            "length(trim(who)) BETWEEN 1 AND 1000", name=op.f("ck_command_who_says_something")
        ),
        sa.CheckConstraint(
            "length(trim(words)) BETWEEN 1 AND 4000", name=op.f("ck_command_words_says_something")
        ),
        sa.ForeignKeyConstraint(["takes_back"], ["command.id"], name=op.f("fk_command_takes_back")),
        sa.ForeignKeyConstraint(["undone_by"], ["command.id"], name=op.f("fk_command_undone_by")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_command")),
    )
    op.create_table(
        "change",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("command_id", sa.Integer(), nullable=False),
        sa.Column("table_name", sa.Text(), nullable=False),
        sa.Column("first_id", sa.Integer(), nullable=True),
        sa.Column("last_id", sa.Integer(), nullable=True),
        sa.Column("row_key", sa.Text(), nullable=True),
        sa.Column("part_of", sa.Text(), nullable=True),
        sa.Column("before", sa.Text(), nullable=True),
        sa.Column("after", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "typeof(first_id) IN ('integer', 'null')", name=op.f("ck_change_first_id_is_whole")
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "typeof(last_id) IN ('integer', 'null')", name=op.f("ck_change_last_id_is_whole")
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "(first_id IS NULL) <> (row_key IS NULL)", name=op.f("ck_change_of_some_row")
        ),
        sa.CheckConstraint(
            "(first_id IS NULL) = (last_id IS NULL)", name=op.f("ck_change_ids_whole")
        ),
        sa.CheckConstraint(
            "after IS NULL OR before IS NOT NULL", name=op.f("ck_change_after_something")
        ),
        sa.CheckConstraint(
            "last_id = first_id OR first_id IS NULL OR before IS NULL",
            name=op.f("ck_change_images_of_one_row"),
        ),
        sa.CheckConstraint("last_id >= first_id", name=op.f("ck_change_ids_in_order")),
        sa.CheckConstraint(
            "length(trim(part_of)) BETWEEN 1 AND 1000",
            name=op.f("ck_change_part_of_says_something"),
        ),
        sa.CheckConstraint(
            "length(trim(row_key)) BETWEEN 1 AND 1000",
            name=op.f("ck_change_row_key_says_something"),
        ),
        sa.CheckConstraint(
            "length(trim(table_name)) BETWEEN 1 AND 1000",
            name=op.f("ck_change_table_name_says_something"),
        ),
        sa.ForeignKeyConstraint(["command_id"], ["command.id"], name=op.f("fk_change_command_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_change")),
    )
    op.create_index(op.f("ix_change_command_id"), "change", ["command_id"])
    op.create_index(op.f("ix_change_part_of"), "change", ["part_of"])
    op.create_index(op.f("ix_change_table_name_first_id"), "change", ["table_name", "first_id"])


def _rules(table: str) -> dict[str, str]:
    return {
        f"ck_{table}_removed_on_is_a_day": (
            "date(removed_on, '+0 days') IS removed_on AND substr(removed_on, 1, 4) <> '0000'"
        ),
        f"ck_{table}_removed_because_says_something": (
            "length(trim(removed_because)) BETWEEN 1 AND 1000"
        ),
        f"ck_{table}_removed_some_day": "removed_because IS NULL OR removed_on IS NOT NULL",
    }


def _rebuild(table: str) -> None:
    marks = {"removed_on": "DATE", "removed_because": "TEXT"}
    without = ["CONSTRAINT uq_target_name UNIQUE (name)"]
    with_columns(op.get_bind(), table, marks, _rules(table), without=without)


def _alter(table: str) -> None:
    op.add_column(table, sa.Column("removed_on", sa.Date(), nullable=True))
    op.add_column(table, sa.Column("removed_because", sa.Text(), nullable=True))
    for name, rule in _rules(table).items():
        if not name.endswith("is_a_day"):
            op.create_check_constraint(op.f(name), table, rule)
    if table == "target":
        op.drop_constraint("uq_target_name", "target", type_="unique")

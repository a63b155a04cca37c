"""Paintings with their passages, colours and tries, and the records of finished ones.

Revision ID: 0008
"""

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Create the tables of paintings."""
    op.create_table(
        "painting",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("code", sa.Text(), nullable=False),
        sa.Column("title", sa.Text(), nullable=False),
        sa.Column("paper_id", sa.Integer(), nullable=False),
        sa.Column("width_mm", sa.Float(), nullable=False),
        sa.Column("height_mm", sa.Float(), nullable=False),
        sa.Column("tolerance_delta_e", sa.Float(), nullable=False),
        sa.Column("started_on", sa.Date(), nullable=False),
        sa.Column("file_id", sa.Integer(), nullable=True),
        sa.Column("reference_path", sa.Text(), nullable=True),
        sa.Column("finished_on", sa.Date(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.Column("removed_on", sa.Date(), nullable=True),
        sa.Column("removed_because", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "code = upper(code) AND length(code) BETWEEN 1 AND 12",
            name=op.f("ck_painting_code_form"),
        ),
        sa.CheckConstraint(
            "finished_on >= started_on", name=op.f("ck_painting_finished_after_start")
        ),
        sa.CheckConstraint(
            "date(finished_on, '+0 days') IS finished_on AND substr(finished_on, 1, 4) <> '0000'",
            name=op.f("ck_painting_finished_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "height_mm > 0 AND height_mm <= 1000000", name=op.f("ck_painting_height_mm_above_zero")
        ),
        sa.CheckConstraint(
            "length(trim(note)) BETWEEN 1 AND 1000", name=op.f("ck_painting_note_says_something")
        ),
        sa.CheckConstraint(
            "(file_id IS NULL) = (reference_path IS NULL)",
            name=op.f("ck_painting_reference_lies_somewhere"),
        ),
        sa.CheckConstraint(
            "length(trim(reference_path)) BETWEEN 1 AND 4000",
            name=op.f("ck_painting_reference_path_says_something"),
        ),
        sa.CheckConstraint(
            "length(trim(removed_because)) BETWEEN 1 AND 1000",
            name=op.f("ck_painting_removed_because_says_something"),
        ),
        sa.CheckConstraint(
            "date(removed_on, '+0 days') IS removed_on AND substr(removed_on, 1, 4) <> '0000'",
            name=op.f("ck_painting_removed_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "removed_because IS NULL OR removed_on IS NOT NULL",
            name=op.f("ck_painting_removed_some_day"),
        ),
        sa.CheckConstraint(
            "date(started_on, '+0 days') IS started_on AND substr(started_on, 1, 4) <> '0000'",
            name=op.f("ck_painting_started_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "length(trim(title)) BETWEEN 1 AND 1000", name=op.f("ck_painting_title_says_something")
        ),
        sa.CheckConstraint(
            "tolerance_delta_e > 0 AND tolerance_delta_e <= 100",
            name=op.f("ck_painting_tolerance_in_range"),
        ),
        sa.CheckConstraint(
            "width_mm > 0 AND width_mm <= 1000000", name=op.f("ck_painting_width_mm_above_zero")
        ),
        sa.ForeignKeyConstraint(
            ["file_id"], ["measurement_file.id"], name=op.f("fk_painting_file_id")
        ),
        sa.ForeignKeyConstraint(["paper_id"], ["paper.id"], name=op.f("fk_painting_paper_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_painting")),
        sa.UniqueConstraint("code", name=op.f("uq_painting_code")),
    )
    op.create_table(
        "passage",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("painting_id", sa.Integer(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("technique", sa.Text(), nullable=False),
        sa.Column("share", sa.Float(), nullable=True),
        sa.Column("layers", sa.Integer(), nullable=False),
        sa.Column("dry_before_next", sa.Integer(), nullable=False),
        sa.Column("over_id", sa.Integer(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.Column("removed_on", sa.Date(), nullable=True),
        sa.Column("removed_because", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "dry_before_next BETWEEN 0 AND 1", name=op.f("ck_passage_dry_before_next_in_range")
        ),
        sa.CheckConstraint(
            "typeof(dry_before_next) IN ('integer', 'null')",
            name=op.f("ck_passage_dry_before_next_is_whole"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint("layers BETWEEN 1 AND 100", name=op.f("ck_passage_layers_in_range")),
        sa.CheckConstraint(
            "typeof(layers) IN ('integer', 'null')", name=op.f("ck_passage_layers_is_whole")
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "length(trim(name)) BETWEEN 1 AND 1000", name=op.f("ck_passage_name_says_something")
        ),
        sa.CheckConstraint(
            "length(trim(note)) BETWEEN 1 AND 1000", name=op.f("ck_passage_note_says_something")
        ),
        sa.CheckConstraint("over_id <> id", name=op.f("ck_passage_over_another")),
        sa.CheckConstraint(
            "position BETWEEN 1 AND 1000", name=op.f("ck_passage_position_in_range")
        ),
        sa.CheckConstraint(
            "typeof(position) IN ('integer', 'null')", name=op.f("ck_passage_position_is_whole")
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "length(trim(removed_because)) BETWEEN 1 AND 1000",
            name=op.f("ck_passage_removed_because_says_something"),
        ),
        sa.CheckConstraint(
            "date(removed_on, '+0 days') IS removed_on AND substr(removed_on, 1, 4) <> '0000'",
            name=op.f("ck_passage_removed_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "removed_because IS NULL OR removed_on IS NOT NULL",
            name=op.f("ck_passage_removed_some_day"),
        ),
        sa.CheckConstraint("share > 0 AND share <= 1", name=op.f("ck_passage_share_in_range")),
        sa.CheckConstraint(
            "technique IN ('flat wash', 'graded wash', 'wet in wet', 'dry brush', 'glaze', 'spatter', 'lifted')",
            name=op.f("ck_passage_technique_known"),
        ),
        sa.ForeignKeyConstraint(["over_id"], ["passage.id"], name=op.f("fk_passage_over_id")),
        sa.ForeignKeyConstraint(
            ["painting_id"], ["painting.id"], name=op.f("fk_passage_painting_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_passage")),
    )
    op.create_index(
        op.f("uq_passage_painting_id_name"),
        "passage",
        ["painting_id", "name"],
        unique=True,
        sqlite_where=sa.text("removed_on IS NULL"),
        postgresql_where=sa.text("removed_on IS NULL"),
    )
    op.create_table(
        "passage_colour",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("passage_id", sa.Integer(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("lightness", sa.Float(), nullable=False),
        sa.Column("a", sa.Float(), nullable=False),
        sa.Column("b", sa.Float(), nullable=False),
        sa.Column("given", sa.Text(), nullable=True),
        sa.Column("place", sa.Text(), nullable=True),
        sa.Column("at_x", sa.Float(), nullable=True),
        sa.Column("at_y", sa.Float(), nullable=True),
        sa.Column("spread_delta_e", sa.Float(), nullable=True),
        sa.Column("file_id", sa.Integer(), nullable=True),
        sa.Column("removed_on", sa.Date(), nullable=True),
        sa.Column("removed_because", sa.Text(), nullable=True),
        sa.CheckConstraint("a BETWEEN -200 AND 200", name=op.f("ck_passage_colour_a_in_range")),
        sa.CheckConstraint("at_x BETWEEN 0 AND 1", name=op.f("ck_passage_colour_at_x_in_range")),
        sa.CheckConstraint("at_y BETWEEN 0 AND 1", name=op.f("ck_passage_colour_at_y_in_range")),
        sa.CheckConstraint("b BETWEEN -200 AND 200", name=op.f("ck_passage_colour_b_in_range")),
        sa.CheckConstraint(
            "length(trim(given)) BETWEEN 1 AND 1000",
            name=op.f("ck_passage_colour_given_says_something"),
        ),
        sa.CheckConstraint(
            "lightness BETWEEN 0 AND 100", name=op.f("ck_passage_colour_lightness_in_range")
        ),
        sa.CheckConstraint(
            "(place IS NULL) = (file_id IS NULL)",
            name=op.f("ck_passage_colour_picked_from_something"),
        ),
        sa.CheckConstraint(
            "(at_x IS NULL) = (place IS NULL) AND (at_y IS NULL) = (place IS NULL) AND (spread_delta_e IS NULL) = (place IS NULL)",
            name=op.f("ck_passage_colour_picked_whole"),
        ),
        sa.CheckConstraint(
            "length(trim(place)) BETWEEN 1 AND 1000",
            name=op.f("ck_passage_colour_place_says_something"),
        ),
        sa.CheckConstraint(
            "position BETWEEN 1 AND 1000", name=op.f("ck_passage_colour_position_in_range")
        ),
        sa.CheckConstraint(
            "typeof(position) IN ('integer', 'null')",
            name=op.f("ck_passage_colour_position_is_whole"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "length(trim(removed_because)) BETWEEN 1 AND 1000",
            name=op.f("ck_passage_colour_removed_because_says_something"),
        ),
        sa.CheckConstraint(
            "date(removed_on, '+0 days') IS removed_on AND substr(removed_on, 1, 4) <> '0000'",
            name=op.f("ck_passage_colour_removed_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "removed_because IS NULL OR removed_on IS NOT NULL",
            name=op.f("ck_passage_colour_removed_some_day"),
        ),
        sa.CheckConstraint(
            "spread_delta_e BETWEEN 0 AND 200",
            name=op.f("ck_passage_colour_spread_delta_e_in_range"),
        ),
        sa.CheckConstraint(
            "(given IS NULL) <> (place IS NULL)", name=op.f("ck_passage_colour_typed_or_picked")
        ),
        sa.ForeignKeyConstraint(
            ["file_id"], ["measurement_file.id"], name=op.f("fk_passage_colour_file_id")
        ),
        sa.ForeignKeyConstraint(
            ["passage_id"], ["passage.id"], name=op.f("fk_passage_colour_passage_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_passage_colour")),
    )
    op.create_index(op.f("ix_passage_colour_passage_id"), "passage_colour", ["passage_id"])
    op.create_table(
        "colour_try",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("colour_id", sa.Integer(), nullable=False),
        sa.Column("swatch_id", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["colour_id"], ["passage_colour.id"], name=op.f("fk_colour_try_colour_id")
        ),
        sa.ForeignKeyConstraint(["swatch_id"], ["swatch.id"], name=op.f("fk_colour_try_swatch_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_colour_try")),
        sa.UniqueConstraint(
            "colour_id", "swatch_id", name=op.f("uq_colour_try_colour_id_swatch_id")
        ),
    )
    op.create_index(op.f("ix_colour_try_swatch_id"), "colour_try", ["swatch_id"])
    op.create_table(
        "painting_record",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("painting_id", sa.Integer(), nullable=False),
        sa.Column("recorded_on", sa.Date(), nullable=False),
        sa.Column("content", sa.Text(), nullable=False),
        sa.CheckConstraint("length(content) > 0", name=op.f("ck_painting_record_content_there")),
        sa.CheckConstraint(
            "date(recorded_on, '+0 days') IS recorded_on AND substr(recorded_on, 1, 4) <> '0000'",
            name=op.f("ck_painting_record_recorded_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.ForeignKeyConstraint(
            ["painting_id"], ["painting.id"], name=op.f("fk_painting_record_painting_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_painting_record")),
        sa.UniqueConstraint("painting_id", name=op.f("uq_painting_record_painting_id")),
    )

"""Where readings come from: the file, its sample, geometry and backing; and named targets.

Revision ID: 0003
"""

import sqlalchemy as sa
from alembic import op

from studio.storage.rebuild import made_anew

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Create the tables of files and targets, and give readings what a file tells of them."""
    _create_tables()
    with made_anew(op.get_bind(), "reading"):
        _rebuild_reading()


def _create_tables() -> None:
    op.create_table(
        "measurement_file",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("sha256", sa.Text(), nullable=False),
        sa.Column("size", sa.Integer(), nullable=False),
        sa.Column("content", sa.LargeBinary(), nullable=True),
        sa.Column("read_on", sa.Date(), nullable=False),
        sa.CheckConstraint(
            "date(read_on, '+0 days') IS read_on AND substr(read_on, 1, 4) <> '0000'",
            name=op.f("ck_measurement_file_read_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "typeof(size) IN ('integer', 'null')", name=op.f("ck_measurement_file_size_is_whole")
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "content IS NULL OR length(content) = size",
            name=op.f("ck_measurement_file_content_whole"),
        ),
        sa.CheckConstraint(
            "length(sha256) = 64 AND sha256 = lower(sha256)",
            name=op.f("ck_measurement_file_sha256_form"),
        ),
        sa.CheckConstraint(
            "length(trim(name)) BETWEEN 1 AND 1000",
            name=op.f("ck_measurement_file_name_says_something"),
        ),
        sa.CheckConstraint("size >= 0", name=op.f("ck_measurement_file_size_counts")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_measurement_file")),
        sa.UniqueConstraint("sha256", name=op.f("uq_measurement_file_sha256")),
    )
    op.create_table(
        "target",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("lightness", sa.Float(), nullable=False),
        sa.Column("a", sa.Float(), nullable=False),
        sa.Column("b", sa.Float(), nullable=False),
        sa.Column("spread_delta_e", sa.Float(), nullable=True),
        sa.Column("place", sa.Text(), nullable=True),
        sa.Column("file_id", sa.Integer(), nullable=True),
        sa.Column("created_on", sa.Date(), nullable=False),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "date(created_on, '+0 days') IS created_on AND substr(created_on, 1, 4) <> '0000'",
            name=op.f("ck_target_created_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint("a BETWEEN -200 AND 200", name=op.f("ck_target_a_in_range")),
        sa.CheckConstraint("b BETWEEN -200 AND 200", name=op.f("ck_target_b_in_range")),
        sa.CheckConstraint(
            "length(trim(name)) BETWEEN 1 AND 1000", name=op.f("ck_target_name_says_something")
        ),
        sa.CheckConstraint(
            "length(trim(note)) BETWEEN 1 AND 1000", name=op.f("ck_target_note_says_something")
        ),
        sa.CheckConstraint(
            "length(trim(place)) BETWEEN 1 AND 1000", name=op.f("ck_target_place_says_something")
        ),
        sa.CheckConstraint(
            "lightness BETWEEN 0 AND 100", name=op.f("ck_target_lightness_in_range")
        ),
        sa.CheckConstraint(
            "name = lower(name) AND name = trim(name)", name=op.f("ck_target_name_form")
        ),
        sa.CheckConstraint(
            "spread_delta_e BETWEEN 0 AND 200", name=op.f("ck_target_spread_delta_e_in_range")
        ),
        sa.ForeignKeyConstraint(
            ["file_id"], ["measurement_file.id"], name=op.f("fk_target_file_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_target")),
        sa.UniqueConstraint("name", name=op.f("uq_target_name")),
    )


def _rebuild_reading() -> None:
    """SQLite cannot add a column with its CHECK in place: a new table takes over (lang_altertable)."""
    op.create_table(
        "reading_new",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("swatch_id", sa.Integer(), nullable=True),
        sa.Column("paper_id", sa.Integer(), nullable=True),
        sa.Column("lightness", sa.Float(), nullable=False),
        sa.Column("a", sa.Float(), nullable=False),
        sa.Column("b", sa.Float(), nullable=False),
        sa.Column("origin", sa.Text(), nullable=False),
        sa.Column("given_lightness", sa.Float(), nullable=False),
        sa.Column("given_a", sa.Float(), nullable=False),
        sa.Column("given_b", sa.Float(), nullable=False),
        sa.Column("given_illuminant", sa.Text(), nullable=False),
        sa.Column("given_observer", sa.Integer(), nullable=False),
        sa.Column("spectrum_start_nm", sa.Float(), nullable=True),
        sa.Column("spectrum_step_nm", sa.Float(), nullable=True),
        sa.Column("spectrum_values", sa.Text(), nullable=True),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("method", sa.Text(), nullable=False),
        sa.Column("instrument", sa.Text(), nullable=True),
        sa.Column("condition", sa.Text(), nullable=True),
        sa.Column("geometry", sa.Text(), nullable=True),
        sa.Column("backing", sa.Text(), nullable=True),
        sa.Column("sample", sa.Text(), nullable=True),
        sa.Column("file_id", sa.Integer(), nullable=True),
        sa.Column("error_delta_e", sa.Float(), nullable=True),
        sa.Column("read_on", sa.Date(), nullable=False),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "(origin = 'from spectrum') = (spectrum_values IS NOT NULL)",
            name=op.f("ck_reading_origin_of_spectrum"),
        ),
        sa.CheckConstraint(
            "backing IN ('white', 'black', 'self')", name=op.f("ck_reading_backing_known")
        ),
        sa.CheckConstraint(
            "condition IN ('M0', 'M1', 'M2', 'M3')", name=op.f("ck_reading_condition_known")
        ),
        sa.CheckConstraint(
            "date(read_on, '+0 days') IS read_on AND substr(read_on, 1, 4) <> '0000'",
            name=op.f("ck_reading_read_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "given_illuminant IN ('A', 'B', 'C', 'D50', 'D55', 'D60', 'D65', 'D75', 'E', 'ID50', 'ID65', 'FL1', 'FL2', 'FL3', 'FL4', 'FL5', 'FL6', 'FL7', 'FL8', 'FL9', 'FL10', 'FL11', 'FL12', 'FL3.1', 'FL3.2', 'FL3.3', 'FL3.4', 'FL3.5', 'FL3.6', 'FL3.7', 'FL3.8', 'FL3.9', 'FL3.10', 'FL3.11', 'FL3.12', 'FL3.13', 'FL3.14', 'FL3.15', 'HP1', 'HP2', 'HP3', 'HP4', 'HP5', 'LED-B1', 'LED-B2', 'LED-B3', 'LED-B4', 'LED-B5', 'LED-BH1', 'LED-RGB1', 'LED-V1', 'LED-V2')",
            name=op.f("ck_reading_given_illuminant_known"),
        ),
        sa.CheckConstraint(
            "method IN ('spectrophotometer', 'colorimeter', 'scanner', 'camera', 'by eye')",
            name=op.f("ck_reading_method_known"),
        ),
        sa.CheckConstraint(
            "origin IN ('measured', 'from spectrum', 'adapted')",
            name=op.f("ck_reading_origin_known"),
        ),
        sa.CheckConstraint("state IN ('dry', 'wet')", name=op.f("ck_reading_state_known")),
        sa.CheckConstraint(
            "(spectrum_start_nm IS NULL) = (spectrum_step_nm IS NULL) AND (spectrum_step_nm IS NULL) = (spectrum_values IS NULL)",
            name=op.f("ck_reading_spectrum_whole"),
        ),
        sa.CheckConstraint(
            "(swatch_id IS NULL) <> (paper_id IS NULL)", name=op.f("ck_reading_of_one_thing")
        ),
        sa.CheckConstraint("a BETWEEN -200 AND 200", name=op.f("ck_reading_a_in_range")),
        sa.CheckConstraint("b BETWEEN -200 AND 200", name=op.f("ck_reading_b_in_range")),
        sa.CheckConstraint(
            "error_delta_e BETWEEN 0 AND 100", name=op.f("ck_reading_error_delta_e_in_range")
        ),
        sa.CheckConstraint(
            "given_a BETWEEN -200 AND 200", name=op.f("ck_reading_given_a_in_range")
        ),
        sa.CheckConstraint(
            "given_b BETWEEN -200 AND 200", name=op.f("ck_reading_given_b_in_range")
        ),
        sa.CheckConstraint(
            "given_lightness BETWEEN 0 AND 100", name=op.f("ck_reading_given_lightness_in_range")
        ),
        sa.CheckConstraint(
            "given_observer IN (2, 10)", name=op.f("ck_reading_given_observer_known")
        ),
        sa.CheckConstraint(
            "length(trim(geometry)) BETWEEN 1 AND 1000",
            name=op.f("ck_reading_geometry_says_something"),
        ),
        sa.CheckConstraint(
            "length(trim(instrument)) BETWEEN 1 AND 1000",
            name=op.f("ck_reading_instrument_says_something"),
        ),
        sa.CheckConstraint(
            "length(trim(note)) BETWEEN 1 AND 1000", name=op.f("ck_reading_note_says_something")
        ),
        sa.CheckConstraint(
            "length(trim(sample)) BETWEEN 1 AND 1000", name=op.f("ck_reading_sample_says_something")
        ),
        sa.CheckConstraint(
            "lightness BETWEEN 0 AND 100", name=op.f("ck_reading_lightness_in_range")
        ),
        sa.CheckConstraint(
            "spectrum_start_nm BETWEEN 200 AND 1000",
            name=op.f("ck_reading_spectrum_start_nm_in_range"),
        ),
        sa.CheckConstraint(
            "spectrum_step_nm > 0 AND spectrum_step_nm <= 20", name=op.f("ck_reading_step_in_range")
        ),
        sa.ForeignKeyConstraint(
            ["file_id"], ["measurement_file.id"], name=op.f("fk_reading_file_id")
        ),
        sa.ForeignKeyConstraint(["paper_id"], ["paper.id"], name=op.f("fk_reading_paper_id")),
        sa.ForeignKeyConstraint(["swatch_id"], ["swatch.id"], name=op.f("fk_reading_swatch_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_reading")),
    )
    op.execute(
        "INSERT INTO reading_new (id, swatch_id, paper_id, lightness, a, b, origin, given_lightness, given_a, given_b, given_illuminant, given_observer, spectrum_start_nm, spectrum_step_nm, spectrum_values, state, method, instrument, condition, error_delta_e, read_on, note) SELECT id, swatch_id, paper_id, lightness, a, b, origin, given_lightness, given_a, given_b, given_illuminant, given_observer, spectrum_start_nm, spectrum_step_nm, spectrum_values, state, method, instrument, condition, error_delta_e, read_on, note FROM reading"
    )
    op.drop_table("reading")
    op.rename_table("reading_new", "reading")
    op.create_index(op.f("ix_reading_paper_id"), "reading", ["paper_id"], unique=False)
    op.create_index(op.f("ix_reading_swatch_id"), "reading", ["swatch_id"], unique=False)

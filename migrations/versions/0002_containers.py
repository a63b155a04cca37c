"""Containers with a ledger each, data sheets, fade tests.

Revision ID: 0002
"""

import sqlalchemy as sa
from alembic import op

from studio.storage.rebuild import made_anew

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Give every paint and paper that has stock a container, and its entries to the container."""
    _create_tables()
    with made_anew(op.get_bind(), "paper"):
        _rebuild_paper()
    with made_anew(op.get_bind(), "stock_event"):
        op.rename_table("stock_event", "stock_event_0001")
        _create_ledger()
        _carry_over("paint_id", "paint", "ml")
        _carry_over("paper_id", "paper", "sheets")
        op.drop_table("stock_event_0001")


def _carry_over(column: str, table: str, unit: str) -> None:
    """Entries were kept by paint and paper, many purchases in one: an assortment."""
    op.execute(
        f"""
        INSERT INTO container (code, {column}, kind, unit)
        SELECT code || CASE WHEN code || '-1' IN (SELECT code FROM container) THEN '-2' ELSE '-1' END,
               id, 'assorted', '{unit}'
        FROM {table}
        WHERE id IN (SELECT {column} FROM stock_event_0001)
        ORDER BY id
        """
    )
    # A lot was kept with each purchase; the container's own lot could hold only one of them.
    op.execute(
        f"""
        INSERT INTO stock_event (
            container_id, kind, happened_on, amount, estimated, price_hundredths, currency, note
        )
        SELECT container.id,
               CASE kept.kind WHEN 'counted' THEN 'corrected' ELSE kept.kind END,
               kept.happened_on,
               kept.amount, 0, kept.price_hundredths, kept.currency,
               nullif(trim(coalesce('lot ' || kept.lot, '') || ' ' || coalesce(kept.note, '')), '')
        FROM stock_event_0001 AS kept
        JOIN container ON container.{column} = kept.{column}
        ORDER BY kept.happened_on, kept.id
        """
    )


def _rebuild_paper() -> None:
    """SQLite cannot add a column with its CHECK in place: a new table takes over (lang_altertable)."""
    op.create_table(
        "paper_new",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("code", sa.Text(), nullable=False),
        sa.Column("maker", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("fibre", sa.Text(), nullable=True),
        sa.Column("weight_gsm", sa.Float(), nullable=True),
        sa.Column("surface", sa.Text(), nullable=True),
        sa.Column("sheet_width_mm", sa.Float(), nullable=True),
        sa.Column("sheet_height_mm", sa.Float(), nullable=True),
        sa.Column("low_at_sheets", sa.Float(), nullable=True),
        sa.Column("low_at_mm", sa.Float(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "fibre IN ('cotton', 'cotton and wood pulp', 'wood pulp', 'linen', 'other')",
            name=op.f("ck_paper_fibre_known"),
        ),
        sa.CheckConstraint(
            "surface IN ('hot pressed', 'cold pressed', 'rough')",
            name=op.f("ck_paper_surface_known"),
        ),
        sa.CheckConstraint(
            "(sheet_width_mm IS NULL) = (sheet_height_mm IS NULL)",
            name=op.f("ck_paper_sheet_has_two_sides"),
        ),
        sa.CheckConstraint(
            "code = upper(code) AND length(code) BETWEEN 1 AND 12", name=op.f("ck_paper_code_form")
        ),
        sa.CheckConstraint(
            "length(trim(maker)) BETWEEN 1 AND 1000", name=op.f("ck_paper_maker_says_something")
        ),
        sa.CheckConstraint(
            "length(trim(name)) BETWEEN 1 AND 1000", name=op.f("ck_paper_name_says_something")
        ),
        sa.CheckConstraint(
            "length(trim(note)) BETWEEN 1 AND 1000", name=op.f("ck_paper_note_says_something")
        ),
        sa.CheckConstraint(
            "low_at_mm BETWEEN 0 AND 1000000", name=op.f("ck_paper_low_at_mm_in_range")
        ),
        sa.CheckConstraint(
            "low_at_sheets BETWEEN 0 AND 1000000", name=op.f("ck_paper_low_at_sheets_in_range")
        ),
        sa.CheckConstraint(
            "sheet_height_mm > 0 AND sheet_height_mm <= 1000000",
            name=op.f("ck_paper_sheet_height_mm_above_zero"),
        ),
        sa.CheckConstraint(
            "sheet_width_mm > 0 AND sheet_width_mm <= 1000000",
            name=op.f("ck_paper_sheet_width_mm_above_zero"),
        ),
        sa.CheckConstraint(
            "weight_gsm BETWEEN 20 AND 2000", name=op.f("ck_paper_weight_gsm_in_range")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_paper")),
        sa.UniqueConstraint("code", name=op.f("uq_paper_code")),
    )
    op.execute(
        "INSERT INTO paper_new (id, code, maker, name, fibre, weight_gsm, surface, sheet_width_mm, sheet_height_mm, low_at_sheets, note) SELECT id, code, maker, name, fibre, weight_gsm, surface, sheet_width_mm, sheet_height_mm, low_at_sheets, note FROM paper"
    )
    op.drop_table("paper")
    op.rename_table("paper_new", "paper")
    op.create_index(
        "uq_paper_maker_name_surface_weight",
        "paper",
        ["maker", "name", sa.text("coalesce(surface, '')"), sa.text("coalesce(weight_gsm, 0)")],
        unique=True,
    )


def _create_ledger() -> None:
    op.create_table(
        "stock_event",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("container_id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("happened_on", sa.Date(), nullable=False),
        sa.Column("amount", sa.Float(), nullable=True),
        sa.Column("weight_g", sa.Float(), nullable=True),
        sa.Column("weighed_as", sa.Text(), nullable=True),
        sa.Column("estimated", sa.Integer(), nullable=False),
        sa.Column("other_id", sa.Integer(), nullable=True),
        sa.Column("price_hundredths", sa.Integer(), nullable=True),
        sa.Column("currency", sa.Text(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "(other_id IS NULL) OR kind IN ('refilled', 'poured')",
            name=op.f("ck_stock_event_other_if_poured"),
        ),
        sa.CheckConstraint(
            "(weight_g IS NULL) OR kind IN ('weighed', 'bought')",
            name=op.f("ck_stock_event_weight_if_weighed"),
        ),
        sa.CheckConstraint(
            "amount > 0 AND amount <= 1000000 OR amount = 0 AND kind IN ('bought', 'weighed', 'corrected')",
            name=op.f("ck_stock_event_amount_in_range"),
        ),
        sa.CheckConstraint(
            "kind = 'discarded' OR (amount IS NULL) = (kind IN ('opened', 'lent', 'returned'))",
            name=op.f("ck_stock_event_amount_where_measured"),
        ),
        sa.CheckConstraint(
            "kind IN ('bought', 'opened', 'used', 'weighed', 'refilled', 'poured', 'lent', 'returned', 'discarded', 'corrected')",
            name=op.f("ck_stock_event_kind_known"),
        ),
        sa.CheckConstraint(
            "weighed_as IN ('full', 'empty')", name=op.f("ck_stock_event_weighed_as_known")
        ),
        sa.CheckConstraint(
            "(price_hundredths IS NULL) = (currency IS NULL)",
            name=op.f("ck_stock_event_price_has_currency"),
        ),
        sa.CheckConstraint(
            "date(happened_on, '+0 days') IS happened_on AND substr(happened_on, 1, 4) <> '0000'",
            name=op.f("ck_stock_event_happened_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "typeof(estimated) IN ('integer', 'null')",
            name=op.f("ck_stock_event_estimated_is_whole"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "typeof(price_hundredths) IN ('integer', 'null')",
            name=op.f("ck_stock_event_price_hundredths_is_whole"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "estimated BETWEEN 0 AND 1", name=op.f("ck_stock_event_estimated_in_range")
        ),
        sa.CheckConstraint(
            "length(currency) = 3 AND substr(currency, 1, 1) BETWEEN 'A' AND 'Z' AND substr(currency, 2, 1) BETWEEN 'A' AND 'Z' AND substr(currency, 3, 1) BETWEEN 'A' AND 'Z'",
            name=op.f("ck_stock_event_currency_form"),
        ),
        sa.CheckConstraint(
            "length(trim(note)) BETWEEN 1 AND 3000", name=op.f("ck_stock_event_note_says_something")
        ),
        sa.CheckConstraint(
            "other_id <> container_id", name=op.f("ck_stock_event_other_is_another")
        ),
        sa.CheckConstraint(
            "price_hundredths BETWEEN 0 AND 100000000",
            name=op.f("ck_stock_event_price_hundredths_in_range"),
        ),
        sa.CheckConstraint(
            "weighed_as IS NULL OR weight_g IS NOT NULL",
            name=op.f("ck_stock_event_mark_of_a_weight"),
        ),
        sa.CheckConstraint(
            "weight_g BETWEEN 0 AND 1000000", name=op.f("ck_stock_event_weight_g_in_range")
        ),
        sa.ForeignKeyConstraint(
            ["container_id"], ["container.id"], name=op.f("fk_stock_event_container_id")
        ),
        sa.ForeignKeyConstraint(
            ["other_id"], ["container.id"], name=op.f("fk_stock_event_other_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_stock_event")),
    )
    op.create_index(
        op.f("ix_stock_event_container_id"), "stock_event", ["container_id"], unique=False
    )


def _create_tables() -> None:
    op.create_table(
        "data_sheet",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("paint_id", sa.Integer(), nullable=False),
        sa.Column("location", sa.Text(), nullable=True),
        sa.Column("dated_on", sa.Date(), nullable=True),
        sa.Column("label_marks", sa.Text(), nullable=True),
        sa.Column("recorded_on", sa.Date(), nullable=False),
        sa.CheckConstraint(
            "date(dated_on, '+0 days') IS dated_on AND substr(dated_on, 1, 4) <> '0000'",
            name=op.f("ck_data_sheet_dated_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "date(recorded_on, '+0 days') IS recorded_on AND substr(recorded_on, 1, 4) <> '0000'",
            name=op.f("ck_data_sheet_recorded_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "length(trim(label_marks)) BETWEEN 1 AND 1000",
            name=op.f("ck_data_sheet_label_marks_says_something"),
        ),
        sa.CheckConstraint(
            "length(trim(location)) BETWEEN 1 AND 1000",
            name=op.f("ck_data_sheet_location_says_something"),
        ),
        sa.CheckConstraint(
            "location IS NOT NULL OR label_marks IS NOT NULL",
            name=op.f("ck_data_sheet_says_something"),
        ),
        sa.ForeignKeyConstraint(["paint_id"], ["paint.id"], name=op.f("fk_data_sheet_paint_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_data_sheet")),
        sa.UniqueConstraint("paint_id", name=op.f("uq_data_sheet_paint_id")),
    )
    op.create_table(
        "container",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("code", sa.Text(), nullable=False),
        sa.Column("paint_id", sa.Integer(), nullable=True),
        sa.Column("paper_id", sa.Integer(), nullable=True),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("unit", sa.Text(), nullable=False),
        sa.Column("capacity", sa.Float(), nullable=True),
        sa.Column("lot", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "(capacity IS NULL) = (kind = 'assorted')", name=op.f("ck_container_capacity_known")
        ),
        sa.CheckConstraint(
            "(unit = 'ml') = (paint_id IS NOT NULL)", name=op.f("ck_container_unit_of_its_thing")
        ),
        sa.CheckConstraint(
            "kind IN ('tube', 'pan', 'half pan', 'quarter pan', 'jar', 'bottle', 'stick', 'pad', 'block', 'loose sheets', 'roll', 'assorted')",
            name=op.f("ck_container_kind_known"),
        ),
        sa.CheckConstraint("unit IN ('ml', 'sheets', 'mm')", name=op.f("ck_container_unit_known")),
        sa.CheckConstraint(
            "(paint_id IS NULL) <> (paper_id IS NULL)", name=op.f("ck_container_of_one_thing")
        ),
        sa.CheckConstraint(
            "capacity > 0 AND capacity <= 1000000", name=op.f("ck_container_capacity_above_zero")
        ),
        sa.CheckConstraint(
            "code = upper(code) AND length(code) BETWEEN 1 AND 20",
            name=op.f("ck_container_code_form"),
        ),
        sa.CheckConstraint(
            "length(trim(lot)) BETWEEN 1 AND 1000", name=op.f("ck_container_lot_says_something")
        ),
        sa.ForeignKeyConstraint(["paint_id"], ["paint.id"], name=op.f("fk_container_paint_id")),
        sa.ForeignKeyConstraint(["paper_id"], ["paper.id"], name=op.f("fk_container_paper_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_container")),
        sa.UniqueConstraint("code", name=op.f("uq_container_code")),
    )
    op.create_index(op.f("ix_container_paint_id"), "container", ["paint_id"], unique=False)
    op.create_index(op.f("ix_container_paper_id"), "container", ["paper_id"], unique=False)
    op.create_table(
        "fade_test",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("code", sa.Text(), nullable=False),
        sa.Column("paint_id", sa.Integer(), nullable=True),
        sa.Column("mix_id", sa.Integer(), nullable=True),
        sa.Column("paper_id", sa.Integer(), nullable=True),
        sa.Column("place", sa.Text(), nullable=False),
        sa.Column("started_on", sa.Date(), nullable=False),
        sa.Column("ended_on", sa.Date(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "(paint_id IS NULL) <> (mix_id IS NULL)", name=op.f("ck_fade_test_of_one_thing")
        ),
        sa.CheckConstraint(
            "code = upper(code) AND length(code) BETWEEN 1 AND 12",
            name=op.f("ck_fade_test_code_form"),
        ),
        sa.CheckConstraint(
            "date(ended_on, '+0 days') IS ended_on AND substr(ended_on, 1, 4) <> '0000'",
            name=op.f("ck_fade_test_ended_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "date(started_on, '+0 days') IS started_on AND substr(started_on, 1, 4) <> '0000'",
            name=op.f("ck_fade_test_started_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint("ended_on >= started_on", name=op.f("ck_fade_test_ends_after_start")),
        sa.CheckConstraint(
            "length(trim(note)) BETWEEN 1 AND 1000", name=op.f("ck_fade_test_note_says_something")
        ),
        sa.CheckConstraint(
            "length(trim(place)) BETWEEN 1 AND 1000", name=op.f("ck_fade_test_place_says_something")
        ),
        sa.ForeignKeyConstraint(["mix_id"], ["mix.id"], name=op.f("fk_fade_test_mix_id")),
        sa.ForeignKeyConstraint(["paint_id"], ["paint.id"], name=op.f("fk_fade_test_paint_id")),
        sa.ForeignKeyConstraint(["paper_id"], ["paper.id"], name=op.f("fk_fade_test_paper_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_fade_test")),
        sa.UniqueConstraint("code", name=op.f("uq_fade_test_code")),
    )
    op.create_index(op.f("ix_fade_test_mix_id"), "fade_test", ["mix_id"], unique=False)
    op.create_index(op.f("ix_fade_test_paint_id"), "fade_test", ["paint_id"], unique=False)
    op.create_table(
        "fade_reading",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("fade_test_id", sa.Integer(), nullable=False),
        sa.Column("read_on", sa.Date(), nullable=False),
        sa.Column("covered_lightness", sa.Float(), nullable=False),
        sa.Column("covered_a", sa.Float(), nullable=False),
        sa.Column("covered_b", sa.Float(), nullable=False),
        sa.Column("exposed_lightness", sa.Float(), nullable=False),
        sa.Column("exposed_a", sa.Float(), nullable=False),
        sa.Column("exposed_b", sa.Float(), nullable=False),
        sa.Column("blue_wool", sa.Integer(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "typeof(blue_wool) IN ('integer', 'null')",
            name=op.f("ck_fade_reading_blue_wool_is_whole"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "blue_wool BETWEEN 0 AND 8", name=op.f("ck_fade_reading_blue_wool_in_range")
        ),
        sa.CheckConstraint(
            "covered_a BETWEEN -200 AND 200", name=op.f("ck_fade_reading_covered_a_in_range")
        ),
        sa.CheckConstraint(
            "covered_b BETWEEN -200 AND 200", name=op.f("ck_fade_reading_covered_b_in_range")
        ),
        sa.CheckConstraint(
            "covered_lightness BETWEEN 0 AND 100",
            name=op.f("ck_fade_reading_covered_lightness_in_range"),
        ),
        sa.CheckConstraint(
            "date(read_on, '+0 days') IS read_on AND substr(read_on, 1, 4) <> '0000'",
            name=op.f("ck_fade_reading_read_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "exposed_a BETWEEN -200 AND 200", name=op.f("ck_fade_reading_exposed_a_in_range")
        ),
        sa.CheckConstraint(
            "exposed_b BETWEEN -200 AND 200", name=op.f("ck_fade_reading_exposed_b_in_range")
        ),
        sa.CheckConstraint(
            "exposed_lightness BETWEEN 0 AND 100",
            name=op.f("ck_fade_reading_exposed_lightness_in_range"),
        ),
        sa.CheckConstraint(
            "length(trim(note)) BETWEEN 1 AND 1000",
            name=op.f("ck_fade_reading_note_says_something"),
        ),
        sa.ForeignKeyConstraint(
            ["fade_test_id"], ["fade_test.id"], name=op.f("fk_fade_reading_fade_test_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_fade_reading")),
        sa.UniqueConstraint(
            "fade_test_id", "read_on", name=op.f("uq_fade_reading_fade_test_id_read_on")
        ),
    )

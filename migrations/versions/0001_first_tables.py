"""The studio's first tables.

Revision ID: 0001
"""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Create every table of the first release."""
    op.create_table(
        "h_statement",
        sa.Column("code", sa.Text(), nullable=False),
        sa.Column("hazard_class", sa.Text(), nullable=False),
        sa.Column("wording", sa.Text(), nullable=False),
        sa.Column("source", sa.Text(), nullable=False),
        sa.CheckConstraint(
            "length(trim(code)) BETWEEN 1 AND 1000", name=op.f("ck_h_statement_code_says_something")
        ),
        sa.CheckConstraint(
            "length(trim(hazard_class)) BETWEEN 1 AND 1000",
            name=op.f("ck_h_statement_hazard_class_says_something"),
        ),
        sa.CheckConstraint(
            "length(trim(source)) BETWEEN 1 AND 1000",
            name=op.f("ck_h_statement_source_says_something"),
        ),
        sa.CheckConstraint(
            "length(trim(wording)) BETWEEN 1 AND 1000",
            name=op.f("ck_h_statement_wording_says_something"),
        ),
        sa.PrimaryKeyConstraint("code", name=op.f("pk_h_statement")),
    )
    op.create_table(
        "mix",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("code", sa.Text(), nullable=False),
        sa.Column("recipe_key", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.Column("created_on", sa.Date(), nullable=False),
        sa.CheckConstraint(
            "date(created_on, '+0 days') IS created_on AND substr(created_on, 1, 4) <> '0000'",
            name=op.f("ck_mix_created_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "code = upper(code) AND length(code) BETWEEN 1 AND 12", name=op.f("ck_mix_code_form")
        ),
        sa.CheckConstraint(
            "length(trim(name)) BETWEEN 1 AND 1000", name=op.f("ck_mix_name_says_something")
        ),
        sa.CheckConstraint(
            "length(trim(note)) BETWEEN 1 AND 1000", name=op.f("ck_mix_note_says_something")
        ),
        sa.CheckConstraint(
            "length(trim(recipe_key)) BETWEEN 1 AND 1000",
            name=op.f("ck_mix_recipe_key_says_something"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_mix")),
        sa.UniqueConstraint("code", name=op.f("uq_mix_code")),
        sa.UniqueConstraint("recipe_key", name=op.f("uq_mix_recipe_key")),
    )
    op.create_table(
        "paint",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("code", sa.Text(), nullable=False),
        sa.Column("maker", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("form", sa.Text(), nullable=False),
        sa.Column("volume_ml", sa.Float(), nullable=True),
        sa.Column("price_hundredths", sa.Integer(), nullable=True),
        sa.Column("currency", sa.Text(), nullable=True),
        sa.Column("transparency", sa.Text(), nullable=True),
        sa.Column("staining", sa.Text(), nullable=True),
        sa.Column("granulation", sa.Text(), nullable=True),
        sa.Column("lot", sa.Text(), nullable=True),
        sa.Column("status", sa.Text(), nullable=False),
        sa.Column("low_at_ml", sa.Float(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "form IN ('tube', 'pan', 'half pan', 'quarter pan', 'jar', 'bottle', 'stick')",
            name=op.f("ck_paint_form_known"),
        ),
        sa.CheckConstraint(
            "granulation IN ('none', 'low', 'medium', 'high')",
            name=op.f("ck_paint_granulation_known"),
        ),
        sa.CheckConstraint(
            "length(currency) = 3 AND substr(currency, 1, 1) BETWEEN 'A' AND 'Z' AND substr(currency, 2, 1) BETWEEN 'A' AND 'Z' AND substr(currency, 3, 1) BETWEEN 'A' AND 'Z'",
            name=op.f("ck_paint_currency_form"),
        ),
        sa.CheckConstraint(
            "staining IN ('none', 'low', 'medium', 'high')", name=op.f("ck_paint_staining_known")
        ),
        sa.CheckConstraint("status IN ('in use', 'retired')", name=op.f("ck_paint_status_known")),
        sa.CheckConstraint(
            "transparency IN ('transparent', 'semi-transparent', 'semi-opaque', 'opaque')",
            name=op.f("ck_paint_transparency_known"),
        ),
        sa.CheckConstraint(
            "typeof(price_hundredths) IN ('integer', 'null')",
            name=op.f("ck_paint_price_hundredths_is_whole"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "(price_hundredths IS NULL) = (currency IS NULL)",
            name=op.f("ck_paint_price_has_currency"),
        ),
        sa.CheckConstraint(
            "code = upper(code) AND length(code) BETWEEN 1 AND 12", name=op.f("ck_paint_code_form")
        ),
        sa.CheckConstraint(
            "length(trim(lot)) BETWEEN 1 AND 1000", name=op.f("ck_paint_lot_says_something")
        ),
        sa.CheckConstraint(
            "length(trim(maker)) BETWEEN 1 AND 1000", name=op.f("ck_paint_maker_says_something")
        ),
        sa.CheckConstraint(
            "length(trim(name)) BETWEEN 1 AND 1000", name=op.f("ck_paint_name_says_something")
        ),
        sa.CheckConstraint(
            "length(trim(note)) BETWEEN 1 AND 1000", name=op.f("ck_paint_note_says_something")
        ),
        sa.CheckConstraint(
            "low_at_ml BETWEEN 0 AND 1000000", name=op.f("ck_paint_low_at_ml_in_range")
        ),
        sa.CheckConstraint(
            "price_hundredths BETWEEN 0 AND 100000000",
            name=op.f("ck_paint_price_hundredths_in_range"),
        ),
        sa.CheckConstraint(
            "volume_ml > 0 AND volume_ml <= 1000000", name=op.f("ck_paint_volume_ml_above_zero")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_paint")),
        sa.UniqueConstraint("code", name=op.f("uq_paint_code")),
    )
    op.create_index(
        "uq_paint_maker_name_form_lot",
        "paint",
        ["maker", "name", "form", sa.text("coalesce(lot, '')")],
        unique=True,
    )
    op.create_table(
        "paper",
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
    op.create_index(
        "uq_paper_maker_name_surface_weight",
        "paper",
        ["maker", "name", sa.text("coalesce(surface, '')"), sa.text("coalesce(weight_gsm, 0)")],
        unique=True,
    )
    op.create_table(
        "pigment",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("ci_name", sa.Text(), nullable=False),
        sa.Column("ci_number", sa.Text(), nullable=True),
        sa.Column("common_name", sa.Text(), nullable=True),
        sa.Column("chemical_class", sa.Text(), nullable=True),
        sa.Column("evidence", sa.Text(), nullable=True),
        sa.Column("source", sa.Text(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "evidence IN ('published', 'partly', 'memory', 'owner')",
            name=op.f("ck_pigment_evidence_known"),
        ),
        sa.CheckConstraint(
            "length(trim(chemical_class)) BETWEEN 1 AND 1000",
            name=op.f("ck_pigment_chemical_class_says_something"),
        ),
        sa.CheckConstraint(
            "length(trim(ci_name)) BETWEEN 1 AND 1000",
            name=op.f("ck_pigment_ci_name_says_something"),
        ),
        sa.CheckConstraint(
            "length(trim(ci_number)) BETWEEN 1 AND 1000",
            name=op.f("ck_pigment_ci_number_says_something"),
        ),
        sa.CheckConstraint(
            "length(trim(common_name)) BETWEEN 1 AND 1000",
            name=op.f("ck_pigment_common_name_says_something"),
        ),
        sa.CheckConstraint(
            "length(trim(note)) BETWEEN 1 AND 1000", name=op.f("ck_pigment_note_says_something")
        ),
        sa.CheckConstraint(
            "length(trim(source)) BETWEEN 1 AND 1000", name=op.f("ck_pigment_source_says_something")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_pigment")),
        sa.UniqueConstraint("ci_name", name=op.f("uq_pigment_ci_name")),
    )
    op.create_table(
        "hazard",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("pigment_id", sa.Integer(), nullable=False),
        sa.Column("agent", sa.Text(), nullable=False),
        sa.Column("cas", sa.Text(), nullable=True),
        sa.Column("summary", sa.Text(), nullable=False),
        sa.Column("basis", sa.Text(), nullable=False),
        sa.Column("basis_detail", sa.Text(), nullable=True),
        sa.Column("routes", sa.Text(), nullable=True),
        sa.Column("evidence", sa.Text(), nullable=False),
        sa.Column("source", sa.Text(), nullable=False),
        sa.Column("verified_on", sa.Date(), nullable=True),
        sa.Column("verified_from", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "basis IN ('harmonised', 'exempt', 'notified', 'annulled', 'none')",
            name=op.f("ck_hazard_basis_known"),
        ),
        sa.CheckConstraint(
            "date(verified_on, '+0 days') IS verified_on AND substr(verified_on, 1, 4) <> '0000'",
            name=op.f("ck_hazard_verified_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "evidence IN ('published', 'partly', 'memory', 'owner')",
            name=op.f("ck_hazard_evidence_known"),
        ),
        sa.CheckConstraint(
            "(verified_on IS NULL) = (verified_from IS NULL)",
            name=op.f("ck_hazard_verified_from_something"),
        ),
        sa.CheckConstraint(
            "length(trim(agent)) BETWEEN 1 AND 1000", name=op.f("ck_hazard_agent_says_something")
        ),
        sa.CheckConstraint(
            "length(trim(basis_detail)) BETWEEN 1 AND 1000",
            name=op.f("ck_hazard_basis_detail_says_something"),
        ),
        sa.CheckConstraint(
            "length(trim(cas)) BETWEEN 1 AND 1000", name=op.f("ck_hazard_cas_says_something")
        ),
        sa.CheckConstraint(
            "length(trim(routes)) BETWEEN 1 AND 1000", name=op.f("ck_hazard_routes_says_something")
        ),
        sa.CheckConstraint(
            "length(trim(source)) BETWEEN 1 AND 1000", name=op.f("ck_hazard_source_says_something")
        ),
        sa.CheckConstraint(
            "length(trim(summary)) BETWEEN 1 AND 1000",
            name=op.f("ck_hazard_summary_says_something"),
        ),
        sa.CheckConstraint(
            "length(trim(verified_from)) BETWEEN 1 AND 1000",
            name=op.f("ck_hazard_verified_from_says_something"),
        ),
        sa.ForeignKeyConstraint(["pigment_id"], ["pigment.id"], name=op.f("fk_hazard_pigment_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_hazard")),
        sa.UniqueConstraint("pigment_id", "agent", name=op.f("uq_hazard_pigment_id_agent")),
    )
    op.create_table(
        "lightfastness_rating",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("pigment_id", sa.Integer(), nullable=False),
        sa.Column("scale", sa.Text(), nullable=False),
        sa.Column("rating", sa.Text(), nullable=False),
        sa.Column("medium", sa.Text(), nullable=False),
        sa.Column("year", sa.Integer(), nullable=True),
        sa.Column("source", sa.Text(), nullable=False),
        sa.Column("evidence", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=True),
        sa.Column("verified_on", sa.Date(), nullable=True),
        sa.Column("verified_from", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "(scale = 'ASTM D4303' AND rating IN ('I', 'II', 'III', 'IV', 'V')) OR (scale = 'blue wool' AND substr(rating, 1, 1) BETWEEN '1' AND '8' AND (length(rating) = 1 OR length(rating) = 3 AND substr(rating, 2, 1) = '-' AND substr(rating, 3, 1) BETWEEN '1' AND '8'))",
            name=op.f("ck_lightfastness_rating_rating_on_its_scale"),
        ),
        sa.CheckConstraint(
            "date(verified_on, '+0 days') IS verified_on AND substr(verified_on, 1, 4) <> '0000'",
            name=op.f("ck_lightfastness_rating_verified_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "evidence IN ('published', 'partly', 'memory', 'owner')",
            name=op.f("ck_lightfastness_rating_evidence_known"),
        ),
        sa.CheckConstraint(
            "scale IN ('ASTM D4303', 'blue wool')", name=op.f("ck_lightfastness_rating_scale_known")
        ),
        sa.CheckConstraint(
            "typeof(year) IN ('integer', 'null')",
            name=op.f("ck_lightfastness_rating_year_is_whole"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "(verified_on IS NULL) = (verified_from IS NULL)",
            name=op.f("ck_lightfastness_rating_verified_from_something"),
        ),
        sa.CheckConstraint(
            "length(trim(medium)) BETWEEN 1 AND 1000",
            name=op.f("ck_lightfastness_rating_medium_says_something"),
        ),
        sa.CheckConstraint(
            "length(trim(note)) BETWEEN 1 AND 1000",
            name=op.f("ck_lightfastness_rating_note_says_something"),
        ),
        sa.CheckConstraint(
            "length(trim(source)) BETWEEN 1 AND 1000",
            name=op.f("ck_lightfastness_rating_source_says_something"),
        ),
        sa.CheckConstraint(
            "length(trim(verified_from)) BETWEEN 1 AND 1000",
            name=op.f("ck_lightfastness_rating_verified_from_says_something"),
        ),
        sa.CheckConstraint(
            "year BETWEEN 1800 AND 2200", name=op.f("ck_lightfastness_rating_year_in_range")
        ),
        sa.ForeignKeyConstraint(
            ["pigment_id"], ["pigment.id"], name=op.f("fk_lightfastness_rating_pigment_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_lightfastness_rating")),
        sa.UniqueConstraint(
            "pigment_id",
            "scale",
            "medium",
            "source",
            name=op.f("uq_lightfastness_rating_pigment_id_scale_medium_source"),
        ),
    )
    op.create_table(
        "mix_component",
        sa.Column("mix_id", sa.Integer(), nullable=False),
        sa.Column("paint_id", sa.Integer(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("parts", sa.Integer(), nullable=False),
        sa.CheckConstraint(
            "typeof(parts) IN ('integer', 'null')", name=op.f("ck_mix_component_parts_is_whole")
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "typeof(position) IN ('integer', 'null')",
            name=op.f("ck_mix_component_position_is_whole"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "parts BETWEEN 1 AND 10000", name=op.f("ck_mix_component_parts_in_range")
        ),
        sa.CheckConstraint(
            "position BETWEEN 1 AND 100", name=op.f("ck_mix_component_position_in_range")
        ),
        sa.ForeignKeyConstraint(["mix_id"], ["mix.id"], name=op.f("fk_mix_component_mix_id")),
        sa.ForeignKeyConstraint(["paint_id"], ["paint.id"], name=op.f("fk_mix_component_paint_id")),
        sa.PrimaryKeyConstraint("mix_id", "paint_id", name=op.f("pk_mix_component")),
        sa.UniqueConstraint("mix_id", "position", name=op.f("uq_mix_component_mix_id_position")),
    )
    op.create_index(op.f("ix_mix_component_paint_id"), "mix_component", ["paint_id"], unique=False)
    op.create_table(
        "paint_pigment",
        sa.Column("paint_id", sa.Integer(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("pigment_id", sa.Integer(), nullable=False),
        sa.CheckConstraint(
            "typeof(position) IN ('integer', 'null')",
            name=op.f("ck_paint_pigment_position_is_whole"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "position BETWEEN 1 AND 20", name=op.f("ck_paint_pigment_position_in_range")
        ),
        sa.ForeignKeyConstraint(["paint_id"], ["paint.id"], name=op.f("fk_paint_pigment_paint_id")),
        sa.ForeignKeyConstraint(
            ["pigment_id"], ["pigment.id"], name=op.f("fk_paint_pigment_pigment_id")
        ),
        sa.PrimaryKeyConstraint("paint_id", "position", name=op.f("pk_paint_pigment")),
        sa.UniqueConstraint(
            "paint_id", "pigment_id", name=op.f("uq_paint_pigment_paint_id_pigment_id")
        ),
    )
    op.create_table(
        "stock_event",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("paint_id", sa.Integer(), nullable=True),
        sa.Column("paper_id", sa.Integer(), nullable=True),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("amount", sa.Float(), nullable=False),
        sa.Column("happened_on", sa.Date(), nullable=False),
        sa.Column("price_hundredths", sa.Integer(), nullable=True),
        sa.Column("currency", sa.Text(), nullable=True),
        sa.Column("lot", sa.Text(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "amount > 0 AND amount <= 1000000 OR kind = 'counted' AND amount = 0",
            name=op.f("ck_stock_event_amount_in_range"),
        ),
        sa.CheckConstraint(
            "date(happened_on, '+0 days') IS happened_on AND substr(happened_on, 1, 4) <> '0000'",
            name=op.f("ck_stock_event_happened_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "kind IN ('bought', 'used', 'counted', 'discarded')",
            name=op.f("ck_stock_event_kind_known"),
        ),
        sa.CheckConstraint(
            "length(currency) = 3 AND substr(currency, 1, 1) BETWEEN 'A' AND 'Z' AND substr(currency, 2, 1) BETWEEN 'A' AND 'Z' AND substr(currency, 3, 1) BETWEEN 'A' AND 'Z'",
            name=op.f("ck_stock_event_currency_form"),
        ),
        sa.CheckConstraint(
            "typeof(price_hundredths) IN ('integer', 'null')",
            name=op.f("ck_stock_event_price_hundredths_is_whole"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "(paint_id IS NULL) <> (paper_id IS NULL)", name=op.f("ck_stock_event_of_one_thing")
        ),
        sa.CheckConstraint(
            "(price_hundredths IS NULL) = (currency IS NULL)",
            name=op.f("ck_stock_event_price_has_currency"),
        ),
        sa.CheckConstraint(
            "length(trim(lot)) BETWEEN 1 AND 1000", name=op.f("ck_stock_event_lot_says_something")
        ),
        sa.CheckConstraint(
            "length(trim(note)) BETWEEN 1 AND 1000", name=op.f("ck_stock_event_note_says_something")
        ),
        sa.CheckConstraint(
            "price_hundredths BETWEEN 0 AND 100000000",
            name=op.f("ck_stock_event_price_hundredths_in_range"),
        ),
        sa.ForeignKeyConstraint(["paint_id"], ["paint.id"], name=op.f("fk_stock_event_paint_id")),
        sa.ForeignKeyConstraint(["paper_id"], ["paper.id"], name=op.f("fk_stock_event_paper_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_stock_event")),
    )
    op.create_index(op.f("ix_stock_event_paint_id"), "stock_event", ["paint_id"], unique=False)
    op.create_index(op.f("ix_stock_event_paper_id"), "stock_event", ["paper_id"], unique=False)
    op.create_table(
        "swatch",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("code", sa.Text(), nullable=False),
        sa.Column("mix_id", sa.Integer(), nullable=False),
        sa.Column("paper_id", sa.Integer(), nullable=False),
        sa.Column("water", sa.Float(), nullable=True),
        sa.Column("layers", sa.Integer(), nullable=False),
        sa.Column("application", sa.Text(), nullable=False),
        sa.Column("made_on", sa.Date(), nullable=False),
        sa.Column("kept_at", sa.Text(), nullable=True),
        sa.Column("note", sa.Text(), nullable=True),
        sa.Column("target", sa.Text(), nullable=True),
        sa.Column("target_lightness", sa.Float(), nullable=True),
        sa.Column("target_a", sa.Float(), nullable=True),
        sa.Column("target_b", sa.Float(), nullable=True),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("lightness", sa.Float(), nullable=False),
        sa.Column("a", sa.Float(), nullable=False),
        sa.Column("b", sa.Float(), nullable=False),
        sa.CheckConstraint(
            "application IN ('flat wash', 'graded wash', 'wet in wet', 'dry brush', 'glaze', 'spatter', 'lifted')",
            name=op.f("ck_swatch_application_known"),
        ),
        sa.CheckConstraint(
            "date(made_on, '+0 days') IS made_on AND substr(made_on, 1, 4) <> '0000'",
            name=op.f("ck_swatch_made_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint("state IN ('dry', 'wet')", name=op.f("ck_swatch_state_known")),
        sa.CheckConstraint(
            "typeof(layers) IN ('integer', 'null')", name=op.f("ck_swatch_layers_is_whole")
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "(target_lightness IS NULL) = (target_a IS NULL) AND (target_a IS NULL) = (target_b IS NULL)",
            name=op.f("ck_swatch_target_whole"),
        ),
        sa.CheckConstraint("a BETWEEN -200 AND 200", name=op.f("ck_swatch_a_in_range")),
        sa.CheckConstraint("b BETWEEN -200 AND 200", name=op.f("ck_swatch_b_in_range")),
        sa.CheckConstraint(
            "code = upper(code) AND length(code) BETWEEN 1 AND 12", name=op.f("ck_swatch_code_form")
        ),
        sa.CheckConstraint("layers BETWEEN 1 AND 100", name=op.f("ck_swatch_layers_in_range")),
        sa.CheckConstraint(
            "length(trim(kept_at)) BETWEEN 1 AND 1000",
            name=op.f("ck_swatch_kept_at_says_something"),
        ),
        sa.CheckConstraint(
            "length(trim(note)) BETWEEN 1 AND 1000", name=op.f("ck_swatch_note_says_something")
        ),
        sa.CheckConstraint(
            "length(trim(target)) BETWEEN 1 AND 1000", name=op.f("ck_swatch_target_says_something")
        ),
        sa.CheckConstraint(
            "lightness BETWEEN 0 AND 100", name=op.f("ck_swatch_lightness_in_range")
        ),
        sa.CheckConstraint(
            "target IS NOT NULL OR target_lightness IS NULL",
            name=op.f("ck_swatch_target_has_a_name"),
        ),
        sa.CheckConstraint(
            "target_a BETWEEN -200 AND 200", name=op.f("ck_swatch_target_a_in_range")
        ),
        sa.CheckConstraint(
            "target_b BETWEEN -200 AND 200", name=op.f("ck_swatch_target_b_in_range")
        ),
        sa.CheckConstraint(
            "target_lightness BETWEEN 0 AND 100", name=op.f("ck_swatch_target_lightness_in_range")
        ),
        sa.CheckConstraint("water BETWEEN 0 AND 1000", name=op.f("ck_swatch_water_in_range")),
        sa.ForeignKeyConstraint(["mix_id"], ["mix.id"], name=op.f("fk_swatch_mix_id")),
        sa.ForeignKeyConstraint(["paper_id"], ["paper.id"], name=op.f("fk_swatch_paper_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_swatch")),
        sa.UniqueConstraint("code", name=op.f("uq_swatch_code")),
    )
    op.create_index(op.f("ix_swatch_mix_id"), "swatch", ["mix_id"], unique=False)
    op.create_index(op.f("ix_swatch_paper_id"), "swatch", ["paper_id"], unique=False)
    op.create_table(
        "hazard_code",
        sa.Column("hazard_id", sa.Integer(), nullable=False),
        sa.Column("code", sa.Text(), nullable=False),
        sa.Column("hedged", sa.Integer(), nullable=False),
        sa.CheckConstraint(
            "typeof(hedged) IN ('integer', 'null')", name=op.f("ck_hazard_code_hedged_is_whole")
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint("hedged BETWEEN 0 AND 1", name=op.f("ck_hazard_code_hedged_in_range")),
        sa.ForeignKeyConstraint(["code"], ["h_statement.code"], name=op.f("fk_hazard_code_code")),
        sa.ForeignKeyConstraint(
            ["hazard_id"], ["hazard.id"], name=op.f("fk_hazard_code_hazard_id")
        ),
        sa.PrimaryKeyConstraint("hazard_id", "code", name=op.f("pk_hazard_code")),
    )
    op.create_table(
        "hazard_metal",
        sa.Column("hazard_id", sa.Integer(), nullable=False),
        sa.Column("metal", sa.Text(), nullable=False),
        sa.CheckConstraint(
            "metal IN ('cadmium', 'cobalt', 'nickel', 'chromium', 'chromate', 'lead', 'manganese', 'antimony', 'mercury', 'arsenic', 'barium', 'copper', 'zinc', 'selenium')",
            name=op.f("ck_hazard_metal_metal_known"),
        ),
        sa.ForeignKeyConstraint(
            ["hazard_id"], ["hazard.id"], name=op.f("fk_hazard_metal_hazard_id")
        ),
        sa.PrimaryKeyConstraint("hazard_id", "metal", name=op.f("pk_hazard_metal")),
    )
    op.create_table(
        "reading",
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
        sa.Column("error_delta_e", sa.Float(), nullable=True),
        sa.Column("read_on", sa.Date(), nullable=False),
        sa.Column("note", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "(origin = 'from spectrum') = (spectrum_values IS NOT NULL)",
            name=op.f("ck_reading_origin_of_spectrum"),
        ),
        sa.CheckConstraint(
            "condition IN ('M0', 'M1', 'M2', 'M3')", name=op.f("ck_reading_condition_known")
        ),
        sa.CheckConstraint(
            "date(read_on, '+0 days') IS read_on AND substr(read_on, 1, 4) <> '0000'",
            name=op.f("ck_reading_read_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "given_illuminant IN ('A', 'C', 'D50', 'D55', 'D65', 'D75', 'E', 'FL2', 'FL7', 'FL11')",
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
            "length(trim(instrument)) BETWEEN 1 AND 1000",
            name=op.f("ck_reading_instrument_says_something"),
        ),
        sa.CheckConstraint(
            "length(trim(note)) BETWEEN 1 AND 1000", name=op.f("ck_reading_note_says_something")
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
        sa.ForeignKeyConstraint(["paper_id"], ["paper.id"], name=op.f("fk_reading_paper_id")),
        sa.ForeignKeyConstraint(["swatch_id"], ["swatch.id"], name=op.f("fk_reading_swatch_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_reading")),
    )
    op.create_index(op.f("ix_reading_paper_id"), "reading", ["paper_id"], unique=False)
    op.create_index(op.f("ix_reading_swatch_id"), "reading", ["swatch_id"], unique=False)

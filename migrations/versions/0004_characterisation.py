"""What was computed of the paints from all swatches, and from what.

Revision ID: 0004
"""

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Create the table of characterisations."""
    op.create_table(
        "characterisation",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("inputs_sha256", sa.Text(), nullable=False),
        sa.Column("model", sa.Text(), nullable=False),
        sa.Column("swatches", sa.Integer(), nullable=False),
        sa.Column("estimated", sa.Integer(), nullable=False),
        sa.Column("content", sa.LargeBinary(), nullable=False),
        sa.Column("computed_on", sa.Date(), nullable=False),
        sa.CheckConstraint(
            "date(computed_on, '+0 days') IS computed_on AND substr(computed_on, 1, 4) <> '0000'",
            name=op.f("ck_characterisation_computed_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "typeof(estimated) IN ('integer', 'null')",
            name=op.f("ck_characterisation_estimated_is_whole"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "typeof(swatches) IN ('integer', 'null')",
            name=op.f("ck_characterisation_swatches_is_whole"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "estimated BETWEEN 0 AND swatches", name=op.f("ck_characterisation_estimated_in_range")
        ),
        sa.CheckConstraint("length(content) > 0", name=op.f("ck_characterisation_content_there")),
        sa.CheckConstraint(
            "length(inputs_sha256) = 64 AND inputs_sha256 = lower(inputs_sha256)",
            name=op.f("ck_characterisation_inputs_sha256_form"),
        ),
        sa.CheckConstraint(
            "length(trim(model)) BETWEEN 1 AND 1000",
            name=op.f("ck_characterisation_model_says_something"),
        ),
        sa.CheckConstraint(
            "swatches BETWEEN 1 AND 1000000", name=op.f("ck_characterisation_swatches_in_range")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_characterisation")),
        sa.UniqueConstraint("inputs_sha256", name=op.f("uq_characterisation_inputs_sha256")),
    )

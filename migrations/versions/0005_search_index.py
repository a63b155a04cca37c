"""An index for searching colours.

Revision ID: 0005
"""

from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Index the colour of swatches."""
    op.create_index(op.f("ix_swatch_lightness_a_b"), "swatch", ["lightness", "a", "b"])

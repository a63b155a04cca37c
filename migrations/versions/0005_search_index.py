"""An index that the search for near colours reads, and one that finds the mixes of a paint.

Revision ID: 0005
"""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Create the search index; let the index of a mix's paints name the mix too."""
    op.create_index(
        "ix_swatch_search",
        "swatch",
        [
            sa.text("round(lightness / 4)"),
            sa.text("round(a / 4)"),
            *("b", "a", "lightness", "state", "paper_id", "mix_id"),
        ],
    )
    op.create_index(
        "ix_mix_component_paint_id_position_mix_id",
        "mix_component",
        ["paint_id", "position", "mix_id"],
    )
    op.drop_index("ix_mix_component_paint_id", table_name="mix_component")

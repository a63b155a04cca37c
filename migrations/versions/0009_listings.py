"""What lists other than the EU's say of a substance, paints never to use, and who looked where.

Revision ID: 0009
"""

from typing import Final

import sqlalchemy as sa
from alembic import op

from studio.storage.rebuild import with_columns

revision = "0009"
down_revision = "0008"
branch_labels = None
depends_on = None

_SCALED: Final = (
    "(scale = 'ASTM D4303' AND rating IN ('I', 'II', 'III', 'IV', 'V')) OR (scale = 'blue wool' "
    "AND substr(rating, 1, 1) BETWEEN '1' AND '8' AND (length(rating) = 1 OR length(rating) = 3 "
    "AND substr(rating, 2, 1) = '-' AND substr(rating, 3, 1) BETWEEN '1' AND '8'))"
)
_ON_SCALE: Final = "ck_lightfastness_rating_rating_on_its_scale"
_SCALE: Final = "ck_lightfastness_rating_scale_known"
OLD: Final = {_ON_SCALE: _SCALED, _SCALE: "scale IN ('ASTM D4303', 'blue wool')"}
NEW: Final = {
    _ON_SCALE: f"{_SCALED} OR (scale = 'words' AND rating IN "
    "('excellent', 'very good', 'fair', 'poor', 'very poor', 'fugitive'))",
    _SCALE: "scale IN ('ASTM D4303', 'blue wool', 'words')",
}
LOOKED_UP: Final = {
    "ck_pigment_looked_up_says_something": "length(trim(looked_up)) BETWEEN 1 AND 1000"
}
USE: Final = {"ck_hazard_use_known": "use IN ('never')"}
KEY: Final = "uq_hazard_pigment_id_agent"
NEW_KEY: Final = "uq_hazard_pigment_id_agent_source"


def upgrade() -> None:
    """Add columns and the table of listings; the reference itself is refreshed by the program."""
    connection = op.get_bind()
    if connection.dialect.name == "sqlite":
        with_columns(connection, "pigment", {"looked_up": "TEXT"}, LOOKED_UP)
        old = [f"CONSTRAINT {name} CHECK ({rule})" for name, rule in OLD.items()]
        with_columns(connection, "lightfastness_rating", {}, NEW, without=old)
        with_columns(
            connection,
            "hazard",
            {"use": "TEXT"},
            USE,
            keys={NEW_KEY: "pigment_id, agent, source"},
            without=[f"CONSTRAINT {KEY} UNIQUE (pigment_id, agent)"],
        )
    else:
        _alter()
    op.create_table(
        "hazard_listing",
        sa.Column("hazard_id", sa.Integer(), nullable=False),
        sa.Column("list", sa.Text(), nullable=False),
        sa.Column("entry", sa.Text(), nullable=False),
        sa.Column("scope", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "length(trim(entry)) BETWEEN 1 AND 1000",
            name=op.f("ck_hazard_listing_entry_says_something"),
        ),
        sa.CheckConstraint(
            "list IN ('IARC', 'NTP', 'Proposition 65', 'Candidate List', 'HCIS')",
            name=op.f("ck_hazard_listing_list_known"),
        ),
        sa.CheckConstraint(
            "scope IN ('group', 'parent dye')", name=op.f("ck_hazard_listing_scope_known")
        ),
        sa.ForeignKeyConstraint(
            ["hazard_id"], ["hazard.id"], name=op.f("fk_hazard_listing_hazard_id")
        ),
        sa.PrimaryKeyConstraint("hazard_id", "list", "entry", name=op.f("pk_hazard_listing")),
    )


def _alter() -> None:
    op.add_column("pigment", sa.Column("looked_up", sa.Text(), nullable=True))
    op.add_column("hazard", sa.Column("use", sa.Text(), nullable=True))
    for name in OLD:
        op.drop_constraint(op.f(name), "lightfastness_rating", type_="check")
    for table, rules in (("lightfastness_rating", NEW), ("pigment", LOOKED_UP), ("hazard", USE)):
        for name, rule in rules.items():
            op.create_check_constraint(op.f(name), table, rule)
    op.drop_constraint(op.f(KEY), "hazard", type_="unique")
    op.create_unique_constraint(op.f(NEW_KEY), "hazard", ["pigment_id", "agent", "source"])

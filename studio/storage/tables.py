"""The tables, their columns, keys and indexes; what a row may hold stands in rules.py."""

from datetime import date

from sqlalchemy import (
    BigInteger,
    Column,
    ColumnElement,
    Date,
    Float,
    ForeignKey,
    Index,
    Integer,
    LargeBinary,
    MetaData,
    Table,
    Text,
    UniqueConstraint,
    literal_column,
    text,
)

metadata = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s",
        "pk": "pk_%(table_name)s",
    }
)


def _key() -> Column[int]:
    return Column("id", Integer, primary_key=True)


def _marks() -> tuple[Column[date], Column[str]]:
    """What marks a row as removed; it stays where it is."""
    return Column("removed_on", Date), Column("removed_because", Text)


def _refers(column: str, target: str, *, nullable: bool = False) -> Column[int]:
    return Column(column, Integer, ForeignKey(target), nullable=nullable)


pigment = Table(
    "pigment",
    metadata,
    _key(),
    Column("ci_name", Text, nullable=False, unique=True),
    Column("ci_number", Text),
    Column("common_name", Text),
    Column("chemical_class", Text),
    Column("evidence", Text),
    Column("source", Text),
    Column("note", Text),
    Column("looked_up", Text),
)

lightfastness_rating = Table(
    "lightfastness_rating",
    metadata,
    _key(),
    _refers("pigment_id", "pigment.id"),
    Column("scale", Text, nullable=False),
    Column("rating", Text, nullable=False),
    Column("medium", Text, nullable=False),
    Column("year", Integer),
    Column("source", Text, nullable=False),
    Column("evidence", Text, nullable=False),
    Column("note", Text),
    Column("verified_on", Date),
    Column("verified_from", Text),
    UniqueConstraint("pigment_id", "scale", "medium", "source"),
)

h_statement = Table(
    "h_statement",
    metadata,
    Column("code", Text, primary_key=True),
    Column("hazard_class", Text, nullable=False),
    Column("wording", Text, nullable=False),
    Column("source", Text, nullable=False),
)

hazard = Table(
    "hazard",
    metadata,
    _key(),
    _refers("pigment_id", "pigment.id"),
    Column("agent", Text, nullable=False),
    Column("cas", Text),
    Column("summary", Text, nullable=False),
    Column("basis", Text, nullable=False),
    Column("basis_detail", Text),
    Column("routes", Text),
    Column("evidence", Text, nullable=False),
    Column("source", Text, nullable=False),
    Column("verified_on", Date),
    Column("verified_from", Text),
    Column("use", Text),
    UniqueConstraint("pigment_id", "agent", "source"),
)

hazard_code = Table(
    "hazard_code",
    metadata,
    Column("hazard_id", Integer, ForeignKey("hazard.id"), primary_key=True),
    Column("code", Text, ForeignKey("h_statement.code"), primary_key=True),
    Column("hedged", Integer, nullable=False),
)

hazard_metal = Table(
    "hazard_metal",
    metadata,
    Column("hazard_id", Integer, ForeignKey("hazard.id"), primary_key=True),
    Column("metal", Text, primary_key=True),
)

hazard_listing = Table(
    "hazard_listing",
    metadata,
    Column("hazard_id", Integer, ForeignKey("hazard.id"), primary_key=True),
    Column("list", Text, primary_key=True),
    Column("entry", Text, primary_key=True),
    Column("scope", Text),
)

paint = Table(
    "paint",
    metadata,
    _key(),
    Column("code", Text, nullable=False, unique=True),
    Column("maker", Text, nullable=False),
    Column("name", Text, nullable=False),
    Column("form", Text, nullable=False),
    Column("volume_ml", Float),
    Column("price_hundredths", Integer),
    Column("currency", Text),
    Column("transparency", Text),
    Column("staining", Text),
    Column("granulation", Text),
    Column("lot", Text),
    Column("status", Text, nullable=False),
    Column("low_at_ml", Float),
    Column("note", Text),
    Index(
        "uq_paint_maker_name_form_lot",
        "maker",
        "name",
        "form",
        text("coalesce(lot, '')"),
        unique=True,
    ),
)

paint_pigment = Table(
    "paint_pigment",
    metadata,
    Column("paint_id", Integer, ForeignKey("paint.id"), primary_key=True),
    Column("position", Integer, primary_key=True),
    _refers("pigment_id", "pigment.id"),
    UniqueConstraint("paint_id", "pigment_id"),
)

paper = Table(
    "paper",
    metadata,
    _key(),
    Column("code", Text, nullable=False, unique=True),
    Column("maker", Text, nullable=False),
    Column("name", Text, nullable=False),
    Column("fibre", Text),
    Column("weight_gsm", Float),
    Column("surface", Text),
    Column("sheet_width_mm", Float),
    Column("sheet_height_mm", Float),
    Column("low_at_sheets", Float),
    Column("low_at_mm", Float),
    Column("note", Text),
    Index(
        "uq_paper_maker_name_surface_weight",
        "maker",
        "name",
        text("coalesce(surface, '')"),
        text("coalesce(weight_gsm, 0)"),
        unique=True,
    ),
)

mix = Table(
    "mix",
    metadata,
    _key(),
    Column("code", Text, nullable=False, unique=True),
    Column("recipe_key", Text, nullable=False, unique=True),
    Column("name", Text),
    Column("note", Text),
    Column("created_on", Date, nullable=False),
)

mix_component = Table(
    "mix_component",
    metadata,
    Column("mix_id", Integer, ForeignKey("mix.id"), primary_key=True),
    Column("paint_id", Integer, ForeignKey("paint.id"), primary_key=True),
    Column("position", Integer, nullable=False),
    Column("parts", Integer, nullable=False),
    UniqueConstraint("mix_id", "position"),
    Index(None, "paint_id", "position", "mix_id"),
)

STEP = 4
"""How wide the steps of L* and a* are that the search index begins with."""
LIGHTNESS_STEP: ColumnElement[float] = literal_column(f"round(lightness / {STEP})", Float)
A_STEP: ColumnElement[float] = literal_column(f"round(a / {STEP})", Float)
# Which way a half is rounded differs among databases, and `search.py` relies on neither.

swatch = Table(
    "swatch",
    metadata,
    _key(),
    Column("code", Text, nullable=False, unique=True),
    _refers("mix_id", "mix.id"),
    _refers("paper_id", "paper.id"),
    Column("water", Float),
    Column("layers", Integer, nullable=False),
    Column("application", Text, nullable=False),
    Column("made_on", Date, nullable=False),
    Column("kept_at", Text),
    Column("note", Text),
    Column("target", Text),
    Column("target_lightness", Float),
    Column("target_a", Float),
    Column("target_b", Float),
    Column("state", Text, nullable=False),
    Column("lightness", Float, nullable=False),
    Column("a", Float, nullable=False),
    Column("b", Float, nullable=False),
    *_marks(),
    Column("paint_marks_low", BigInteger, nullable=False),
    Column("paint_marks_high", BigInteger, nullable=False),
    Index(None, "mix_id"),
    Index(None, "paper_id"),
    Index(
        "ix_swatch_search",
        LIGHTNESS_STEP,
        A_STEP,
        *("b", "a", "lightness", "paint_marks_low", "paint_marks_high", "state"),
        *("paper_id", "mix_id", "removed_on"),
    ),
)

reading = Table(
    "reading",
    metadata,
    _key(),
    _refers("swatch_id", "swatch.id", nullable=True),
    _refers("paper_id", "paper.id", nullable=True),
    Column("lightness", Float, nullable=False),
    Column("a", Float, nullable=False),
    Column("b", Float, nullable=False),
    Column("origin", Text, nullable=False),
    Column("given_lightness", Float, nullable=False),
    Column("given_a", Float, nullable=False),
    Column("given_b", Float, nullable=False),
    Column("given_illuminant", Text, nullable=False),
    Column("given_observer", Integer, nullable=False),
    Column("spectrum_start_nm", Float),
    Column("spectrum_step_nm", Float),
    Column("spectrum_values", Text),
    Column("state", Text, nullable=False),
    Column("method", Text, nullable=False),
    Column("instrument", Text),
    Column("condition", Text),
    Column("geometry", Text),
    Column("backing", Text),
    Column("sample", Text),
    _refers("file_id", "measurement_file.id", nullable=True),
    Column("error_delta_e", Float),
    Column("read_on", Date, nullable=False),
    Column("note", Text),
    *_marks(),
    Index(None, "swatch_id"),
    Index(None, "paper_id"),
)

measurement_file = Table(
    "measurement_file",
    metadata,
    _key(),
    Column("name", Text, nullable=False),
    Column("sha256", Text, nullable=False, unique=True),
    Column("size", Integer, nullable=False),
    Column("content", LargeBinary),
    Column("read_on", Date, nullable=False),
)

target = Table(
    "target",
    metadata,
    _key(),
    Column("name", Text, nullable=False),
    Column("lightness", Float, nullable=False),
    Column("a", Float, nullable=False),
    Column("b", Float, nullable=False),
    Column("spread_delta_e", Float),
    Column("place", Text),
    _refers("file_id", "measurement_file.id", nullable=True),
    Column("created_on", Date, nullable=False),
    Column("note", Text),
    *_marks(),
    # The name of a removed target is free again.
    Index(
        "uq_target_name",
        "name",
        unique=True,
        sqlite_where=text("removed_on IS NULL"),
    ),
)

characterisation = Table(
    "characterisation",
    metadata,
    _key(),
    Column("inputs_sha256", Text, nullable=False, unique=True),
    Column("model", Text, nullable=False),
    Column("swatches", Integer, nullable=False),
    Column("estimated", Integer, nullable=False),
    Column("content", LargeBinary, nullable=False),
    Column("computed_on", Date, nullable=False),
)

container = Table(
    "container",
    metadata,
    _key(),
    Column("code", Text, nullable=False, unique=True),
    _refers("paint_id", "paint.id", nullable=True),
    _refers("paper_id", "paper.id", nullable=True),
    Column("kind", Text, nullable=False),
    Column("unit", Text, nullable=False),
    Column("capacity", Float),
    Column("lot", Text),
    Index(None, "paint_id"),
    Index(None, "paper_id"),
)

stock_event = Table(
    "stock_event",
    metadata,
    _key(),
    _refers("container_id", "container.id"),
    Column("kind", Text, nullable=False),
    Column("happened_on", Date, nullable=False),
    Column("amount", Float),
    Column("weight_g", Float),
    Column("weighed_as", Text),
    Column("estimated", Integer, nullable=False),
    _refers("other_id", "container.id", nullable=True),
    Column("price_hundredths", Integer),
    Column("currency", Text),
    Column("note", Text),
    Index(None, "container_id"),
)

data_sheet = Table(
    "data_sheet",
    metadata,
    _key(),
    Column("paint_id", Integer, ForeignKey("paint.id"), nullable=False, unique=True),
    Column("location", Text),
    Column("dated_on", Date),
    Column("label_marks", Text),
    Column("recorded_on", Date, nullable=False),
)

fade_test = Table(
    "fade_test",
    metadata,
    _key(),
    Column("code", Text, nullable=False, unique=True),
    _refers("paint_id", "paint.id", nullable=True),
    _refers("mix_id", "mix.id", nullable=True),
    _refers("paper_id", "paper.id", nullable=True),
    Column("place", Text, nullable=False),
    Column("started_on", Date, nullable=False),
    Column("ended_on", Date),
    Column("note", Text),
    Index(None, "paint_id"),
    Index(None, "mix_id"),
)

fade_reading = Table(
    "fade_reading",
    metadata,
    _key(),
    _refers("fade_test_id", "fade_test.id"),
    Column("read_on", Date, nullable=False),
    Column("covered_lightness", Float, nullable=False),
    Column("covered_a", Float, nullable=False),
    Column("covered_b", Float, nullable=False),
    Column("exposed_lightness", Float, nullable=False),
    Column("exposed_a", Float, nullable=False),
    Column("exposed_b", Float, nullable=False),
    Column("blue_wool", Integer),
    Column("note", Text),
    UniqueConstraint("fade_test_id", "read_on"),
)

painting = Table(
    "painting",
    metadata,
    _key(),
    Column("code", Text, nullable=False, unique=True),
    Column("title", Text, nullable=False),
    _refers("paper_id", "paper.id"),
    Column("width_mm", Float, nullable=False),
    Column("height_mm", Float, nullable=False),
    Column("tolerance_delta_e", Float, nullable=False),
    Column("started_on", Date, nullable=False),
    _refers("file_id", "measurement_file.id", nullable=True),
    Column("reference_path", Text),
    Column("finished_on", Date),
    Column("note", Text),
    *_marks(),
)

passage = Table(
    "passage",
    metadata,
    _key(),
    _refers("painting_id", "painting.id"),
    # Not unique: the order is changed row by row, and taken back in the same way.
    Column("position", Integer, nullable=False),
    Column("name", Text, nullable=False),
    Column("technique", Text, nullable=False),
    Column("share", Float),
    Column("layers", Integer, nullable=False),
    Column("dry_before_next", Integer, nullable=False),
    _refers("over_id", "passage.id", nullable=True),
    Column("note", Text),
    *_marks(),
    # The name of a removed passage is free again.
    Index(
        "uq_passage_painting_id_name",
        "painting_id",
        "name",
        unique=True,
        sqlite_where=text("removed_on IS NULL"),
    ),
)

passage_colour = Table(
    "passage_colour",
    metadata,
    _key(),
    _refers("passage_id", "passage.id"),
    Column("position", Integer, nullable=False),
    Column("lightness", Float, nullable=False),
    Column("a", Float, nullable=False),
    Column("b", Float, nullable=False),
    Column("given", Text),
    Column("place", Text),
    Column("at_x", Float),
    Column("at_y", Float),
    Column("spread_delta_e", Float),
    _refers("file_id", "measurement_file.id", nullable=True),
    *_marks(),
    Index(None, "passage_id"),
)

colour_try = Table(
    "colour_try",
    metadata,
    _key(),
    _refers("colour_id", "passage_colour.id"),
    _refers("swatch_id", "swatch.id"),
    UniqueConstraint("colour_id", "swatch_id"),
    Index(None, "swatch_id"),
)

painting_record = Table(
    "painting_record",
    metadata,
    _key(),
    Column("painting_id", Integer, ForeignKey("painting.id"), nullable=False, unique=True),
    Column("recorded_on", Date, nullable=False),
    Column("content", Text, nullable=False),
)

command = Table(
    "command",
    metadata,
    _key(),
    Column("happened_at", Text, nullable=False),
    Column("who", Text, nullable=False),
    Column("program", Text, nullable=False),
    Column("words", Text, nullable=False),
    Column("kind", Text, nullable=False),
    _refers("takes_back", "command.id", nullable=True),
    _refers("undone_by", "command.id", nullable=True),
)

change = Table(
    "change",
    metadata,
    _key(),
    _refers("command_id", "command.id"),
    Column("table_name", Text, nullable=False),
    Column("first_id", Integer),
    Column("last_id", Integer),
    Column("row_key", Text),
    Column("part_of", Text),
    Column("before", Text),
    Column("after", Text),
    Index(None, "command_id"),
    Index(None, "table_name", "first_id"),
    Index(None, "part_of"),
)

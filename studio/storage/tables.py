"""The tables, as SQLAlchemy Core knows them; migrations/ builds the same, held by a test."""

from enum import StrEnum

from sqlalchemy import (
    CheckConstraint,
    Column,
    Date,
    Float,
    ForeignKey,
    Index,
    Integer,
    MetaData,
    Table,
    Text,
    UniqueConstraint,
    text,
)

from studio.catalogue.evidence import Evidence
from studio.catalogue.hazard import METALS, Basis
from studio.catalogue.lightfastness import Scale
from studio.catalogue.paint import Degree, Form, Status, Transparency
from studio.catalogue.paper import Fibre, Surface
from studio.catalogue.reading import Condition, Method, Origin, State
from studio.catalogue.stock import StockKind
from studio.catalogue.swatch import Application
from studio.colour.lab import ILLUMINANTS

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


def _refers(column: str, target: str, *, nullable: bool = False) -> Column[int]:
    return Column(column, Integer, ForeignKey(target), nullable=nullable)


def _one_of(column: str, words: type[StrEnum] | tuple[str, ...]) -> CheckConstraint:
    listed = ", ".join(f"'{word}'" for word in words)
    return CheckConstraint(f"{column} IN ({listed})", name=f"{column}_known")


def _says_something(*columns: str) -> list[CheckConstraint]:
    return [
        CheckConstraint(
            f"length(trim({column})) BETWEEN 1 AND 1000", name=f"{column}_says_something"
        )
        for column in columns
    ]


def _within(column: str, low: int, high: int) -> CheckConstraint:
    return CheckConstraint(f"{column} BETWEEN {low} AND {high}", name=f"{column}_in_range")


def _above_zero(column: str) -> CheckConstraint:
    return CheckConstraint(f"{column} > 0 AND {column} <= 1000000", name=f"{column}_above_zero")


def _is_day(*columns: str) -> list[CheckConstraint]:
    """SQLite has no date type, so the text must be a day as ISO 8601 writes it."""
    return [
        CheckConstraint(f"date({column}) IS {column}", name=f"{column}_is_a_day").ddl_if(
            dialect="sqlite"
        )
        for column in columns
    ]


def _is_code() -> CheckConstraint:
    return CheckConstraint("code = upper(code) AND length(code) BETWEEN 1 AND 12", name="code_form")


def _lab(prefix: str = "") -> list[CheckConstraint]:
    return [
        _within(f"{prefix}lightness", 0, 100),
        _within(f"{prefix}a", -200, 200),
        _within(f"{prefix}b", -200, 200),
    ]


def _verified() -> list[CheckConstraint]:
    return [
        CheckConstraint(
            "(verified_on IS NULL) = (verified_from IS NULL)", name="verified_from_something"
        ),
        *_says_something("verified_from"),
        *_is_day("verified_on"),
    ]


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
    _one_of("evidence", Evidence),
    *_says_something("ci_name", "ci_number", "common_name", "chemical_class", "source", "note"),
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
    _one_of("scale", Scale),
    CheckConstraint(
        "(scale = 'ASTM D4303' AND rating IN ('I', 'II', 'III', 'IV', 'V')) OR "
        "(scale = 'blue wool' AND substr(rating, 1, 1) BETWEEN '1' AND '8')",
        name="rating_on_its_scale",
    ),
    _one_of("evidence", Evidence),
    _within("year", 1800, 2200),
    *_says_something("medium", "source", "note"),
    *_verified(),
)

h_statement = Table(
    "h_statement",
    metadata,
    Column("code", Text, primary_key=True),
    Column("hazard_class", Text, nullable=False),
    Column("wording", Text, nullable=False),
    Column("source", Text, nullable=False),
    *_says_something("code", "hazard_class", "wording", "source"),
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
    UniqueConstraint("pigment_id", "agent"),
    _one_of("basis", Basis),
    _one_of("evidence", Evidence),
    *_says_something("agent", "cas", "summary", "basis_detail", "routes", "source"),
    *_verified(),
)

hazard_code = Table(
    "hazard_code",
    metadata,
    Column("hazard_id", Integer, ForeignKey("hazard.id"), primary_key=True),
    Column("code", Text, ForeignKey("h_statement.code"), primary_key=True),
    Column("hedged", Integer, nullable=False),
    _within("hedged", 0, 1),
)

hazard_metal = Table(
    "hazard_metal",
    metadata,
    Column("hazard_id", Integer, ForeignKey("hazard.id"), primary_key=True),
    Column("metal", Text, primary_key=True),
    _one_of("metal", METALS),
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
    _is_code(),
    *_says_something("maker", "name", "lot", "note"),
    _one_of("form", Form),
    _above_zero("volume_ml"),
    _within("price_hundredths", 0, 100_000_000),
    CheckConstraint("(price_hundredths IS NULL) = (currency IS NULL)", name="price_has_currency"),
    CheckConstraint("length(currency) = 3 AND currency = upper(currency)", name="currency_form"),
    _one_of("transparency", Transparency),
    _one_of("staining", Degree),
    _one_of("granulation", Degree),
    _one_of("status", Status),
    _within("low_at_ml", 0, 1_000_000),
)

paint_pigment = Table(
    "paint_pigment",
    metadata,
    Column("paint_id", Integer, ForeignKey("paint.id"), primary_key=True),
    Column("position", Integer, primary_key=True),
    _refers("pigment_id", "pigment.id"),
    UniqueConstraint("paint_id", "pigment_id"),
    _within("position", 1, 20),
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
    Column("note", Text),
    Index(
        "uq_paper_maker_name_surface_weight",
        "maker",
        "name",
        text("coalesce(surface, '')"),
        text("coalesce(weight_gsm, 0)"),
        unique=True,
    ),
    _is_code(),
    *_says_something("maker", "name", "note"),
    _one_of("fibre", Fibre),
    _within("weight_gsm", 20, 2000),
    _one_of("surface", Surface),
    _above_zero("sheet_width_mm"),
    _above_zero("sheet_height_mm"),
    CheckConstraint(
        "(sheet_width_mm IS NULL) = (sheet_height_mm IS NULL)", name="sheet_has_two_sides"
    ),
    _within("low_at_sheets", 0, 1_000_000),
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
    _is_code(),
    *_says_something("recipe_key", "name", "note"),
    *_is_day("created_on"),
)

mix_component = Table(
    "mix_component",
    metadata,
    Column("mix_id", Integer, ForeignKey("mix.id"), primary_key=True),
    Column("paint_id", Integer, ForeignKey("paint.id"), primary_key=True),
    Column("position", Integer, nullable=False),
    Column("parts", Integer, nullable=False),
    UniqueConstraint("mix_id", "position"),
    Index(None, "paint_id"),
    _within("position", 1, 100),
    _within("parts", 1, 10_000),
)

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
    Index(None, "mix_id"),
    Index(None, "paper_id"),
    _is_code(),
    _within("water", 0, 1000),
    _within("layers", 1, 100),
    _one_of("application", Application),
    *_says_something("kept_at", "note", "target"),
    *_lab("target_"),
    CheckConstraint(
        "(target_lightness IS NULL) = (target_a IS NULL) AND "
        "(target_a IS NULL) = (target_b IS NULL)",
        name="target_whole",
    ),
    CheckConstraint("target IS NOT NULL OR target_lightness IS NULL", name="target_has_a_name"),
    _one_of("state", State),
    *_lab(),
    *_is_day("made_on"),
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
    Column("error_delta_e", Float),
    Column("read_on", Date, nullable=False),
    Column("note", Text),
    Index(None, "swatch_id"),
    Index(None, "paper_id"),
    CheckConstraint("(swatch_id IS NULL) <> (paper_id IS NULL)", name="of_one_thing"),
    *_lab(),
    *_lab("given_"),
    _one_of("origin", Origin),
    _one_of("given_illuminant", ILLUMINANTS),
    CheckConstraint("given_observer IN (2, 10)", name="given_observer_known"),
    CheckConstraint(
        "(spectrum_start_nm IS NULL) = (spectrum_step_nm IS NULL) AND "
        "(spectrum_step_nm IS NULL) = (spectrum_values IS NULL)",
        name="spectrum_whole",
    ),
    CheckConstraint(
        "(origin = 'from spectrum') = (spectrum_values IS NOT NULL)", name="origin_of_spectrum"
    ),
    _within("spectrum_start_nm", 200, 1000),
    CheckConstraint("spectrum_step_nm > 0 AND spectrum_step_nm <= 20", name="step_in_range"),
    _one_of("state", State),
    _one_of("method", Method),
    _one_of("condition", Condition),
    _within("error_delta_e", 0, 100),
    *_says_something("instrument", "note"),
    *_is_day("read_on"),
)

stock_event = Table(
    "stock_event",
    metadata,
    _key(),
    _refers("paint_id", "paint.id", nullable=True),
    _refers("paper_id", "paper.id", nullable=True),
    Column("kind", Text, nullable=False),
    Column("amount", Float, nullable=False),
    Column("happened_on", Date, nullable=False),
    Column("price_hundredths", Integer),
    Column("currency", Text),
    Column("lot", Text),
    Column("note", Text),
    Index(None, "paint_id"),
    Index(None, "paper_id"),
    CheckConstraint("(paint_id IS NULL) <> (paper_id IS NULL)", name="of_one_thing"),
    _one_of("kind", StockKind),
    CheckConstraint(
        "amount > 0 AND amount <= 1000000 OR kind = 'counted' AND amount = 0",
        name="amount_in_range",
    ),
    _within("price_hundredths", 0, 100_000_000),
    CheckConstraint("(price_hundredths IS NULL) = (currency IS NULL)", name="price_has_currency"),
    CheckConstraint("length(currency) = 3 AND currency = upper(currency)", name="currency_form"),
    *_says_something("lot", "note"),
    *_is_day("happened_on"),
)

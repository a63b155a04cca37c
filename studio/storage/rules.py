"""What a row may hold: every CHECK of every table.

Building them takes longer than most searches, and SQLite enforces them without the program, so only
what makes or compares a schema imports this module.
"""

from enum import StrEnum

from sqlalchemy import CheckConstraint, MetaData, Table

from studio.catalogue.container import ContainerKind
from studio.catalogue.evidence import Evidence
from studio.catalogue.hazard import METALS, Basis, ListName, Scope, Use
from studio.catalogue.history import LONGEST_WORDS, CommandKind
from studio.catalogue.lightfastness import Scale
from studio.catalogue.paint import Degree, Form, Status, Transparency
from studio.catalogue.paper import Fibre, Surface
from studio.catalogue.reading import Backing, Condition, Method, Origin, State
from studio.catalogue.stock import StockKind, Unit, WeighedAs
from studio.catalogue.swatch import Application
from studio.colour.lab import ILLUMINANTS
from studio.storage import tables as t


def _one_of(column: str, words: type[StrEnum] | tuple[str, ...]) -> CheckConstraint:
    listed = ", ".join(f"'{word}'" for word in words)
    return CheckConstraint(f"{column} IN ({listed})", name=f"{column}_known")


def _says_something(*columns: str, most: int = 1000) -> list[CheckConstraint]:
    return [
        CheckConstraint(
            f"length(trim({column})) BETWEEN 1 AND {most}", name=f"{column}_says_something"
        )
        for column in columns
    ]


def _within(column: str, low: int, high: int) -> CheckConstraint:
    return CheckConstraint(f"{column} BETWEEN {low} AND {high}", name=f"{column}_in_range")


def _above_zero(column: str) -> CheckConstraint:
    return CheckConstraint(f"{column} > 0 AND {column} <= 1000000", name=f"{column}_above_zero")


def _is_day(*columns: str) -> list[CheckConstraint]:
    """SQLite has no date type, so the text must be a day as ISO 8601 writes it, and exist.

    A day that no month has passes through date() as it is; a modifier makes it the next month's.
    """
    return [
        CheckConstraint(
            f"date({column}, '+0 days') IS {column} AND substr({column}, 1, 4) <> '0000'",
            name=f"{column}_is_a_day",
        ).ddl_if(dialect="sqlite")
        for column in columns
    ]


def _whole(*columns: str) -> list[CheckConstraint]:
    """SQLite keeps 1.5 in an integer column unless it is told not to."""
    return [
        CheckConstraint(
            f"typeof({column}) IN ('integer', 'null')", name=f"{column}_is_whole"
        ).ddl_if(dialect="sqlite")
        for column in columns
    ]


def _is_code() -> CheckConstraint:
    return CheckConstraint("code = upper(code) AND length(code) BETWEEN 1 AND 12", name="code_form")


def _price() -> list[CheckConstraint]:
    return [
        _within("price_hundredths", 0, 100_000_000),
        *_whole("price_hundredths"),
        CheckConstraint(
            "(price_hundredths IS NULL) = (currency IS NULL)", name="price_has_currency"
        ),
        CheckConstraint(
            "length(currency) = 3 AND substr(currency, 1, 1) BETWEEN 'A' AND 'Z' AND "
            "substr(currency, 2, 1) BETWEEN 'A' AND 'Z' AND "
            "substr(currency, 3, 1) BETWEEN 'A' AND 'Z'",
            name="currency_form",
        ),
    ]


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


def _removal() -> list[CheckConstraint]:
    return [
        *_is_day("removed_on"),
        *_says_something("removed_because"),
        CheckConstraint(
            "removed_because IS NULL OR removed_on IS NOT NULL", name="removed_some_day"
        ),
    ]


RULES: dict[Table, list[CheckConstraint]] = {
    t.pigment: [
        _one_of("evidence", Evidence),
        *_says_something("ci_name", "ci_number", "common_name", "chemical_class", "source", "note"),
        *_says_something("looked_up"),
    ],
    t.lightfastness_rating: [
        _one_of("scale", Scale),
        CheckConstraint(
            "(scale = 'ASTM D4303' AND rating IN ('I', 'II', 'III', 'IV', 'V')) OR "
            "(scale = 'blue wool' AND substr(rating, 1, 1) BETWEEN '1' AND '8' AND "
            "(length(rating) = 1 OR length(rating) = 3 AND substr(rating, 2, 1) = '-' AND "
            "substr(rating, 3, 1) BETWEEN '1' AND '8')) OR (scale = 'words' AND "
            "rating IN ('excellent', 'very good', 'fair', 'poor', 'very poor', 'fugitive'))",
            name="rating_on_its_scale",
        ),
        _one_of("evidence", Evidence),
        _within("year", 1800, 2200),
        *_whole("year"),
        *_says_something("medium", "source", "note"),
        *_verified(),
    ],
    t.h_statement: [
        *_says_something("code", "hazard_class", "wording", "source"),
    ],
    t.hazard: [
        _one_of("basis", Basis),
        _one_of("evidence", Evidence),
        _one_of("use", Use),
        *_says_something("agent", "cas", "summary", "basis_detail", "routes", "source"),
        *_verified(),
    ],
    t.hazard_code: [
        _within("hedged", 0, 1),
        *_whole("hedged"),
    ],
    t.hazard_metal: [
        _one_of("metal", METALS),
    ],
    t.hazard_listing: [
        _one_of("list", ListName),
        *_says_something("entry"),
        _one_of("scope", Scope),
    ],
    t.paint: [
        _is_code(),
        *_says_something("maker", "name", "lot", "note"),
        _one_of("form", Form),
        _above_zero("volume_ml"),
        *_price(),
        _one_of("transparency", Transparency),
        _one_of("staining", Degree),
        _one_of("granulation", Degree),
        _one_of("status", Status),
        _within("low_at_ml", 0, 1_000_000),
    ],
    t.paint_pigment: [
        _within("position", 1, 20),
        *_whole("position"),
    ],
    t.paper: [
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
        _within("low_at_mm", 0, 1_000_000),
    ],
    t.mix: [
        _is_code(),
        *_says_something("recipe_key", "name", "note"),
        *_is_day("created_on"),
    ],
    t.mix_component: [
        _within("position", 1, 100),
        _within("parts", 1, 10_000),
        *_whole("position", "parts"),
    ],
    t.swatch: [
        _is_code(),
        _within("water", 0, 1000),
        _within("layers", 1, 100),
        *_whole("layers"),
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
        CheckConstraint("paint_marks_low >= 0", name="paint_marks_low_counts"),
        CheckConstraint("paint_marks_high >= 0", name="paint_marks_high_counts"),
        *_whole("paint_marks_low", "paint_marks_high"),
        *_is_day("made_on"),
        *_removal(),
    ],
    t.reading: [
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
        _one_of("backing", Backing),
        _within("error_delta_e", 0, 100),
        *_says_something("instrument", "geometry", "sample", "note"),
        *_is_day("read_on"),
        *_removal(),
    ],
    t.measurement_file: [
        *_says_something("name"),
        CheckConstraint("length(sha256) = 64 AND sha256 = lower(sha256)", name="sha256_form"),
        CheckConstraint("size >= 0", name="size_counts"),
        *_whole("size"),
        CheckConstraint("content IS NULL OR length(content) = size", name="content_whole"),
        *_is_day("read_on"),
    ],
    t.target: [
        *_says_something("name", "place", "note"),
        CheckConstraint("name = lower(name) AND name = trim(name)", name="name_form"),
        *_lab(),
        _within("spread_delta_e", 0, 200),
        *_is_day("created_on"),
        *_removal(),
    ],
    t.characterisation: [
        CheckConstraint(
            "length(inputs_sha256) = 64 AND inputs_sha256 = lower(inputs_sha256)",
            name="inputs_sha256_form",
        ),
        *_says_something("model"),
        _within("swatches", 1, 1_000_000),
        CheckConstraint("estimated BETWEEN 0 AND swatches", name="estimated_in_range"),
        *_whole("swatches", "estimated"),
        CheckConstraint("length(content) > 0", name="content_there"),
        *_is_day("computed_on"),
    ],
    t.container: [
        CheckConstraint("(paint_id IS NULL) <> (paper_id IS NULL)", name="of_one_thing"),
        CheckConstraint("code = upper(code) AND length(code) BETWEEN 1 AND 20", name="code_form"),
        _one_of("kind", ContainerKind),
        _one_of("unit", Unit),
        CheckConstraint("(unit = 'ml') = (paint_id IS NOT NULL)", name="unit_of_its_thing"),
        CheckConstraint("(capacity IS NULL) = (kind = 'assorted')", name="capacity_known"),
        _above_zero("capacity"),
        *_says_something("lot"),
    ],
    t.stock_event: [
        _one_of("kind", StockKind),
        CheckConstraint(
            "kind = 'discarded' OR (amount IS NULL) = (kind IN ('opened', 'lent', 'returned'))",
            name="amount_where_measured",
        ),
        CheckConstraint(
            "amount > 0 AND amount <= 1000000 OR amount = 0 AND "
            "kind IN ('bought', 'weighed', 'corrected')",
            name="amount_in_range",
        ),
        _within("weight_g", 0, 1_000_000),
        CheckConstraint(
            "(weight_g IS NULL) OR kind IN ('weighed', 'bought')", name="weight_if_weighed"
        ),
        _one_of("weighed_as", WeighedAs),
        CheckConstraint("weighed_as IS NULL OR weight_g IS NOT NULL", name="mark_of_a_weight"),
        _within("estimated", 0, 1),
        *_whole("estimated"),
        CheckConstraint(
            "(other_id IS NULL) OR kind IN ('refilled', 'poured')", name="other_if_poured"
        ),
        CheckConstraint("other_id <> container_id", name="other_is_another"),
        *_price(),
        # Revision 0002 put the lots of the first ledger, of up to 1,000 signs, before the notes.
        *_says_something("note", most=3000),
        *_is_day("happened_on"),
    ],
    t.data_sheet: [
        CheckConstraint("location IS NOT NULL OR label_marks IS NOT NULL", name="says_something"),
        *_says_something("location", "label_marks"),
        *_is_day("dated_on", "recorded_on"),
    ],
    t.fade_test: [
        CheckConstraint("(paint_id IS NULL) <> (mix_id IS NULL)", name="of_one_thing"),
        _is_code(),
        CheckConstraint("ended_on >= started_on", name="ends_after_start"),
        *_says_something("place", "note"),
        *_is_day("started_on", "ended_on"),
    ],
    t.fade_reading: [
        *_lab("covered_"),
        *_lab("exposed_"),
        _within("blue_wool", 0, 8),
        *_whole("blue_wool"),
        *_says_something("note"),
        *_is_day("read_on"),
    ],
    t.painting: [
        _is_code(),
        *_says_something("title", "note"),
        *_says_something("reference_path", most=4000),
        _above_zero("width_mm"),
        _above_zero("height_mm"),
        CheckConstraint(
            "tolerance_delta_e > 0 AND tolerance_delta_e <= 100", name="tolerance_in_range"
        ),
        CheckConstraint(
            "(file_id IS NULL) = (reference_path IS NULL)", name="reference_lies_somewhere"
        ),
        CheckConstraint("finished_on >= started_on", name="finished_after_start"),
        *_is_day("started_on", "finished_on"),
        *_removal(),
    ],
    t.passage: [
        _within("position", 1, 1000),
        *_says_something("name", "note"),
        _one_of("technique", Application),
        CheckConstraint("share > 0 AND share <= 1", name="share_in_range"),
        _within("layers", 1, 100),
        _within("dry_before_next", 0, 1),
        *_whole("position", "layers", "dry_before_next"),
        CheckConstraint("over_id <> id", name="over_another"),
        *_removal(),
    ],
    t.passage_colour: [
        _within("position", 1, 1000),
        *_whole("position"),
        *_lab(),
        *_says_something("given", "place"),
        CheckConstraint("(given IS NULL) <> (place IS NULL)", name="typed_or_picked"),
        CheckConstraint("(place IS NULL) = (file_id IS NULL)", name="picked_from_something"),
        CheckConstraint(
            "(at_x IS NULL) = (place IS NULL) AND (at_y IS NULL) = (place IS NULL) AND "
            "(spread_delta_e IS NULL) = (place IS NULL)",
            name="picked_whole",
        ),
        _within("at_x", 0, 1),
        _within("at_y", 0, 1),
        _within("spread_delta_e", 0, 200),
        *_removal(),
    ],
    t.colour_try: [],
    t.painting_record: [
        CheckConstraint("length(content) > 0", name="content_there"),
        *_is_day("recorded_on"),
    ],
    t.command: [
        CheckConstraint(
            "happened_at LIKE '____-__-__T__:__:__Z' AND "
            "strftime('%Y-%m-%dT%H:%M:%SZ', happened_at, '+0 days') IS happened_at",
            name="happened_at_is_a_moment",
        ).ddl_if(dialect="sqlite"),
        *_says_something("who", "program"),
        *_says_something("words", most=LONGEST_WORDS),
        _one_of("kind", CommandKind),
        CheckConstraint("(kind = 'recorded') = (takes_back IS NULL)", name="takes_back_a_command"),
    ],
    t.change: [
        *_says_something("table_name", "row_key", "part_of"),
        CheckConstraint("(first_id IS NULL) = (last_id IS NULL)", name="ids_whole"),
        CheckConstraint("last_id >= first_id", name="ids_in_order"),
        CheckConstraint("(first_id IS NULL) <> (row_key IS NULL)", name="of_some_row"),
        CheckConstraint(
            "last_id = first_id OR first_id IS NULL OR before IS NULL", name="images_of_one_row"
        ),
        CheckConstraint("after IS NULL OR before IS NOT NULL", name="after_something"),
        *_whole("first_id", "last_id"),
    ],
}


for _table, _rules in RULES.items():
    for _rule in _rules:
        _table.append_constraint(_rule)

metadata: MetaData = t.metadata
"""The whole schema: the tables with their rules."""

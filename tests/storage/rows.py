"""Rows that SQLite accepts, and what makes each of them impossible."""

from collections.abc import Iterable, Iterator
from typing import Final

from tests.storage import painting_cells as paintings

Cells = dict[str, object]

GOOD: Final[dict[str, Cells]] = {
    "pigment": {"ci_name": "PO999", "evidence": "memory", "source": "from memory",
                "looked_up": "the harbour's list, 2026-11: no entry found"},
    "lightfastness_rating": {
        "pigment_id": 1, "scale": "ASTM D4303", "rating": "II", "medium": "watercolour",
        "year": 2004, "source": "harbour notes", "evidence": "owner",
        "verified_on": "2026-05-04", "verified_from": "label",
    },
    "h_statement": {
        "code": "H999", "hazard_class": "tide", "wording": "Wet.", "source": "harbour notes",
    },
    "hazard": {
        "pigment_id": 1, "agent": "bilge water", "summary": "Keep out.", "basis": "none",
        "evidence": "owner", "source": "harbour notes", "verified_on": "2026-05-04",
        "verified_from": "label", "use": "never",
    },
    "hazard_listing": {"hazard_id": 1, "list": "IARC", "entry": "2B", "scope": "group"},
    "hazard_code": {"hazard_id": 1, "code": "H204", "hedged": 0},
    "hazard_metal": {"hazard_id": 1, "metal": "mercury"},
    "paint": {
        "code": "SG", "maker": "Saltings Colour", "name": "Sea Grey", "form": "tube",
        "volume_ml": 14.0, "price_hundredths": 1250, "currency": "GBP", "status": "in use",
        "transparency": "opaque", "staining": "low", "granulation": "high", "lot": "T7",
        "low_at_ml": 0.0,
    },
    "paint_pigment": {"paint_id": 1, "position": 2, "pigment_id": 2},
    "paper": {
        "code": "SR", "maker": "Tidewrack Mill", "name": "Sedge Rag", "fibre": "cotton",
        "weight_gsm": 300.0, "surface": "rough", "sheet_width_mm": 560.0,
        "sheet_height_mm": 760.0, "low_at_sheets": 2.0, "low_at_mm": 900.0,
    },
    "mix": {"code": "M7", "recipe_key": "1*2+2*1", "created_on": "2026-05-04"},
    "mix_component": {"mix_id": 1, "paint_id": 2, "position": 2, "parts": 3},
    "swatch": {
        "code": "S7", "mix_id": 1, "paper_id": 1, "water": 4.0, "layers": 1,
        "application": "flat wash", "made_on": "2026-05-04", "target": "mud",
        "target_lightness": 50.0, "target_a": 1.0, "target_b": 9.0, "state": "dry",
        "lightness": 51.0, "a": 2.0, "b": 8.0, "paint_marks_low": 2, "paint_marks_high": 0,
        "removed_on": "2026-05-06", "removed_because": "smudged",
    },
    "reading": {
        "swatch_id": 1, "lightness": 51.0, "a": 2.0, "b": 8.0, "origin": "from spectrum",
        "given_lightness": 51.0, "given_a": 2.0, "given_b": 8.0, "given_illuminant": "D50",
        "given_observer": 2, "spectrum_start_nm": 400.0, "spectrum_step_nm": 10.0,
        "spectrum_values": "[0.5]", "state": "dry", "method": "spectrophotometer",
        "condition": "M1", "geometry": "45/0", "backing": "white", "sample": "strip 7",
        "file_id": 1, "error_delta_e": 0.3, "read_on": "2026-05-04",
        "removed_on": "2026-05-06", "removed_because": "slipped",
    },
    "measurement_file": {
        "name": "tideline.cxf", "sha256": "0a" * 32, "size": 3, "content": b"mud",
        "read_on": "2026-05-04",
    },
    "target": {
        "name": "wet mud", "lightness": 50.0, "a": 1.0, "b": 9.0, "spread_delta_e": 1.5,
        "place": "30%, 60%", "file_id": 1, "created_on": "2026-05-04", "note": "by the slipway",
    },
    "characterisation": {
        "inputs_sha256": "0b" * 32, "model": "1", "swatches": 12, "estimated": 3,
        "content": b"mud", "computed_on": "2026-05-04",
    },
    "container": {
        "code": "SG-7", "paint_id": 1, "kind": "tube", "unit": "ml", "capacity": 14.0, "lot": "T7",
    },
    "stock_event": {
        "container_id": 1, "kind": "bought", "happened_on": "2026-05-04", "amount": 14.0,
        "weight_g": 25.2, "weighed_as": "full", "estimated": 0, "price_hundredths": 1250,
        "currency": "GBP", "note": "from the quay",
    },
    "data_sheet": {
        "paint_id": 1, "location": "sheets/sg.pdf", "dated_on": "2026-01-05", "label_marks": "AP",
        "recorded_on": "2026-05-04",
    },
    "fade_test": {
        "code": "F7", "paint_id": 1, "paper_id": 1, "place": "boat shed",
        "started_on": "2026-03-01", "note": "class strip",
    },
    "fade_reading": {
        "fade_test_id": 1, "read_on": "2026-05-04", "covered_lightness": 40.0, "covered_a": 10.0,
        "covered_b": -30.0, "exposed_lightness": 43.0, "exposed_a": 9.0, "exposed_b": -28.0,
        "blue_wool": 3, "note": "clear edge",
    },
    "command": {
        "happened_at": "2026-05-04T09:30:00Z", "who": "skipper", "program": "0.5.0",
        "words": "undo", "kind": "undo", "takes_back": 1,
    },
    "change": {
        "command_id": 1, "table_name": "reading", "first_id": 4, "last_id": 4,
        "part_of": "swatch 1", "before": "{}", "after": "{}",
    },
    **paintings.GOOD,
}  # fmt: skip
"""A row of every table that is accepted, before one thing in it is made impossible."""

# What makes another kind of row of the good one.
PAD: Final[Cells] = {"paint_id": None, "paper_id": 1, "kind": "pad", "unit": "sheets"}
USED: Final[Cells] = {"kind": "used", "weight_g": None, "weighed_as": None}
POURED: Final[Cells] = USED | {"kind": "poured", "other_id": 2}
OPENED: Final[Cells] = USED | {"kind": "opened", "amount": None}
WEIGHED: Final[Cells] = {"kind": "weighed", "weighed_as": None}
CORRECTED: Final[Cells] = USED | {"kind": "corrected"}
REMOVED: Final[Cells] = {"removed_on": "2026-05-06", "removed_because": "not the hull after all"}
ADDED: Final[Cells] = {"part_of": None, "before": None, "after": None}
JOINING: Final[Cells] = {"first_id": None, "last_id": None, "row_key": "[1, 2]"}
OF_A_MIX: Final[Cells] = {"paint_id": None, "mix_id": 1}

POSSIBLE: Final[list[tuple[str, Cells]]] = [
    ("stock_event", {"amount": 1_000_000, "weight_g": 1_000_000, "price_hundredths": 0}),
    ("stock_event", {"amount": 0, "weighed_as": "empty"}),
    ("stock_event", WEIGHED | {"amount": 0, "weighed_as": "empty"}),
    ("stock_event", CORRECTED | {"amount": 0, "estimated": 1}),
    ("stock_event", OPENED | {"kind": "discarded"}),
    ("stock_event", POURED),
    ("stock_event", POURED | {"kind": "refilled"}),
    ("data_sheet", {"location": None, "dated_on": None}),
    ("data_sheet", {"label_marks": None}),
    ("fade_test", OF_A_MIX | {"paper_id": None, "note": None}),
    ("fade_test", {"ended_on": "2026-03-01"}),
    ("fade_reading", {"blue_wool": 0}),
    ("reading", {"geometry": None, "backing": None, "sample": None, "file_id": None}),
    ("measurement_file", {"content": None, "size": 400_000_000}),
    ("measurement_file", {"content": b"", "size": 0}),
    ("target", {"spread_delta_e": None, "place": None, "file_id": None, "note": None}),
    ("swatch", {"removed_on": None, "removed_because": None}),
    ("swatch", {"removed_because": None}),
    ("reading", {"removed_on": None, "removed_because": None}),
    ("target", REMOVED),
    ("command", {"kind": "recorded", "takes_back": None, "undone_by": 1}),
    ("change", ADDED | {"last_id": 9}),
    ("change", JOINING),
    ("change", {"after": None}),
    ("characterisation", {"estimated": 12}),
    ("characterisation", {"swatches": 1_000_000, "estimated": 0}),
    ("lightfastness_rating", {"scale": "words", "rating": "fugitive"}),
    ("lightfastness_rating", {"scale": "words", "rating": "very good"}),
    ("hazard_listing", {"scope": None}),
    *paintings.POSSIBLE,
]
"""Rows that look odd and are accepted."""

BAD_WORDS: Final = {
    "pigment": ("evidence",),
    "lightfastness_rating": ("scale", "rating", "evidence"),
    "hazard": ("basis", "evidence", "use"),
    "hazard_listing": ("list", "scope"),
    "hazard_metal": ("metal",),
    "paint": ("form", "transparency", "staining", "granulation", "status"),
    "paper": ("fibre", "surface"),
    "swatch": ("application", "state"),
    "reading": ("origin", "given_illuminant", "state", "method", "condition", "backing"),
    "container": ("kind", "unit"),
    "stock_event": ("kind", "weighed_as"),
    "command": ("kind",),
    **paintings.BAD_WORDS,
}
NO_WORDS: Final = ("brackish", "")
BOUNDS: Final[dict[str, dict[str, tuple[float, float]]]] = {
    "lightfastness_rating": {"year": (1799, 2201)},
    "hazard_code": {"hedged": (-1, 2)},
    "paint": {"volume_ml": (0, 1e6 + 1), "price_hundredths": (-1, 1e8 + 1), "low_at_ml": (-1, 2e6)},
    "paint_pigment": {"position": (0, 21)},
    "paper": {
        "weight_gsm": (19.9, 2000.1), "sheet_width_mm": (0, 2e6), "sheet_height_mm": (0, 2e6),
        "low_at_sheets": (-0.1, 2e6), "low_at_mm": (-0.1, 2e6),
    },
    "mix_component": {"position": (0, 101), "parts": (0, 10_001)},
    "swatch": {
        "water": (-0.1, 1000.1), "layers": (0, 101), "lightness": (-0.1, 100.1),
        "a": (-200.1, 200.1), "b": (-200.1, 200.1), "target_lightness": (-0.1, 100.1),
        "target_a": (-200.1, 200.1), "target_b": (-200.1, 200.1),
    },
    "reading": {
        "lightness": (-0.1, 100.1), "a": (-200.1, 200.1), "b": (-200.1, 200.1),
        "given_lightness": (-0.1, 100.1), "given_a": (-200.1, 200.1), "given_b": (-200.1, 200.1),
        "given_observer": (1, 4), "spectrum_start_nm": (199.9, 1000.1),
        "spectrum_step_nm": (0, 20.1), "error_delta_e": (-0.1, 100.1),
    },
    "target": {
        "lightness": (-0.1, 100.1), "a": (-200.1, 200.1), "b": (-200.1, 200.1),
        "spread_delta_e": (-0.1, 200.1),
    },
    "characterisation": {"swatches": (0, 1e6 + 1), "estimated": (-1, 13)},
    "container": {"capacity": (0, 1e6 + 1)},
    "stock_event": {
        "amount": (-0.5, 1e6 + 1), "weight_g": (-0.1, 1e6 + 1), "estimated": (-1, 2),
        "price_hundredths": (-1, 1e8 + 1),
    },
    "fade_reading": {
        "covered_lightness": (-0.1, 100.1), "covered_a": (-200.1, 200.1),
        "covered_b": (-200.1, 200.1), "exposed_lightness": (-0.1, 100.1),
        "exposed_a": (-200.1, 200.1), "exposed_b": (-200.1, 200.1), "blue_wool": (-1, 9),
    },
    **paintings.BOUNDS,
}  # fmt: skip
"""For each numeric column a value just under and one just over what may be."""

NO_NUMBERS: Final = (float("inf"), float("-inf"), "murky", "", b"\x01")
WHOLE: Final = {
    "lightfastness_rating": ("year",),
    "hazard_code": ("hedged",),
    "paint": ("price_hundredths",),
    "paint_pigment": ("position",),
    "mix_component": ("position", "parts"),
    "swatch": ("layers", "paint_marks_low", "paint_marks_high"),
    "measurement_file": ("size",),
    "characterisation": ("swatches", "estimated"),
    "stock_event": ("estimated", "price_hundredths"),
    "fade_reading": ("blue_wool",),
    "change": ("first_id", "last_id"),
    **paintings.WHOLE,
}
"""Columns of whole numbers; a half more than the good row has is within their bounds."""

TEXTS: Final = {
    "pigment": (
        "ci_name", "ci_number", "common_name", "chemical_class", "source", "note", "looked_up",
    ),
    "hazard_listing": ("entry",),
    "lightfastness_rating": ("medium", "source", "note", "verified_from"),
    "h_statement": ("code", "hazard_class", "wording", "source"),
    "hazard": (
        "agent", "cas", "summary", "basis_detail", "routes", "source", "verified_from",
    ),
    "paint": ("maker", "name", "lot", "note"),
    "paper": ("maker", "name", "note"),
    "mix": ("recipe_key", "name", "note"),
    "swatch": ("kept_at", "note", "target", "removed_because"),
    "reading": ("instrument", "geometry", "sample", "note", "removed_because"),
    "measurement_file": ("name",),
    "target": ("name", "place", "note"),
    "characterisation": ("model",),
    "container": ("lot",),
    "stock_event": ("note",),
    "data_sheet": ("location", "label_marks"),
    "fade_test": ("place", "note"),
    "fade_reading": ("note",),
    "command": ("who", "program", "words"),
    "change": ("table_name", "part_of"),
    **paintings.TEXTS,
}  # fmt: skip
LONGEST: Final = {
    ("stock_event", "note"): 3000, ("command", "words"): 4000, **paintings.LONGEST,
}  # fmt: skip
"""The greatest length of a text where it is not 1,000."""

DAYS: Final = {
    "lightfastness_rating": ("verified_on",),
    "hazard": ("verified_on",),
    "mix": ("created_on",),
    "swatch": ("made_on", "removed_on"),
    "reading": ("read_on", "removed_on"),
    "measurement_file": ("read_on",),
    "target": ("created_on", "removed_on"),
    "characterisation": ("computed_on",),
    "stock_event": ("happened_on",),
    "data_sheet": ("dated_on", "recorded_on"),
    "fade_test": ("started_on", "ended_on"),
    "fade_reading": ("read_on",),
    **paintings.DAYS,
}
NO_DAYS: Final = (
    "yesterday",
    "2026-13-01",
    "2026-02-32",
    "2026-02-30",
    "0000-05-01",
    "26-05-04",
    "2026-05-04 12:00",
    "20260504",
    "",
    20260504,
)
CODES: Final = {
    "paint": ("", "m1", "ABCDEFGHIJKLM"),
    "paper": ("", "m1", "ABCDEFGHIJKLM"),
    "mix": ("", "m1", "ABCDEFGHIJKLM"),
    "swatch": ("", "m1", "ABCDEFGHIJKLM"),
    "container": ("", "sg-2", "SG-2" + "0" * 17),
    "fade_test": ("", "f1", "ABCDEFGHIJKLM"),
    **paintings.CODES,
}
UNLIKELY: Final[dict[str, dict[str, list[Cells]]]] = {
    "lightfastness_rating": {
        "rating_on_its_scale": [
            {"scale": "blue wool"}, {"scale": "blue wool", "rating": "9"},
            {"scale": "blue wool", "rating": "3-99"}, {"rating": "6"},
            {"scale": "words"}, {"scale": "words", "rating": "good"}, {"rating": "fugitive"},
        ],
        "verified_from_something": [{"verified_on": None}, {"verified_from": None}],
    },
    "hazard": {"verified_from_something": [{"verified_on": None}, {"verified_from": None}]},
    "paint": {
        "currency_form": [{"currency": code} for code in ("12é", "gbp", "POUND", "£", "")],
        "price_has_currency": [{"currency": None}, {"price_hundredths": None}],
    },
    "paper": {"sheet_has_two_sides": [{"sheet_width_mm": None}, {"sheet_height_mm": None}]},
    "swatch": {
        "target_has_a_name": [{"target": None}],
        "target_whole": [{"target_lightness": None}, {"target_a": None}, {"target_b": None}],
        "removed_some_day": [{"removed_on": None}],
        "paint_marks_low_counts": [{"paint_marks_low": -1}],
        "paint_marks_high_counts": [{"paint_marks_high": -1}],
    },
    "reading": {
        "of_one_thing": [{"paper_id": 1}, {"swatch_id": None}],
        "spectrum_whole": [
            {"spectrum_values": None, "origin": "measured"}, {"spectrum_start_nm": None},
            {"spectrum_step_nm": None},
        ],
        "origin_of_spectrum": [
            {"origin": "measured"},
            {"spectrum_values": None, "spectrum_start_nm": None, "spectrum_step_nm": None},
        ],
        "removed_some_day": [{"removed_on": None}],
    },
    "measurement_file": {
        "sha256_form": [{"sha256": digest} for digest in ("0a" * 31, "0a" * 33, "0A" * 32, "")],
        "size_counts": [{"size": -1, "content": None}],
        "content_whole": [{"size": 2}, {"size": 4}, {"content": b""}],
    },
    "target": {
        "name_form": [{"name": name} for name in ("Wet mud", " wet mud", "wet mud ")],
        "removed_some_day": [{"removed_because": "not the hull after all"}],
        "removed_on_is_a_day": [{"removed_on": "2026-02-30"}],
        "removed_because_says_something": [REMOVED | {"removed_because": " "}],
    },
    "command": {
        "takes_back_a_command": [{"takes_back": None}, {"kind": "recorded"}],
        "happened_at_is_a_moment": [
            {"happened_at": moment}
            for moment in (
                "2026-05-04", "2026-05-04 09:30:00", "2026-05-04T09:30:00", "2026-02-30T09:30:00Z",
                "2026-05-04T25:30:00Z", "now", "",
            )
        ],
    },
    "change": {
        "row_key_says_something": [JOINING | {"row_key": " "}],
        "of_some_row": [{"row_key": "[1, 2]"}, {"first_id": None, "last_id": None}],
        "ids_whole": [{"first_id": None, "row_key": "[1]"}, {"last_id": None}],
        "ids_in_order": [ADDED | {"last_id": 3}],
        "images_of_one_row": [{"last_id": 5}],
        "after_something": [{"before": None}],
    },
    "characterisation": {
        "inputs_sha256_form": [
            {"inputs_sha256": digest} for digest in ("0b" * 31, "0b" * 33, "0B" * 32, "")
        ],
        "content_there": [{"content": b""}],
    },
    "container": {
        "of_one_thing": [PAD | {"paper_id": None}, {"paper_id": 1}],
        "unit_known": [PAD | {"unit": unit} for unit in ("reams", "", "Sheets")],
        "unit_of_its_thing": [{"unit": "sheets"}, {"unit": "mm"}, PAD | {"unit": "ml"}],
        "capacity_known": [{"capacity": None}, {"kind": "assorted"}],
    },
    "stock_event": {
        "kind_known": [USED | {"kind": kind} for kind in ("sunk", "counted", "Used")],
        "amount_where_measured": [
            *(row | {"amount": None} for row in ({}, USED, POURED, WEIGHED, CORRECTED)),
            *(OPENED | {"amount": 1.0, "kind": kind} for kind in ("opened", "lent", "returned")),
        ],
        "amount_in_range": [
            *(USED | {"amount": amount} for amount in (0, -1.0, 1_000_001)),
            *(POURED | {"amount": 0, "kind": kind} for kind in ("poured", "refilled")),
            USED | {"kind": "discarded", "amount": 0},
            WEIGHED | {"amount": -0.5},
            CORRECTED | {"amount": -0.5},
        ],
        "weight_if_weighed": [
            row | {"weight_g": 20.0} for row in (USED, OPENED, POURED, CORRECTED)
        ],
        "weighed_as_known": [WEIGHED | {"weighed_as": mark} for mark in ("half", "", "Full")],
        "mark_of_a_weight": [
            USED | {"weighed_as": "full"},
            WEIGHED | {"weighed_as": "empty", "weight_g": None},
        ],
        "other_if_poured": [{"other_id": 2}, USED | {"other_id": 2}, WEIGHED | {"other_id": 2}],
        "other_is_another": [
            POURED | {"other_id": 1}, POURED | {"kind": "refilled", "other_id": 1},
        ],
        "currency_form": [{"currency": code} for code in ("12é", "gbp", "POUND", "£", "")],
        "price_has_currency": [{"currency": None}, {"price_hundredths": None}],
    },
    "data_sheet": {"says_something": [{"location": None, "dated_on": None, "label_marks": None}]},
    "fade_test": {
        "of_one_thing": [{"paint_id": None}, {"mix_id": 1}],
        "ends_after_start": [{"ended_on": "2026-02-28"}],
    },
    **paintings.UNLIKELY,
}  # fmt: skip
"""Rule -> the cells that contradict each other by it."""

NEEDED: Final = {
    "measurement_file": {"name", "sha256", "size", "read_on"},
    "target": {"name", "lightness", "a", "b", "created_on"},
    "command": {"happened_at", "who", "program", "words", "kind"},
    "change": {"command_id", "table_name"},
    "characterisation": {
        "inputs_sha256", "model", "swatches", "estimated", "content", "computed_on",
    },
    "container": {"code", "kind", "unit"},
    "stock_event": {"container_id", "kind", "happened_on", "estimated"},
    "data_sheet": {"paint_id", "recorded_on"},
    "fade_test": {"code", "place", "started_on"},
    "fade_reading": {
        "fade_test_id", "read_on", "covered_lightness", "covered_a", "covered_b",
        "exposed_lightness", "exposed_a", "exposed_b",
    },
    **paintings.NEEDED,
}  # fmt: skip
PARENTS: Final = {
    "lightfastness_rating": ("pigment_id",),
    "hazard": ("pigment_id",),
    "hazard_code": ("hazard_id",),
    "hazard_metal": ("hazard_id",),
    "hazard_listing": ("hazard_id",),
    "paint_pigment": ("paint_id", "pigment_id"),
    "mix_component": ("mix_id", "paint_id"),
    "swatch": ("mix_id", "paper_id"),
    "reading": ("swatch_id", "file_id"),
    "target": ("file_id",),
    "container": ("paint_id",),
    "stock_event": ("container_id",),
    "data_sheet": ("paint_id",),
    "fade_test": ("paint_id", "paper_id"),
    "fade_reading": ("fade_test_id",),
    "command": ("takes_back",),
    "change": ("command_id",),
    **paintings.PARENTS,
}
ORPHANS: Final[list[tuple[str, Cells]]] = [
    ("command", {"undone_by": 99_999}),
    ("hazard_code", {"code": "H000"}),
    ("reading", {"swatch_id": None, "paper_id": 99_999}),
    ("container", PAD | {"paper_id": 99_999}),
    ("stock_event", POURED | {"other_id": 99_999}),
    ("fade_test", OF_A_MIX | {"mix_id": 99_999}),
]
DOUBLES: Final[list[tuple[str, Cells]]] = [
    ("pigment", {}),
    ("lightfastness_rating", {}),
    ("h_statement", {}),
    ("hazard", {}),
    ("hazard_code", {}),
    ("hazard_metal", {}),
    ("hazard_listing", {"scope": None}),
    ("paint", {"code": "OTHER"}),
    ("paint", {"name": "Other"}),
    ("paint_pigment", {"position": 3}),
    ("paint_pigment", {"pigment_id": 3}),
    ("paper", {"code": "OTHER"}),
    ("paper", {"name": "Other"}),
    ("mix", {"code": "OTHER"}),
    ("mix", {"recipe_key": "2*1"}),
    ("mix_component", {"position": 3}),
    ("mix_component", {"paint_id": 3}),
    ("swatch", {}),
    ("measurement_file", {"name": "copy of tideline.cxf"}),
    ("target", {"lightness": 20.0}),
    ("characterisation", {"model": "2"}),
    ("container", {}),
    ("data_sheet", {}),
    ("fade_test", {}),
    ("fade_reading", {}),
    *paintings.DOUBLES,
]


def impossible(table: str) -> Iterator[Cells]:
    """What differs from the good row of a table in every row above that a CHECK must refuse."""
    of_column: list[tuple[str, Iterable[object]]] = [
        *((column, NO_WORDS) for column in BAD_WORDS.get(table, ())),
        *((column, NO_DAYS) for column in DAYS.get(table, ())),
        *((column, (" ",)) for column in TEXTS.get(table, ())),
        *BOUNDS.get(table, {}).items(),
        *((column, (half_more(table, column),)) for column in WHOLE.get(table, ())),
        ("code", CODES.get(table, ())),
    ]
    for column, values in of_column:
        yield from ({column: value} for value in values)
    for listed in UNLIKELY.get(table, {}).values():
        yield from listed


def half_more(table: str, column: str) -> float:
    """A half more than a column of whole numbers has in the good row."""
    return float(str(GOOD[table][column])) + 0.5

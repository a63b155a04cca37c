"""Rows that SQLite accepts, and what makes each of them impossible."""

from typing import Final

Cells = dict[str, object]

LONG: Final = "x" * 1001

GOOD: Final[dict[str, Cells]] = {
    "pigment": {"ci_name": "PO999", "evidence": "memory", "source": "from memory"},
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
        "evidence": "owner", "source": "harbour notes",
    },
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
        "sheet_height_mm": 760.0, "low_at_sheets": 2.0,
    },
    "mix": {"code": "M7", "recipe_key": "1*2+2*1", "created_on": "2026-05-04"},
    "mix_component": {"mix_id": 1, "paint_id": 2, "position": 2, "parts": 3},
    "swatch": {
        "code": "S7", "mix_id": 1, "paper_id": 1, "water": 4.0, "layers": 1,
        "application": "flat wash", "made_on": "2026-05-04", "target": "mud",
        "target_lightness": 50.0, "target_a": 1.0, "target_b": 9.0, "state": "dry",
        "lightness": 51.0, "a": 2.0, "b": 8.0,
    },
    "reading": {
        "swatch_id": 1, "lightness": 51.0, "a": 2.0, "b": 8.0, "origin": "from spectrum",
        "given_lightness": 51.0, "given_a": 2.0, "given_b": 8.0, "given_illuminant": "D50",
        "given_observer": 2, "spectrum_start_nm": 400.0, "spectrum_step_nm": 10.0,
        "spectrum_values": "[0.5]", "state": "dry", "method": "spectrophotometer",
        "condition": "M1", "error_delta_e": 0.3, "read_on": "2026-05-04",
    },
    "stock_event": {
        "paint_id": 1, "kind": "bought", "amount": 14.0, "happened_on": "2026-05-04",
        "price_hundredths": 1250, "currency": "GBP", "lot": "T7",
    },
}  # fmt: skip
"""A row of every table that is accepted, before one thing in it is made impossible."""

BAD_WORDS: Final = {
    "pigment": ("evidence",),
    "lightfastness_rating": ("scale", "rating", "evidence"),
    "hazard": ("basis", "evidence"),
    "hazard_metal": ("metal",),
    "paint": ("form", "transparency", "staining", "granulation", "status"),
    "paper": ("fibre", "surface"),
    "swatch": ("application", "state"),
    "reading": ("origin", "given_illuminant", "state", "method", "condition"),
    "stock_event": ("kind",),
}
BOUNDS: Final[dict[str, dict[str, tuple[float, float]]]] = {
    "lightfastness_rating": {"year": (1799, 2201)},
    "hazard_code": {"hedged": (-1, 2)},
    "paint": {"volume_ml": (0, 1e6 + 1), "price_hundredths": (-1, 1e8 + 1), "low_at_ml": (-1, 2e6)},
    "paint_pigment": {"position": (0, 21)},
    "paper": {
        "weight_gsm": (19.9, 2000.1), "sheet_width_mm": (0, 2e6), "sheet_height_mm": (0, 2e6),
        "low_at_sheets": (-0.1, 2e6),
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
    "stock_event": {"amount": (0, 1e6 + 1), "price_hundredths": (-1, 1e8 + 1)},
}  # fmt: skip
"""For each numeric column a value just under and one just over what may be."""

TEXTS: Final = {
    "pigment": ("ci_name", "ci_number", "common_name", "chemical_class", "source", "note"),
    "lightfastness_rating": ("medium", "source", "note", "verified_from"),
    "h_statement": ("code", "hazard_class", "wording", "source"),
    "hazard": ("agent", "cas", "summary", "basis_detail", "routes", "source"),
    "paint": ("maker", "name", "lot", "note"),
    "paper": ("maker", "name", "note"),
    "mix": ("recipe_key", "name", "note"),
    "swatch": ("kept_at", "note", "target"),
    "reading": ("instrument", "note"),
    "stock_event": ("lot", "note"),
}
DAYS: Final = {
    "lightfastness_rating": "verified_on",
    "mix": "created_on",
    "swatch": "made_on",
    "reading": "read_on",
    "stock_event": "happened_on",
}
NO_DAYS: Final = (
    "yesterday",
    "2026-13-01",
    "2026-02-32",
    "2026-02-30",
    "0000-05-01",
    "26-05-04",
    "2026-05-04 12:00",
    20260504,
)
CODES: Final = ("", "m1", "ABCDEFGHIJKLM")
UNLIKELY: Final[list[tuple[str, Cells]]] = [
    ("lightfastness_rating", {"scale": "blue wool"}),
    ("lightfastness_rating", {"scale": "blue wool", "rating": "9"}),
    ("lightfastness_rating", {"scale": "blue wool", "rating": "3-99"}),
    ("paint", {"price_hundredths": 100, "currency": "12é"}),
    ("paint", {"price_hundredths": 99.5, "currency": "GBP"}),
    ("swatch", {"layers": 1.5}),
    ("mix_component", {"parts": 1.5}),
    ("lightfastness_rating", {"rating": "6"}),
    ("lightfastness_rating", {"verified_on": None}),
    ("lightfastness_rating", {"verified_from": None}),
    ("hazard", {"verified_on": "2026-05-04"}),
    ("paint", {"currency": None}),
    ("paint", {"price_hundredths": None}),
    ("paint", {"currency": "gbp"}),
    ("paint", {"currency": "POUND"}),
    ("paper", {"sheet_width_mm": None}),
    ("paper", {"sheet_height_mm": None}),
    ("swatch", {"target": None}),
    ("swatch", {"target_lightness": None}),
    ("swatch", {"target_b": None}),
    ("reading", {"paper_id": 1}),
    ("reading", {"swatch_id": None}),
    ("reading", {"spectrum_values": None}),
    ("reading", {"spectrum_start_nm": None}),
    ("reading", {"spectrum_step_nm": None}),
    ("reading", {"origin": "measured"}),
    ("stock_event", {"paper_id": 1}),
    ("stock_event", {"paint_id": None}),
    ("stock_event", {"currency": None}),
    ("stock_event", {"price_hundredths": None}),
    ("stock_event", {"kind": "counted", "amount": -1.0}),
]
PARENTS: Final = {
    "lightfastness_rating": ("pigment_id",),
    "hazard": ("pigment_id",),
    "hazard_code": ("hazard_id", "code"),
    "hazard_metal": ("hazard_id",),
    "paint_pigment": ("paint_id", "pigment_id"),
    "mix_component": ("mix_id", "paint_id"),
    "swatch": ("mix_id", "paper_id"),
    "reading": ("swatch_id",),
    "stock_event": ("paint_id",),
}
DOUBLES: Final[list[tuple[str, Cells]]] = [
    ("pigment", {}),
    ("lightfastness_rating", {}),
    ("h_statement", {}),
    ("hazard", {}),
    ("hazard_code", {}),
    ("hazard_metal", {}),
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
]

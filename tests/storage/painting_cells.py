"""Rows of paintings that a database accepts, and what makes each of them impossible."""

from typing import Final

Cells = dict[str, object]

MARK: Final[Cells] = {"removed_on": "2026-05-06", "removed_because": "washed off"}
TYPED: Final[Cells] = {
    "given": "#5b5f6e", "place": None, "at_x": None, "at_y": None, "spread_delta_e": None,
    "file_id": None,
}  # fmt: skip

GOOD: Final[dict[str, Cells]] = {
    "painting": {
        "code": "P7", "title": "Low water", "paper_id": 1, "width_mm": 380.0, "height_mm": 280.0,
        "tolerance_delta_e": 3.0, "started_on": "2026-05-04", "file_id": 1,
        "reference_path": "/home/skipper/creek.png", "note": "from the hard", **MARK,
    },
    "passage": {
        "painting_id": 1, "position": 2, "name": "far bank", "technique": "flat wash",
        "share": 0.25, "layers": 1, "dry_before_next": 0, "over_id": 1, "note": "soft edge",
    },
    "passage_colour": {
        "passage_id": 1, "position": 1, "lightness": 50.0, "a": 1.0, "b": 9.0,
        "place": "at 40%,62%, 14 x 14 px", "at_x": 0.4, "at_y": 0.62, "spread_delta_e": 1.5,
        "file_id": 1, **MARK,
    },
    "colour_try": {"colour_id": 1, "swatch_id": 1},
    "painting_record": {"painting_id": 1, "recorded_on": "2026-05-09", "content": "{}"},
}  # fmt: skip
PARENT_ROWS: Final[dict[str, Cells]] = {
    "painting": {"code": "P1"},
    "passage": {"name": "sky", "over_id": None},
    "passage_colour": TYPED,
}
"""What the rows above refer to, each with the id 1."""

POSSIBLE: Final[list[tuple[str, Cells]]] = [
    ("painting", {"file_id": None, "reference_path": None, "removed_on": None,
                  "removed_because": None, "note": None}),
    ("painting", {"finished_on": "2026-05-04", "tolerance_delta_e": 100.0}),
    ("passage", {"share": 1.0, "over_id": None, "note": None, "dry_before_next": 1}),
    ("passage", {"name": "sky", **MARK}),
    ("passage_colour", TYPED),
    ("passage_colour", {"at_x": 0.0, "at_y": 1.0, "spread_delta_e": 0.0}),
]  # fmt: skip
BAD_WORDS: Final = {"passage": ("technique",)}
BOUNDS: Final[dict[str, dict[str, tuple[float, float]]]] = {
    "painting": {
        "width_mm": (0, 1e6 + 1), "height_mm": (0, 1e6 + 1), "tolerance_delta_e": (0, 100.1),
    },
    "passage": {
        "position": (0, 1001), "share": (0, 1.001), "layers": (0, 101), "dry_before_next": (-1, 2),
    },
    "passage_colour": {
        "position": (0, 1001), "lightness": (-0.1, 100.1), "a": (-200.1, 200.1),
        "b": (-200.1, 200.1), "at_x": (-0.001, 1.001), "at_y": (-0.001, 1.001),
        "spread_delta_e": (-0.1, 200.1),
    },
}  # fmt: skip
WHOLE: Final = {
    "passage": ("position", "layers", "dry_before_next"),
    "passage_colour": ("position",),
}
TEXTS: Final = {
    "painting": ("title", "reference_path", "note", "removed_because"),
    "passage": ("name", "note"),
    "passage_colour": ("place", "removed_because"),
}
LONGEST: Final = {("painting", "reference_path"): 4000}
DAYS: Final = {
    "painting": ("started_on", "removed_on"),
    "passage_colour": ("removed_on",),
    "painting_record": ("recorded_on",),
}
CODES: Final = {"painting": ("", "p1", "ABCDEFGHIJKLM")}
UNLIKELY: Final[dict[str, dict[str, list[Cells]]]] = {
    "painting": {
        "finished_after_start": [{"finished_on": "2026-05-03"}],
        "finished_on_is_a_day": [{"finished_on": "2026-05-32"}],
        "reference_lies_somewhere": [{"file_id": None}, {"reference_path": None}],
        "removed_some_day": [{"removed_on": None}],
    },
    "passage": {
        "over_another": [{"id": 7, "over_id": 7}],
        "removed_some_day": [{"removed_because": "washed off"}],
        "removed_on_is_a_day": [{"removed_on": "2026-02-30"}],
        "removed_because_says_something": [MARK | {"removed_because": " "}],
    },
    "passage_colour": {
        "typed_or_picked": [{"given": "#5b5f6e"}, TYPED | {"given": None}],
        "given_says_something": [TYPED | {"given": " "}],
        "picked_from_something": [{"file_id": None}, TYPED | {"file_id": 1}],
        "picked_whole": [{"at_x": None}, {"at_y": None}, {"spread_delta_e": None}],
        "removed_some_day": [{"removed_on": None}],
    },
    "painting_record": {"content_there": [{"content": ""}]},
}
NEEDED: Final = {
    "painting": {
        "code", "title", "paper_id", "width_mm", "height_mm", "tolerance_delta_e", "started_on",
    },
    "passage": {"painting_id", "position", "name", "technique", "layers", "dry_before_next"},
    "passage_colour": {"passage_id", "position", "lightness", "a", "b"},
}  # fmt: skip
PARENTS: Final = {
    "painting": ("paper_id", "file_id"),
    "passage": ("painting_id", "over_id"),
    "passage_colour": ("passage_id", "file_id"),
    "colour_try": ("colour_id", "swatch_id"),
    "painting_record": ("painting_id",),
}
DOUBLES: Final[list[tuple[str, Cells]]] = [
    ("painting", {}),
    ("passage", {"position": 3}),
    ("colour_try", {}),
    ("painting_record", {"recorded_on": "2026-05-10"}),
]

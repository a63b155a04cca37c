"""The words of a painter for tables and fields of the history."""

from typing import Final

from studio.actions.told_rows import FieldChange
from studio.catalogue.history import Cell, Count
from studio.sheets.screen import MINUS

NOUNS: Final = {
    "swatch": ("swatch", "swatches"),
    "reading": ("reading", "readings"),
    "mix": ("mix", "mixes"),
    "paint": ("paint", "paints"),
    "paper": ("paper", "papers"),
    "container": ("container", "containers"),
    "stock_event": ("ledger entry", "ledger entries"),
    "target": ("target", "targets"),
    "fade_test": ("fade test", "fade tests"),
    "fade_reading": ("fade reading", "fade readings"),
    "painting": ("painting", "paintings"),
    "passage": ("passage", "passages"),
    "passage_colour": ("colour of a passage", "colours of passages"),
    "colour_try": ("try", "tries"),
    "painting_record": ("record of a painting", "records of paintings"),
    "pigment": ("pigment", "pigments"),
    "lightfastness_rating": ("rating", "ratings"),
    "h_statement": ("statement", "statements"),
    "hazard": ("caution", "cautions"),
    "data_sheet": ("data sheet", "data sheets"),
    "measurement_file": ("file", "files"),
    "mix_component": ("paint of a mix", "paints of mixes"),
    "paint_pigment": ("pigment of a paint", "pigments of paints"),
    "hazard_code": ("statement of a caution", "statements of cautions"),
    "hazard_metal": ("metal of a caution", "metals of cautions"),
}

JOINING: Final = frozenset({"mix_component", "paint_pigment", "hazard_code", "hazard_metal"})

_FIELDS: Final = {
    "lightness": "L*",
    "a": "a*",
    "b": "b*",
    "target_lightness": "L* of the target",
    "target_a": "a* of the target",
    "target_b": "b* of the target",
    "given_lightness": "L* as read",
    "given_a": "a* as read",
    "given_b": "b* as read",
    "given_illuminant": "illuminant",
    "given_observer": "observer",
    "covered_lightness": "covered L*",
    "covered_a": "covered a*",
    "covered_b": "covered b*",
    "exposed_lightness": "exposed L*",
    "exposed_a": "exposed a*",
    "exposed_b": "exposed b*",
    "kept_at": "card",
    "target": "made for",
    "application": "laid",
    "error_delta_e": "error ΔE00",
    "spread_delta_e": "spread ΔE00",
    "tolerance_delta_e": "passes within ΔE00",
    "width_mm": "width in mm",
    "height_mm": "height in mm",
    "reference_path": "picture lies at",
    "dry_before_next": "dry before the next",
    "at_x": "across",
    "at_y": "down",
    "removed_on": "removed on",
    "removed_because": "removed because",
    "spectrum_values": "spectrum",
    "volume_ml": "volume in ml",
    "low_at_ml": "low at ml",
    "weight_gsm": "g/m²",
    "weight_g": "weight in g",
    "price_hundredths": "price in hundredths",
    "ci_name": "pigment",
}
_LONGEST: Final = 40


def counts_text(counts: tuple[Count, ...]) -> str:
    """What a command changed, as `1 swatch and 1 reading added, 1 paint changed`."""
    shown = [each for each in counts if each.table not in JOINING] or list(counts)
    parts = []
    for words, numbers in (
        ("added", [(each.table, each.added) for each in shown]),
        ("changed", [(each.table, each.changed) for each in shown]),
        ("taken out", [(each.table, each.taken_out) for each in shown]),
    ):
        some = [_counted(table, number) for table, number in numbers if number]
        if some:
            parts.append(f"{listed(some)} {words}")
    return ", ".join(parts)


def listed(words: list[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1])))


def field_text(change: FieldChange) -> str:
    """A field that changed, as `card: box 1 → box 2`."""
    before, after = _cell(change.before), _cell(change.after)
    return f"{field_word(change.field)}: {before} → {after}"


def field_word(field: str) -> str:
    """What a painter calls a field."""
    return _FIELDS.get(field, field.replace("_", " "))


def _counted(table: str, number: int) -> str:
    return f"{number:,} {NOUNS[table][number != 1]}"


def _cell(cell: Cell) -> str:
    if cell is None:
        return "nothing"
    if isinstance(cell, float):
        return f"{cell:.6g}".replace("-", MINUS)
    text = str(cell)
    return text if len(text) <= _LONGEST else f"{text[: _LONGEST - 2]} …"

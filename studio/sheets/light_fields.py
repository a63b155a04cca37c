"""Colours under other lights as JSON; README.md documents the names."""

from studio.actions.compare_swatches import Comparison, no_spectrum_text
from studio.actions.swatch_rows import SwatchRow
from studio.colour.lights import REFERENCE
from studio.colour.metamerism import UnderLight
from studio.sheets.fields import Fields, lab_fields, recipe_fields, separation_fields


def under_light_fields(under: UnderLight) -> Fields:
    """A pair of colours under one light."""
    by_xyz = under.index_by_xyz
    return {
        "light": under.light,
        "delta_e": round(under.delta_e, 4),
        "reference_delta_e": round(under.reference_delta_e, 4),
        "index": round(under.index, 4),
        "index_by_xyz": None if by_xyz is None else round(by_xyz, 4),
        "breaks": under.breaks,
    }


def comparison_fields(comparison: Comparison, standard: SwatchRow, sample: SwatchRow) -> Fields:
    """Two swatches beside each other, under D50 and other lights."""
    apart = comparison.separation
    lacking = comparison.without_spectrum
    return {
        "swatches": [_swatch(row) for row in (standard, sample)],
        "illuminant": REFERENCE,
        "observer": 2,
        "delta_e": round(comparison.delta_e, 4),
        **separation_fields(apart),
        "lights": [under_light_fields(each) for each in comparison.lights],
        "note": no_spectrum_text(*lacking) if lacking else None,
    }


def _swatch(row: SwatchRow) -> Fields:
    swatch, mix, recipe, paper = row
    return {
        "swatch": swatch.facts.code,
        "mix": mix.code,
        "recipe": recipe_fields(recipe),
        "paper": paper.facts.code,
        "state": swatch.state,
        "lab": lab_fields(swatch.lab),
    }

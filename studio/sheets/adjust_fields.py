"""What to do about a test patch, as JSON; README.md documents the names."""

from studio.actions.adjustment import Adjustment, Proposed
from studio.sheets.drying_fields import own_shift_fields
from studio.sheets.fields import Fields, lab_fields, recipe_fields, separation_fields
from studio.sheets.result_fields import target_fields
from studio.sheets.unknown_fields import unknown_fields


def adjust_fields(result: Adjustment) -> Fields:
    """A test patch beside its target, and the ways to bring it nearer in order."""
    facts = result.swatch.facts
    return {
        "swatch": facts.code,
        "mix": result.mix.code,
        "recipe": recipe_fields(result.recipe),
        "puddle_parts": sum(part.parts for part in result.recipe),
        "water": facts.water,
        "layers": facts.layers,
        "paper": result.paper.facts.code,
        "next_paper": result.next_paper.facts.code,
        "target": target_fields(result.target),
        "lab": lab_fields(result.lab),
        "delta_e": round(result.delta_e, 4),
        "needed": separation_fields(result.needed),
        "right": result.is_right,
        "reached": result.is_reached,
        "model_delta_e": round(result.model_delta_e, 4),
        "reading_error_delta_e": result.reading_error,
        "spectrum_estimated": result.estimated,
        "drying": None
        if result.drying is None
        else {
            "wet_lab": lab_fields(result.drying.wet.lab),
            **own_shift_fields(result.drying.own),
        },
        "ways": [_way_fields(each) for each in result.proposed],
        "not_characterised": unknown_fields(result.unknown),
        "never_use": [paint.facts.code for paint in result.never],
        "begin_anew": result.begin_anew,
    }


def _way_fields(each: Proposed) -> Fields:
    return {
        "rank": each.rank,
        "way": each.way,
        "add": [{"paint": added.paint.facts.code, "parts": added.parts} for added in each.added],
        "add_water_parts": each.added_water,
        "recipe": recipe_fields(each.recipe),
        "water": each.water,
        "layers": round(each.layers, 4),
        "lab": lab_fields(each.lab),
        "delta_e": round(each.delta_e, 4),
        "error_delta_e": round(each.error, 4),
        "too_uncertain": each.is_too_uncertain,
        **separation_fields(each.separation),
        "next": each.next_line,
    }

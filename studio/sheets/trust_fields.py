"""How far predictions can be trusted, as JSON; README.md documents the names."""

from studio.actions.trust import Errors, Trust, recipe_of
from studio.sheets.fields import Fields, lab_fields, recipe_fields


def trust_fields(trust: Trust) -> Fields:
    """The errors, every swatch that was predicted, and what the model rests on."""
    model = trust.model
    return {
        "measured": model.measured,
        "estimated": model.estimated,
        "whole_mixes": _errors(trust.mixes),
        "whole_sets": _errors(trust.sets),
        "not_left_out": trust.staying,
        "paints": [
            {"paint": each.paint.facts.code, **_errors(each.errors)} for each in trust.paints
        ],
        "swatches": [
            {
                "swatch": each.patch.code,
                "mix": each.patch.mix.code,
                "recipe": recipe_fields(recipe_of(model, each.patch)),
                "water": each.patch.swatch.facts.water,
                "layers": each.patch.swatch.facts.layers,
                "measured_lab": lab_fields(each.measured),
                "predicted_lab": lab_fields(each.predicted),
                "delta_e": round(each.delta_e, 2),
                "expected_delta_e": round(each.expected, 2),
            }
            for each in trust.foretold
        ],
        "contradictory": [
            {"swatches": list(each.codes), "because": each.why, "delta_e": round(each.delta_e, 2)}
            for each in model.contradictions
        ],
        "left_aside": [
            {"swatch": each.swatch.facts.code, "because": each.why}
            for each in model.inputs.left_aside
        ],
        "unknown": [
            {"paint": each.paint.facts.code, "because": each.why, "missing": each.missing}
            for each in model.inputs.unknown
        ],
    }


def _errors(errors: Errors) -> Fields:
    return {
        "count": errors.count,
        "mean_delta_e": round(errors.mean, 2),
        "median_delta_e": round(errors.median, 2),
        "ninety_percent_delta_e": round(errors.ninety, 2),
        "expected_delta_e": round(errors.expected, 2),
        "within_expected": round(errors.within, 3),
    }

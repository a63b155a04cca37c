"""Predicted recipes as JSON; README.md documents the names."""

from studio.actions.formulate_colour import FormulateResult
from studio.actions.proposed_mix import LayFirst, LightShift, ProposedMix
from studio.sheets.fields import Fields, lab_fields, recipe_fields, separation_fields
from studio.sheets.formulate_notes import lay_first_line
from studio.sheets.light_fields import under_light_fields
from studio.sheets.result_fields import match_row, standing_fields, target_fields
from studio.sheets.unknown_fields import unknown_fields


def formulate_fields(result: FormulateResult) -> Fields:
    """What was predicted: target, recipes in order, what fails, and what it rests on."""
    paper, beyond = result.laying.paper, result.beyond
    return {
        "target": target_fields(result.target),
        "predicted": True,
        "paper": None if paper is None else paper.facts.code,
        "paper_basis": result.ground,
        "layers": result.laying.layers,
        "within_reach": result.within_reach,
        "failing": None if beyond is None else beyond.failing,
        "reached_delta_e": round(result.reached, 4),
        "nearest": proposed_fields(result.nearest) | {"rank": None},
        "recipes": [proposed_fields(each) for each in result.proposals],
        "too_uncertain": [_doubtful_fields(each) for each in result.doubtful],
        "lay_first": None if result.lay_first is None else lay_first_fields(result.lay_first),
        "recorded": [match_row(match) for match in result.recorded],
        "lights": list(result.laying.lights),
        "paints": [paint.facts.code for paint in result.paints.paints],
        "left_out": unknown_fields(result.paints.unknown),
        "never_use": [paint.facts.code for paint in result.paints.never],
        "combinations": result.combinations,
        "swatches_measured": result.measured,
        "swatches_estimated": result.estimated,
    }


def proposed_fields(mix: ProposedMix) -> Fields:
    """A predicted recipe as one row."""
    spectral = mix.spectral_error
    return {
        "rank": mix.rank,
        "delta_e": round(mix.delta_e, 4),
        "expected_error": round(mix.expected_error, 4),
        "too_uncertain": mix.is_too_uncertain,
        "recipe": recipe_fields(mix.recipe),
        "water": float(mix.water),
        "lab": lab_fields(mix.lab),
        **separation_fields(mix.separation),
        "spectral_difference": None if spectral is None else round(spectral, 5),
        "mix": None if mix.mix is None else mix.mix.code,
        "rests_on": [
            {
                "paint": rest.paint.facts.code,
                "alone": rest.alone,
                "mixed": rest.mixed,
                "estimated": rest.estimated,
            }
            for rest in mix.rests
        ],
        "never_mixed": [[paint.facts.code for paint in pair] for pair in mix.strangers],
        **standing_fields(mix),
        "lights": None if mix.lights is None else [under_light_fields(x) for x in mix.lights],
        "shifts": [_shift_fields(shift) for shift in mix.shifts],
    }


def lay_first_fields(patch: LayFirst) -> Fields:
    """The test patch that would tell most of recipes that are too uncertain."""
    return {
        "recipe": recipe_fields(patch.recipe),
        "water": patch.water,
        "paper": None if patch.paper is None else patch.paper.facts.code,
        "expected_error_now": round(patch.before, 4),
        "expected_error_then": round(patch.after, 4),
        "next": lay_first_line(patch),
    }


def _doubtful_fields(mix: ProposedMix) -> Fields:
    return {
        "recipe": recipe_fields(mix.recipe),
        "water": float(mix.water),
        "delta_e": round(mix.delta_e, 4),
        "expected_error": round(mix.expected_error, 4),
    }


def _shift_fields(shift: LightShift) -> Fields:
    return {
        "light": shift.light,
        "delta_e": round(shift.delta_e, 4),
        "words": list(shift.separation.words),
    }

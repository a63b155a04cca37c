"""The plan of a painting as JSON; README.md documents the names."""

from typing import Final

from studio.actions.painting.plan import Candidate, Plan, PlannedColour, PlannedMix
from studio.actions.reorder_stock import ShoppingList
from studio.catalogue.hazard import ADVICE
from studio.catalogue.paint import worst_of
from studio.sheets.care_fields import care_fields
from studio.sheets.fields import (
    Fields,
    hazard_fields,
    lab_fields,
    rating_fields,
    recipe_fields,
    separation_fields,
)
from studio.sheets.own_tests import own_test_fields
from studio.sheets.stock_fields import shopping_fields

_NO_WORDS: Final = {
    "words": None,
    "lightness_difference": None,
    "chroma_difference": None,
    "hue_difference": None,
}


def plan_fields(plan: Plan, shopping: ShoppingList) -> Fields:
    """A plan: colours in working order, mixes, palette, time, remarks, light and care."""
    painting, paints = plan.painting, plan.paints
    rating = worst_of(paint.worst_known_rating for paint in paints)
    low, high = plan.minutes
    return {
        "painting": painting.code,
        "title": painting.title,
        "paper": plan.paper.facts.code,
        "width_mm": painting.width_mm,
        "height_mm": painting.height_mm,
        "tolerance_delta_e": painting.tolerance,
        "colours": [_colour(each) for each in plan.colours],
        "mixes": [_mix(each, plan) for each in plan.mixes],
        "palette": [
            {
                "paint": need.paint.facts.code,
                "name": need.paint.facts.full_name,
                "needs_ml": round(need.ml, 3),
                "left_ml": need.left_ml,
                "short_ml": round(need.short_ml, 3),
            }
            for need in plan.palette
        ],
        "fewest_proven": plan.fewest_proven,
        "to_test": len(plan.to_test),
        "shopping": shopping_fields(shopping),
        "drying_after": list(plan.drying_steps),
        "minutes_least": round(low, 1),
        "minutes_most": round(high, 1),
        "remarks": list(plan.remarks),
        "assumptions": list(plan.assumptions),
        "lightfastness": None if rating is None else rating_fields(rating),
        "unrated": [paint.facts.code for paint in paints if paint.worst_rating is None],
        "own_fade_tests": [own_test_fields(own) for own in plan.own_tests],
        "cautions": [
            {"paint": paint.facts.code, **hazard_fields(hazard)}
            for paint in paints
            for hazard in paint.hazards
        ],
        "care": [care_fields(care) for care in plan.cares],
        "advice": ADVICE,
    }


def _colour(each: PlannedColour) -> Fields:
    passage, chosen, apart = each.passage, each.chosen, each.separation
    return {
        "position": each.number,
        "passage": passage.name,
        "technique": passage.technique,
        "layers": passage.layers,
        "lab": lab_fields(each.colour.lab),
        "mix": None if each.mix is None else each.mix.letter,
        "delta_e": None if each.delta_e is None else round(each.delta_e, 4),
        **(_NO_WORDS if apart is None else separation_fields(apart)),
        "judged": None if chosen is None else _judged(chosen),
        "test_needed": each.needed,
        "area_mm2": round(each.area_mm2, 1),
        "wash_ml": round(each.wash_ml, 3),
    }


def _judged(chosen: Candidate) -> Fields:
    return {
        "basis": chosen.basis,
        "own_try": chosen.is_try,
        "swatch": None if chosen.swatch is None else chosen.swatch.facts.code,
        "paper": chosen.paper.facts.code,
        "layers": chosen.layers,
        "lab": lab_fields(chosen.lab),
        "expected_error": None if chosen.error is None else round(chosen.error, 4),
    }


def _mix(mix: PlannedMix, plan: Plan) -> Fields:
    serves = dict.fromkeys(each.number for each in plan.colours if each.mix == mix)
    return {
        "letter": mix.letter,
        "recipe": recipe_fields(mix.recipe),
        "mix": None if mix.mix is None else mix.mix.code,
        "water": mix.water,
        "basis": mix.basis,
        "swatch": None if mix.swatch is None else mix.swatch.facts.code,
        "paint_ml": round(mix.paint_ml, 3),
        "water_ml": None if mix.water_ml is None else round(mix.water_ml, 3),
        "serves": list(serves),
        "out_of_stock": [paint.facts.code for paint in mix.out_of_stock],
    }

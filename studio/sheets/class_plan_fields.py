"""A painting planned for a class as JSON; README.md documents the names."""

from studio.actions.painting.class_plan import ClassPlan, LeftHome, SmallParts, Supply
from studio.actions.painting.plan import Plan
from studio.actions.painting.substitutes import Substitute
from studio.catalogue.hazard import ADVICE
from studio.sheets.care_fields import care_fields, document_fields
from studio.sheets.fields import Fields, recipe_fields
from studio.sheets.plan_fields import plan_fields
from studio.sheets.stock_fields import shopping_fields


def class_plan_fields(plan: ClassPlan) -> Fields:
    """What a class needs for a painting."""
    return {
        "painting": plan.plan.painting.code,
        "class": plan.kind,
        "students": plan.students,
        "reserve": plan.reserve,
        "left_home": [_left_home(each) for each in plan.left_home],
        "unread": [each.paint.facts.code for each in plan.left_home if each.is_unread],
        "never_use": [paint.facts.code for paint in plan.never],
        "bring": [_supply(each) for each in plan.supplies],
        "paper": {
            "paper": plan.plan.paper.facts.code,
            "pieces": plan.paper.pieces,
            "pieces_a_sheet": plan.paper.each_sheet,
            "needed": plan.paper.needed,
            "unit": plan.plan.paper.stock.unit,
        },
        "shopping": shopping_fields(plan.shopping),
        "substitutes": [_substitute(each, plan.plan) for each in plan.substitutes],
        "care": care_fields(plan.care),
        "small_parts": None if plan.small is None else _small(plan.small),
        "no_spatter": [passage.name for passage in plan.no_spatter],
        "documents": [document_fields(document) for document in plan.documents],
        "plan": plan_fields(plan.plan, plan.shopping),
        "advice": ADVICE,
    }


def _small(small: SmallParts) -> Fields:
    mean = small.mean_cost
    return {
        "most": small.together,
        "near_delta_e": small.near,
        "mean_cost_delta_e": None if mean is None else round(mean, 4),
        "colours": [
            {
                "position": each.colour.number,
                "passage": each.colour.passage.name,
                "delta_e": None if each.cost is None else round(each.delta_e + each.cost, 4),
                "any_parts_delta_e": round(each.delta_e, 4),
                "cost_delta_e": None if each.cost is None else round(each.cost, 4),
            }
            for each in small.colours
        ],
    }


def _left_home(left: LeftHome) -> Fields:
    return {
        "paint": left.paint.facts.code,
        "name": left.paint.facts.full_name,
        "care": care_fields(left.care),
        "passages": [
            {
                "position": each.number,
                "passage": each.passage.name,
                "mix": None if each.mix is None else each.mix.letter,
            }
            for each in left.colours
        ],
    }


def _supply(supply: Supply) -> Fields:
    paint = supply.paint
    return {
        "paint": paint.facts.code,
        "name": paint.facts.full_name,
        "each_ml": round(supply.each_ml, 3),
        "all_ml": round(supply.all_ml, 3),
        "containers": supply.containers,
        "volume_ml": paint.facts.volume_ml,
        "left_ml": paint.stock.left,
    }


def _substitute(substitute: Substitute, plan: Plan) -> Fields:
    kept = {paint.id for paint in plan.paints}
    return {
        "paint": substitute.paint.facts.code,
        "bring": [paint.facts.code for paint in substitute.more if paint.id not in kept],
        "mixes": [
            {
                "position": each.weighed.number,
                "passage": each.weighed.passage.name,
                "recipe": recipe_fields(each.candidate.recipe),
                "water": each.candidate.water,
                "basis": each.candidate.basis,
                "swatch": each.candidate.swatch.facts.code if each.candidate.swatch else None,
                "delta_e": round(each.candidate.delta_e, 4),
                "expected_error": None
                if each.candidate.error is None
                else round(each.candidate.error, 4),
            }
            for each in substitute.mixes
        ],
        "not_made": [
            {"position": each.number, "passage": each.passage.name} for each in substitute.lost
        ],
    }

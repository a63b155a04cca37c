"""Tints between recorded ones, as JSON; README.md documents the names."""

from studio.actions.between_tints import TintBetween, TintsBetween
from studio.sheets.fields import Fields, lab_fields, recipe_fields, separation_fields


def between_fields(found: TintsBetween) -> list[Fields]:
    """Tints between recorded ones, nearest first."""
    return [_tint_fields(each) for each in found.tints]


def _tint_fields(each: TintBetween) -> Fields:
    facts = each.like.facts
    return {
        "rank": each.rank,
        "delta_e": round(each.delta_e, 4),
        "error_delta_e": round(each.error, 4),
        "too_uncertain": each.is_too_uncertain,
        "predicted": True,
        "mix": each.mix.code,
        "name": each.mix.name,
        "recipe": recipe_fields(each.recipe),
        "water": each.water,
        "layers": facts.layers,
        "application": facts.application,
        "paper": each.paper.facts.code,
        "lab": lab_fields(each.lab),
        **separation_fields(each.separation),
        "beside": [
            {"swatch": swatch.facts.code, "water": swatch.facts.water} for swatch in each.beside
        ],
        "beyond": not each.is_between,
        "nearest_recorded_delta_e": round(each.nearest_delta_e, 4),
        "spectrum_estimated": each.estimated,
    }

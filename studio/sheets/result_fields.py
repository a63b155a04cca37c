"""What a match and a check found, as JSON; README.md documents the names."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from studio.actions.check_shelf import PaintFinding, ShelfReport
from studio.actions.match_colour import Match, MatchResult
from studio.actions.read_target import Target
from studio.catalogue.hazard import ADVICE
from studio.sheets.drying_fields import own_shift_fields
from studio.sheets.fields import (
    Fields,
    day_field,
    hazard_fields,
    lab_fields,
    paper_fields,
    rating_fields,
    recipe_fields,
    separation_fields,
)
from studio.sheets.light_fields import under_light_fields
from studio.sheets.own_tests import own_test_fields

if TYPE_CHECKING:
    from studio.actions.between_tints import TintsBetween
    from studio.actions.proposed_mix import ProposedMix


def target_fields(target: Target) -> Fields:
    """A target colour."""
    return {
        "lab": lab_fields(target.lab),
        "illuminant": target.lab.illuminant,
        "observer": target.lab.observer,
        "given": target.given,
        "note": target.note,
    }


def match_fields(result: MatchResult) -> Fields:
    """A match: target, metric, and the nearest mixes in order."""
    return {
        "target": target_fields(result.target),
        "metric": result.metric.name,
        "near": result.is_near,
        "lights": list(result.lights),
        "drying": None
        if result.drying is None
        else {
            "wet_lab": lab_fields(result.drying.wet.lab),
            **own_shift_fields(result.drying.own),
        },
        "matches": [match_row(match) for match in result.matches],
        "between": None if result.between is None else _between(result.between),
        "between_never_use": []
        if result.between is None
        else [paint.facts.code for paint in result.between.never],
    }


def _between(found: "TintsBetween") -> list[Fields]:
    from studio.sheets.between_fields import between_fields  # noqa: PLC0415 - numpy

    return between_fields(found)


def match_row(match: Match) -> Fields:
    """A match as one row."""
    facts = match.swatch.facts
    return {
        "rank": match.rank,
        "delta_e": round(match.difference, 4),
        "swatch": facts.code,
        "mix": match.mix.code,
        "name": match.mix.name,
        "recipe": recipe_fields(match.recipe),
        "water": facts.water,
        "layers": facts.layers,
        "application": facts.application,
        "state": match.swatch.state,
        "paper": match.paper.facts.code,
        "kept_at": facts.kept_at,
        "made_on": day_field(facts.made_on),
        "lab": lab_fields(match.swatch.lab),
        **separation_fields(match.separation),
        **standing_fields(match),
        "lights": None
        if match.lights is None
        else [under_light_fields(each) for each in match.lights],
    }


def standing_fields(mix: "Match | ProposedMix") -> Fields:
    """How a mix, recorded or predicted, stands with shelf, light and care."""
    rating = mix.worst_rating
    return {
        "in_stock": not mix.out_of_stock,
        "out_of_stock": [paint.facts.code for paint in mix.out_of_stock],
        "lightfastness": rating.category if rating else None,
        "lightfastness_source": rating.source if rating else None,
        "lightfastness_verified": rating is not None and rating.verified_on is not None,
        "never_use": [paint.facts.code for paint in mix.never_use],
        "cautions": [
            {"paint": part.paint.facts.code, **hazard_fields(hazard)}
            for part in mix.recipe
            for hazard in part.paint.hazards
        ],
        "own_fade_tests": [own_test_fields(own) for own in mix.own_tests],
    }


def shelf_fields(report: ShelfReport) -> Fields:
    """What needs attention on the shelf."""
    return {
        "attention": report.needs_attention,
        "low_paints": [_finding(each) for each in report.low_paints],
        "low_papers": [paper_fields(paper) for paper in report.low_papers],
        "fading": [
            {
                **_finding(each),
                "rating": rating_fields(each.paint.worst_known_rating)
                if each.paint.worst_known_rating
                else None,
            }
            for each in report.fading
        ],
        "fade_tests": [
            {**own_test_fields(each.result), "mixes": [mix.code for mix in each.mixes]}
            for each in report.fade_tests
        ],
        "care": [
            {
                **_finding(each),
                "cautions": [hazard_fields(hazard) for hazard in each.paint.cautions],
            }
            for each in report.caring
        ],
        "sienna_or_umber": [paint.facts.code for paint in report.sienna_or_umber],
        "unknown": [
            {**_finding(each), "unrated": list(each.paint.unrated)} for each in report.unknown
        ],
        "data_sheets": [
            {"paint": document.paint.facts.code, "fault": document.fault}
            for document in report.documents
        ],
        "advice": ADVICE,
    }


def _finding(finding: PaintFinding) -> Mapping[str, Any]:
    paint = finding.paint
    return {
        "paint": paint.facts.code,
        "maker": paint.facts.maker,
        "name": paint.facts.name,
        "left_ml": paint.stock.left,
        "low_at_ml": paint.low_at,
        "mixes": [mix.code for mix in finding.mixes],
    }

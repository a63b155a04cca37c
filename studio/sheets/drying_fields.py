"""Drying shifts as JSON; README.md documents the names."""

from studio.actions.drying_shift import DryingReport, OwnShift
from studio.catalogue.drying import PUBLISHED_LIGHTNESS, PUBLISHED_PAINTS, PUBLISHED_SOURCE
from studio.colour.difference import Components
from studio.sheets.fields import Fields


def own_shift_fields(own: OwnShift) -> Fields:
    """A drying shift with what it is of and how sure it is."""
    shift = own.shift
    return {
        "paper": own.paper.facts.code if own.paper else None,
        "paints": [paint.facts.code for paint in own.paints],
        "pairs": shift.pairs,
        "enough": own.is_enough,
        "mean": _components(shift.mean),
        "spread": _components(shift.spread),
        "standard_error": _components(shift.standard_error),
        "left_out_delta_e": None if shift.left_out is None else round(shift.left_out, 4),
    }


def drying_fields(report: DryingReport) -> Fields:
    """Every drying shift of the studio, and the published one beside them."""
    return {
        "overall": own_shift_fields(report.overall) if report.overall else None,
        "papers": [own_shift_fields(own) for own in report.papers],
        "paints": [own_shift_fields(own) for own in report.paints],
        "waiting": [swatch.facts.code for swatch in report.waiting],
        "unpaired": [swatch.facts.code for swatch in report.unpaired],
        "published": {
            "lightness_difference": PUBLISHED_LIGHTNESS,
            "paints": PUBLISHED_PAINTS,
            "source": PUBLISHED_SOURCE,
        },
    }


def _components(numbers: Components | None) -> Fields | None:
    if numbers is None:
        return None
    return {
        "lightness_difference": round(numbers.lightness, 4),
        "chroma_difference": round(numbers.chroma, 4),
        "hue_difference": round(numbers.hue, 4),
    }

"""Drying shifts as JSON; README.md documents the names."""

from studio.actions.drying_shift import DryingReport, OwnShift
from studio.catalogue.drying import PUBLISHED_LIGHTNESS, PUBLISHED_PAINTS, PUBLISHED_SOURCE
from studio.sheets.fields import Fields, components_fields


def own_shift_fields(own: OwnShift) -> Fields:
    """A drying shift with what it is of and how sure it is."""
    shift = own.shift
    return {
        "paper": own.paper.facts.code if own.paper else None,
        "paints": [paint.facts.code for paint in own.paints],
        "pairs": shift.pairs,
        "enough": own.is_enough,
        "mean": components_fields(shift.mean),
        "spread": components_fields(shift.spread) if shift.spread else None,
        "standard_error": components_fields(shift.standard_error) if shift.standard_error else None,
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

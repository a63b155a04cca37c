"""Named targets and how far paint reaches, as JSON; README.md documents the names."""

from studio.actions.match_colour import Match
from studio.actions.reach import Reach
from studio.catalogue.named_target import NamedTarget
from studio.colour.difference import ciede2000
from studio.colour.display import on_screen
from studio.colour.lab import Lab
from studio.sheets.fields import Fields, day_field, lab_fields, removal_fields


def colour_fields(lab: Lab) -> Fields:
    """A colour as Lab and as the screen shows it."""
    shown = on_screen(lab)
    return {
        "lab": lab_fields(lab),
        "srgb": shown.hex,
        "srgb_exact": shown.in_gamut,
        "srgb_delta_e": round(shown.off, 2),
    }


def named_target_fields(target: NamedTarget) -> Fields:
    """A named target with where it was taken from."""
    return {
        "target": target.name,
        **colour_fields(target.lab),
        "spread_delta_e": None if target.spread is None else round(target.spread, 4),
        "place": target.place,
        "picture": target.picture.name if target.picture else None,
        "created_on": day_field(target.created_on),
        "note": target.note,
        **removal_fields(target.removed),
    }


def reach_fields(reach: Reach) -> Fields:
    """Whether a colour lies outside what was reached, and the nearest value inside."""
    return {
        "known": reach.is_known,
        "outside": bool(reach.beyond),
        "beyond": [
            {
                "limit": each.limit,
                "asked": round(each.asked, 4),
                "reached": round(each.reached, 4),
                "by": each.by,
            }
            for each in reach.beyond
        ],
        "nearest_lab": lab_fields(reach.nearest),
        "swatches_near": reach.neighbours,
    }


def nearest_fields(lab: Lab, nearest: Match | None) -> Fields | None:
    """The recorded mix nearest a colour; None without dry swatches."""
    if nearest is None:
        return None
    return {
        "swatch": nearest.swatch.facts.code,
        "mix": nearest.mix.code,
        "delta_e": round(ciede2000(lab.coordinates, nearest.swatch.lab.coordinates), 4),
    }

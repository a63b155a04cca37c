"""Paintings as JSON: the field names here are documented in README.md and stay as they are."""

from studio.actions.painting.show_painting import ShownColour, ShownPainting, ShownPassage
from studio.actions.painting.tries import Try
from studio.catalogue.painting_record import PaintingRecord
from studio.sheets.fields import (
    Fields,
    day_field,
    lab_fields,
    recipe_fields,
    removal_fields,
    separation_fields,
)
from studio.sheets.target_fields import colour_fields
from studio.storage.painting_records import document_of


def painting_fields(shown: ShownPainting) -> Fields:
    """A painting with its passages in working order."""
    painting = shown.painting
    return {
        "painting": painting.code,
        "title": painting.title,
        "paper": shown.paper.facts.code,
        "width_mm": painting.width_mm,
        "height_mm": painting.height_mm,
        "tolerance_delta_e": painting.tolerance,
        "picture": painting.reference.name if painting.reference else None,
        "picture_path": painting.reference_path,
        "picture_sha256": painting.reference.sha256 if painting.reference else None,
        "started_on": day_field(painting.started_on),
        "finished_on": day_field(painting.finished_on),
        "colours": len(shown.colours),
        "matched": shown.matched,
        "passages": [passage_fields(shown, each) for each in shown.passages],
        "note": painting.note,
        **removal_fields(painting.removed),
    }


def passage_fields(shown: ShownPainting, one: ShownPassage) -> Fields:
    """A passage with its colours and all that was tried for them."""
    passage = one.passage
    return {
        "painting": shown.painting.code,
        "position": one.number,
        "passage": passage.name,
        "technique": passage.technique,
        "share": passage.share,
        "layers": passage.layers,
        "dry_before_next": passage.dry_before_next,
        "over": one.over,
        "colours": [passage_colour_fields(each) for each in one.colours],
        "note": passage.note,
    }


def passage_colour_fields(shown: ShownColour) -> Fields:
    """A colour of a passage with its tries."""
    colour, nearest = shown.colour, shown.nearest
    return {
        "number": shown.number,
        **colour_fields(colour.lab),
        "given": colour.given,
        "place": colour.place,
        "at": None if colour.at is None else [round(share, 6) for share in colour.at],
        "picture": colour.picture.name if colour.picture else None,
        "from_earlier_picture": shown.from_earlier,
        "spread_delta_e": None if colour.spread is None else round(colour.spread, 4),
        "matched": shown.is_matched,
        "nearest": nearest.swatch.facts.code if nearest else None,
        "tries": [try_fields(each) for each in shown.tries],
    }


def try_fields(tried: Try) -> Fields:
    """A swatch held against a colour."""
    swatch, mix, recipe, paper = tried.row
    facts = swatch.facts
    return {
        "try": tried.number,
        "swatch": facts.code,
        "mix": mix.code,
        "recipe": recipe_fields(recipe),
        "paper": paper.facts.code,
        "water": facts.water,
        "layers": facts.layers,
        "application": facts.application,
        "state": swatch.state,
        "made_on": day_field(facts.made_on),
        "kept_at": facts.kept_at,
        "lab": lab_fields(swatch.lab),
        "delta_e": round(tried.delta_e, 4),
        "passes": tried.passes,
        **separation_fields(tried.separation),
    }


def record_fields(record: PaintingRecord) -> Fields:
    """The record of a finished painting: the very document that is kept."""
    return document_of(record)

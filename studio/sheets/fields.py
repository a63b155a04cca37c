"""Records as JSON: the field names here are documented in README.md and stay as they are."""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from typing import Any

from studio.actions.match_colour import Ingredient
from studio.catalogue.hazard import ADVICE, Hazard
from studio.catalogue.hazard_grade import grade_of
from studio.catalogue.lightfastness import LightfastnessRating
from studio.catalogue.mix import Mix
from studio.catalogue.paint import Paint
from studio.catalogue.paper import Paper
from studio.catalogue.pigment import Pigment
from studio.catalogue.reading import Reading
from studio.catalogue.removal import Removal
from studio.catalogue.spread import Spread, spread_of
from studio.catalogue.stock import Unit
from studio.catalogue.swatch import Swatch
from studio.colour.difference import Components
from studio.colour.lab import Lab
from studio.colour.words import Separation

Fields = dict[str, Any]


def day_field(day: date | None) -> str | None:
    """A day as ISO 8601 writes it."""
    return None if day is None else day.isoformat()


def price_field(price: Decimal | None) -> float | None:
    """A price as a number."""
    return None if price is None else float(price)


def lab_fields(lab: Lab) -> list[float]:
    """[L*, a*, b*] under D50/2°, rounded to 1e-4."""
    return [round(value, 4) for value in lab.coordinates]


def components_fields(numbers: Components) -> Fields:
    """A difference in value, chroma and hue."""
    return {
        "lightness_difference": round(numbers.lightness, 4),
        "chroma_difference": round(numbers.chroma, 4),
        "hue_difference": round(numbers.hue, 4),
    }


def separation_fields(apart: Separation) -> Fields:
    """How one colour looks beside another, in words and in numbers."""
    return {"words": list(apart.words), **components_fields(apart.numbers)}


def rating_fields(rating: LightfastnessRating) -> Fields:
    """A lightfastness rating."""
    return {
        "pigment": rating.pigment,
        "as_pigment": rating.as_base,
        "scale": rating.scale,
        "rating": rating.rating,
        "category": rating.category,
        "medium": rating.medium,
        "year": rating.year,
        "source": rating.source,
        "evidence": rating.evidence,
        "note": rating.note,
        "verified": rating.verified_on is not None,
        "verified_on": day_field(rating.verified_on),
        "verified_from": rating.verified_from,
    }


def hazard_fields(hazard: Hazard) -> Fields:
    """A caution of a pigment."""
    return {
        "pigment": hazard.pigment,
        "as_pigment": hazard.as_base,
        "agent": hazard.agent,
        "cas": hazard.cas,
        "summary": hazard.summary,
        "statements": [
            {
                "code": code.code,
                "class": code.hazard_class,
                "wording": code.wording,
                "certain": not code.hedged,
            }
            for code in hazard.codes
        ],
        "never_use": hazard.never_use,
        "listings": [
            {
                "list": listing.name,
                "entry": listing.entry,
                "scope": listing.scope,
                "classes": list(listing.classes),
            }
            for listing in hazard.listings
        ],
        "classes": sorted(hazard.classes),
        "grade": grade_of(hazard),
        "routes": list(hazard.routes),
        "metals": list(hazard.metals),
        "basis": hazard.basis,
        "basis_detail": hazard.basis_detail,
        "source": hazard.source,
        "evidence": hazard.evidence,
        "verified": hazard.verified_on is not None,
        "verified_on": day_field(hazard.verified_on),
        "verified_from": hazard.verified_from,
    }


def pigment_fields(pigment: Pigment) -> Fields:
    """A pigment with everything that is said of it."""
    return {
        "pigment": pigment.ci_name,
        "as_pigment": pigment.as_base,
        "looked_up": pigment.looked_up,
        "ci_number": pigment.ci_number,
        "common_name": pigment.common_name,
        "chemical_class": pigment.chemical_class,
        "evidence": pigment.evidence,
        "source": pigment.source,
        "note": pigment.note,
        "lightfastness": pigment.worst_rating.category if pigment.worst_rating else None,
        "ratings": [rating_fields(rating) for rating in pigment.ratings],
        "hazards": [hazard_fields(hazard) for hazard in pigment.hazards],
        "advice": ADVICE,
    }


def paint_fields(paint: Paint) -> Fields:
    """A paint with its stock, and the worst that is said of its pigments."""
    facts, rating = paint.facts, paint.worst_rating
    return {
        "paint": facts.code,
        "maker": facts.maker,
        "name": facts.name,
        "pigments": list(facts.pigments),
        "form": facts.form,
        "volume_ml": facts.volume_ml,
        "price": price_field(facts.price),
        "currency": facts.currency,
        "transparency": facts.transparency,
        "staining": facts.staining,
        "granulation": facts.granulation,
        "lot": facts.lot,
        "status": facts.status,
        "left_ml": paint.stock.left,
        "left_estimated": paint.stock.estimated,
        "left_as_of": day_field(paint.stock.as_of),
        "low_at_ml": paint.low_at,
        "low": paint.is_low,
        "in_stock": paint.in_stock,
        "lightfastness": rating.category if rating else None,
        "lightfastness_source": rating.source if rating else None,
        "lightfastness_verified": rating is not None and rating.verified_on is not None,
        "cautions": [hazard_fields(hazard) for hazard in paint.hazards],
        "note": facts.note,
    }


def reading_fields(reading: Reading) -> Fields:
    """A reading with the colour as it was given and its spectrum."""
    spectrum = reading.spectrum
    return {
        "lab": lab_fields(reading.lab),
        "origin": reading.origin,
        "given": {
            "lab": lab_fields(reading.given),
            "illuminant": reading.given.illuminant,
            "observer": reading.given.observer,
        },
        "spectrum": None
        if spectrum is None
        else {
            "start_nm": spectrum.start,
            "step_nm": spectrum.step,
            "reflectance": list(spectrum.values),
        },
        "state": reading.state,
        "method": reading.method,
        "instrument": reading.instrument,
        "condition": reading.condition,
        "geometry": reading.geometry,
        "backing": reading.backing,
        "sample": reading.sample,
        "file": reading.file.name if reading.file else None,
        "error_delta_e": reading.error,
        "adaptation_error_delta_e": reading.adaptation_error,
        "read_on": day_field(reading.read_on),
        "note": reading.note,
    }


def spread_fields(spread: Spread | None) -> Fields | None:
    """The spread of the dry readings of a swatch; outliers by their place among `readings`."""
    if spread is None:
        return None
    return {
        "mcdm": round(spread.mcdm, 4),
        "count": spread.count,
        "outliers": [
            {"reading": outlier.index + 1, "delta_e": round(outlier.delta_e, 4)}
            for outlier in spread.outliers
        ],
    }


def paper_fields(paper: Paper) -> Fields:
    """A paper with its stock and its white."""
    facts = paper.facts
    return {
        "paper": facts.code,
        "maker": facts.maker,
        "name": facts.name,
        "fibre": facts.fibre,
        "weight_gsm": facts.weight_gsm,
        "surface": facts.surface,
        "sheet_width_mm": facts.sheet_width_mm,
        "sheet_height_mm": facts.sheet_height_mm,
        "left_sheets": None if paper.stock.unit is Unit.MM else paper.stock.left,
        "left_mm": paper.stock.left if paper.stock.unit is Unit.MM else None,
        "left_as_of": day_field(paper.stock.as_of),
        "low_at_sheets": None if paper.stock.unit is Unit.MM else paper.low_at,
        "low_at_mm": paper.low_at if paper.stock.unit is Unit.MM else None,
        "low": paper.is_low,
        "white": [reading_fields(reading) for reading in paper.white],
        "note": facts.note,
    }


def recipe_fields(recipe: Sequence[Ingredient]) -> list[Fields]:
    """The paints of a recipe by code, with their parts."""
    return [{"paint": part.paint.facts.code, "parts": part.parts} for part in recipe]


def mix_fields(mix: Mix, recipe: Sequence[Ingredient], swatches: int) -> Fields:
    """A mix with its recipe and how many swatches it has."""
    return {
        "mix": mix.code,
        "name": mix.name,
        "recipe": recipe_fields(recipe),
        "swatches": swatches,
        "created_on": day_field(mix.created_on),
        "note": mix.note,
    }


def swatch_fields(swatch: Swatch, mix: Mix, recipe: Sequence[Ingredient], paper: Paper) -> Fields:
    """A swatch with its readings."""
    facts = swatch.facts
    return {
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
        "target": facts.target,
        "target_lab": lab_fields(facts.target_lab) if facts.target_lab else None,
        "lab": lab_fields(swatch.lab),
        "spread": spread_fields(spread_of(swatch.readings)),
        "readings": [reading_fields(reading) for reading in swatch.readings],
        "set_aside": [
            {
                "number": each.number,
                **removal_fields(each.removal),
                "reading": reading_fields(each.reading),
            }
            for each in swatch.set_aside
        ],
        "note": facts.note,
        **removal_fields(swatch.removed),
    }


def removal_fields(removal: Removal | None) -> Fields:
    """When and why something was removed, null where it was not."""
    return {
        "removed_on": day_field(removal.on if removal else None),
        "removed_because": removal.because if removal else None,
    }

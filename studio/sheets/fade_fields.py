"""Fade tests as JSON: the field names here are documented in README.md and stay as they are."""

from datetime import date

from studio.actions.fade_results import FadeResult
from studio.catalogue.fade import INDICATIVE, FadeReading
from studio.colour.words import separation
from studio.sheets.fields import Fields, day_field, lab_fields, rating_fields, separation_fields
from studio.sheets.own_tests import mix_text, own_test_fields


def fade_fields(result: FadeResult, today: date) -> Fields:
    """A test with its readings and the published ratings of its paints.

    `delta_e` and `category` are those of the reading with the largest change.
    """
    test = result.test
    return {
        **own_test_fields(result),
        "name": result.mix.name if result.mix else result.paints[0].facts.name,
        "recipe": mix_text(result) if result.mix else None,
        "place": test.place,
        "paper": result.paper.facts.code if result.paper else None,
        "started_on": day_field(test.started_on),
        "ended_on": day_field(test.ended_on),
        "days": result.days(today),
        "blue_wool": result.blue_wool,
        "readings": [_reading_fields(result, reading) for reading in test.readings],
        "ratings": [
            rating_fields(rating)
            for paint in result.paints
            for pigment in paint.pigments
            for rating in pigment.ratings
        ],
        "note": test.note,
        "indicative": INDICATIVE,
    }


def _reading_fields(result: FadeResult, reading: FadeReading) -> Fields:
    apart = separation(reading.covered.coordinates, reading.exposed.coordinates)
    return {
        "read_on": day_field(reading.read_on),
        "days": result.days(reading.read_on),
        "covered": lab_fields(reading.covered),
        "exposed": lab_fields(reading.exposed),
        "delta_e": round(reading.delta_e, 4),
        "category": reading.category,
        "blue_wool": reading.blue_wool,
        **separation_fields(apart),
        "note": reading.note,
    }

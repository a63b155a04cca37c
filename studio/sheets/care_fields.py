"""Advice on care as JSON: the field names here are documented in README.md and stay as they are."""

from collections.abc import Iterable, Sequence

from studio.actions.advise_care import Advice, ClassAdvice, Document, LeftOut, Substitutes
from studio.catalogue.care_points import Care, Ground, Point
from studio.catalogue.hazard import ADVICE
from studio.catalogue.paint import Paint
from studio.sheets.care_columns import label_marks, standing_fields
from studio.sheets.care_page import SheetRow
from studio.sheets.fields import (
    Fields,
    day_field,
    hazard_fields,
    paper_fields,
    rating_fields,
    recipe_fields,
)
from studio.sheets.result_fields import match_row


def advice_fields(advice: Advice) -> Fields:
    """What to mind with a paint or a mix."""
    subject = advice.subject
    return {
        "paint": subject.paints[0].facts.code if subject.is_paint else None,
        "mix": None if subject.is_paint or subject.mix is None else subject.mix.code,
        "recipe": recipe_fields(subject.recipe),
        "work": [care_fields(care) for care in advice.cares],
        "cautions": [
            {
                "paint": paint.facts.code,
                **standing_fields(hazard),
                "label_marks": label_marks(paint),
                **hazard_fields(hazard),
            }
            for paint in subject.paints
            for hazard in paint.hazards
        ],
        "documents": [document_fields(document) for document in advice.documents],
        **substitute_fields(advice.substitutes),
        "advice": ADVICE,
    }


def class_fields(advice: ClassAdvice) -> Fields:
    """What a class needs of the shelf."""
    return {
        "class": advice.care.work,
        "leave": [_left_out(each) for each in advice.leave],
        "unread": [unread_fields(paint) for paint in advice.unread],
        "bring": _codes(advice.bring),
        "nothing_on_record": _codes(advice.not_looked_up),
        "no_data": _codes(advice.unknown),
        "looked_up": looked_up_fields(advice.bring),
        "low": [
            {"paint": paint.facts.code, "left_ml": paint.stock.left, "low_at_ml": paint.low_at}
            for paint in advice.low
        ],
        "low_papers": [paper_fields(paper) for paper in advice.low_papers],
        "fading": [_fading(paint) for paint in advice.fading],
        "contradicting": [_contradicting(paint) for paint in advice.contradicting],
        "documents": [document_fields(document) for document in advice.documents],
        "points": [point_fields(point) for point in advice.care.points],
        "general": [point_fields(point) for point in advice.care.general],
        "advice": ADVICE,
    }


def sheet_fields(rows: Sequence[SheetRow], paints: Iterable[Paint]) -> Fields:
    """The cautions of the whole shelf."""
    listed = list(paints)
    return {
        "cautions": [
            {
                "paints": _codes(row.paints),
                "pigments": list(row.pigments),
                "words": list(row.words),
                "routes": list(row.routes),
                "classification": row.basis,
                "label_marks": list(row.label_marks),
                "avoid_for": list(row.avoid_for),
                "verified": row.verified,
                "never_use": row.never_use,
                "listings": list(row.listings),
            }
            for row in rows
        ],
        "no_data": _codes(paint for paint in listed if paint.lacks_data),
        "nothing_on_record": _codes(
            paint for paint in listed if paint.not_known and not paint.lacks_data
        ),
        "looked_up": looked_up_fields(listed),
        "advice": ADVICE,
    }


def care_fields(care: Care) -> Fields:
    """What to mind in a kind of work."""
    return {
        "work": care.work,
        "avoid": care.avoid,
        "unread": care.unread,
        "never_use": care.never,
        "points": [point_fields(point) for point in care.points],
        "general": [point_fields(point) for point in care.general],
    }


def point_fields(point: Point) -> Fields:
    """A point with what it rests on."""
    return {
        "text": point.text,
        "source": point.source,
        "avoid": point.avoid,
        "grounds": [_ground(ground) for ground in point.grounds],
    }


def unread_fields(paint: Paint) -> Fields:
    """A paint that is not brought until label and data sheet are read, and what is not known."""
    return {
        "paint": paint.facts.code,
        "name": paint.facts.name,
        "why": [each.text for each in paint.unread],
    }


def looked_up_fields(paints: Iterable[Paint]) -> list[Fields]:
    """Pigments of paints that were looked up and nothing found, and who looked where."""
    return [
        {"paint": paint.facts.code, "pigment": pigment.ci_name, "looked_up": pigment.looked_up}
        for paint in paints
        for pigment in paint.nothing_found
    ]


def document_fields(document: Document) -> Fields:
    """What is on record of a paint's documents."""
    sheet = document.paint.data_sheet
    return {
        "paint": document.paint.facts.code,
        "location": None if sheet is None else sheet.location,
        "dated_on": None if sheet is None else day_field(sheet.dated_on),
        "label_marks": document.label_marks,
        "recorded_on": None if sheet is None else day_field(sheet.recorded_on),
        "fault": document.fault,
    }


def substitute_fields(substitutes: Substitutes | None) -> Fields:
    """What to take instead, and which swatch it is compared with."""
    compared = None if substitutes is None else substitutes.compared
    return {
        "compared_with": None if compared is None else compared.facts.code,
        "substitutes": [match_row(match) for match in substitutes.matches] if substitutes else [],
    }


def _left_out(left: LeftOut) -> Fields:
    grounds = [_ground(ground) for ground in left.care.avoided_for]
    return {
        "paint": left.paint.facts.code,
        "name": left.paint.facts.name,
        "grounds": grounds,
        **substitute_fields(left.substitutes),
    }


def _fading(paint: Paint) -> Fields:
    rating = paint.worst_known_rating
    return {"paint": paint.facts.code, "rating": rating_fields(rating) if rating else None}


def _contradicting(paint: Paint) -> Fields:
    test, rating = paint.contradicting, paint.worst_known_rating
    return {
        "paint": paint.facts.code,
        "test": test.code if test else None,
        "category": test.worst.category if test and test.worst else None,
        "published": rating.category if rating else None,
    }


def _ground(ground: Ground) -> Fields:
    return {
        "pigment": ground.pigment,
        "as_pigment": ground.as_base,
        "marks": list(ground.marks),
        "classification": ground.basis,
        "source": ground.source,
        "verified": ground.verified_on is not None,
        "verified_on": day_field(ground.verified_on),
    }


def _codes(paints: Iterable[Paint]) -> list[str]:
    return [paint.facts.code for paint in paints]

"""Paints that the model says nothing of, as JSON."""

from collections.abc import Iterable

from studio.actions.model_inputs import UnknownPaint
from studio.sheets.fields import Fields


def unknown_fields(unknown: Iterable[UnknownPaint]) -> list[Fields]:
    """Each paint with why nothing can be predicted of it, and the swatch that is missing."""
    return [
        {"paint": each.paint.facts.code, "why": each.why, "missing": each.missing}
        for each in unknown
    ]

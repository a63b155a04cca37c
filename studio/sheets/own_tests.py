"""The owner's fade tests in a match and in the check of the shelf: one sentence, one JSON form."""

from typing import Any

from studio.actions.fade_results import FadeResult
from studio.catalogue.mix import Mix


def subject_text(result: FadeResult) -> str:
    """What a strip is of, such as `FU French Ultramarine` or `M12 2 Raw Umber + 1 Viridian`."""
    if isinstance(result.subject, Mix):
        return f"{result.subject.code} {result.subject.name or mix_text(result)}"
    return f"{result.subject.facts.code} {result.subject.facts.full_name}"


def mix_text(result: FadeResult) -> str:
    """The recipe of the mix a strip is of; the name of the paint otherwise."""
    if not isinstance(result.subject, Mix) or len(result.paints) == 1:
        return result.paints[0].facts.name
    parts = zip(result.subject.recipe.parts, result.paints, strict=True)
    return " + ".join(f"{amount} {paint.facts.name}" for (_, amount), paint in parts)


def own_test_text(result: FadeResult) -> str:
    """What a test says beside the published rating, as one line.

    Such as `own test F1 of FU has changed ΔE*ab 9.1, band III, although rated I: indicative`.
    """
    worst, rating = result.worst, result.published
    of = f"own test {result.test.code} of {result.subject_code}"
    if worst is None:
        return f"{of} has not been read yet"
    rated = "no rating on record" if rating is None else f"rated {rating.category}"
    although = "although " if result.contradicts else ""
    return (
        f"{of} has changed ΔE*ab {worst.delta_e:.1f}, band {worst.category}, "
        f"{although}{rated}: indicative"
    )


def own_test_fields(result: FadeResult) -> dict[str, Any]:
    """A test in short as JSON; either `paint` or `mix` holds a code."""
    worst = result.worst
    return {
        "test": result.test.code,
        "paint": result.paint.facts.code if result.paint else None,
        "mix": result.mix.code if result.mix else None,
        "delta_e": round(worst.delta_e, 4) if worst else None,
        "category": worst.category if worst else None,
        "published": result.published.category if result.published else None,
        "contradicts": result.contradicts,
    }

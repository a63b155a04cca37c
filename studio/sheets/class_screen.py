"""What a teacher needs before class, on one screen."""

from rich.console import Console

from studio.actions.advise_care import ClassAdvice, LeftOut
from studio.actions.match_colour import Match
from studio.catalogue.care import NOTHING_ON_RECORD, WORK_WORDS
from studio.catalogue.care_points import Ground, Point, is_silent
from studio.catalogue.hazard import ADVICE
from studio.sheets.care_columns import by_trust, trust_mark, unbroken
from studio.sheets.care_view import difference_text
from studio.sheets.check_view import sheets_text
from studio.sheets.class_view import (
    NO_DATA,
    by_reason,
    codes_text,
    contradiction_text,
    low_text,
    missing_text,
)
from studio.sheets.screen import indented

SILENT_SIGN = "*"
"""Behind a substitute that holds a paint of which no caution is on record."""


def print_class_screen(console: Console, advice: ClassAdvice) -> None:
    """Print in short what stays at home, what comes along, and what is missing for it."""
    kind = advice.care.work
    if not (advice.leave or advice.bring):
        console.print("No paint is in stock.")
    if advice.leave:
        _print_leave(console, advice)
    if advice.bring:
        _print_bring(console, advice)
    every = " ".join(point.text for point in advice.care.general)
    indented(console, f"With every paint: {every}", 0)
    indented(console, f"sources, grounds and data sheets in full: studio care --class {kind}", 0)
    indented(console, ADVICE, 0, "dim")


def _print_leave(console: Console, advice: ClassAdvice) -> None:
    indented(console, f"Leave at home: {WORK_WORDS[advice.care.work]}", 0, "bold")
    for grounds, left_out in by_reason(advice.leave):
        indented(console, unbroken("; ".join(_reason(ground) for ground in grounds)))
        for left in left_out:
            indented(console, f"{left.paint.facts.code} {left.paint.facts.name}{_use(left)}", 4)
    matches = [match for left in advice.leave for match in left.substitutes.matches]
    if any(_is_silent(match) for match in matches):
        indented(
            console,
            f"{SILENT_SIGN} nothing on record does not mean that it is safe: read label and data "
            "sheet",
        )


def _use(left: LeftOut) -> str:
    """What to take instead; mixes by the codes of their paints, to fit a line."""
    if not left.substitutes.matches:
        return f" ({missing_text(left)})"
    (match,) = left.substitutes.matches
    parts = [f"{part.parts} {part.paint.facts.code}" for part in match.recipe]
    facts = match.recipe[0].paint.facts
    alone = f"{facts.code} {facts.name}"
    recipe = alone if len(parts) == 1 else f"{match.mix.code} {' + '.join(parts)}"
    sign = SILENT_SIGN if _is_silent(match) else ""
    return f": use {recipe}{sign}, {difference_text(match)}"


def _is_silent(match: Match) -> bool:
    return any(is_silent(part.paint) for part in match.recipe)


def _reason(ground: Ground) -> str:
    if ground.basis is None:
        return ground.text
    return f"{ground.text} ({trust_mark(verified=ground.verified_on is not None)})"


def _print_bring(console: Console, advice: ClassAdvice) -> None:
    words = WORK_WORDS[advice.care.work]
    indented(console, f"Bring to {words}, once label and data sheet allow it", 0, "bold")
    bring = (f"{paint.facts.code} {paint.facts.name}" for paint in advice.bring)
    indented(console, ", ".join(bring))
    for text, paints in ((NOTHING_ON_RECORD, advice.silent), (NO_DATA, advice.unknown)):
        if paints:
            indented(console, f"{text}: {codes_text(paints)}")
    for point in advice.care.points:
        told = _who(advice, point)
        if told:
            indented(console, unbroken(f"{told}: {point.text}"))
    low = low_text((*advice.low, *advice.low_papers))
    if low:
        indented(console, f"running low: {low}")
    fading = by_trust(
        (f"{paint.facts.code} {rating.category}", rating.verified_on is not None)
        for paint in advice.fading
        if (rating := paint.worst_known_rating)
    )
    if fading:
        indented(console, unbroken(f"would fade: {fading}"))
    if advice.contradicting:
        indented(console, contradiction_text(advice))
    sheets = sheets_text(advice.documents)
    if sheets:
        indented(console, f"data sheets: {sheets}")


def _who(advice: ClassAdvice, point: Point) -> str:
    """The paints that a point is about, the verified apart from the others."""
    return by_trust(
        (paint.facts.code, ground.verified_on is not None)
        for ground in point.grounds
        if ground.basis is not None
        for paint in advice.bring
        if any(hazard.pigment == ground.pigment for hazard in paint.hazards)
    )

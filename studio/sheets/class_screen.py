"""What a teacher needs before class, on one screen."""

from rich.console import Console

from studio.actions.advise_care import ClassAdvice, LeftOut
from studio.actions.match_colour import Match
from studio.catalogue.care import LOOKED_UP_TITLE, UNREAD_HOW, UNREAD_TITLE, WORK_WORDS
from studio.catalogue.care_points import Ground, Point
from studio.catalogue.hazard import ADVICE
from studio.sheets.care_columns import (
    by_trust,
    looked_up_lines,
    owner_read_text,
    trust_mark,
    unbroken,
    unread_lines,
)
from studio.sheets.care_view import difference_text
from studio.sheets.check_view import sheets_text
from studio.sheets.class_view import (
    by_reason,
    contradiction_text,
    low_text,
    missing_text,
)
from studio.sheets.screen import indented

FOUND_SIGN = "*"
"""Behind a substitute that holds a pigment which was looked up and nothing found."""


def print_class_screen(console: Console, advice: ClassAdvice) -> None:
    """Print in short what stays at home, what comes along, and what is missing for it."""
    kind = advice.care.work
    if not (advice.leave or advice.unread or advice.bring):
        console.print("No paint is in stock.")
    if advice.leave:
        _print_leave(console, advice)
    if advice.unread:
        indented(console, UNREAD_TITLE, 0, "bold")
        for line in unread_lines(advice.unread, short=True):
            indented(console, line)
        indented(console, UNREAD_HOW)
    if advice.bring:
        _print_bring(console, advice)
    every = " ".join(point.text for point in advice.care.general)
    indented(console, f"With every paint: {every}", 0)
    indented(console, f"sources, grounds and data sheets in full: studio care --class {kind}", 0)
    indented(console, ADVICE, 0, "dim")


def _print_leave(console: Console, advice: ClassAdvice) -> None:
    indented(console, f"Leave at home: {WORK_WORDS[advice.care.work]}", 0, "bold")
    for grounds, left_out in by_reason(advice.leave):
        never = "do not use: " if left_out[0].care.never else ""
        indented(console, unbroken(never + "; ".join(_reason(ground) for ground in grounds)))
        for left in left_out:
            indented(console, f"{left.paint.facts.code} {left.paint.facts.name}{_use(left)}", 4)
    matches = [match for left in advice.leave for match in left.substitutes.matches]
    if any(map(_nothing_found, matches)):
        indented(console, f"{FOUND_SIGN} {LOOKED_UP_TITLE}: read label and data sheet")


def _use(left: LeftOut) -> str:
    """What to take instead; mixes by the codes of their paints, to fit a line."""
    if not left.substitutes.matches:
        return f" ({missing_text(left)})"
    (match,) = left.substitutes.matches
    parts = [f"{part.parts} {part.paint.facts.code}" for part in match.recipe]
    facts = match.recipe[0].paint.facts
    alone = f"{facts.code} {facts.name}"
    recipe = alone if len(parts) == 1 else f"{match.mix.code} {' + '.join(parts)}"
    sign = FOUND_SIGN if _nothing_found(match) else ""
    return f": use {recipe}{sign}, {difference_text(match)}"


def _nothing_found(match: Match) -> bool:
    return any(part.paint.nothing_found for part in match.recipe)


def _reason(ground: Ground) -> str:
    if ground.basis is None:
        return ground.text
    return f"{ground.text} ({trust_mark(verified=ground.verified_on is not None)})"


def _print_bring(console: Console, advice: ClassAdvice) -> None:
    words = WORK_WORDS[advice.care.work]
    indented(console, f"Bring to {words}, once label and data sheet allow it", 0, "bold")
    bring = (f"{paint.facts.code} {paint.facts.name}" for paint in advice.bring)
    indented(console, ", ".join(bring))
    if noted := owner_read_text(advice.bring):
        indented(console, noted)
    if looked := looked_up_lines(advice.bring):
        indented(console, f"{LOOKED_UP_TITLE}: {'; '.join(looked)}")
    minded: dict[str, list[str]] = {}
    for point in advice.care.points:
        minded.setdefault(_who(advice, point), []).append(point.text)
    for who, texts in minded.items():
        if who:
            indented(console, unbroken(f"{who}: {' '.join(texts)}"))
    low = low_text((*advice.low, *advice.low_papers))
    fading = by_trust(
        (f"{paint.facts.code} {rating.category}", rating.verified_on is not None)
        for paint in advice.fading
        if (rating := paint.worst_known_rating)
    )
    short = [f"running low: {low}"] if low else []
    short += [f"would fade: {fading}"] if fading else []
    if short:
        indented(console, unbroken("; ".join(short)))
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

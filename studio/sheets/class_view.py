"""What a class needs of the shelf in full: each reason, substitute, paint and data sheet."""

from collections.abc import Iterable

from rich.console import Console

from studio.actions.advise_care import ClassAdvice, LeftOut
from studio.catalogue.care import LOOKED_UP_TITLE, UNREAD_HOW, UNREAD_TITLE, WORK_WORDS
from studio.catalogue.care_points import Ground
from studio.catalogue.hazard import ADVICE
from studio.catalogue.lightfastness import WORDS
from studio.catalogue.paint import Paint
from studio.catalogue.paper import Paper
from studio.catalogue.stock import amount_text
from studio.sheets.care_columns import looked_up_lines, owner_read_text, trust_text, unbroken
from studio.sheets.care_view import (
    document_text,
    ground_text,
    match_text,
    own_cautions,
    print_general,
)
from studio.sheets.screen import indented


def print_class(console: Console, advice: ClassAdvice) -> None:
    """Print what stays at home and what instead, what comes along, and where to verify it."""
    words = WORK_WORDS[advice.care.work]
    if not (advice.leave or advice.unread or advice.bring):
        console.print("No paint is in stock.")
    if advice.leave:
        indented(console, f"Leave at home: {words}", 0, "bold")
    for grounds, left_out in by_reason(advice.leave):
        never = "do not use: " if left_out[0].care.never else ""
        for ground in grounds:
            indented(console, unbroken(never + ground_text(ground)))
        for left in left_out:
            facts = left.paint.facts
            indented(console, f"{facts.code:<5} {facts.full_name}", 4)
            _print_instead(console, advice, left)
    if advice.unread:
        indented(console, UNREAD_TITLE, 0, "bold")
    for paint in advice.unread:
        indented(console, f"{paint.facts.code:<5} {paint.facts.full_name}")
        indented(console, ", ".join(dict.fromkeys(each.text for each in paint.unread)), 8, "dim")
    if advice.unread:
        indented(console, UNREAD_HOW)
    if advice.bring:
        _print_bring(console, advice, words)
    print_general(console, "With every paint", advice.care.general)
    indented(console, ADVICE, 0, "dim")


def by_reason(leave: Iterable[LeftOut]) -> list[tuple[tuple[Ground, ...], list[LeftOut]]]:
    """What stays at home for the same reasons together, such as earths of one pigment."""
    groups: dict[tuple[Ground, ...], list[LeftOut]] = {}
    for left in leave:
        groups.setdefault(left.care.avoided_for, []).append(left)
    return list(groups.items())


def missing_text(left: LeftOut) -> str:
    """Why there is nothing to take instead."""
    if left.substitutes.compared is None:
        return "no dry swatch of it to find a substitute by"
    return "no recorded mix may take its place"


def low_text(low: Iterable[Paint | Paper]) -> str:
    """What is left of paints or papers, each by its code."""
    return ", ".join(
        f"{each.facts.code} {amount_text(each.stock.left or 0.0, each.stock.unit)}" for each in low
    )


def _print_instead(console: Console, advice: ClassAdvice, left: LeftOut) -> None:
    matches = left.substitutes.matches
    for match in matches:
        told = f"instead {match.mix.code} {match_text(match)}: {match.separation.sentence}"
        indented(console, told, 10)
        indented(console, unbroken(own_cautions(match, advice.care.work)), 12, "dim")
    if not matches:
        indented(console, missing_text(left), 10, "dim")


def _print_bring(console: Console, advice: ClassAdvice, words: str) -> None:
    """What comes along, what to mind with it, what is short or fades, and its data sheets."""
    indented(console, f"Bring to {words}, once label and data sheet allow it", 0, "bold")
    for paint in advice.bring:
        indented(console, f"{paint.facts.code:<5} {paint.facts.full_name}")
    if noted := owner_read_text(advice.bring):
        indented(console, noted)
    for line in looked_up_lines(advice.bring):
        indented(console, f"{LOOKED_UP_TITLE}: {line}")
    for point in advice.care.points:
        grounds = [ground for ground in point.grounds if ground.basis is not None]
        if grounds:
            indented(console, f"{point.text} ({point.source})")
        for ground in grounds:
            indented(console, unbroken(ground_text(ground)), 4, "dim")
    _print_short(console, advice)
    console.print("Where to verify", style="bold")
    for document in advice.documents:
        indented(console, document_text(document))


def _print_short(console: Console, advice: ClassAdvice) -> None:
    """What runs low, and what would fade by a rating or an own test."""
    low = low_text((*advice.low, *advice.low_papers))
    if low:
        indented(console, f"running low: {low}")
    for paint in advice.fading:
        rating = paint.worst_known_rating
        assert rating is not None  # noqa: S101 - it fades by a rating
        told = f"would fade: {paint.facts.code} {rating.category} {WORDS[rating.category]}, by "
        trust = trust_text(rating.verified_on)
        indented(console, f"{told}{rating.label} ({rating.source}; {trust})")
    if advice.contradicting:
        indented(console, contradiction_text(advice))


def contradiction_text(advice: ClassAdvice) -> str:
    """The owner's fade tests that say worse than what is published, in one line."""
    told = []
    for paint in advice.contradicting:
        test, rating = paint.contradicting, paint.worst_known_rating
        assert test is not None  # noqa: S101 - it contradicts by a reading
        assert test.worst is not None  # noqa: S101
        assert rating is not None  # noqa: S101 - there is what it contradicts
        rated = f"{rating.category}{'' if rating.verified_on else '?'}"
        told.append(f"{paint.facts.code} {test.worst.category}, rated {rated}")
    return f"own fade test worse than the rating: {'; '.join(told)} (indicative)"

"""What a class needs of the shelf, on one screen."""

from rich.console import Console

from studio.actions.advise_care import ClassAdvice, LeftOut
from studio.catalogue.care import WORK_WORDS
from studio.catalogue.care_points import Ground
from studio.catalogue.hazard import ADVICE
from studio.sheets.care_page import mark
from studio.sheets.care_view import instead_text
from studio.sheets.check_view import print_documents
from studio.sheets.screen import indented


def print_class(console: Console, advice: ClassAdvice) -> None:
    """Print what stays at home and what instead, what comes along, and what is missing."""
    words = WORK_WORDS[advice.care.work]
    if not (advice.leave or advice.bring):
        console.print("No paint is in stock.")
    if advice.leave:
        console.print(f"Leave at home: {words}", style="bold")
    for left in advice.leave:
        facts = left.paint.facts
        indented(console, f"{facts.code:<5} {facts.name}: {_reasons(left)}")
        indented(console, instead_text(left), 8, "dim")
    if advice.bring:
        _print_bring(console, advice, words)
    print_documents(console, advice.documents, "Data sheets of what you bring")
    console.print("With every paint", style="bold")
    by_source: dict[str, list[str]] = {}
    for point in advice.care.general:
        by_source.setdefault(point.source, []).append(point.text)
    for source, texts in by_source.items():
        indented(console, f"{' '.join(texts)} ({source})")
    indented(console, ADVICE, 0, "dim")


def _print_bring(console: Console, advice: ClassAdvice, words: str) -> None:
    """What comes along, what runs low of it, and what to mind with it."""
    console.print(f"Bring to {words}, once label and data sheet allow it", style="bold")
    indented(console, ", ".join(paint.facts.code for paint in advice.bring))
    silent = ", ".join(paint.facts.code for paint in advice.silent)
    if silent:
        indented(console, f"no caution on record, which is no finding: {silent}")
    if advice.low:
        low = ", ".join(f"{p.facts.code} {p.stock.left:g} ml" for p in advice.low)
        indented(console, f"running low: {low}")
    for point in advice.care.points:
        pigments = dict.fromkeys(ground.pigment for ground in point.grounds if ground.basis)
        if pigments:
            named = ", ".join(name for name in pigments if name)
            indented(console, f"{named}: {point.text}")


def _reasons(left: LeftOut) -> str:
    return "; ".join(_reason(ground) for ground in left.care.avoided_for)


def _reason(ground: Ground) -> str:
    if ground.basis is None:
        return ground.text
    return f"{ground.text} ({mark(verified=ground.verified_on is not None)})"

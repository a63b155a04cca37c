"""The check of the shelf in the terminal."""

from collections.abc import Sequence
from datetime import date

from rich.console import Console

from studio.actions.advise_care import Document
from studio.actions.check_shelf import PaintFinding, ShelfReport
from studio.catalogue.fade import INDICATIVE
from studio.catalogue.hazard import ADVICE, EVERY_PAINT, NO_DATA, Hazard
from studio.catalogue.hazard_grade import grade_of, gravest_first
from studio.catalogue.lightfastness import WORDS
from studio.catalogue.mix import Mix
from studio.catalogue.stock import amount_text
from studio.sheets.own_tests import own_test_text
from studio.sheets.screen import indented, verified_text
from studio.sheets.shelf_view import SIENNA_OR_UMBER_TEXT, sienna_or_umber_commands

_SHOWN_MIXES = 8
_SHOWN_SHEETS = 6


def print_check(console: Console, report: ShelfReport) -> None:
    """Print what needs attention."""
    if not report.needs_attention:
        console.print("Nothing on the shelf needs attention.")
        _print_sheets(console, report, "Data sheets")
        return
    for title, section in (
        ("Running low", _print_low),
        ("Would fade (worst pigment, worst source)", _print_fading),
        ("Own fade tests", _print_fade_tests),
        ("Needs care", _print_care),
        ("Sienna or umber", _print_earths),
        ("No data", _print_unknown),
        ("Data sheets", _print_sheets),
    ):
        if section(console, report, title):
            console.print()
    indented(console, EVERY_PAINT, 0, "dim")
    indented(console, ADVICE, 0, "dim")


def _print_low(console: Console, report: ShelfReport, title: str) -> bool:
    if not (report.low_paints or report.low_papers):
        return False
    console.print(title, style="bold")
    for finding in report.low_paints:
        paint = finding.paint
        mark = "" if paint.low_at is None else f" (low at {paint.low_at:g} ml)"
        _print_paint(console, finding, f": {paint.stock.left:g} ml left{mark}")
        _print_mixes(console, finding.mixes)
    for paper in report.low_papers:
        indented(
            console,
            f"{paper.facts.code:<5} {paper.facts.full_name}: "
            f"{amount_text(paper.stock.left or 0.0, paper.stock.unit)} left "
            f"(low at {amount_text(paper.low_at, paper.stock.unit)})",
        )
    return True


def _print_fading(console: Console, report: ShelfReport, title: str) -> bool:
    if not report.fading:
        return False
    console.print(title, style="bold")
    for finding in report.fading:
        rating = finding.paint.worst_known_rating
        assert rating is not None  # noqa: S101 - it fades by a rating
        _print_paint(console, finding, f": {rating.category} {WORDS[rating.category]}")
        indented(
            console,
            f"{rating.label}, {rating.scale} {rating.rating}: {rating.source}; "
            f"{verified_text(rating.verified_on)}",
            8,
        )
        _print_mixes(console, finding.mixes)
    return True


def _print_fade_tests(console: Console, report: ShelfReport, title: str) -> bool:
    if not report.fade_tests:
        return False
    console.print(title, style="bold")
    for finding in report.fade_tests:
        indented(console, own_test_text(finding.result))
        if finding.result.paint is not None:
            _print_mixes(console, finding.mixes)
    indented(console, INDICATIVE, 2, "dim")
    return True


def _print_care(console: Console, report: ShelfReport, title: str) -> bool:
    """By hazard, as several paints often share a pigment."""
    shared: dict[Hazard, list[PaintFinding]] = {}
    for finding in report.caring:
        for hazard in finding.paint.cautions:
            shared.setdefault(hazard, []).append(finding)
    if not shared:
        return False
    console.print(title, style="bold")
    for hazard in gravest_first(shared):
        findings = shared[hazard]
        what = ", ".join((*hazard.metals, *hazard.class_words)) or hazard.agent
        never = "do not use; " if hazard.never_use else ""
        indented(console, f"{grade_of(hazard)}  {hazard.label}: {never}{what}")
        for finding in findings:
            _print_paint(console, finding, indent=8)
        routes = f"Harm by {', '.join(hazard.routes)}. " if hazard.routes else ""
        indented(console, f"{routes}{hazard.summary} ({verified_text(hazard.verified_on)})", 8)
        mixes = {mix.id: mix for finding in findings for mix in finding.mixes}
        _print_mixes(console, [mixes[key] for key in sorted(mixes)])
    return True


def _print_earths(console: Console, report: ShelfReport, title: str) -> bool:
    """The one question that decides what a PBr7 holds; asked here until it is answered."""
    if not report.sienna_or_umber:
        return False
    console.print(title, style="bold")
    several = len(report.sienna_or_umber) > 1
    question = "Are these siennas or umbers?" if several else "Is this a sienna or an umber?"
    indented(console, f"{question} {SIENNA_OR_UMBER_TEXT}")
    for paint in report.sienna_or_umber:
        commands = " or ".join(sienna_or_umber_commands(paint))
        indented(console, f"{paint.facts.code:<5} {paint.facts.full_name}: {commands}", 4)
    return True


def _print_unknown(console: Console, report: ShelfReport, title: str) -> bool:
    if not report.unknown:
        return False
    console.print(title, style="bold")
    for finding in report.unknown:
        unrated = ", ".join(finding.paint.unrated)
        reason = f"no lightfastness on record for {unrated}" if unrated else NO_DATA
        if not finding.paint.pigments:
            reason = f"pigments not recorded; {NO_DATA}"
        _print_paint(console, finding, f": {reason}")
        _print_mixes(console, finding.mixes)
    return True


def _print_sheets(console: Console, report: ShelfReport, title: str) -> bool:
    sheets = sheets_text(report.documents)
    if not sheets:
        return False
    console.print(title, style="bold")
    indented(console, f"{sheets}; see: studio paint document")
    return True


def sheets_text(documents: Sequence[Document]) -> str:
    """Which data sheets are old or undated, and how many are missing; empty when none is."""
    faulty = [each for each in documents if each.is_on_record and each.fault is not None]
    old = [each for each in faulty if _dated_on(each) is not None]
    undated = [each for each in faulty if _dated_on(each) is None]
    missing = [each for each in documents if not each.is_on_record]
    return "; ".join(
        f"{len(each)} {what} ({_named(each)})"
        for what, each in (("old", old), ("undated", undated), ("not on record", missing))
        if each
    )


def _dated_on(document: Document) -> date | None:
    return document.paint.data_sheet.dated_on if document.paint.data_sheet else None


def _named(documents: Sequence[Document]) -> str:
    """The codes of their paints, the first few where there are many."""
    codes = [each.paint.facts.code for each in documents[:_SHOWN_SHEETS]]
    more = len(documents) - len(codes)
    return ", ".join(codes) + (f" and {more} more" if more else "")


def _print_paint(
    console: Console, finding: PaintFinding, remark: str = "", indent: int = 2
) -> None:
    facts = finding.paint.facts
    indented(console, f"{facts.code:<5} {facts.full_name}{remark}", indent)


def _print_mixes(console: Console, mixes: Sequence[Mix]) -> None:
    if not mixes:
        return
    shown = ", ".join(mix.code for mix in mixes[:_SHOWN_MIXES])
    more = f" and {len(mixes) - _SHOWN_MIXES} more" if len(mixes) > _SHOWN_MIXES else ""
    text = f"in {len(mixes)} mixes: {shown}{more}" if len(mixes) > 1 else f"in mix {shown}"
    indented(console, text, 8, "dim")

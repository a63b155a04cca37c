"""Advice on care in the terminal: what to mind, what it rests on, and what to take instead."""

from collections.abc import Iterable, Sequence

from rich.console import Console

from studio.actions.advise_care import Advice, Document, LeftOut, Substitutes
from studio.actions.find_subject import Subject
from studio.actions.match_colour import ANOTHER_COLOUR, Match
from studio.catalogue.care import BASIS_NOTE, BASIS_WORDS, WORK_WORDS
from studio.catalogue.care_points import Care, Ground, Point
from studio.catalogue.hazard import ADVICE, Hazard
from studio.catalogue.paint import Paint
from studio.sheets.care_page import SheetRow, avoid_text, mark
from studio.sheets.match_view import recipe_text
from studio.sheets.screen import day_text, indented, print_table, verified_text
from studio.sheets.tables import plain_table


def print_advice(console: Console, advice: Advice) -> None:
    """Print what to mind with a paint or a mix: in full for one kind of work, else in short."""
    print_subject(console, advice.subject)
    if len(advice.cares) == 1:
        _print_care(console, advice.cares[0])
    else:
        _print_overview(console, advice.cares)
    if advice.substitutes is not None:
        _print_substitutes(console, advice.substitutes)
    _print_record(console, advice)
    indented(console, ADVICE, 0, "dim")


def print_subject(console: Console, subject: Subject) -> None:
    """The paint, or the recipe with its mix."""
    pigments = dict.fromkeys(name for paint in subject.paints for name in paint.facts.pigments)
    if subject.is_paint:
        facts = subject.paints[0].facts
        heading = f"{facts.code}  {facts.full_name}"
    else:
        mix = subject.mix
        named = "not recorded" if mix is None else " ".join(filter(None, (mix.code, mix.name)))
        heading = f"{named}  {recipe_text(subject.recipe)}"
    indented(console, f"{heading}  {', '.join(pigments) or 'pigments not recorded'}", 0, "bold")


def _print_care(console: Console, care: Care) -> None:
    console.print()
    words = WORK_WORDS[care.work]
    for title, points in (
        (f"Avoid for {words}", [point for point in care.points if point.avoid]),
        (f"Mind for {words}", [point for point in care.points if not point.avoid]),
    ):
        if points:
            console.print(title, style="bold")
        for point in points:
            indented(console, f"{point.text} ({point.source})")
            for ground in point.grounds:
                indented(console, ground_text(ground), 4, "dim")
    print_general(console, "With every paint", care.general)


def print_general(console: Console, title: str, points: Iterable[Point]) -> None:
    """What holds with every paint, each with its source."""
    console.print(title, style="bold")
    for point in points:
        indented(console, f"{point.text} ({point.source})")


def ground_text(ground: Ground) -> str:
    """What a point rests on, with its codes and how far it can be trusted."""
    codes = [each for each in ground.marks if each not in ground.words]
    shown = f"{ground.text} ({', '.join(codes)})" if codes else ground.text
    if ground.basis is None:
        return shown
    sign = mark(verified=ground.verified_on is not None)[0]
    return f"{sign} {shown}; {verified_text(ground.verified_on)}"


def _print_overview(console: Console, cares: Sequence[Care]) -> None:
    table = plain_table("work", "advice", "for")
    for column in table.columns[:2]:
        column.no_wrap = True
    for care in cares:
        grounds = care.avoided_for if care.avoid else _grounds(care)
        for index, text in enumerate(_short(grounds) or [""]):
            advice = "avoid" if care.avoid else "mind" if grounds else "usual care"
            table.add_row("" if index else care.work, "" if index else advice, text)
    console.print()
    print_table(console, table)
    indented(console, "each in full, with substitutes: --for WORK", 0, "dim")


def _grounds(care: Care) -> list[Ground]:
    return list(dict.fromkeys(ground for point in care.points for ground in point.grounds))


def _short(grounds: Iterable[Ground]) -> list[str]:
    """One text for each pigment: all its words, and the mark of trust."""
    words: dict[tuple[str, str], dict[str, None]] = {}
    listed = list(grounds)
    said_of = {ground.pigment for ground in listed if not ground.is_plain}
    for ground in listed:
        if ground.is_plain and ground.pigment in said_of:
            continue
        pigment = ground.pigment or "pigments not recorded"
        sign = "" if ground.basis is None else mark(verified=ground.verified_on is not None)
        words.setdefault((pigment, sign), {}).update(dict.fromkeys(ground.words))
    return [
        f"{pigment} {', '.join(said)}{'; ' if sign else ''}{sign}"
        for (pigment, sign), said in words.items()
    ]


def _print_substitutes(console: Console, substitutes: Substitutes) -> None:
    console.print("Instead, of paints in stock", style="bold")
    if substitutes.compared is None:
        indented(console, "no dry swatch to compare with: log one, and ask again")
        return
    for match in substitutes.matches:
        indented(console, f"{match.mix.code}  {match_text(match)}: {match.separation.sentence}")
    if not substitutes.matches:
        indented(console, "no recorded mix is without these cautions")
    else:
        code = substitutes.compared.facts.code
        indented(console, f"compared with swatch {code} by CIEDE2000", 2, "dim")


def match_text(match: Match) -> str:
    """A substitute's difference and recipe; far ones are called another colour."""
    far = ", another colour" if match.difference > ANOTHER_COLOUR else ""
    return f"{recipe_text(match.recipe)}, ΔE00 {match.difference:.1f}{far}"


def instead_text(left: LeftOut) -> str:
    """The nearest substitute of a paint that stays at home."""
    if left.substitutes.compared is None:
        return "no dry swatch of it to find a substitute by"
    if not left.substitutes.matches:
        return "no recorded mix may take its place"
    match = left.substitutes.matches[0]
    return f"instead {match.mix.code} {match_text(match)}"


def _print_record(console: Console, advice: Advice) -> None:
    """Every caution with its standing in the law in a column of its own, then the documents."""
    table = plain_table("pigment", "statements", "metals", "classification", "", "label marks")
    table.columns[4].no_wrap = True
    summaries = []
    for paint in advice.subject.paints:
        marks = paint.data_sheet.label_marks if paint.data_sheet else None
        for hazard in paint.hazards:
            table.add_row(*_record_row(hazard), marks or "not noted")
            summaries.append(f"{hazard.pigment}: {hazard.summary} ({hazard.source})")
    if summaries:
        console.print("On record", style="bold")
        print_table(console, table)
        for summary in dict.fromkeys(summaries):
            indented(console, summary, 2, "dim")
        indented(console, BASIS_NOTE, 2, "dim")
    console.print("Documents", style="bold")
    for document in advice.documents:
        indented(console, document_text(document))


def _record_row(hazard: Hazard) -> tuple[str, ...]:
    statements = ", ".join(f"{code.code}{'?' if code.hedged else ''}" for code in hazard.codes)
    return (
        hazard.pigment,
        statements or "none",
        ", ".join(hazard.metals) or "none",
        BASIS_WORDS[hazard.basis],
        mark(verified=hazard.verified_on is not None),
    )


def document_text(document: Document) -> str:
    """Where a paint's data sheet lies, of which day it is, and what is wrong with it."""
    sheet = document.paint.data_sheet
    told = [document.paint.facts.code]
    if sheet is not None and sheet.location is not None:
        recent = sheet.dated_on if document.fault is None else None
        dated = f" of {day_text(recent)}" if recent else ""
        told.append(f"data sheet{dated}: {sheet.location}")
    if document.fault is not None:
        told.append(document.fault)
    if document.label_marks is not None:
        told.append(f"label: {document.label_marks}")
    return f"{told[0]:<5} {'; '.join(told[1:])}"


def print_care_sheet(
    console: Console, rows: Sequence[SheetRow], unknown: Sequence[Paint], silent: Sequence[Paint]
) -> None:
    """The cautions of the shelf, grouped by hazard."""
    for row in rows:
        what = ", ".join(row.words) or "no class on record"
        heading = f"{mark(verified=row.verified)}  {what}  ({', '.join(row.pigments)})"
        indented(console, heading, 0, "bold")
        indented(console, ", ".join(paint.facts.name for paint in row.paints))
        told = [f"harm by {', '.join(row.routes)}"] if row.routes else []
        told += [f"keep from: {avoid_text(row.avoid_for)}"] if row.avoid_for else []
        indented(console, "; ".join([*told, f"classification: {BASIS_WORDS[row.basis]}"]))
        if row.label_marks:
            indented(console, f"label marks: {'; '.join(row.label_marks)}")
    for text, paints in (
        ("No data, treat with care", unknown),
        ("No caution on record, which is no finding", silent),
    ):
        if paints:
            indented(console, f"{text}: {', '.join(paint.facts.name for paint in paints)}", 0)
    indented(console, BASIS_NOTE, 0, "dim")
    indented(console, ADVICE, 0, "dim")

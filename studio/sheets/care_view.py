"""Advice on care in the terminal: what to mind, what it rests on, and what to take instead."""

from collections.abc import Iterable, Iterator, Sequence

from rich.console import Console

from studio.actions.advise_care import Advice, Document, Substitutes
from studio.actions.find_subject import Subject
from studio.actions.match_colour import ANOTHER_COLOUR, Match
from studio.catalogue.care import (
    BASIS_NOTE,
    BASIS_WORDS,
    LOOKED_UP_TITLE,
    NEVER,
    UNREAD_HOW,
    WORK_WORDS,
    Work,
)
from studio.catalogue.care_points import Care, Ground, Point, own_grounds
from studio.catalogue.hazard import ADVICE, Hazard
from studio.catalogue.paint import Paint
from studio.sheets.care_columns import (
    LABEL_COLUMN,
    NO_DATA,
    NOT_NOTED,
    STANDING_COLUMNS,
    label_marks,
    listing_text,
    looked_up_lines,
    owner_read_text,
    standing_cells,
    standing_of,
    statement_codes,
    trust_mark,
    trust_text,
    unbroken,
    unread_lines,
)
from studio.sheets.care_page import SheetRow, avoid_text
from studio.sheets.match_view import recipe_text
from studio.sheets.screen import day_text, indented, print_table
from studio.sheets.tables import plain_table


def print_advice(console: Console, advice: Advice) -> None:
    """Print what to mind with a paint or a mix: in full for one kind of work, else in short."""
    print_subject(console, advice.subject)
    if len(advice.cares) == 1:
        _print_care(console, advice.cares[0])
    else:
        _print_overview(console, advice.cares)
    if advice.substitutes is not None:
        _print_substitutes(console, advice.substitutes, advice.cares[0])
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
        ("Do not use", [point for point in care.points if point.never]),
        (f"Avoid for {words}", [p for p in care.points if p.avoid and not (p.never or p.unread)]),
        (
            f"Not in {words} until label and data sheet are read",
            [point for point in care.points if point.avoid and point.unread],
        ),
        (f"Take care in {words}", [point for point in care.points if not point.avoid]),
    ):
        if points:
            indented(console, title, 0, "bold")
        for point in points:
            indented(console, f"{point.text} ({point.source})")
            for ground in point.grounds:
                indented(console, unbroken(ground_text(ground)), 4, "dim")
        if points and points[0].unread:
            indented(console, UNREAD_HOW)
    print_general(console, "With every paint", care.general)


def print_general(console: Console, title: str, points: Iterable[Point]) -> None:
    """What holds with every paint: a paragraph for each source."""
    by_source: dict[str, list[str]] = {}
    for point in points:
        by_source.setdefault(point.source, []).append(point.text)
    console.print(title, style="bold")
    for source, texts in by_source.items():
        indented(console, f"{' '.join(texts)} ({source})")


def ground_text(ground: Ground) -> str:
    """What a point rests on, with its codes and how far it can be trusted."""
    told = ", ".join((ground.text, *ground.codes))
    return told if ground.basis is None else f"{told} ({trust_text(ground.verified_on)})"


def _print_overview(console: Console, cares: Sequence[Care]) -> None:
    table = plain_table("work", "advice", "for")
    for column in table.columns[:2]:
        column.no_wrap = True
    for care in cares:
        grounds = care.avoided_for if care.avoid else _grounds(care)
        for index, text in enumerate(_short(grounds) or [""]):
            advice = _advice(care, grounds)
            table.add_row("" if index else care.work, "" if index else advice, text)
    console.print()
    print_table(console, table)
    indented(console, "each in full, and what to use instead: --for WORK", 0, "dim")


def _advice(care: Care, grounds: Sequence[Ground]) -> str:
    if care.never:
        return "do not use"
    if care.avoid:
        return "read first" if care.unread else "avoid"
    return "take care" if grounds else "usual care"


def _grounds(care: Care) -> list[Ground]:
    return list(dict.fromkeys(ground for point in care.points for ground in point.grounds))


def _short(grounds: Iterable[Ground]) -> list[str]:
    """One text for pigments of which the same is said: all the words, and the mark of trust."""
    words: dict[tuple[str, str], dict[str, None]] = {}
    listed = list(grounds)
    said_of = {ground.pigment for ground in listed if not ground.is_plain}
    for ground in listed:
        if ground.is_plain and ground.pigment in said_of:
            continue
        pigment = ground.label or ""
        sign = "" if ground.basis is None else trust_mark(verified=ground.verified_on is not None)
        words.setdefault((pigment, sign), {}).update(dict.fromkeys(ground.words))
    pigments: dict[str, list[str]] = {}
    for (pigment, sign), said in words.items():
        told = " ".join(filter(None, (", ".join(said), f"({sign})" if sign else "")))
        pigments.setdefault(told, []).append(pigment)
    return [f"{', '.join(named)} {told}".strip() for told, named in pigments.items()]


def _print_substitutes(console: Console, substitutes: Substitutes, care: Care) -> None:
    console.print("Instead, of paints in stock", style="bold")
    if substitutes.compared is None:
        indented(console, "no dry swatch to compare with: log one, and ask again")
        return
    for match in substitutes.matches:
        indented(console, f"{match.mix.code}  {match_text(match)}: {match.separation.sentence}")
        indented(console, unbroken(own_cautions(match, care.work)), 4, "dim")
    if not substitutes.matches:
        indented(console, "no recorded mix is without these cautions")
    else:
        code = substitutes.compared.facts.code
        indented(console, f"compared with swatch {code} by CIEDE2000", 2, "dim")


def match_text(match: Match) -> str:
    """A substitute's difference and recipe; far ones are called another colour."""
    return f"{recipe_text(match.recipe)}, {difference_text(match)}"


def difference_text(match: Match) -> str:
    """How far a substitute is; what is far is called another colour."""
    far = ", another colour" if match.difference > ANOTHER_COLOUR else ""
    return f"ΔE00 {match.difference:.1f}{far}"


def own_cautions(match: Match, work: Work) -> str:
    """What is on record of a substitute itself, or that nothing is, which does not clear it."""
    return "; ".join(_short(own_grounds([part.paint for part in match.recipe], work)))


def _print_record(console: Console, advice: Advice) -> None:
    """Every caution under its standing in the law, then where to verify it."""
    console.print("On record", style="bold")
    table = plain_table("pigment", *STANDING_COLUMNS, LABEL_COLUMN, "checked")
    table.columns[-1].no_wrap = True
    summaries: dict[str, None] = {}
    for paint in advice.subject.paints:
        noted = label_marks(paint) or NOT_NOTED
        label = noted if advice.subject.is_paint else f"{paint.facts.code}: {noted}"
        for *cells, checked in _record_rows(paint):
            table.add_row(*cells, label, checked)
        summaries |= dict.fromkeys(_summary(hazard) for hazard in paint.hazards)
    print_table(console, table)
    for summary in summaries:
        indented(console, summary, 2, "dim")
    for line in looked_up_lines(advice.subject.paints):
        indented(console, f"{LOOKED_UP_TITLE}: {line}", 2, "dim")
    indented(console, BASIS_NOTE, 2, "dim")
    console.print("Where to verify", style="bold")
    for document in advice.documents:
        indented(console, document_text(document))


def _record_rows(paint: Paint) -> Iterator[tuple[str, ...]]:
    """The cells of a paint's pigments; what is not known of them is said in words."""
    if not paint.pigments:
        yield "not recorded", "", "", "", NO_DATA, ""
    for pigment in paint.pigments:
        if not pigment.hazards:
            yield pigment.label, "", "", "", standing_of(pigment), ""
        for hazard in pigment.hazards:
            yield (
                " ".join((hazard.label, *hazard.metals)),
                *standing_cells(hazard.basis, statement_codes(hazard)),
                trust_mark(verified=hazard.verified_on is not None),
            )


def _summary(hazard: Hazard) -> str:
    """A caution in a painter's words, its standing in detail, its source and who confirmed it."""
    told = [f"{hazard.label}: {f'{NEVER} ' if hazard.never_use else ''}{hazard.summary}"]
    if hazard.listings:
        told.append(f"Listed: {'; '.join(map(listing_text, hazard.listings))}.")
    if hazard.basis_detail is not None:
        told.append(f"Standing: {hazard.basis_detail}.")
    confirmed = ""
    if hazard.verified_on is not None:
        by = f" from {hazard.verified_from}" if hazard.verified_from else ""
        confirmed = f"; verified {day_text(hazard.verified_on)}{by}"
    return f"{' '.join(told)} ({hazard.source}{confirmed})"


def document_text(document: Document) -> str:
    """Where a paint's data sheet lies, of which day it is, and what is wrong with it."""
    sheet = document.paint.data_sheet
    told = [document.paint.facts.code]
    if sheet is not None and sheet.location is not None:
        dated = f" of {day_text(sheet.dated_on)}" if sheet.dated_on else ""
        told.append(f"data sheet{dated}{_sheet_remark(document)}: {sheet.location}")
    elif document.fault is not None:
        told.append(document.fault)
    if document.label_marks is not None:
        told.append(f"label: {document.label_marks}")
    return f"{told[0]:<5} {'; '.join(told[1:])}"


def _sheet_remark(document: Document) -> str:
    """What is wrong with a data sheet that is on record, in few words."""
    sheet = document.paint.data_sheet
    if document.fault is None or sheet is None:
        return ""
    return ", look for a newer one" if sheet.dated_on else ", no date on record"


def print_care_sheet(
    console: Console, rows: Sequence[SheetRow], unread: Sequence[Paint], paints: Sequence[Paint]
) -> None:
    """The cautions of the shelf, grouped by hazard."""
    for row in rows:
        what = ", ".join(row.words) or "no class on record"
        heading = f"{trust_mark(verified=row.verified)}  {what}  ({', '.join(row.pigments)})"
        indented(console, heading, 0, "bold")
        indented(console, ", ".join(paint.facts.name for paint in row.paints))
        told = [f"harm by {', '.join(row.routes)}"] if row.routes else []
        told += [f"keep from: {avoid_text(row.avoid_for)}"] if row.avoid_for else []
        indented(console, "; ".join([*told, f"classification: {BASIS_WORDS[row.basis]}"]))
        if row.listings:
            indented(console, f"listed: {'; '.join(row.listings)}")
        if row.label_marks:
            indented(console, f"label marks: {'; '.join(row.label_marks)}")
    if unread:
        indented(console, "Not known until label and data sheet are read", 0, "bold")
    for line in unread_lines(unread):
        indented(console, line)
    if unread:
        indented(console, UNREAD_HOW)
    if noted := owner_read_text(paints):
        indented(console, noted)
    for line in looked_up_lines(paints):
        indented(console, f"{LOOKED_UP_TITLE}: {line}")
    indented(console, BASIS_NOTE, 0, "dim")
    indented(console, ADVICE, 0, "dim")

"""The sections of a paint's card: what is on record of it, each fact with its standing."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from studio.catalogue.container import Container
from studio.catalogue.data_sheet import sheet_fault
from studio.catalogue.fade import INDICATIVE
from studio.catalogue.hazard import EVERY_PAINT, NO_DATA, Basis, Hazard
from studio.catalogue.lightfastness import WORDS
from studio.catalogue.paint import Paint
from studio.catalogue.stock import amount_text
from studio.sheets.blocks import Block, Grid, Paragraph
from studio.sheets.screen import day_text
from studio.sheets.stock_view import left_text

UNVERIFIED: Final = "?\N{NO-BREAK SPACE}unverified"
VERIFIED: Final = "\N{CHECK MARK}\N{NO-BREAK SPACE}verified"
STANDING: Final = (
    f"{UNVERIFIED}: nobody has confirmed it in this studio; {VERIFIED}: you confirmed it, on that "
    "day, from what is named."
)
HEDGED: Final = "A ? behind a statement: only some grades or data sheets carry it."
CLASSED: Final = (
    "Harmonised, exempt, notified and annulled are standings in the law; none: no classification "
    "is on record here. None of them is a verdict on the paint."
)
_UNSAID: Final = "not recorded"


@dataclass(frozen=True, slots=True)
class Section:
    """A section of a card.

    Args:
        title: its heading.
        blocks: what it holds; the tables tell by themselves what they are about.
        remarks: how to read it.
    """

    title: str
    blocks: tuple[Block, ...]
    remarks: tuple[str, ...] = ()


def sections_of(paint: Paint, containers: Sequence[Container], day: date) -> tuple[Section, ...]:
    """All sections of a card, in the order they are read.

    Args:
        paint: the paint.
        containers: every container of it.
        day: the day of the card, by which a data sheet is old.
    """
    return (
        _label(paint),
        _light(paint),
        *([_own_tests(paint)] if paint.fade_tests else []),
        _cautions(paint.hazards),
        _classes(paint.hazards),
        _documents(paint, day),
        _stock(paint, containers),
    )


def form_text(paint: Paint) -> str:
    """What a paint is sold in, such as `tube of 14 ml`."""
    volume = paint.facts.volume_ml
    return str(paint.facts.form) + ("" if volume is None else f" of {volume:g} ml")


def light_text(paint: Paint) -> str:
    """The lightfastness that counts and its standing."""
    rating = paint.worst_rating
    if rating is None:
        return "not known"
    return f"{rating.category} {WORDS[rating.category]} ({_standing(rating.verified_on)})"


def _label(paint: Paint) -> Section:
    facts = paint.facts
    pigments = tuple(
        (each.ci_name, each.common_name or "no data: take care", each.chemical_class or "")
        for each in paint.pigments
    )
    said = {
        "sold in": form_text(paint),
        "transparency": facts.transparency or _UNSAID,
        "staining": facts.staining or _UNSAID,
        "granulation": facts.granulation or _UNSAID,
        "lot": facts.lot or _UNSAID,
    }
    first: Block = Grid(("pigment", "common name", "chemistry"), pigments, widths=(1.2, 2, 2))
    if not pigments:
        first = Paragraph(f"Pigments not recorded; {NO_DATA}.", strong=True)
    label = Grid(tuple(said), (tuple(map(str, said.values())),), widths=(1.2, 1.2, 1.2, 1.2, 1.6))
    notes = (Paragraph(f"Note: {facts.note}"),) if facts.note else ()
    return Section("Pigments and label", (first, label, *notes))


def _light(paint: Paint) -> Section:
    """Every rating side by side, and the one that counts."""
    rows = tuple(
        (
            rating.label,
            rating.scale,
            rating.rating,
            f"{rating.category} {WORDS[rating.category]}",
            rating.medium,
            rating.source
            + (f", {rating.year}" if rating.year else "")
            + (f" ({rating.note})" if rating.note else ""),
            _standing(rating.verified_on, rating.verified_from),
        )
        for pigment in paint.pigments
        for rating in pigment.ratings
    )
    columns = ("pigment", "scale", "rating", "lightfastness", "medium", "source, year", "standing")
    blocks: list[Block] = []
    if rows:
        blocks.append(Grid(columns, rows, widths=(1, 1.2, 0.8, 1.6, 1.4, 3.2, 1.6)))
    if (worst := paint.worst_rating) is not None:
        said = f"Counts as {light_text(paint)}, by {worst.label} and its worst source."
        blocks.append(Paragraph(said))
    else:
        unrated = ", ".join(paint.unrated) or "it, as its pigments are not recorded"
        blocks.append(Paragraph(f"No lightfastness rating on record for {unrated}.", strong=True))
    if not paint.fade_tests:
        blocks.append(Paragraph("No fade test of your own on record."))
    return Section("Lightfastness", tuple(blocks), (STANDING,) if rows else ())


def _own_tests(paint: Paint) -> Section:
    """The owner's own fade tests with their last reading."""
    rows = []
    for test in paint.fade_tests:
        ended = "still hangs" if test.ended_on is None else day_text(test.ended_on)
        read = ("not read yet", "", "", "")
        if test.readings:
            last = test.readings[-1]
            band = f"{last.category} {WORDS[last.category]}"
            wool = "" if last.blue_wool is None else str(last.blue_wool)
            read = (day_text(last.read_on), f"{last.delta_e:.1f}", band, wool)
        rows.append((test.code, test.place, day_text(test.started_on), ended, *read))
    columns = ("fade test", "place", "from", "to", "read", "ΔE*ab", "band", "blue wool")
    grid = Grid(columns, tuple(rows), (1, 2, 1.3, 1.3, 1.3, 1, 1.2, 0.8), frozenset({5, 7}))
    blocks: list[Block] = [grid]
    against, published = paint.contradicting, paint.worst_known_rating
    if against is not None and against.worst is not None and published is not None:
        blocks.append(
            Paragraph(
                f"{against.code} has changed more than the published rating allows: ΔE*ab "
                f"{against.worst.delta_e:.1f} lies in band {against.worst.category}, the rating is "
                f"{published.category} ({_standing(published.verified_on)}).",
                strong=True,
            )
        )
    return Section("Own fade tests", tuple(blocks), (INDICATIVE,))


def _cautions(hazards: Sequence[Hazard]) -> Section:
    """What to be careful of, in a painter's words, with the GHS statements behind it."""
    rows = tuple(
        (
            hazard.label,
            f"Do not use. {hazard.summary}" if hazard.never_use else hazard.summary,
            "; ".join(
                (
                    *(
                        f"{code.code}{'?' if code.hedged else ''} {code.wording.rstrip('.')}"
                        for code in hazard.codes
                    ),
                    *(f"listed: {listing.text}" for listing in hazard.listings),
                )
            )
            or "none on record",
            ", ".join(hazard.routes) or _UNSAID,
            hazard.source,
            _standing(hazard.verified_on, hazard.verified_from),
        )
        for hazard in hazards
    )
    columns = ("cautions for", "in a painter's words", "GHS statements", "harm by", "source")
    body: Block = Grid((*columns, "standing"), rows, widths=(1.5, 3.6, 2.4, 1.5, 2.8, 1.6))
    if not rows:
        body = Paragraph(NO_DATA[0].upper() + NO_DATA[1:] + ".", strong=True)
    hedged = any(code.hedged for hazard in hazards for code in hazard.codes)
    return Section("Cautions", (body,), (EVERY_PAINT, *((HEDGED,) if hedged else ())))


def _classes(hazards: Sequence[Hazard]) -> Section:
    """Where each hazard stands in the law, with a column for each standing."""
    rows = tuple(
        (
            hazard.label,
            hazard.agent + (f", CAS {hazard.cas}" if hazard.cas else ""),
            *("yes" if hazard.basis is basis else "" for basis in Basis),
            hazard.basis_detail or "",
        )
        for hazard in hazards
    )
    if not rows:
        return Section("Classification", (Paragraph("No classification on record."),))
    columns = ("class of", "agent", *map(str, Basis), "detail")
    widths = (1.1, 2.8, 1, 1, 1, 1, 1, 2.2)
    return Section("Classification", (Grid(columns, rows, widths),), (CLASSED,))


def _documents(paint: Paint, day: date) -> Section:
    """The marks on the label and the maker's data sheet."""
    sheet, fault = paint.data_sheet, sheet_fault(paint.data_sheet, day)
    blocks: list[Block] = []
    if sheet is not None:
        row = (
            sheet.label_marks or _UNSAID,
            sheet.location or _UNSAID,
            _UNSAID if sheet.dated_on is None else day_text(sheet.dated_on),
            day_text(sheet.recorded_on),
        )
        blocks.append(Grid(("label marks", "data sheet", "dated", "noted"), (row,), (2, 4, 1, 1)))
    if fault is not None:
        blocks.append(Paragraph(fault[0].upper() + fault[1:] + ".", strong=True))
    return Section("Label marks and data sheet", tuple(blocks))


def _stock(paint: Paint, containers: Sequence[Container]) -> Section:
    """What is left in all, and in each container."""
    low = "" if paint.low_at is None else f"; low at {paint.low_at:g} ml"
    left = "not counted" if paint.stock.left is None else f"{left_text(paint.stock)} left"
    rows = tuple(
        (
            each.code,
            str(each.kind),
            "" if each.capacity is None else amount_text(each.capacity, each.unit),
            ("about " if each.estimated else "") + amount_text(each.left, each.unit),
            "" if each.opened_on is None else day_text(each.opened_on),
            each.lot or "",
            "on the shelf" if each.on_shelf else "not on the shelf",
        )
        for each in containers
    )
    blocks: list[Block] = []
    if rows:
        columns = ("container", "kind", "holds", "left", "opened", "lot", "where")
        widths = (1.2, 1.2, 1, 1.2, 1.4, 1.4, 1.6)
        blocks.append(Grid(columns, rows, widths, frozenset({2, 3})))
    blocks.append(Paragraph(f"In all {left}{', low' if paint.is_low else ''}{low}."))
    return Section("Stock", tuple(blocks))


def _standing(verified_on: date | None, source: str | None = None) -> str:
    """Verified or unverified, never alike: each has its own mark."""
    if verified_on is None:
        return UNVERIFIED
    return f"{VERIFIED} {day_text(verified_on)}" + (f" from {source}" if source else "")

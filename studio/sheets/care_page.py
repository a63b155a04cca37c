"""The cautions of a whole shelf on one page for the studio's wall, grouped by hazard."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import groupby
from typing import Final

from studio.catalogue.care import ARTS, BASIS_NOTE, BASIS_WORDS, PRACTICE, Work
from studio.catalogue.care_points import hazard_points, is_silent, is_unknown
from studio.catalogue.hazard import ADVICE, UNCLASSIFIED, Basis, Hazard
from studio.catalogue.paint import Paint
from studio.sheets.blocks import Block, Bullets, Grid, Heading, Page, Paragraph
from studio.sheets.screen import day_text

TITLE: Final = "Cautions for the paints of this studio"
RULES: Final = (
    f"No brush in the mouth, no food or drink at the table ({ARTS}).",
    f"No dust from dry pigment or sanding, no mist from spraying or spattering ({ARTS}).",
    f"Wash your hands before you eat; wipe up wet; let rinse water settle ({PRACTICE}).",
)
_AIR: Final = (Work.SPATTER, Work.SPRAY, Work.DRY_PIGMENT, Work.SANDING)
_CLASSES: Final = (Work.ADULTS, Work.CHILDREN)


@dataclass(frozen=True, slots=True)
class SheetRow:
    """Hazards that read alike, and the paints that have them.

    Args:
        words: metals and hazard classes; empty for routes alone.
        routes: how they do harm.
        basis: standing in the law.
        verified: whether the owner confirmed them.
        avoid_for: the kinds of work that they are better left out of.
        pigments: Colour Index names.
        paints: the paints that hold them.
    """

    words: tuple[str, ...]
    routes: tuple[str, ...]
    basis: Basis
    verified: bool
    avoid_for: tuple[Work, ...]
    pigments: tuple[str, ...]
    paints: tuple[Paint, ...]

    @property
    def label_marks(self) -> tuple[str, ...]:
        """What the owner noted from the labels of its paints, with each paint's code."""
        return tuple(
            f"{paint.facts.code}: {paint.data_sheet.label_marks}"
            for paint in self.paints
            if paint.data_sheet is not None and paint.data_sheet.label_marks
        )


def sheet_rows(paints: Iterable[Paint]) -> list[SheetRow]:
    """The cautions of some paints, what is left out of most kinds of work first."""
    shared: dict[SheetRow, tuple[dict[str, None], dict[int, Paint]]] = {}
    for paint in paints:
        for hazard in paint.hazards:
            pigments, holders = shared.setdefault(_alike(hazard), ({}, {}))
            pigments[hazard.pigment] = None
            holders[paint.id] = paint
    rows = [
        SheetRow(
            words=row.words,
            routes=row.routes,
            basis=row.basis,
            verified=row.verified,
            avoid_for=row.avoid_for,
            pigments=tuple(pigments),
            paints=tuple(holders.values()),
        )
        for row, (pigments, holders) in shared.items()
    ]
    return sorted(rows, key=lambda row: (-len(row.avoid_for), row.avoid_for, row.words))


def _alike(hazard: Hazard) -> SheetRow:
    words = tuple(word for word in hazard.class_words if word.rstrip("?") != UNCLASSIFIED)
    return SheetRow(
        words=(*hazard.metals, *words),
        routes=hazard.routes,
        basis=hazard.basis,
        verified=hazard.verified_on is not None,
        avoid_for=tuple(
            work for work in Work if any(point.avoid for point in hazard_points(hazard, work))
        ),
        pigments=(),
        paints=(),
    )


def avoid_text(works: Sequence[Work]) -> str:
    """Kinds of work in a few words, such as `spray, dust, drain, classes`."""
    words = []
    if all(work in works for work in _AIR):
        words.append("spatter, spray, dust")
    else:
        words += [str(work) for work in works if work in _AIR]
    if Work.RINSE_WATER in works:
        words.append("drain")
    if all(work in works for work in _CLASSES):
        words.append("classes")
    elif Work.CHILDREN in works:
        words.append("children's classes")
    if Work.PREGNANCY in works:
        words.append("pregnancy")
    return ", ".join(words)


def mark(*, verified: bool) -> str:
    """How far a caution can be trusted, by a mark and by a word."""
    return "\N{CHECK MARK} verified" if verified else "? unverified"


def care_page(paints: Sequence[Paint], today: date) -> Page:
    """The page for the wall, of the paints in use."""
    rows = sheet_rows(paints)
    blocks: list[Block] = [Bullets(RULES)]
    for works, alike in groupby(rows, key=lambda row: row.avoid_for):
        kept = f"Keep from {avoid_text(works)}" if works else "Also on record"
        blocks += [
            Heading(kept),
            Grid(
                ("paints", "pigments", "what", "harm by", "classification", ""),
                tuple(_cells(row) for row in alike),
                widths=(4.6, 2, 3.4, 3.6, 2.1, 2.6),
            ),
        ]
    unknown = [paint.facts.name for paint in paints if is_unknown(paint)]
    silent = [paint.facts.name for paint in paints if is_silent(paint) and not is_unknown(paint)]
    if unknown:
        blocks.append(Paragraph(f"No data, treat with care: {', '.join(unknown)}.", strong=True))
    if silent:
        text = f"No caution on record, which is no finding: {', '.join(silent)}."
        blocks.append(Paragraph(text))
    marks = dict.fromkeys(mark for row in rows for mark in row.label_marks)
    if marks:
        blocks.append(Paragraph(f"Label marks noted: {'; '.join(marks)}.", small=True))
    blocks.append(Paragraph(BASIS_NOTE, small=True))
    count = "1 paint" if len(paints) == 1 else f"{len(paints)} paints"
    return Page(TITLE, f"{day_text(today)}, {count} in use", tuple(blocks), ADVICE)


def _cells(row: SheetRow) -> tuple[str, ...]:
    return (
        ", ".join(paint.facts.name for paint in row.paints),
        ", ".join(row.pigments),
        ", ".join(row.words) or "no class on record",
        ", ".join(route.removeprefix("breathing ") for route in row.routes) or "not on record",
        BASIS_WORDS[row.basis],
        mark(verified=row.verified),
    )

"""The cautions of a whole shelf, grouped by hazard."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from studio.catalogue.care import Work
from studio.catalogue.care_points import hazard_points
from studio.catalogue.hazard import UNCLASSIFIED, Basis, Hazard
from studio.catalogue.paint import Paint

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
        never_use: whether they are never to be used.
        listings: what lists other than the EU's say.
    """

    words: tuple[str, ...]
    routes: tuple[str, ...]
    basis: Basis
    verified: bool
    avoid_for: tuple[Work, ...]
    pigments: tuple[str, ...]
    paints: tuple[Paint, ...]
    never_use: bool = False
    listings: tuple[str, ...] = ()

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
            pigments[hazard.label] = None
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
            never_use=row.never_use,
            listings=row.listings,
        )
        for row, (pigments, holders) in shared.items()
    ]
    return sorted(
        rows, key=lambda row: (not row.never_use, -len(row.avoid_for), row.avoid_for, row.words)
    )


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
        never_use=hazard.never_use,
        listings=tuple(listing.text for listing in hazard.listings),
    )


def avoid_text(works: Sequence[Work]) -> str:
    """Kinds of work in a few words, such as `spray, dust, drain, classes`."""
    if set(works) == set(Work):
        return "every kind of work: do not use"
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

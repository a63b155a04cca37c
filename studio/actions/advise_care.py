"""Advise on care: what to mind with a paint or a mix, and what to leave out of a class."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from studio.actions.find_subject import Subject
from studio.actions.match_colour import Match, MatchResult, Wanted, match_colour
from studio.actions.read_target import Target
from studio.catalogue.care import Work
from studio.catalogue.care_points import Care, care_of
from studio.catalogue.data_sheet import sheet_fault
from studio.catalogue.lightfastness import FADING
from studio.catalogue.mix import Mix
from studio.catalogue.paint import Paint
from studio.catalogue.paper import Paper
from studio.catalogue.reading import State
from studio.catalogue.recipe import Recipe
from studio.catalogue.swatch import Swatch
from studio.storage.unit_of_work import UnitOfWork

SUBSTITUTES = 3
"""How many substitutes a paint or a mix gets; in a class each paint gets one."""


@dataclass(frozen=True, slots=True)
class Substitutes:
    """The nearest mixes of paints on the shelf that no caution on record bars from the work.

    Args:
        compared: the swatch they are compared with; None when there is none.
        result: what the project's own search found; None without a swatch.
    """

    compared: Swatch | None
    result: MatchResult | None

    @property
    def matches(self) -> tuple[Match, ...]:
        """The mixes, nearest first."""
        return () if self.result is None else self.result.matches


@dataclass(frozen=True, slots=True)
class Document:
    """What is on record of a paint's documents.

    Args:
        paint: the paint.
        fault: what is wrong with its data sheet, None when nothing is.
    """

    paint: Paint
    fault: str | None

    @property
    def is_on_record(self) -> bool:
        """Whether there is a data sheet at all; label marks alone are none."""
        sheet = self.paint.data_sheet
        return sheet is not None and sheet.location is not None

    @property
    def label_marks(self) -> str | None:
        """Marks and words on its label, as the owner noted them."""
        return None if self.paint.data_sheet is None else self.paint.data_sheet.label_marks


@dataclass(frozen=True, slots=True)
class Advice:
    """What to mind with a paint or a mix.

    Args:
        subject: what it is about.
        cares: one for each kind of work that was asked about.
        substitutes: where it is better left out of the one kind of work asked about.
        documents: of each of its paints.
    """

    subject: Subject
    cares: tuple[Care, ...]
    substitutes: Substitutes | None
    documents: tuple[Document, ...]


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A paint that stays at home by a caution on record.

    Args:
        paint: the paint.
        care: why.
        substitutes: what comes nearest to it among the paints that may come along.
    """

    paint: Paint
    care: Care
    substitutes: Substitutes


@dataclass(frozen=True, slots=True)
class ClassAdvice:
    """What a class needs of the shelf.

    Args:
        care: the points of the paints that may come along, and those of every class.
        leave: paints that stay at home by a caution on record.
        unread: paints of which nobody knows, not brought until label and data sheet are read.
        bring: paints in stock that nothing on record keeps at home.
        low: paints to bring that run low.
        low_papers: papers that run low.
        documents: of the paints to bring.
    """

    care: Care
    leave: tuple[LeftOut, ...]
    unread: tuple[Paint, ...]
    bring: tuple[Paint, ...]
    low: tuple[Paint, ...]
    low_papers: tuple[Paper, ...]
    documents: tuple[Document, ...]

    @property
    def needs_attention(self) -> bool:
        """Whether something stays at home, runs low, would fade or has a faulty data sheet."""
        faulty = any(document.is_on_record and document.fault for document in self.documents)
        fades = self.fading or self.contradicting
        return bool(self.leave or self.unread or self.low or self.low_papers or fades or faulty)

    @property
    def not_looked_up(self) -> tuple[Paint, ...]:
        """Paints not brought whose pigments are known, but for one that nobody looked up."""
        return tuple(paint for paint in self.unread if not paint.lacks_data)

    @property
    def unknown(self) -> tuple[Paint, ...]:
        """Paints not brought whose pigments are not recorded, or stand in no reference table."""
        return tuple(paint for paint in self.unread if paint.lacks_data)

    @property
    def fading(self) -> tuple[Paint, ...]:
        """Paints to bring that are rated III or worse by their worst pigment and source."""
        rated = ((paint, paint.worst_known_rating) for paint in self.bring)
        return tuple(paint for paint, rating in rated if rating and rating.rank >= FADING)

    @property
    def contradicting(self) -> tuple[Paint, ...]:
        """Paints to bring whose own fade test has changed more than their rating allows."""
        return tuple(paint for paint in self.bring if paint.contradicting is not None)


def advise(work: UnitOfWork, subject: Subject, kinds: Sequence[Work], today: date) -> Advice:
    """What to mind with a paint or a mix; substitutes where one kind of work is asked about.

    Args:
        work: the studio.
        subject: what it is about.
        kinds: the kinds of work.
        today: the day that data sheets are compared with.
    """
    cares = tuple(care_of(subject.paints, kind) for kind in kinds)
    substitutes = None
    if len(cares) == 1 and cares[0].avoid:
        barred = barred_paints(work, kinds[0])
        substitutes = find_substitutes(work, subject.mix, barred, SUBSTITUTES)
    documents = tuple(document_of(paint, today) for paint in subject.paints)
    return Advice(subject, cares, substitutes, documents)


def advise_class(work: UnitOfWork, kind: Work, today: date) -> ClassAdvice:
    """What a class needs: what stays at home and what instead, what to bring, what is missing.

    Args:
        work: the studio.
        kind: a class of adults or of children.
        today: the day that data sheets are compared with.
    """
    shelf = [paint for paint in work.paints.all() if paint.in_stock]
    barred = barred_paints(work, kind)
    cares = {paint.id: care_of([paint], kind) for paint in shelf}
    bring = tuple(paint for paint in shelf if not cares[paint.id].avoid)
    unread = tuple(paint for paint in shelf if cares[paint.id].unread)
    leave = tuple(
        LeftOut(
            paint,
            cares[paint.id],
            find_substitutes(work, work.mixes.with_recipe(Recipe(((paint.id, 1),))), barred, 1),
        )
        for paint in shelf
        if cares[paint.id].avoid and not cares[paint.id].unread
    )
    return ClassAdvice(
        care=care_of(bring, kind),
        leave=leave,
        unread=unread,
        bring=bring,
        low=tuple(paint for paint in bring if paint.is_low),
        low_papers=tuple(paper for paper in work.papers.all() if paper.is_low),
        documents=tuple(document_of(paint, today) for paint in bring),
    )


def barred_paints(work: UnitOfWork, kind: Work) -> tuple[Paint, ...]:
    """The paints that no substitute may hold: to avoid in the work, or nobody knows of it."""
    return tuple(
        paint for paint in work.paints.all() if paint.unread or care_of([paint], kind).avoid
    )


def find_substitutes(
    work: UnitOfWork, mix: Mix | None, barred: Sequence[Paint], count: int
) -> Substitutes:
    """The nearest mixes to a mix's most intense dry swatch, of paints in stock and none barred.

    Args:
        work: the studio.
        mix: the mix to replace; None when it was never recorded.
        barred: paints that no substitute may hold.
        count: how many to return.
    """
    swatches = () if mix is None else work.swatches.of_mix(mix.id)
    dry = [swatch for swatch in swatches if swatch.state is State.DRY]
    if not dry:
        return Substitutes(None, None)
    compared = max(dry, key=lambda swatch: swatch.lab.a**2 + swatch.lab.b**2)
    code = compared.facts.code
    target = Target(compared.lab, code, f"swatch {code}", compared.id)
    wanted = Wanted(in_stock=True, without=barred, proposing=True)
    return Substitutes(compared, match_colour(work, target, wanted, count=count))


def document_of(paint: Paint, today: date) -> Document:
    """What is on record of a paint's documents on a day."""
    return Document(paint, sheet_fault(paint.data_sheet, today))

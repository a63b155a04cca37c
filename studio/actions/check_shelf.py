"""Tell what runs low, what would fade, what needs care, and which mixes depend on it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from studio.actions.advise_care import Document, document_of
from studio.actions.fade_results import FadeResult, every_fade_result
from studio.catalogue.hazard_grade import Grade, grade_of
from studio.catalogue.lightfastness import FADING
from studio.catalogue.mix import Mix
from studio.catalogue.paint import Paint, Status
from studio.catalogue.paper import Paper
from studio.storage.unit_of_work import UnitOfWork


@dataclass(frozen=True, slots=True)
class PaintFinding:
    """A paint that needs attention, and the recorded mixes that depend on it."""

    paint: Paint
    mixes: tuple[Mix, ...]


@dataclass(frozen=True, slots=True)
class FadeFinding:
    """A fade test that needs attention, and the recorded mixes that depend on it."""

    result: FadeResult
    mixes: tuple[Mix, ...]


@dataclass(frozen=True, slots=True)
class ShelfReport:
    """What needs attention on the shelf; retired paints are left out.

    Args:
        low_paints: paints at or under their low mark.
        low_papers: papers at or under theirs.
        fading: paints whose worst pigment is rated III or worse by its worst source.
        caring: paints with pigments that ask for care.
        unknown: paints without pigments on record, or with pigments nobody rated.
        fade_tests: the owner's tests that contradict a published rating or have reached III.
        documents: paints whose data sheet is missing, old or undated.
        sienna_or_umber: paints of PBr7 whose owner has not said which of the two they are.
    """

    low_paints: tuple[PaintFinding, ...]
    low_papers: tuple[Paper, ...]
    fading: tuple[PaintFinding, ...]
    caring: tuple[PaintFinding, ...]
    unknown: tuple[PaintFinding, ...]
    fade_tests: tuple[FadeFinding, ...] = ()
    documents: tuple[Document, ...] = ()
    sienna_or_umber: tuple[Paint, ...] = ()

    @property
    def faulty_sheets(self) -> tuple[Document, ...]:
        """Data sheets on record that are old or undated."""
        return tuple(document for document in self.documents if document.is_on_record)

    @property
    def needs_attention(self) -> bool:
        """Whether anything at all was found; a data sheet never recorded is only mentioned."""
        return any(
            (
                self.low_paints,
                self.low_papers,
                self.fading,
                self.fade_tests,
                self.caring,
                self.unknown,
                self.faulty_sheets,
            )
        )


def check_shelf(
    work: UnitOfWork,
    *,
    low: bool = True,
    fading: bool = True,
    care: bool = True,
    today: date | None = None,
) -> ShelfReport:
    """What needs attention among the paints in use and the papers.

    Args:
        work: the studio.
        low: look for what runs low.
        fading: look for what would fade, by rating or by own test, and for what nobody rated.
        care: look for hazards, and for paints whose pigments are not recorded.
        today: with `care`, look for data sheets that are missing or old on this day.
    """
    shelf = [paint for paint in work.paints.all() if paint.facts.status is Status.IN_USE]
    low_paints = [paint for paint in shelf if low and paint.is_low]
    fading_paints = [paint for paint in shelf if fading and _fades(paint)]
    caring = [paint for paint in shelf if care and paint.cautions]
    unknown = [
        paint
        for paint in shelf
        if (fading and paint.unrated) or ((fading or care) and paint.lacks_data)
    ]
    named = {paint.id for paint in (*low_paints, *fading_paints, *caring, *unknown)}
    mixes = work.mixes.with_any(named) if named else ()

    def findings(paints: Iterable[Paint]) -> tuple[PaintFinding, ...]:
        return tuple(
            PaintFinding(paint, tuple(mix for mix in mixes if paint.id in mix.recipe.paints))
            for paint in paints
        )

    return ShelfReport(
        low_paints=findings(sorted(low_paints, key=lambda paint: paint.stock.left or 0.0)),
        low_papers=tuple(paper for paper in work.papers.all() if low and paper.is_low),
        fading=findings(sorted(fading_paints, key=lambda paint: -_rank(paint))),
        caring=findings(sorted(caring, key=_gravity)),
        unknown=findings(unknown),
        fade_tests=_fade_findings(work, shelf) if fading else (),
        documents=_faulty(shelf, today) if care and today is not None else (),
        sienna_or_umber=tuple(paint for paint in shelf if care and paint.is_sienna_or_umber),
    )


def _faulty(shelf: Iterable[Paint], today: date) -> tuple[Document, ...]:
    documents = (document_of(paint, today) for paint in shelf)
    return tuple(document for document in documents if document.fault is not None)


def _fade_findings(work: UnitOfWork, shelf: Sequence[Paint]) -> tuple[FadeFinding, ...]:
    """The tests of paints in use, and of mixes of them alone, that need attention."""
    in_use = {paint.id for paint in shelf}
    return tuple(
        FadeFinding(
            result, (result.mix,) if result.mix else work.mixes.with_any([result.paints[0].id])
        )
        for result in every_fade_result(work)
        if result.needs_attention and in_use.issuperset(paint.id for paint in result.paints)
    )


def _rank(paint: Paint) -> int:
    rating = paint.worst_known_rating
    return 0 if rating is None else rating.rank


def _fades(paint: Paint) -> bool:
    return _rank(paint) >= FADING


def _gravity(paint: Paint) -> tuple[int, int]:
    """An order for the list: the gravest caution first, then the more statements and metals."""
    grades = list(Grade)
    worst = min((grades.index(grade_of(hazard)) for hazard in paint.cautions), default=len(grades))
    return worst, -sum(10 * len(hazard.codes) + len(hazard.metals) for hazard in paint.hazards)

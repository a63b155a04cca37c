"""Tell what runs low, what would fade, what needs care, and which mixes depend on it."""

from collections.abc import Iterable
from dataclasses import dataclass

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
class ShelfReport:
    """What needs attention on the shelf; retired paints are left out.

    Args:
        low_paints: paints at or under their low mark.
        low_papers: papers at or under theirs.
        fading: paints whose worst pigment is rated III or worse by its worst source.
        caring: paints with pigments that ask for care.
        unknown: paints without pigments on record, or with pigments nobody rated.
    """

    low_paints: tuple[PaintFinding, ...]
    low_papers: tuple[Paper, ...]
    fading: tuple[PaintFinding, ...]
    caring: tuple[PaintFinding, ...]
    unknown: tuple[PaintFinding, ...]

    @property
    def needs_attention(self) -> bool:
        """Whether anything at all was found."""
        return any((self.low_paints, self.low_papers, self.fading, self.caring, self.unknown))


def check_shelf(
    work: UnitOfWork, *, low: bool = True, fading: bool = True, care: bool = True
) -> ShelfReport:
    """What needs attention among the paints in use and the papers.

    Args:
        work: the studio.
        low: look for what runs low.
        fading: look for what would fade, and for what nobody rated.
        care: look for hazards, and for paints whose pigments are not recorded.
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
        caring=findings(sorted(caring, key=lambda paint: -_gravity(paint))),
        unknown=findings(unknown),
    )


def _rank(paint: Paint) -> int:
    rating = paint.worst_known_rating
    return 0 if rating is None else rating.rank


def _fades(paint: Paint) -> bool:
    return _rank(paint) >= FADING


def _gravity(paint: Paint) -> int:
    """A plain order for the list: more GHS statements and metals first; no verdict."""
    return sum(10 * len(hazard.codes) + len(hazard.metals) for hazard in paint.hazards)

"""What each colour of a painting may be mixed from, or why a test swatch is needed first."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Final

from studio.actions.between_tints import TintStudy, study_tints
from studio.actions.formulate_colour import FormulateResult, Laying, formulate_colour
from studio.actions.match_colour import Match, Wanted, match_colour
from studio.actions.paint_model import PaintModel
from studio.actions.painting import candidates as found
from studio.actions.painting.plan import Candidate
from studio.actions.paints_to_mix import paints_to_mix
from studio.actions.read_target import Target
from studio.catalogue.painting import Painting, Passage, PassageColour
from studio.catalogue.paper import Paper
from studio.colour.lab import Lab
from studio.colour.words import Separation
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork

MOST: Final = 3
"""Paints in one predicted recipe."""
_LOOKED_THROUGH: Final = 50
"""Past mixes among which the nearest in small parts is named."""


@dataclass(frozen=True, slots=True)
class Weighed:
    """A colour of a passage with what may be mixed for it.

    Args:
        passage: the passage.
        number: its place in the working order, from 1.
        colour: the colour.
        candidates: what comes within tolerance; empty where a test is needed.
        delta_e: ΔE00 of the nearest there is, however far; None where there is none.
        separation: how that looks beside the colour.
        needed: why a test swatch is needed; None where there are candidates.
    """

    passage: Passage
    number: int
    colour: PassageColour
    candidates: tuple[Candidate, ...]
    delta_e: float | None = None
    separation: Separation | None = None
    needed: str | None = None


class Search:
    """Looks for what may be mixed for the colours of one painting.

    Args:
        work: the studio.
        model: its paints.
        painting: the painting.
        wanted: what may be mixed; its paper counts for nothing, as the painting has one.
        together: parts of paint in one mix at most, and then recorded mixes before all predicted
            ones; None for any number.
    """

    def __init__(
        self,
        work: UnitOfWork,
        model: PaintModel,
        painting: Painting,
        wanted: Wanted,
        together: int | None = None,
    ) -> None:
        self.work, self.model, self.painting = work, model, painting
        self.together = together
        self.wanted = found.in_use(work, wanted)
        self.paper: Paper = work.papers.by_id(painting.paper_id)
        self._kept: dict[tuple[object, ...], Weighed] = {}

    @cached_property
    def _study(self) -> TintStudy:
        return study_tints(self.model)

    def weigh(
        self,
        passage: Passage,
        number: int,
        colour: PassageColour,
        *,
        without: frozenset[int] = frozenset(),
    ) -> Weighed:
        """What a colour may be mixed from.

        Args:
            passage: where it stands.
            number: of the passage in the working order.
            colour: the colour.
            without: ids of further paints that nothing may hold.
        """
        asked = colour.lab, passage.layers, found.is_lifted(passage), colour.tries, without
        each = Weighed(passage, number, colour, ())
        if asked not in self._kept:
            self._kept[asked] = self._weighed(each, self._wanted(without))
        return replace(self._kept[asked], passage=passage, number=number, colour=colour)

    def _weighed(self, each: Weighed, wanted: Wanted) -> Weighed:
        if self.together is not None and not found.is_lifted(each.passage):
            return self._weighed_small(each, wanted, self.together)
        work, passage, lab = self.work, each.passage, each.colour.lab
        within, paper = self.painting.tolerance, self.paper
        here = paper, within
        own = found.tries(work, each.colour, wanted, within)
        if own:
            return replace(each, candidates=own[:1])
        laid = found.recorded(work, passage, lab, wanted, here)
        if found.is_lifted(passage):
            return replace(each, candidates=laid, needed=None if laid else _LIFTED)
        between = found.tints(work, (self.model, self._study), lab, wanted, here)
        if laid:
            return replace(each, candidates=(*laid, *between))
        result, unknown = self._predicted(passage, lab, wanted)
        guessed: tuple[Candidate, ...] = ()
        if result is not None:
            guessed = found.predicted(result, passage.layers, paper, within)
        if between or guessed:
            return replace(each, candidates=(*between, *guessed))
        return self._needed(each, wanted, result, unknown)

    def _weighed_small(self, each: Weighed, wanted: Wanted, together: int) -> Weighed:
        """The same in small parts: what is recorded and near, else what is predicted.

        A tint between two cards has a water that no child measures, and is left out.
        """
        work, passage, lab = self.work, each.passage, each.colour.lab
        near = max(self.painting.tolerance, found.NEAR)
        own = found.in_small_parts(found.tries(work, each.colour, wanted, near), together)
        if own:
            return replace(each, candidates=own[:1])
        every = found.recorded(work, passage, lab, wanted, (self.paper, near))
        laid = found.in_small_parts(every, together)
        if laid:
            return replace(each, candidates=laid)
        result, unknown = self._predicted(passage, lab, wanted)
        guessed: tuple[Candidate, ...] = ()
        if result is not None:
            guessed = found.predicted(result, passage.layers, self.paper, self.painting.tolerance)
        if guessed:
            return replace(each, candidates=guessed)
        return self._needed(each, wanted, result, unknown)

    def predicted_of(self, each: Weighed, paints: frozenset[int]) -> tuple[Candidate, ...]:
        """The recipes of some paints alone that are predicted within tolerance of a colour."""
        only = [self.work.paints.by_id(key) for key in sorted(paints)]
        wanted = replace(self.wanted, only=only)
        result, _ = self._predicted(each.passage, each.colour.lab, wanted)
        if result is None:
            return ()
        within = self.painting.tolerance
        return found.predicted(result, each.passage.layers, self.paper, within)

    def _wanted(self, without: frozenset[int]) -> Wanted:
        if not without:
            return self.wanted
        more = [self.work.paints.by_id(key) for key in sorted(without)]
        return replace(self.wanted, without=[*self.wanted.without, *more])

    def _predicted(
        self, passage: Passage, lab: Lab, wanted: Wanted
    ) -> tuple[FormulateResult | None, str | None]:
        try:
            paints_to_mix(self.model, wanted)
        except BadInput as nothing:
            return None, str(nothing)
        target = Target(lab, "planned")
        laying = Laying(MOST, passage.layers, self.paper, together=self.together)
        result = formulate_colour(
            self.work, self.model, target, wanted, laying, count=found.PREDICTED
        )
        return result, None

    def _needed(
        self, each: Weighed, wanted: Wanted, result: FormulateResult | None, unknown: str | None
    ) -> Weighed:
        """A colour that nothing comes within tolerance of, with the nearest there is and why."""
        target = Target(each.colour.lab, "planned")
        laid = self._nearest_laid(target, wanted)
        nearest: list[tuple[float, Separation]] = []
        if laid is not None:
            nearest.append((laid.difference, laid.separation))
        if result is not None and not result.nearest.is_too_uncertain:
            nearest.append((result.nearest.delta_e, result.nearest.separation))
        delta_e, apart = min(nearest, key=lambda one: one[0], default=(None, None))
        needed = reason(self.painting.tolerance, laid, result, unknown)
        if self.together is not None:
            needed = f"in {self.together} parts at most {needed}"
        return replace(each, delta_e=delta_e, separation=apart, needed=needed)

    def _nearest_laid(self, target: Target, wanted: Wanted) -> Match | None:
        """The nearest past mix, in small parts where all are to be so."""
        if self.together is None:
            return match_colour(self.work, target, wanted, count=1).nearest
        matches = match_colour(self.work, target, wanted, count=_LOOKED_THROUGH).matches
        parts = ((each, sum(part.parts for part in each.recipe)) for each in matches)
        return next((each for each, total in parts if total <= self.together), None)


_LIFTED: Final = (
    "nothing lifted that is on record is within tolerance: try on an offcut how far the wash "
    "below lifts"
)


def reason(
    within: float, laid: Match | None, result: FormulateResult | None, unknown: str | None
) -> str:
    """Why a colour needs a test swatch, in one sentence.

    Args:
        within: the tolerance, ΔE00.
        laid: the nearest past mix; None where there is none.
        result: what was predicted; None where nothing could be.
        unknown: why nothing could be predicted.
    """
    past = "no past mix passes"
    if laid is not None:
        swatch = laid.swatch.facts.code
        past = (
            f"the nearest past mix is {laid.mix.code} (swatch {swatch}), ΔE00 {laid.difference:.1f}"
        )
    if result is None:
        return f"nothing recorded is within ΔE00 {within:g}: {past}, and {unknown}"
    unsure = _unsure(result)
    if unsure is not None:
        return f"nothing sure enough comes within ΔE00 {within:g}: {past}, and {unsure}"
    near = result.nearest
    recipe = " + ".join(f"{part.parts} {part.paint.facts.code}" for part in near.recipe)
    guess = f"the nearest predicted, {recipe}, is ΔE00 {near.delta_e:.1f} away"
    if result.beyond is not None:
        return (
            f"its {result.beyond.failing} cannot be reached with these paints: {guess} "
            f"({near.separation.sentence}); {past}"
        )
    return f"nothing comes within ΔE00 {within:g}: {guess}; {past}"


def _unsure(result: FormulateResult) -> str | None:
    """That what is predicted nearer is too uncertain, and the swatch to lay first; None if not."""
    patch = result.lay_first
    if patch is None or result.within_reach is not None:
        return None
    codes = " + ".join(part.paint.facts.code for part in patch.recipe)
    what = f"{codes} alone" if len(patch.recipe) == 1 else f"{codes} 1:1"
    return (
        f"what is predicted is too uncertain to act on (± {patch.before:.0f}); lay first a flat "
        f"wash of {what}, water {patch.water:g}:1, and read it dry"
    )


def weigh_colours(search: Search, tell: Callable[[float], None] | None = None) -> list[Weighed]:
    """Every colour of a painting with what may be mixed for it, in working order.

    Args:
        search: where to look.
        tell: is told from time to time which share is done.
    """
    asked = [
        (passage, number, colour)
        for number, passage in enumerate(search.painting.passages, start=1)
        for colour in passage.colours
    ]
    every = []
    for done, (passage, number, colour) in enumerate(asked):
        if tell is not None:
            tell(done / len(asked))
        every.append(search.weigh(passage, number, colour))
    shared = found.for_others(
        [each.colour.lab for each in every],
        [each.passage.layers for each in every],
        [each.candidates for each in every],
        search.painting.tolerance,
    )
    open_to = [not _is_settled(each) for each in every]
    return [
        replace(each, candidates=found.sure_enough(more, search.painting.tolerance))
        if free and each.candidates
        else each
        for each, more, free in zip(every, shared, open_to, strict=True)
    ]


def _is_settled(each: Weighed) -> bool:
    """Whether a colour's own try passes, or it is lifted: then nothing else is looked at."""
    return found.is_lifted(each.passage) or any(one.is_try for one in each.candidates)

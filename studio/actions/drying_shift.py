"""The studio's own drying shift, and the dry colour to be expected of a wet test patch."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

from studio.actions.read_target import Target
from studio.catalogue.drying import ENOUGH, DryingPair, DryingShift, dried, pair_of, shift_of
from studio.catalogue.paint import Paint
from studio.catalogue.paper import Paper
from studio.catalogue.reading import State
from studio.catalogue.swatch import Swatch
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork


@dataclass(frozen=True, slots=True)
class OwnPair:
    """A swatch that was read wet and dry.

    Args:
        swatch: the swatch.
        paints: ids of the paints of its mix.
        pair: its colours.
    """

    swatch: Swatch
    paints: frozenset[int]
    pair: DryingPair


@dataclass(frozen=True, slots=True)
class OwnShift:
    """A drying shift and what it is of; of all pairs where neither paper nor paints are named.

    Args:
        shift: the mean with its spread.
        paper: only patches on this paper.
        paints: only patches whose mix holds all of these paints.
    """

    shift: DryingShift
    paper: Paper | None = None
    paints: tuple[Paint, ...] = ()

    @property
    def is_enough(self) -> bool:
        """Whether it is preferred to the shift of all pairs."""
        return self.shift.pairs >= ENOUGH


@dataclass(frozen=True, slots=True)
class DryingReport:
    """Every shift that the studio's own readings tell.

    Args:
        overall: of all pairs; None where there is none.
        papers: for each paper with a pair.
        paints: for each paint with a pair; a pair counts for every paint of its mix.
        waiting: swatches that were read wet and not yet dry.
        unpaired: swatches whose wet reading came after the first dry one.
    """

    overall: OwnShift | None
    papers: tuple[OwnShift, ...]
    paints: tuple[OwnShift, ...]
    waiting: tuple[Swatch, ...]
    unpaired: tuple[Swatch, ...]


@dataclass(frozen=True, slots=True)
class ExpectedDry:
    """What a wet patch is expected to dry to.

    Args:
        wet: the target as it was given.
        target: the expected dry colour, to be matched.
        own: the shift that was used.
    """

    wet: Target
    target: Target
    own: OwnShift


def drying_report(work: UnitOfWork) -> DryingReport:
    """The drying shifts of the studio: overall, per paper and per paint."""
    pairs, waiting, unpaired = _pairs(work)
    overall = _own(pairs)
    papers = (
        _own([each for each in pairs if each.swatch.paper_id == paper.id], paper=paper)
        for paper in work.papers.all()
    )
    paints = (
        _own([each for each in pairs if paint.id in each.paints], paints=(paint,))
        for paint in work.paints.all()
    )
    return DryingReport(overall, _known(papers), _known(paints), tuple(waiting), tuple(unpaired))


def expected_dry(
    work: UnitOfWork, target: Target, paper: Paper | None = None, paints: Sequence[Paint] = ()
) -> ExpectedDry:
    """The dry colour to be expected of a wet test patch.

    The shift is the mean of the pairs on the same paper with the same paints, else of those with
    the same paints, else of those on the same paper, whichever has `ENOUGH` pairs first; else of
    all pairs. A recorded swatch brings its own paper and paints.

    Args:
        work: the studio.
        target: the colour of the wet patch.
        paper: the paper it was laid on, where known.
        paints: paints it holds, as far as known.

    Raises:
        BadInput: no swatch was read both wet and dry, or the target is a swatch that was read dry.
    """
    if target.swatch_id is not None:
        swatch = work.swatches.by_ids([target.swatch_id])[target.swatch_id]
        if swatch.state is State.DRY:
            msg = f"{swatch.facts.code} has been read dry; match it without --wet"
            raise BadInput(msg)
        paper = work.papers.by_id(swatch.paper_id)
        recipe = work.mixes.by_ids([swatch.mix_id])[swatch.mix_id].recipe
        paints = [work.paints.by_id(key) for key, _ in recipe.parts]
    pairs, _, _ = _pairs(work)
    own = _chosen(pairs, paper, tuple(paints))
    if own is None:
        msg = (
            "no swatch has been read both wet and dry, so there is no drying shift to match by; "
            "read a patch with --wet and again when it is dry (studio swatch read)"
        )
        raise BadInput(msg)
    lab = dried(target.lab, own.shift.mean)
    expected = replace(target, lab=lab, note="expected dry colour of a wet patch")
    return ExpectedDry(target, expected, own)


def _pairs(work: UnitOfWork) -> tuple[list[OwnPair], list[Swatch], list[Swatch]]:
    """The pairs on record; beside them what waits to be read dry, and what was read out of turn."""
    swatches = work.swatches.read_wet()
    mixes = work.mixes.by_ids({swatch.mix_id for swatch in swatches})
    pairs: list[OwnPair] = []
    waiting: list[Swatch] = []
    unpaired: list[Swatch] = []
    for swatch in swatches:
        pair = pair_of(swatch.readings)
        if pair is not None:
            paints = frozenset(key for key, _ in mixes[swatch.mix_id].recipe.parts)
            pairs.append(OwnPair(swatch, paints, pair))
        else:
            (waiting if swatch.state is State.WET else unpaired).append(swatch)
    return pairs, waiting, unpaired


def _chosen(
    pairs: Sequence[OwnPair], paper: Paper | None, paints: tuple[Paint, ...]
) -> OwnShift | None:
    wanted = {paint.id for paint in paints}

    def same_paints(each: OwnPair) -> bool:
        return wanted <= each.paints

    def same_paper(each: OwnPair) -> bool:
        return paper is not None and each.swatch.paper_id == paper.id

    narrower: list[tuple[Callable[[OwnPair], bool], Paper | None, tuple[Paint, ...]]] = []
    if paper is not None and paints:
        narrower.append((lambda each: same_paints(each) and same_paper(each), paper, paints))
    if paints:
        narrower.append((same_paints, None, paints))
    if paper is not None:
        narrower.append((same_paper, paper, ()))
    for fits, of_paper, of_paints in narrower:
        own = _own([each for each in pairs if fits(each)], paper=of_paper, paints=of_paints)
        if own is not None and own.is_enough:
            return own
    return _own(pairs)


def _own(
    pairs: Sequence[OwnPair], *, paper: Paper | None = None, paints: tuple[Paint, ...] = ()
) -> OwnShift | None:
    shift = shift_of([each.pair for each in pairs])
    return None if shift is None else OwnShift(shift, paper, paints)


def _known(shifts: Iterable[OwnShift | None]) -> tuple[OwnShift, ...]:
    """Those with a pair, the one with the most pairs first."""
    known = [shift for shift in shifts if shift is not None]
    return tuple(sorted(known, key=lambda own: -own.shift.pairs))

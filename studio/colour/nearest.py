"""Exact nearest colours among any number, asking only for those that can be near."""

import heapq
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Protocol

from studio.colour.box import Box
from studio.colour.difference import Metric, Triple

Candidate = tuple[int, int, float, float, float]
"""(key, group, L*, a*, b*)."""

_ROUNDING: Final = 1e-9
"""Slack on the bounds, so that a colour exactly as far as the last one kept is still looked at."""
_NEAR: Final = 6.0
"""A difference up to which one box about the reference is looked at; beyond it boxes grow so much
faster than what is within the difference that it is cheaper to go from one small box to the next.
"""
_COARSE: Final = 4.1
"""How large a small box is at most in L*, a* and b*, so that a pillar is only cut in its depth."""
_FINE: Final = 2.1
"""The same where candidates are many: cutting a box in eight takes as long as comparing with some
`_MANY` colours."""
_MANY: Final = 100
_AT_ONCE: Final = 64
"""How many small boxes are looked at before those that cannot matter any more are left out."""


class Candidates(Protocol):
    """Where a search finds its candidates."""

    @property
    def size(self) -> int:
        """About how many there are, those that no answer may hold included."""

    def inside(self, box: Box) -> Sequence[Candidate]:
        """All of a box, and maybe others."""

    def few(self) -> Sequence[Candidate] | None:
        """All there are, where they are few; None otherwise."""

    def pillars(self) -> Sequence[Box]:
        """Boxes that hold all candidates between them, narrow in L* and a*."""

    def within_pillars(self, pieces: Sequence[tuple[int, Box]]) -> Sequence[Candidate]:
        """All of some parts of pillars, each with the place of its pillar among `pillars`."""


@dataclass(frozen=True, slots=True, order=True)
class Near:
    """A candidate and its difference from the reference; ordered by difference, then key."""

    difference: float
    key: int
    group: int


def nearest(
    reference: Triple,
    candidates: Candidates,
    metric: Metric,
    count: int,
    *,
    within: float = math.inf,
) -> list[Near]:
    """The `count` nearest groups, each by its best member, nearest first; ties by lower key.

    Exact for every metric. First a box about the reference grows until all groups wanted differ by
    no more than what it is proven to hold. Where nothing is as near as that, and those that may be
    answered are many, small boxes are looked at in the order of what their colours differ by at
    least, until that is more than what was found.

    Args:
        reference: (L*, a*, b*) of the wanted colour.
        candidates: where to look.
        metric: the colour difference.
        count: how many groups to return, at least 1.
        within: leave out what differs by more than this.
    """
    search = _Search(reference, candidates, metric, count, within)
    if not search.near():
        few = candidates.few()
        if few is None:
            search.far()
        else:
            search.take(few)
    return search.in_order()


class _Search:
    """A search with the best member of each of the nearest groups so far."""

    def __init__(
        self, reference: Triple, candidates: Candidates, metric: Metric, count: int, within: float
    ) -> None:
        self._reference, self._candidates, self._metric = reference, candidates, metric
        self._count = count
        self._best: dict[int, tuple[float, int, int]] = {}
        self._limit = within  # what differs by more is not among the nearest
        # About where the last one wanted is when all colours of paint are as frequent.
        self._tau = min(60.0 * (count / max(candidates.size, 1)) ** (1 / 3), _NEAR, within)

    def near(self) -> bool:
        """Let a box about the reference grow; whether that found all there is."""
        while self._tau <= _NEAR:
            tau = self._tau
            self.take(self._candidates.inside(self._metric.box(self._reference, tau)))
            if self._limit <= tau:
                return True
            self._tau = min(2.0 * tau, self._limit)
        return False

    def far(self) -> None:
        """Look from small box to small box, those first whose colours may be nearest."""
        candidates, reference, least = self._candidates, self._reference, self._metric.least
        waiting = [
            (least(reference, box), place, box) for place, box in enumerate(candidates.pillars())
        ]
        heapq.heapify(waiting)
        at_once, small = 4, _COARSE
        while waiting and waiting[0][0] <= self._limit + _ROUNDING:
            pieces: list[tuple[int, Box]] = []
            while waiting and len(pieces) < at_once and waiting[0][0] <= self._limit + _ROUNDING:
                _, place, box = heapq.heappop(waiting)
                halves = _halves(box, small)
                if not halves:
                    pieces.append((place, box))
                for half in halves:
                    heapq.heappush(waiting, (least(reference, half), place, half))
            found = candidates.within_pillars(pieces)
            self.take(found)
            small = _FINE if len(found) > _MANY * len(pieces) else _COARSE
            at_once = min(2 * at_once, _AT_ONCE)

    def take(self, candidates: Sequence[Candidate]) -> None:
        """Look at some candidates."""
        best, limit, reference = self._best, self._limit, self._reference
        between = self._metric.between
        for key, group, lightness, a, b in candidates:
            difference = between(reference, (lightness, a, b))
            if difference <= limit:
                found = difference, key, group
                if group not in best or found < best[group]:
                    best[group] = found
        if len(best) >= self._count:
            kept = heapq.nsmallest(self._count, best.values())
            self._best = {found[2]: found for found in kept}
            self._limit = kept[-1][0]

    def in_order(self) -> list[Near]:
        """The nearest, nearest first."""
        return [Near(*found) for found in sorted(self._best.values())]


def _halves(box: Box, small: float) -> Sequence[Box]:
    """The two halves of a box across its longest side; none when it is small enough."""
    sides = [box[place + 1] - box[place] for place in (0, 2, 4)]
    longest = max(sides)
    if longest <= small:
        return ()
    place = 2 * sides.index(longest)
    middle = (box[place] + box[place + 1]) / 2.0
    return (
        Box(*(middle if each == place + 1 else value for each, value in enumerate(box))),
        Box(*(middle if each == place else value for each, value in enumerate(box))),
    )

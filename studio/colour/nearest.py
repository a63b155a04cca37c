"""Exact nearest colours from a stream that comes in order of lightness."""

import heapq
import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from studio.colour.difference import Metric, Triple

_ROUNDING: Final = 1e-9
"""Slack on the bound, so that a colour exactly as far as the last one kept is still looked at."""


@dataclass(frozen=True, slots=True, order=True)
class Near:
    """A candidate and its difference from the reference; ordered by difference, then key."""

    difference: float
    key: int
    group: int


def nearest(
    reference: Triple,
    candidates: Iterable[tuple[int, int, float, float, float]],
    metric: Metric,
    count: int,
    *,
    within: float = math.inf,
) -> list[Near]:
    """The `count` nearest groups, each by its best member, nearest first; ties by lower key.

    Exact for every metric: the stream comes by rising |ΔL*|, and `metric.floor` tells the
    difference that nothing further on can stay under, so the search stops when that exceeds the
    last group still kept.

    Args:
        reference: (L*, a*, b*) of the wanted colour.
        candidates: (key, group, L*, a*, b*) by rising |L* - L* of the reference|.
        metric: the colour difference.
        count: how many groups to return, at least 1.
        within: leave out what differs by more than this.
    """
    best: dict[int, Near] = {}
    limit = within
    lightness = reference[0]
    floor, between = metric.floor, metric.between
    for key, group, l2, a2, b2 in candidates:
        if floor(lightness, l2 - lightness) > limit + _ROUNDING:
            break
        found = Near(between(reference, (l2, a2, b2)), key, group)
        if found.difference > limit or (group in best and best[group] < found):
            continue
        best[group] = found
        if len(best) >= count:
            kept = heapq.nsmallest(count, best.values())
            limit = kept[-1].difference
            if len(best) > 2 * count:
                best = {near.group: near for near in kept}
    return heapq.nsmallest(count, best.values())

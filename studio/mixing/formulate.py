"""Recipes for a colour from characterised paints: searched, rounded to measurable parts, ranked.

Every combination of the paints is brought as near the target as it comes (`approach`). The most
promising are rounded to measurable parts and water (`measures`), predicted again, and ranked
(`proposal`).
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Final

import numpy as np

from studio.mixing.approach import Reached, approach
from studio.mixing.characterisation import Characterisation
from studio.mixing.error_model import bound
from studio.mixing.goal import Goal
from studio.mixing.measures import Parts, choose, largest, roundings
from studio.mixing.observation import load_of_water
from studio.mixing.predict import expected_error, predict
from studio.mixing.proposal import (
    MOST_PAINTS,
    Choice,
    Formulation,
    Proposal,
    rank_of,
    ranked,
)
from studio.mixing.ranges import FloatArray
from studio.mixing.recipe_space import Limits, Places
from studio.mixing.settings import USUAL_WATER

WEIGHED: Final = 300
"""Combinations whose expected error is computed."""
ROUNDED: Final = 60
"""Combinations that are rounded at least."""


def formulate(
    known: Characterisation,
    goal: Goal,
    choice: Choice,
    *,
    count: int = 5,
    tell: Callable[[float], None] | None = None,
) -> Formulation:
    """The recipes that are predicted best.

    Args:
        known: the paints.
        goal: what to come near.
        choice: what recipes may be made of.
        count: how many proposals at most.
        tell: is told from time to time which share of the work is done.

    Raises:
        ValueError: no combination is left, or a paint is not characterised.
    """
    searched = _search(known, goal, choice, tell or _tell_nobody)
    if not searched:
        msg = "no combination of paints is left to formulate with"
        raise ValueError(msg)
    reached = min(float(each.distance.min()) for each in searched)
    rows = _promising(known, goal, choice, searched, max(ROUNDED, 4 * count))
    rounded = _rounded(known, goal, choice, rows)
    sure = [each for each in rounded if not each.is_too_uncertain]
    return Formulation(
        tuple(ranked(sure)[:count]),
        min(sure or rounded, key=lambda each: (each.distance, len(each.parts), each.parts)),
        tuple(each for each in ranked(rounded)[:count] if each.is_too_uncertain),
        reached,
        sum(len(each.distance) for each in searched),
    )


def _tell_nobody(share: float) -> None:
    """The work goes on unseen."""


def sets_of_places(known: Characterisation, choice: Choice) -> list[Places]:
    """Every combination that a choice allows by the places of its paints, an array for each size.

    Raises:
        ValueError: a paint is not characterised, or a number of paints is out of range.
    """
    if not 1 <= choice.most <= MOST_PAINTS:
        msg = f"a recipe has 1 to {MOST_PAINTS} paints"
        raise ValueError(msg)
    places = sorted(known.paints.index(paint) for paint in set(choice.paints))
    using = {known.paints.index(paint) for paint in choice.using}
    found = []
    for size in range(1, choice.most + 1):
        sets = [each for each in combinations(places, size) if using <= set(each)]
        if sets:
            found.append(np.array(sets, dtype=np.intp))
    return found


def _search(
    known: Characterisation, goal: Goal, choice: Choice, tell: Callable[[float], None]
) -> list[Reached]:
    sets = sets_of_places(known, choice)
    most, least = load_of_water(np.array([float(choice.waters[0]), float(choice.waters[-1])]))
    total, done, found = sum(map(len, sets)), 0, []
    for columns in sets:
        ratio = float(largest(columns.shape[1], choice.together))
        limits = Limits(float(least), float(most), ratio, choice.layers)

        def part(share: float, before: int = done, own: int = len(columns)) -> None:
            tell((before + share * own) / total)

        found.append(approach(known.parameters, known.light, goal, columns, limits, tell=part))
        done += len(columns)
    return found


@dataclass(frozen=True, slots=True, eq=False)
class _Row:
    columns: Places
    shares: FloatArray
    load: float
    distance: float


def _promising(
    known: Characterisation, goal: Goal, choice: Choice, searched: Sequence[Reached], count: int
) -> list[_Row]:
    """The combinations whose unrounded recipes rank best, and the nearest ones."""
    rows = [
        _Row(columns, shares, float(load), float(distance))
        for each in searched
        for columns, shares, load, distance in zip(*each, strict=True)
    ]
    surest = float(bound(known.error, np.zeros(1))[0])

    def at_best(row: _Row) -> float:
        return rank_of(row.distance, surest, len(row.columns))

    rows = sorted(rows, key=at_best)[:WEIGHED]
    shares = np.array([_dense(known, row.columns, row.shares) for row in rows])
    water = np.array([(1.0 + USUAL_WATER) / row.load - 1.0 for row in rows])
    expected = expected_error(known, shares, np.maximum(water, 0.0), goal.paper, choice.layers)
    rank = [
        rank_of(row.distance, float(error), len(row.columns))
        for row, error in zip(rows, expected, strict=True)
    ]
    best = [rows[place] for place in np.argsort(rank, kind="stable")[:count]]
    nearest = [row for row in sorted(rows, key=lambda row: row.distance)[:5] if row not in best]
    return best + nearest


def _dense(known: Characterisation, columns: Places, amounts: FloatArray | Parts) -> FloatArray:
    dense = np.zeros(len(known.paints))
    dense[columns] = amounts
    return dense


def _rounded(
    known: Characterisation, goal: Goal, choice: Choice, rows: Sequence[_Row]
) -> list[Proposal]:
    """Each row in the best measurable parts and water."""
    tried = [roundings(row.shares, row.load, choice.waters, choice.together) for row in rows]
    shares = np.concatenate(
        [
            np.array([_dense(known, row.columns, parts) for parts in each.parts])
            for row, each in zip(rows, tried, strict=True)
        ]
    )
    waters = np.array([float(water) for water in choice.waters])
    water = waters[np.concatenate([each.water for each in tried])]
    spectra = predict(known, shares, water, goal.paper, choice.layers)
    away = goal.away(known.light, spectra)
    picked, first = [], 0
    for each in tried:
        last = first + len(each.water)
        picked.append(first + choose(away[first:last], each.parts))
        first = last
    expected = expected_error(known, shares[picked], water[picked], goal.paper, choice.layers)
    labs = known.light.lab(spectra[picked])
    by_value = dict(zip(waters.tolist(), choice.waters, strict=True))
    return [
        Proposal(
            _most_first(known, shares[place]),
            by_value[float(water[place])],
            choice.layers,
            spectra[place],
            (float(lab[0]), float(lab[1]), float(lab[2])),
            float(away[place]),
            float(error),
        )
        for place, lab, error in zip(picked, labs, expected, strict=True)
    ]


def _most_first(known: Characterisation, amounts: FloatArray) -> tuple[tuple[int, int], ...]:
    parts = [(known.paints[place], int(amounts[place])) for place in np.flatnonzero(amounts)]
    return tuple(sorted(parts, key=lambda part: (-part[1], part[0])))

"""The search is exact: it finds what a full scan finds, and asks for little of what is there."""

import math
import random
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.colour.box import Box
from studio.colour.difference import CIE76, CIEDE2000, Metric, Triple, cmc_metric
from studio.colour.nearest import Candidate, Near, nearest

EVERYTHING: Final = Box(*(-math.inf, math.inf) * 3)
METRICS: Final = (CIEDE2000, CIE76, cmc_metric(), cmc_metric(1.0))

# Few values, so that equal colours, equal lightness and equal differences are common.
coarse = st.tuples(
    st.sampled_from([0.0, 40.0, 45.0, 50.0, 55.0, 60.0, 100.0]),
    st.sampled_from([-20.0, -5.0, 0.0, 5.0, 20.0]),
    st.sampled_from([-20.0, -5.0, 0.0, 5.0, 20.0]),
)
fine = st.tuples(st.floats(0.0, 100.0), st.floats(-100.0, 100.0), st.floats(-100.0, 100.0))
colours = st.one_of(coarse, fine)


@dataclass(slots=True)
class _Listed:
    """Candidates as the search asks for them, from a list.

    Args:
        rows: all of them.
        size: how many there are said to be: many make the search begin close by, few far out.
        small: whether they are said to be few where that is asked.
        given: how many were given out.
    """

    rows: Sequence[Candidate]
    size: int
    small: bool = False
    given: int = 0
    _pillars: list[list[Candidate]] = field(default_factory=list)

    def inside(self, box: Box) -> list[Candidate]:
        return self._counted(self.rows, box)

    def few(self) -> list[Candidate] | None:
        return self._counted(self.rows, EVERYTHING) if self.small else None

    def pillars(self) -> list[Box]:
        pillars: dict[tuple[int, int], list[Candidate]] = {}
        for row in self.rows:
            pillars.setdefault((round(row[2] / 4), round(row[3] / 4)), []).append(row)
        self._pillars = list(pillars.values())
        return [
            Box(
                *(4.0 * step - 2.0, 4.0 * step + 2.0),
                *(4.0 * a_step - 2.0, 4.0 * a_step + 2.0),
                *(min(row[4] for row in rows), max(row[4] for row in rows)),
            )
            for (step, a_step), rows in pillars.items()
        ]

    def within_pillars(self, pieces: Sequence[tuple[int, Box]]) -> list[Candidate]:
        return [row for place, box in pieces for row in self._counted(self._pillars[place], box)]

    def _counted(self, rows: Sequence[Candidate], box: Box) -> list[Candidate]:
        found = [row for row in rows if _holds(box, row)]
        self.given += len(found)
        return found


def _holds(box: Box, row: Candidate) -> bool:
    _, _, lightness, a, b = row
    return (
        box.lightness_low <= lightness <= box.lightness_high
        and box.a_low <= a <= box.a_high
        and box.b_low <= b <= box.b_high
    )


def _found(
    reference: Triple,
    rows: Sequence[Candidate],
    by: Metric,
    count: int,
    within: float = math.inf,
) -> list[Near]:
    return nearest(reference, _Listed(rows, len(rows)), by, count, within=within)


def _numbered(entries: list[tuple[int, Triple]]) -> list[Candidate]:
    return [(key, group, *lab) for key, (group, lab) in enumerate(entries)]


def _full_scan(
    reference: Triple, candidates: list[Candidate], by: Metric, count: int, within: float
) -> list[Near]:
    """Every difference, the best of each group, sorted: no cleverness."""
    every = sorted(
        Near(by.between(reference, (lightness, a, b)), key, group)
        for key, group, lightness, a, b in candidates
    )
    best: dict[int, Near] = {}
    for near in every:
        best.setdefault(near.group, near)
    return [near for near in best.values() if near.difference <= within][:count]


@settings(max_examples=400)
@given(
    reference=colours,
    entries=st.lists(st.tuples(st.integers(1, 12), colours), max_size=60),
    by=st.sampled_from(METRICS),
    count=st.integers(1, 15),
    within=st.one_of(st.just(math.inf), st.floats(0.0, 60.0)),
    size=st.sampled_from([0, 10, 10**4, 10**7, 10**12]),
    small=st.booleans(),
    shuffled=st.randoms(use_true_random=False),
)
def test_it_finds_what_a_full_scan_finds(
    *,
    reference: Triple,
    entries: list[tuple[int, Triple]],
    by: Metric,
    count: int,
    within: float,
    size: int,
    small: bool,
    shuffled: random.Random,
) -> None:
    candidates = _numbered(entries)
    expected = _full_scan(reference, candidates, by, count, within)
    shuffled.shuffle(candidates)  # the order does not matter
    found = nearest(reference, _Listed(candidates, size, small), by, count, within=within)
    assert found == expected


@pytest.mark.parametrize("by", METRICS, ids=lambda by: by.name)
@pytest.mark.parametrize("groups", [5, 300, 3000])
def test_it_finds_what_a_full_scan_finds_among_thousands(by: Metric, groups: int) -> None:
    rng = random.Random(groups)  # noqa: S311 - the same colours each time
    candidates: list[Candidate] = [
        (key, rng.randrange(groups), rng.uniform(0, 100), rng.gauss(0, 30), rng.gauss(0, 30))
        for key in range(3000)
    ]
    for reference in ((50.0, 10.0, 20.0), (96.0, 0.0, 3.0), (5.0, -80.0, 90.0)):
        for within in (math.inf, 6.0):
            expected = _full_scan(reference, candidates, by, 5, within)
            for size in (0, 3000, 10**9):
                listed = _Listed(candidates, size)
                assert nearest(reference, listed, by, 5, within=within) == expected


def test_of_equal_colours_the_lower_key_comes_first() -> None:
    stream = [(9, 1, 50.0, 1.0, 0.0), (4, 2, 50.0, 1.0, 0.0), (7, 3, 50.0, -1.0, 0.0)]
    found = _found((50.0, 0.0, 0.0), stream, CIE76, 2)
    assert [near.key for near in found] == [4, 7]


def test_a_group_is_named_by_its_best_member_once() -> None:
    stream = [(1, 5, 50.0, 3.0, 0.0), (2, 5, 50.0, 1.0, 0.0), (3, 6, 50.0, 2.0, 0.0)]
    found = _found((50.0, 0.0, 0.0), stream, CIE76, 5)
    assert found == [Near(1.0, 2, 5), Near(2.0, 3, 6)]


def test_asking_for_more_than_there_is_gives_all() -> None:
    stream = [(1, 1, 50.0, 3.0, 0.0), (2, 2, 40.0, 0.0, 0.0)]
    assert len(_found((50.0, 0.0, 0.0), stream, CIEDE2000, 100)) == 2


def test_nothing_to_search_is_nothing_found() -> None:
    assert _found((50.0, 0.0, 0.0), [], CIEDE2000, 3) == []


def test_the_limit_itself_is_within() -> None:
    stream = [(1, 1, 50.0, 3.0, 0.0), (2, 2, 50.0, 3.1, 0.0)]
    found = _found((50.0, 0.0, 0.0), stream, CIE76, 5, within=3.0)
    assert [near.key for near in found] == [1]


def test_a_limit_below_every_difference_finds_nothing() -> None:
    assert _found((50.0, 0.0, 0.0), [(1, 1, 50.0, 3.0, 0.0)], CIE76, 5, within=2.9) == []


def test_cmc_takes_the_wanted_colour_as_its_reference() -> None:
    wanted, sample = (70.0, 5.0, 5.0), (60.0, 50.0, 40.0)
    by = cmc_metric()
    (found,) = _found(wanted, [(1, 1, *sample)], by, 1)
    assert found.difference == by.between(wanted, sample) != by.between(sample, wanted)


@pytest.mark.parametrize("by", METRICS, ids=lambda by: by.name)
@pytest.mark.parametrize("reference", [(50.0, 10.0, 20.0), (80.0, -90.0, 90.0)])
def test_it_looks_at_few_of_a_large_set(by: Metric, reference: Triple) -> None:
    rng = random.Random(7)  # noqa: S311 - the same colours each time
    candidates: list[Candidate] = [
        (key, key, rng.uniform(0, 100), rng.gauss(10, 15), rng.gauss(20, 15))
        for key in range(20_000)
    ]
    listed = _Listed(candidates, len(candidates))
    found = nearest(reference, listed, by, 5)
    assert found == _full_scan(reference, candidates, by, 5, math.inf)
    assert listed.given < 1000


@pytest.mark.parametrize("by", METRICS, ids=lambda by: by.name)
def test_a_limit_stops_it_even_when_nothing_is_found(by: Metric) -> None:
    listed = _Listed([(key, key, 50.0 + key / 100, 90.0, 0.0) for key in range(5000)], 5000)
    assert nearest((50.0, 0.0, 0.0), listed, by, 3, within=2.0) == []
    assert listed.given == 0


def test_what_is_plainly_few_is_looked_at_whole_and_nothing_else_asked() -> None:
    listed = _Listed([(1, 1, 5.0, 80.0, 0.0), (2, 2, 95.0, 0.0, 80.0)], 0, small=True)
    assert len(nearest((50.0, 0.0, 0.0), listed, CIEDE2000, 1)) == 1
    assert listed.given == 2

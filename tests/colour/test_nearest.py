"""The search is exact: it finds what a full scan finds, and stops when nothing nearer can come."""

import math
import random
from collections.abc import Iterator
from typing import Final

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.colour.difference import CIE76, CIEDE2000, Metric, Triple, cmc_metric
from studio.colour.nearest import Near, nearest

METRICS: Final = (CIEDE2000, CIE76, cmc_metric(), cmc_metric(1.0))

Candidate = tuple[int, int, float, float, float]

# Few values, so that equal colours, equal lightness and equal differences are common.
coarse = st.tuples(
    st.sampled_from([0.0, 40.0, 45.0, 50.0, 55.0, 60.0, 100.0]),
    st.sampled_from([-20.0, -5.0, 0.0, 5.0, 20.0]),
    st.sampled_from([-20.0, -5.0, 0.0, 5.0, 20.0]),
)
fine = st.tuples(st.floats(0.0, 100.0), st.floats(-100.0, 100.0), st.floats(-100.0, 100.0))
colours = st.one_of(coarse, fine)


def _ordered(reference: Triple, candidates: list[Candidate]) -> list[Candidate]:
    return sorted(candidates, key=lambda each: abs(each[2] - reference[0]))


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
    shuffled=st.randoms(use_true_random=False),
)
def test_it_finds_what_a_full_scan_finds(
    *,
    reference: Triple,
    entries: list[tuple[int, Triple]],
    by: Metric,
    count: int,
    within: float,
    shuffled: random.Random,
) -> None:
    candidates = _numbered(entries)
    expected = _full_scan(reference, candidates, by, count, within)
    shuffled.shuffle(candidates)  # the order among equal |ΔL*| does not matter
    found = nearest(reference, _ordered(reference, candidates), by, count, within=within)
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
        stream = _ordered(reference, candidates)
        for within in (math.inf, 6.0):
            expected = _full_scan(reference, candidates, by, 10, within)
            assert nearest(reference, stream, by, 10, within=within) == expected


def test_of_equal_colours_the_lower_key_comes_first() -> None:
    stream = [(9, 1, 50.0, 1.0, 0.0), (4, 2, 50.0, 1.0, 0.0), (7, 3, 50.0, -1.0, 0.0)]
    found = nearest((50.0, 0.0, 0.0), stream, CIE76, 2)
    assert [near.key for near in found] == [4, 7]


def test_a_group_is_named_by_its_best_member_once() -> None:
    stream = [(1, 5, 50.0, 3.0, 0.0), (2, 5, 50.0, 1.0, 0.0), (3, 6, 50.0, 2.0, 0.0)]
    found = nearest((50.0, 0.0, 0.0), stream, CIE76, 5)
    assert found == [Near(1.0, 2, 5), Near(2.0, 3, 6)]


def test_asking_for_more_than_there_is_gives_all() -> None:
    stream = [(1, 1, 50.0, 3.0, 0.0), (2, 2, 40.0, 0.0, 0.0)]
    assert len(nearest((50.0, 0.0, 0.0), stream, CIEDE2000, 100)) == 2


def test_nothing_to_search_is_nothing_found() -> None:
    assert nearest((50.0, 0.0, 0.0), [], CIEDE2000, 3) == []


def test_the_limit_itself_is_within() -> None:
    stream = [(1, 1, 50.0, 3.0, 0.0), (2, 2, 50.0, 3.1, 0.0)]
    found = nearest((50.0, 0.0, 0.0), stream, CIE76, 5, within=3.0)
    assert [near.key for near in found] == [1]


def test_a_limit_below_every_difference_finds_nothing() -> None:
    assert nearest((50.0, 0.0, 0.0), [(1, 1, 50.0, 3.0, 0.0)], CIE76, 5, within=2.9) == []


def test_cmc_takes_the_wanted_colour_as_its_reference() -> None:
    wanted, sample = (70.0, 5.0, 5.0), (60.0, 50.0, 40.0)
    by = cmc_metric()
    (found,) = nearest(wanted, [(1, 1, *sample)], by, 1)
    assert found.difference == by.between(wanted, sample) != by.between(sample, wanted)


def _counted(candidates: list[Candidate], taken: list[Candidate]) -> Iterator[Candidate]:
    for candidate in candidates:
        taken.append(candidate)
        yield candidate


@pytest.mark.parametrize("by", METRICS, ids=lambda by: by.name)
def test_it_stops_long_before_the_end_of_a_large_set(by: Metric) -> None:
    rng = random.Random(7)  # noqa: S311 - the same colours each time
    reference = (50.0, 10.0, 20.0)
    candidates = _ordered(
        reference,
        [
            (key, key, rng.uniform(0, 100), rng.gauss(10, 15), rng.gauss(20, 15))
            for key in range(20_000)
        ],
    )
    taken: list[Candidate] = []
    found = nearest(reference, _counted(candidates, taken), by, 5)
    assert found == _full_scan(reference, candidates, by, 5, math.inf)
    assert len(taken) < 3000


def test_a_limit_stops_it_even_when_nothing_is_found() -> None:
    candidates = [(key, key, 50.0 + key / 100, 90.0, 0.0) for key in range(5000)]
    taken: list[Candidate] = []
    assert nearest((50.0, 0.0, 0.0), _counted(candidates, taken), CIE76, 3, within=2.0) == []
    assert len(taken) == 202


def test_what_comes_after_a_lightness_that_cannot_win_is_never_asked_for() -> None:
    def stream() -> Iterator[Candidate]:
        yield 1, 1, 50.0, 1.0, 0.0
        yield 2, 2, 51.5, 0.0, 0.0
        pytest.fail("the second could not win, so that no third may be asked for")

    assert [near.key for near in nearest((50.0, 0.0, 0.0), stream(), CIE76, 1)] == [1]

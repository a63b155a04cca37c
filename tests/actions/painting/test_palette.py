"""The fewest paints, against every choice there is and against published set covers."""

from itertools import combinations, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.actions.painting.palette import WORTH, Option, fewest_paints

OPTIONS = st.builds(
    Option,
    st.frozensets(st.integers(0, 5), min_size=1, max_size=3),
    st.integers(0, 60).map(lambda tenths: tenths / 20.0),
    st.integers(0, 3),
)
COLOURS = st.lists(st.lists(OPTIONS, min_size=1, max_size=4), min_size=1, max_size=5)


def _worth(
    colours: list[list[Option]], groups: list[int], places: tuple[int, ...]
) -> tuple[int, float]:
    """How many paints a choice takes, and its cost."""
    chosen = [options[place] for options, place in zip(colours, places, strict=True)]
    wells = {(group, option.well) for group, option in zip(groups, chosen, strict=True)}
    paints = frozenset().union(*(option.paints for option in chosen))
    return len(paints), sum(option.cost for option in chosen) + WORTH * len(wells)


@given(COLOURS, st.lists(st.integers(0, 2), min_size=5, max_size=5))
def test_no_other_choice_takes_fewer_paints_or_costs_less(
    colours: list[list[Option]], numbers: list[int]
) -> None:
    groups = numbers[: len(colours)]
    choice = fewest_paints(colours, groups)
    every = product(*(range(len(options)) for options in colours))
    fewest, least = min(_worth(colours, groups, places) for places in every)
    count, cost = _worth(colours, groups, choice.options)
    assert choice.proven
    assert count == fewest == len(choice.paints)
    assert cost == pytest.approx(least, abs=1e-6)


@pytest.mark.parametrize(("dimension", "fewest"), [(2, 5), (3, 18)])
def test_steiner_triple_systems_have_their_published_covers(dimension: int, fewest: int) -> None:
    """Points that meet every line of AG(n, 3): 5 of 9 and 18 of 27.

    Source, from memory: Fulkerson, Nemhauser and Trotter 1974, "Two computationally difficult set
    covering problems that arise in computing the 1-width of incidence matrices of Steiner triple
    systems", A9 and A27; the same follows from the largest caps of these spaces, 4 and 9. A line
    is a colour that each of its three points makes alone.
    """
    points = list(product(range(3), repeat=dimension))
    lines = [
        three
        for three in combinations(range(len(points)), 3)
        if all(sum(points[at][axis] for at in three) % 3 == 0 for axis in range(dimension))
    ]
    assert len(lines) == {2: 12, 3: 117}[dimension]
    colours = [[Option(frozenset({at}), 0.0, (line, at)) for at in line] for line in lines]
    choice = fewest_paints(colours)
    assert choice.proven
    assert len(choice.paints) == fewest
    assert all(choice.paints.intersection(line) for line in lines)


def test_colours_alike_share_a_well_that_costs_little() -> None:
    paints = frozenset({1, 2})
    own, other = Option(paints, 0.2, "own"), Option(paints, 0.3, "other")
    shared, dear = Option(paints, 0.6, "shared"), Option(paints, 1.5, "shared")
    assert fewest_paints([[own, shared], [other, shared]], [0, 0]).options == (1, 1)
    assert fewest_paints([[own, shared], [other, shared]], [0, 1]).options == (0, 0)
    assert fewest_paints([[own, dear], [other, dear]], [0, 0]).options == (0, 0)


def test_a_paint_saved_counts_more_than_any_difference() -> None:
    near, far = Option(frozenset({1}), 0.1, "near"), Option(frozenset({2}), 2.9, "far")
    only = Option(frozenset({2}), 0.5, "only")
    choice = fewest_paints([[near, far], [only]])
    assert choice.options == (1, 0)
    assert choice.paints == {2}


def test_without_time_there_is_still_a_choice_and_nothing_is_said_to_be_proven() -> None:
    colours = [
        [Option(frozenset({at, (at * 7 + by) % 24}), 0.1 * by, (at, by)) for by in range(1, 9)]
        for at in range(24)
    ]
    choice = fewest_paints(colours, seconds=0.0)
    assert not choice.proven
    assert len(choice.options) == 24
    for options, place in zip(colours, choice.options, strict=True):
        assert options[place].paints <= choice.paints


def test_a_hundred_colours_that_eight_paints_make() -> None:
    """Among 24 paints, of which each colour is also made by many other pairs."""
    few = [(one, other) for one in range(8) for other in range(one)]
    colours = [
        [Option(frozenset(few[at % len(few)]), 1.0, at)]
        + [Option(frozenset({(at * by) % 24, (at + 7 * by) % 24}), 0.5, -by) for by in (1, 2, 3)]
        for at in range(100)
    ]
    choice = fewest_paints(colours, seconds=5.0)
    assert len(choice.paints) <= 8
    for options, place in zip(colours, choice.options, strict=True):
        assert options[place].paints <= choice.paints


def test_no_colours_take_no_paint() -> None:
    assert fewest_paints([]).paints == frozenset()

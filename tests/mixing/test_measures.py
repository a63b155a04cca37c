"""Roundings are whole, small, in lowest terms, and never worse than they need be."""

import math
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.mixing.measures import AS_NEAR, LARGEST, WATERS, choose, roundings, small_ratios
from studio.mixing.observation import load_of_water

SHARES = st.integers(1, 4).flatmap(
    lambda count: st.lists(st.floats(0.05, 1.0), min_size=count, max_size=count)
)
LOADS = st.floats(0.1, 4.0)


@pytest.mark.parametrize("paints", [1, 2, 3, 4])
def test_every_small_ratio_stands_once_in_lowest_terms(paints: int) -> None:
    ratios = small_ratios(paints)
    assert len({tuple(row) for row in ratios.tolist()}) == len(ratios)
    assert all(math.gcd(*row) == 1 for row in ratios.tolist())
    assert ratios.min() == 1
    assert ratios.max() == LARGEST[paints]
    totals = ratios.sum(axis=1).tolist()
    assert totals == sorted(totals)


def test_the_ratios_of_two_paints_are_the_fractions() -> None:
    fractions = {Fraction(a, b) for a in range(1, 11) for b in range(1, 11)}
    assert {Fraction(a, b) for a, b in small_ratios(2).tolist()} == fractions


@given(SHARES, LOADS)
def test_roundings_are_measurable_and_near(amounts: list[float], load: float) -> None:
    shares = np.array(amounts) / sum(amounts)
    found = roundings(shares, load)
    assert found.parts.shape == (len(found.water), len(amounts))
    assert len(
        {(*row, wet) for row, wet in zip(found.parts.tolist(), found.water.tolist(), strict=True)}
    ) == len(found.water)
    assert all(math.gcd(*row) == 1 and min(row) >= 1 for row in found.parts.tolist())
    loads = load_of_water(np.array([float(water) for water in WATERS]))
    nearest = np.abs(np.log(loads / load)).argmin()
    assert nearest in found.water


@given(
    st.integers(2, 4).flatmap(lambda n: st.lists(st.integers(1, 5), min_size=n, max_size=n)),
    st.sampled_from(WATERS),
)
def test_what_can_be_measured_is_among_its_own_roundings(parts: list[int], water: Fraction) -> None:
    lowest = [part // math.gcd(*parts) for part in parts]
    load = float(load_of_water(np.array(float(water))))
    found = roundings(np.array(parts) / sum(parts), load)
    rows = zip(found.parts.tolist(), found.water.tolist(), strict=True)
    assert (lowest, WATERS.index(water)) in list(rows)


@given(
    st.lists(st.tuples(st.floats(0.0, 30.0), st.integers(1, 10), st.integers(1, 10)), min_size=1)
)
def test_the_choice_is_as_near_as_the_best_and_of_the_fewest_parts(
    tried: list[tuple[float, int, int]],
) -> None:
    distance = np.array([each[0] for each in tried])
    parts = np.array([each[1:] for each in tried])
    chosen = choose(distance, parts)
    assert distance[chosen] <= distance.min() + AS_NEAR
    for row in np.flatnonzero(distance <= distance.min() + AS_NEAR):
        assert (parts[chosen].sum(), distance[chosen]) <= (parts[row].sum(), distance[row])


def test_waters_rise() -> None:
    assert list(WATERS) == sorted(set(WATERS))
    assert WATERS[0] > 0

"""Recipes are found, rounded to parts that can be measured, and ranked."""

import math
from fractions import Fraction
from itertools import combinations, pairwise

import numpy as np
import pytest

from studio.mixing.characterisation import Characterisation
from studio.mixing.characterise import characterise
from studio.mixing.formulate import formulate
from studio.mixing.goal import SPECTRAL, Goal
from studio.mixing.measures import WATERS
from studio.mixing.predict import expected_error, predict, recipes_of
from studio.mixing.proposal import EACH_PAINT, Choice, Proposal, rank_of, ranked
from tests.mixing.synthetic import (
    BLUE,
    IDS,
    LIGHT,
    PAPER,
    RED,
    WAVELENGTHS,
    WHITE,
    YELLOW,
    mixes,
    washes,
)

GREEN = Goal(np.array([52.0, -25.0, 20.0]), PAPER)


@pytest.fixture(scope="module")
def known() -> Characterisation:
    return characterise([*washes(), *mixes()], LIGHT)


def _goal(
    known: Characterisation, parts: dict[int, float], water: float, layers: float = 1.0
) -> Goal:
    spectrum = predict(known, recipes_of(known, [parts]), water, PAPER, layers)[0]
    return Goal(known.light.lab(spectrum), PAPER)


@pytest.mark.parametrize(
    ("parts", "water"),
    [
        ({BLUE: 1}, Fraction(4)),
        ({YELLOW: 1}, Fraction(1, 2)),
        ({BLUE: 2, YELLOW: 1}, Fraction(3)),
        ({BLUE: 1, RED: 3}, Fraction(3, 2)),
        ({RED: 5, WHITE: 2}, Fraction(6)),
        ({BLUE: 1, WHITE: 7}, Fraction(2)),
    ],
)
def test_a_recipe_leads_back_to_itself(
    known: Characterisation, parts: dict[int, float], water: Fraction
) -> None:
    found = formulate(known, _goal(known, parts, float(water)), Choice(IDS))
    same = [each for each in found.proposals if each.paints == set(parts)]
    assert dict(same[0].parts) == parts
    assert same[0].water == water
    assert same[0].distance == pytest.approx(0.0, abs=1e-6)
    assert found.reached <= 0.05


def test_three_paints_lead_back_to_themselves_within_rounding(known: Characterisation) -> None:
    parts = {BLUE: 3.0, YELLOW: 4.0, RED: 1.0}
    goal = _goal(known, parts, 2.0)
    found = formulate(known, goal, Choice((BLUE, YELLOW, RED), using=frozenset(parts)))
    (only,) = found.proposals
    assert only.distance <= 0.25
    assert only.paints == set(parts)
    amounts = dict(only.parts)
    for paint, share in parts.items():
        assert amounts[paint] / sum(amounts.values()) == pytest.approx(share / 8.0, abs=0.05)


@pytest.mark.parametrize(
    "lab",
    [
        (52.0, -25.0, 20.0),
        (70.0, 15.0, 30.0),
        (35.0, 10.0, -20.0),
        (8.0, 0.0, 0.0),
        (99.0, 0.0, 0.0),
        (60.0, 90.0, 60.0),
        (50.0, 20.0, -80.0),
    ],
)
def test_no_recipe_of_a_fine_grid_is_nearer(
    known: Characterisation, lab: tuple[float, float, float]
) -> None:
    goal = Goal(np.array(lab), PAPER)
    shares, waters = np.meshgrid(np.linspace(1 / 11, 10 / 11, 50), np.geomspace(0.5, 20.0, 50))
    least = math.inf
    for one, other in combinations(IDS, 2):
        parts = [{one: share, other: 1.0 - share} for share in shares.ravel().tolist()]
        spectra = predict(known, recipes_of(known, parts), waters.ravel(), PAPER)
        least = min(least, float(goal.away(known.light, spectra).min()))
    assert formulate(known, goal, Choice(IDS, 2)).reached <= least + 0.1


def test_what_is_shown_is_what_the_model_predicts(known: Characterisation) -> None:
    for each in formulate(known, GREEN, Choice(IDS)).proposals:
        shares = recipes_of(known, [dict(each.parts)])
        spectrum = predict(known, shares, float(each.water), PAPER)
        assert np.allclose(each.spectrum, spectrum[0])
        assert np.allclose(each.lab, known.light.lab(spectrum)[0])
        assert each.distance == pytest.approx(float(GREEN.away(known.light, spectrum)[0]))
        error = expected_error(known, shares, float(each.water), PAPER)
        assert each.expected == pytest.approx(float(error[0]))


def test_parts_are_whole_small_and_in_lowest_terms(known: Characterisation) -> None:
    for most in (2, 3, 4):
        for each in formulate(known, GREEN, Choice(IDS, most)).proposals:
            amounts = [amount for _, amount in each.parts]
            assert math.gcd(*amounts) == 1
            assert max(amounts) <= 10
            assert amounts == sorted(amounts, reverse=True)
            assert each.water in WATERS


def test_more_paints_never_rank_worse(known: Characterisation) -> None:
    goals = [
        GREEN,
        Goal(np.array([40.0, 30.0, 5.0]), PAPER),
        Goal(np.array([90.0, 0.0, 0.0]), PAPER),
    ]
    for goal in goals:
        by_number = [formulate(known, goal, Choice(IDS, most)) for most in (1, 2, 3, 4)]
        by_shelf = [formulate(known, goal, Choice(IDS[:count])) for count in (1, 2, 3, 4)]
        for found in (by_number, by_shelf):
            ranks = [each.proposals[0].rank for each in found]
            assert ranks == sorted(ranks, reverse=True)
            nearest = [each.reached for each in found]
            assert all(b <= a + 0.05 for a, b in pairwise(nearest))


def test_proposals_stand_in_order_and_none_merely_adds_paints(known: Characterisation) -> None:
    found = formulate(known, GREEN, Choice(IDS, 4), count=20)
    ranks = [each.rank for each in found.proposals]
    assert ranks == sorted(ranks)
    for place, each in enumerate(found.proposals):
        assert not any(before.paints <= each.paints for before in found.proposals[:place])
    assert found.combinations == 4 + 6 + 4 + 1
    assert found.nearest.distance <= min(each.distance for each in found.proposals)


def _proposal(paints: tuple[int, ...], distance: float, expected: float = 1.0) -> Proposal:
    parts = tuple((paint, 1) for paint in paints)
    spectrum = np.zeros(len(WAVELENGTHS))
    return Proposal(parts, Fraction(3), 1.0, spectrum, (50.0, 0.0, 0.0), distance, expected)


def test_another_paint_has_to_be_worth_half_a_step() -> None:
    one, two = _proposal((1,), 1.0), _proposal((1, 2), 0.0)
    assert one.rank - two.rank == pytest.approx(math.sqrt(2.0) - 1.0 - EACH_PAINT)
    assert ranked([two, one]) == [one]
    better = _proposal((1,), 1.5)
    assert ranked([better, two]) == [two, better]
    assert rank_of(3.0, 4.0, 3) == 5.0 + 2 * EACH_PAINT


def test_what_is_less_sure_stands_later() -> None:
    sure, unsure = _proposal((1,), 0.6, 1.0), _proposal((2,), 0.1, 2.0)
    assert ranked([unsure, sure]) == [sure, unsure]


def test_only_wanted_paints_and_all_that_every_recipe_holds(known: Characterisation) -> None:
    only = formulate(known, GREEN, Choice((BLUE, RED), 3), count=10)
    assert all(each.paints <= {BLUE, RED} for each in only.proposals)
    assert only.combinations == 3
    both = formulate(known, GREEN, Choice(IDS, 3, frozenset({RED})), count=10)
    assert all(RED in each.paints for each in both.proposals)
    assert both.combinations == 1 + 3 + 3


def test_more_layers_reach_darker_colours(known: Characterisation) -> None:
    black = Goal(np.array([10.0, 0.0, 0.0]), PAPER)
    reached = [formulate(known, black, Choice(IDS, layers=n)).reached for n in (1.0, 2.0, 4.0)]
    assert reached == sorted(reached, reverse=True)
    assert reached[0] > reached[-1] + 0.5


def test_a_spectrum_is_come_near_as_well(known: Characterisation) -> None:
    shares = recipes_of(known, [{BLUE: 1.0, YELLOW: 1.0}])
    spectrum = predict(known, shares, 3.0, PAPER)[0]
    colour = known.light.lab(spectrum)
    goal = Goal(colour, PAPER, spectrum)
    found = formulate(known, goal, Choice(IDS))
    assert found.nearest.paints == {BLUE, YELLOW}
    assert found.nearest.distance == pytest.approx(0.0, abs=1e-6)
    other = predict(known, recipes_of(known, [{RED: 1.0}]), 3.0, PAPER)
    apart = Goal(known.light.lab(other)[0], PAPER, spectrum).away(known.light, other)
    root_mean_square = np.sqrt(((other[0] - spectrum) ** 2).mean())
    assert float(apart[0]) == pytest.approx(SPECTRAL * root_mean_square)
    with pytest.raises(TypeError, match="colour alone"):
        Goal(colour, PAPER).spectral_error(other)


def test_the_share_of_the_work_that_is_done_rises_to_all(known: Characterisation) -> None:
    told: list[float] = []
    formulate(known, GREEN, Choice(IDS), tell=told.append)
    assert told == sorted(told)
    assert 0.0 < told[0] < told[-1] <= 1.0


def test_what_cannot_be_searched_is_refused(known: Characterisation) -> None:
    with pytest.raises(ValueError, match="no combination"):
        formulate(known, GREEN, Choice(IDS, 1, frozenset({RED, BLUE})))
    with pytest.raises(ValueError, match="no combination"):
        formulate(known, GREEN, Choice(()))
    for most in (0, 5):
        with pytest.raises(ValueError, match="1 to 4 paints"):
            formulate(known, GREEN, Choice(IDS, most))
    with pytest.raises(ValueError, match="not in"):
        formulate(known, GREEN, Choice((99,)))

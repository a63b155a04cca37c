"""The slopes of recipes are those of their predictions, and a search keeps its bounds."""

from concurrent.futures import ThreadPoolExecutor
from itertools import combinations

import numpy as np
import pytest

from studio.mixing.approach import approach
from studio.mixing.goal import Goal
from studio.mixing.predict import film_of, washes
from studio.mixing.recipe_space import Limits, Places, RecipeSpace, shares_of_vector
from tests.mixing.synthetic import IDS, LIGHT, PAPER, TRUTH

LIMITS = Limits(0.2, 2.5, 10.0, 2.0)
GOAL = Goal(np.array([55.0, -20.0, 25.0]), PAPER)
SPECTRAL_GOAL = Goal(GOAL.lab, PAPER, np.linspace(0.2, 0.4, len(PAPER)))


def _places(size: int) -> Places:
    return np.array(list(combinations(range(len(IDS)), size)), dtype=np.intp)


@pytest.mark.parametrize("size", [1, 2, 3, 4])
def test_slopes_are_those_of_the_predicted_spectra(size: int) -> None:
    columns = _places(size)
    chance = np.random.default_rng(size)
    vector = np.column_stack(
        [chance.uniform(-1.0, 0.8, len(columns)), chance.uniform(-1, 1, (len(columns), size - 1))]
    )
    with ThreadPoolExecutor(1) as pool:
        space = RecipeSpace(TRUTH, LIGHT, GOAL, LIMITS, pool)
        spectra, rise = space._rise(columns, vector)
        for unknown in range(size):
            step = np.zeros(size)
            step[unknown] = 1e-5
            there, here = (
                washes(TRUTH, film_of(TRUTH, batch), batch)
                for batch in (space._batch(columns, vector + s) for s in (step, -step))
            )
            assert np.allclose((there - here) / 2e-5, rise[:, :, unknown], atol=1e-6)
        assert np.allclose(GOAL.away(LIGHT, spectra), space.distances(columns, vector))


@pytest.mark.parametrize("goal", [GOAL, SPECTRAL_GOAL], ids=["colour", "spectrum"])
def test_the_equations_lead_downhill(goal: Goal) -> None:
    columns = _places(3)
    vector = np.zeros((len(columns), 3))
    with ThreadPoolExecutor(1) as pool:
        space = RecipeSpace(TRUTH, LIGHT, goal, LIMITS, pool)
        now = space.equations(columns, vector)
        downhill = (
            vector - 1e-3 * now.gradient / np.linalg.norm(now.gradient, axis=1)[:, np.newaxis]
        )
        assert np.all(space.distances(columns, downhill) < np.sqrt(now.cost))
        assert np.allclose(now.matrix, np.swapaxes(now.matrix, 1, 2))


@pytest.mark.parametrize("lab", [(5.0, 0.0, 0.0), (99.0, 0.0, 0.0), (50.0, 90.0, -60.0)])
def test_amounts_and_water_keep_their_bounds(lab: tuple[float, float, float]) -> None:
    for size in (1, 2, 3):
        goal = Goal(np.array(lab), PAPER)
        found = approach(TRUTH, LIGHT, goal, _places(size), LIMITS, tell=lambda _: None)
        assert np.all((found.load >= 0.2 - 1e-9) & (found.load <= 2.5 + 1e-9))
        assert np.all(found.shares[:, 1:] / found.shares[:, :1] <= 10.0 + 1e-9)
        assert np.all(found.shares[:, 1:] / found.shares[:, :1] >= 0.1 - 1e-9)
        assert np.allclose(found.shares.sum(axis=1), 1.0)


def test_the_darkest_recipe_has_the_least_water() -> None:
    goal = Goal(np.array([5.0, 0.0, 0.0]), PAPER)
    found = approach(TRUTH, LIGHT, goal, _places(2), LIMITS, tell=lambda _: None)
    assert found.load[found.distance.argmin()] == pytest.approx(2.5)


def test_shares_sum_to_one_and_the_first_is_the_unit() -> None:
    shares = shares_of_vector(np.array([[0.3, np.log(3.0)], [0.0, 0.0]]))
    assert np.allclose(shares, [[0.25, 0.75], [0.5, 0.5]])

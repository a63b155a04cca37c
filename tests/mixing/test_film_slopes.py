"""Slopes of films and washes are those of small differences."""
# ruff: noqa: N803, N806 - R keeps the case it has in the papers

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.mixing.film import film_reflectance
from studio.mixing.film_slopes import film_slopes
from studio.mixing.observation import Batch
from studio.mixing.parameters import Parameters, wash_slopes
from studio.mixing.settings import DEFAULT, LAW

depths = st.floats(1e-3, 30.0)
SIZE = 1e-6


@given(depths, depths, st.floats(0.0, 0.99))
def test_slopes_of_a_film(k: float, s: float, Rg: float) -> None:
    film = film_slopes(np.array(k), np.array(s), np.array(Rg))
    assert pytest.approx(float(film_reflectance(k, s, 1.0, Rg)), abs=1e-12) == film.R
    by_k = _slope(lambda d: float(film_reflectance(k + d, s, 1.0, Rg)), k * 1e-4)
    by_s = _slope(lambda d: float(film_reflectance(k, s + d, 1.0, Rg)), s * 1e-4)
    by_Rg = _slope(lambda d: float(film_reflectance(k, s, 1.0, Rg + 1e-3 + d)), 1e-4)
    near = float(film_slopes(np.array(k), np.array(s), np.array(Rg + 1e-3)).by_Rg)
    assert film.by_k == pytest.approx(by_k, rel=1e-4, abs=1e-7)
    assert film.by_s == pytest.approx(by_s, rel=1e-4, abs=1e-7)
    assert near == pytest.approx(by_Rg, rel=1e-4, abs=1e-7)


def _slope(function: "object", size: float) -> float:
    assert callable(function)
    return float((function(size) - function(-size)) / (2 * size))


def test_a_film_of_nothing_has_the_slopes_of_its_first_trace() -> None:
    """dR/dk = -2 Rg and dR/ds = (1 - Rg)² at X = 0, from dR/dX = S - 2 (K + S) R + S R²."""
    film = film_slopes(np.zeros(3), np.zeros(3), np.array([0.0, 0.5, 0.9]))
    np.testing.assert_allclose(film.by_k, [0.0, -1.0, -1.8], atol=1e-6)
    np.testing.assert_allclose(film.by_s, [1.0, 0.25, 0.01], atol=1e-6)


@pytest.fixture(scope="module")
def wash() -> tuple[Parameters, Batch, np.ndarray]:
    rng = np.random.default_rng(0)
    shares = rng.random((12, 4)) * (rng.random((12, 4)) > 0.3) + 1e-3
    batch = Batch(
        shares / shares.sum(axis=1, keepdims=True),
        rng.uniform(0.2, 4.0, 12),
        rng.integers(1, 4, 12).astype(float),
        rng.uniform(0.0, 0.95, (12, 7)),
    )
    parameters = Parameters(
        rng.normal(0, 1.5, (4, 7)), rng.normal(0.5, 0.5, (4, 7)), np.array(DEFAULT.law)
    )
    return parameters, batch, rng.normal(0, 0.1, 12)


@pytest.mark.parametrize("place", range(len(LAW)), ids=LAW)
def test_slopes_of_a_wash_by_the_law(
    wash: tuple[Parameters, Batch, np.ndarray], place: int
) -> None:
    p, batch, extra = wash
    step = SIZE * np.eye(len(LAW))[place]
    up, down = (
        wash_slopes(Parameters(p.ln_K, p.ln_S_part, p.law + sign * step), batch, extra).R
        for sign in (1, -1)
    )
    found = wash_slopes(p, batch, extra).by_law[:, :, place]
    assert np.abs(found).max() > 1e-3
    np.testing.assert_allclose(found, (up - down) / (2 * SIZE), atol=1e-8)


def test_slopes_of_a_wash_by_its_paints_and_thickness(
    wash: tuple[Parameters, Batch, np.ndarray],
) -> None:
    p, batch, extra = wash
    found = wash_slopes(p, batch, extra)
    up, down = (wash_slopes(p, batch, extra + sign * SIZE).R for sign in (1, -1))
    np.testing.assert_allclose(found.by_thickness, (up - down) / (2 * SIZE), atol=1e-8)
    for paint in range(4):
        step = np.zeros((4, 7))
        step[paint] = SIZE
        up, down = (
            wash_slopes(Parameters(p.ln_K, p.ln_S_part + sign * step, p.law), batch, extra).R
            for sign in (1, -1)
        )
        share = batch.shares[:, [paint]]
        by_S = share * p.S[paint] * found.by_S
        np.testing.assert_allclose(by_S, (up - down) / (2 * SIZE), atol=1e-8)
        up, down = (
            wash_slopes(Parameters(p.ln_K + sign * step, p.ln_S_part, p.law), batch, extra).R
            for sign in (1, -1)
        )
        by_K = share * p.K[paint] * found.by_K + p.likeness * by_S
        np.testing.assert_allclose(by_K, (up - down) / (2 * SIZE), atol=1e-8)

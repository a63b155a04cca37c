"""Kubelka-Munk films, layers and surfaces: published numbers, the equation, its limits."""
# ruff: noqa: N803, N806 - K, S, X, R and T keep the case they have in the papers

import csv
import re
from pathlib import Path
from typing import Final

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from studio.mixing.film import (
    coefficients_over_two_grounds,
    film_reflectance,
    mix_coefficients,
    ratio_from_reflectance,
    reflectance_from_ratio,
)
from studio.mixing.layers import Layer, compose, film_layer, over_substrate
from studio.mixing.ranges import FloatArray
from studio.mixing.surface import internal_from_measured, measured_from_internal

PUBLISHED: Final = Path(__file__).resolve().parents[1] / "published"
PRINTED: Final = 5.1e-9
"""Half a unit of the last of eight decimals printed in the table."""

coefficients = st.floats(0.0, 50.0)
thicknesses = st.floats(0.0, 20.0)
fractions = st.floats(0.0, 1.0)


def _rows(name: str) -> list[dict[str, str]]:
    with (PUBLISHED / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


def _numbers(text: str) -> dict[str, float]:
    return {name: float(value) for name, value in re.findall(r"(\w+)=([\d.]+)", text)}


def _layer(given: dict[str, float]) -> Layer:
    return film_layer(given["K"], given["S"], given["X"])


def _answer(row: dict[str, str], above: dict[str, str]) -> FloatArray:  # noqa: PLR0911
    """What the studio computes for one row; `same` in a row points to the row above."""
    kind = above["kind"] if row["kind"] == "same" else row["kind"]
    inputs = above["inputs"] if row["inputs"] == "same" else row["inputs"]
    given = _numbers(inputs)
    if kind == "K/S from Rinf":
        return ratio_from_reflectance(given["Rinf"])
    if kind == "Rinf from K/S":
        return reflectance_from_ratio(given["S"])
    if kind == "film over substrate":
        return film_reflectance(given["K"], given["S"], given["X"], given["Rg"])
    if kind in {"layer R0", "layer T"}:
        return _layer(given).R if row["output"] == "R0" else _layer(given).T
    if kind == "two layers (glaze)":
        top, bottom = (_layer(_numbers(part)) for part in inputs.split(", "))
        glaze = compose(top, bottom)
        return glaze.R if row["output"] == "R" else glaze.T
    if kind.startswith("K,S from R over white"):
        K, S = coefficients_over_two_grounds(given["Rw"], given["Rb"], 1.0, 0.0)
        return K if row["output"] == "K" else S
    if kind.startswith("Saunderson internal->measured"):
        return measured_from_internal(
            given["Ri"], given["k1"], given["k2"], specular_included="SPIN" in kind
        )
    if kind == "single-constant mixture":
        K, S = mix_coefficients([0.25, 0.75], [[1.6], [0.0055556]], [[1.0], [1.0]])
        return reflectance_from_ratio(K / S).reshape(())
    if kind == "two-constant mixture opaque 1:1":
        K, S = mix_coefficients(
            [1, 1], [[given["K1"]], [given["K2"]]], [[given["S1"]], [given["S2"]]]
        )
        return reflectance_from_ratio(K / S).reshape(())
    pytest.fail(f"no check for {kind!r}")


WORKED: Final = _rows("km_worked_examples.csv")
ABOVE: Final = [WORKED[0], *WORKED[:-1]]


@pytest.mark.parametrize(
    ("row", "above"),
    list(zip(WORKED, ABOVE, strict=True)),
    ids=[f"{row['kind']}: {row['inputs']}: {row['output']}" for row in WORKED],
)
def test_worked_example(row: dict[str, str], above: dict[str, str]) -> None:
    assert _answer(row, above) == pytest.approx(float(row["value"]), abs=PRINTED)


@pytest.mark.parametrize(
    ("row", "above"),
    [(r, a) for r, a in zip(WORKED, ABOVE, strict=True) if r["kind"].startswith("Saunderson")],
)
def test_worked_surface_inverted(row: dict[str, str], above: dict[str, str]) -> None:
    given = _numbers(row["inputs"])
    measured = _answer(row, above)
    internal = internal_from_measured(
        measured, given["k1"], given["k2"], specular_included="SPIN" in row["kind"]
    )
    assert internal == pytest.approx(given["Ri"], abs=1e-14)


@pytest.mark.parametrize("K", [0.0, 1e-6, 0.2, 3.0])
@pytest.mark.parametrize("S", [0.0, 1e-6, 0.05, 1.0, 4.0])
@pytest.mark.parametrize("Rg", [0.0, 0.5, 0.95, 1.0])
def test_film_solves_the_differential_equation(K: float, S: float, Rg: float) -> None:
    """dR/dX = S - 2 (K + S) R + S R² from R = Rg at X = 0, Kubelka & Munk (1931)."""
    X = np.array([0.05, 0.5, 1.0, 3.0])
    solution = solve_ivp(
        lambda _, R: S - 2.0 * (K + S) * R + S * R**2,
        (0.0, 3.0),
        [Rg],
        method="DOP853",
        t_eval=X,
        rtol=1e-11,
        atol=1e-13,
    )
    np.testing.assert_allclose(film_reflectance(K, S, X, Rg), solution.y[0], atol=2e-11)


@given(coefficients, coefficients, thicknesses, fractions)
def test_film_lies_between_substrate_and_opaque_film(
    K: float, S: float, X: float, Rg: float
) -> None:
    R = film_reflectance(K, S, X, Rg)
    opaque = float(reflectance_from_ratio(K / S)) if S > K * 1e-300 else 0.0
    assert 0.0 <= R <= 1.0
    assert min(Rg, opaque) - 1e-12 <= R <= max(Rg, opaque) + 1e-12


@given(coefficients, coefficients, thicknesses, thicknesses, fractions)
def test_film_moves_one_way_from_substrate_to_opaque_film(
    K: float, S: float, X: float, more: float, Rg: float
) -> None:
    thin, thick = film_reflectance(K, S, [X, X + more], Rg)
    opaque = film_reflectance(K, S, 1e9, Rg)
    assert abs(thick - opaque) <= abs(thin - opaque) + 1e-12


@given(coefficients, st.floats(0.0, 5.0), coefficients, thicknesses, fractions)
def test_more_absorption_is_never_lighter(
    K: float, more: float, S: float, X: float, Rg: float
) -> None:
    less, darker = film_reflectance([K, K + more], S, X, Rg)
    assert darker <= less + 1e-12


@given(coefficients, coefficients, thicknesses, fractions, fractions)
def test_a_lighter_substrate_is_never_darker(
    K: float, S: float, X: float, Rg: float, other: float
) -> None:
    low, high = film_reflectance(K, S, X, sorted([Rg, other]))
    assert low <= high + 1e-12


@given(coefficients, thicknesses, fractions)
def test_without_scattering_light_decays_on_its_way_in_and_out(
    K: float, X: float, Rg: float
) -> None:
    expected = Rg * np.exp(-2.0 * K * X)
    assert film_reflectance(K, 0.0, X, Rg) == pytest.approx(expected, rel=1e-12, abs=1e-300)
    assert film_reflectance(K, 1e-14, X, Rg) == pytest.approx(expected, abs=1e-11)


@given(coefficients, thicknesses, fractions)
def test_without_absorption_the_film_is_a_white_veil(S: float, X: float, Rg: float) -> None:
    expected = ((1.0 - Rg) * S * X + Rg) / ((1.0 - Rg) * S * X + 1.0)
    assert film_reflectance(0.0, S, X, Rg) == pytest.approx(expected, abs=1e-14)
    assert film_reflectance(1e-18, S, X, Rg) == pytest.approx(expected, abs=1e-6)


@given(coefficients, coefficients, fractions)
def test_no_thickness_shows_the_substrate(K: float, S: float, Rg: float) -> None:
    assert film_reflectance(K, S, 0.0, Rg) == Rg
    R, T, R_below = film_layer(K, S, 0.0)
    np.testing.assert_array_equal([R, T, R_below], [0.0, 1.0, 0.0])


@pytest.mark.parametrize("X", [1e3, 1e8, 1e300])
@pytest.mark.parametrize("Rg", [0.0, 0.5, 1.0])
def test_a_very_thick_film_is_opaque_without_overflow(X: float, Rg: float) -> None:
    with np.errstate(all="raise", under="ignore"):
        R = film_reflectance([0.2, 5.0], [1.0, 0.03], X, Rg)
        layer = film_layer([0.2, 5.0], [1.0, 0.03], X)
    np.testing.assert_allclose(R, reflectance_from_ratio([0.2, 5.0 / 0.03]), rtol=1e-14)
    np.testing.assert_allclose(layer.T, 0.0, atol=1e-280)


@given(st.floats(1e-6, 1.0))
def test_ratio_and_reflectance_invert_each_other(R: float) -> None:
    assert reflectance_from_ratio(ratio_from_reflectance(R)) == pytest.approx(R, rel=1e-7)


def test_a_perfectly_black_opaque_film_has_an_infinite_ratio() -> None:
    assert np.isposinf(ratio_from_reflectance(0.0))
    assert float(reflectance_from_ratio(np.inf)) == 0.0


@given(coefficients, coefficients, st.floats(0.0, 3.0), st.floats(0.0, 1.0), fractions)
def test_a_film_cut_in_two_composes_to_the_film(
    K: float, S: float, X: float, cut: float, Rg: float
) -> None:
    whole = film_layer(K, S, X)
    both = compose(film_layer(K, S, X * cut), film_layer(K, S, X * (1.0 - cut)))
    assert pytest.approx(whole.R, abs=1e-10) == both.R
    assert pytest.approx(whole.T, abs=1e-10) == both.T
    assert both.R_below == pytest.approx(whole.R_below, abs=1e-10)
    assert over_substrate(both, Rg) == pytest.approx(film_reflectance(K, S, X, Rg), abs=1e-10)


@given(st.lists(st.tuples(coefficients, coefficients, st.floats(0.0, 2.0)), min_size=3, max_size=3))
def test_composition_does_not_depend_on_the_order_of_joining(
    films: list[tuple[float, float, float]],
) -> None:
    first, second, third = (film_layer(*film) for film in films)
    left = compose(compose(first, second), third)
    right = compose(first, compose(second, third))
    np.testing.assert_allclose(left, right, atol=1e-10)


@given(coefficients, coefficients, coefficients, coefficients, fractions)
def test_a_glaze_over_a_dry_wash_is_a_film_on_a_painted_substrate(
    K1: float, S1: float, K2: float, S2: float, Rg: float
) -> None:
    glaze = compose(film_layer(K1, S1, 0.5), film_layer(K2, S2, 0.5))
    painted = film_reflectance(K2, S2, 0.5, Rg)
    expected = film_reflectance(K1, S1, 0.5, painted)
    assert over_substrate(glaze, Rg) == pytest.approx(expected, abs=1e-10)


def test_two_perfect_reflectors_let_nothing_through() -> None:
    mirror = Layer(np.array(1.0), np.array(0.0), np.array(1.0))
    np.testing.assert_array_equal(compose(mirror, mirror), [1.0, 0.0, 1.0])
    assert over_substrate(mirror, 1.0) == 1.0


@given(st.floats(0.0, 3.0), st.floats(0.0, 1.5), st.floats(0.1, 1.0))
def test_two_grounds_give_the_coefficients_back(K: float, S: float, X: float) -> None:
    R = film_reflectance(K, S, X, [0.93, 0.05])
    found = coefficients_over_two_grounds(R[0], R[1], 0.93, 0.05, X)
    np.testing.assert_allclose(found, (K, S), atol=1e-6)


@given(fractions, st.floats(0.0, 0.2), st.floats(0.0, 0.9), st.booleans())
def test_surface_inverts(Ri: float, k1: float, k2: float, included: bool) -> None:  # noqa: FBT001
    Rm = measured_from_internal(Ri, k1, k2, specular_included=included)
    assert internal_from_measured(Rm, k1, k2, specular_included=included) == pytest.approx(
        Ri, abs=1e-12
    )


def test_shapes_broadcast_with_wavelengths_last() -> None:
    K = np.full((3, 36), 0.4)
    R = film_reflectance(K, 0.1, np.array([[0.5], [1.0], [2.0]]), np.full(36, 0.9))
    assert R.shape == (3, 36)
    K_mix, S_mix = mix_coefficients([[1, 1, 0], [0, 1, 3]], K, K)
    assert K_mix.shape == S_mix.shape == (2, 36)


def test_a_mix_counts_ratios_not_volumes() -> None:
    K, S = [[0.1, 2.0], [3.0, 0.4]], [[0.9, 0.2], [0.1, 0.7]]
    np.testing.assert_allclose(mix_coefficients([2, 1], K, S), mix_coefficients([4, 2], K, S))
    np.testing.assert_allclose(mix_coefficients([5, 0], K, S), (K[0], S[0]))


@pytest.mark.parametrize("bad", [-0.1, np.nan, np.inf])
@pytest.mark.parametrize(
    ("place", "letter"), [(0, "absorption K"), (1, "scattering S"), (2, "thickness X")]
)
def test_film_rejects_impossible_coefficients(bad: float, place: int, letter: str) -> None:
    numbers = [0.2, 0.1, 1.0]
    numbers[place] = bad
    K, S, X = numbers
    with pytest.raises(ValueError, match=f"the {letter} must be finite and 0 or more"):
        film_reflectance(K, S, X, 0.9)
    with pytest.raises(ValueError, match=letter):
        film_layer(K, S, X)


@pytest.mark.parametrize("bad", [-0.01, 1.01, np.nan])
def test_reflectances_outside_0_to_1_are_rejected(bad: float) -> None:
    with pytest.raises(ValueError, match="substrate must lie between 0 and 1"):
        film_reflectance(0.2, 0.1, 1.0, bad)
    with pytest.raises(ValueError, match="between 0 and 1"):
        ratio_from_reflectance(bad)
    with pytest.raises(ValueError, match="between 0 and 1"):
        measured_from_internal(bad, 0.04, 0.6)
    with pytest.raises(ValueError, match="between 0 and 1"):
        internal_from_measured(bad, 0.04, 0.6)
    with pytest.raises(ValueError, match="between 0 and 1"):
        over_substrate(film_layer(0.2, 0.1, 1.0), bad)


def test_other_impossible_numbers_are_rejected() -> None:
    black, white = np.array(0.0), np.array(1.0)
    with pytest.raises(ValueError, match="K/S must be 0 or more"):
        reflectance_from_ratio(np.nan)
    with pytest.raises(ValueError, match="too large"):
        film_reflectance(1e200, 1.0, 1e200, 0.5)
    with pytest.raises(ValueError, match="at least one paint"):
        mix_coefficients([0, 0], [[1.0], [1.0]], [[1.0], [1.0]])
    with pytest.raises(ValueError, match="more light than falls on it"):
        compose(Layer(white, white, black), film_layer(0.2, 0.1, 1.0))
    with pytest.raises(ValueError, match="k1 and k2"):
        measured_from_internal(0.5, 1.0, 0.6)
    with pytest.raises(ValueError, match=r"k1 = 0\.04"):
        internal_from_measured(0.03, 0.04, 0.6)
    with pytest.raises(ValueError, match="two different substrates"):
        coefficients_over_two_grounds(0.5, 0.4, 0.9, 0.9)
    with pytest.raises(ValueError, match="no Kubelka-Munk film"):
        coefficients_over_two_grounds(0.3, 0.3, 1.0, 0.0)
    with pytest.raises(ValueError, match="no Kubelka-Munk film"):
        coefficients_over_two_grounds(1.0, 1.0, 0.9, 0.1)


CURTIS: Final = _rows("curtis1997_fig5_K_S_rgb.csv")


def _curtis(letter: str) -> np.ndarray:
    return np.array([[float(row[f"{letter}_{band}"]) for band in "rgb"] for row in CURTIS])


def test_curtis_watercolours_darken_with_each_layer_on_white() -> None:
    """Over a white lighter than every R∞, a further glaze never lightens (Curtis et al. 1997)."""
    K, S = _curtis("K"), _curtis("S")
    glazes = np.array([film_reflectance(K, S, layers, 1.0) for layers in range(6)])
    assert np.all(np.diff(glazes, axis=0) < 0.0)


def test_curtis_opaque_paints_lighten_black_where_transparent_ones_hardly_do() -> None:
    names = [row["pigment"] for row in CURTIS]
    on_black = film_reflectance(_curtis("K"), _curtis("S"), 1.0, 0.0).max(axis=1)
    opaque = [names.index(name) for name in ("Indian Red", "Cadmium Yellow", "Interference Lilac")]
    transparent = [names.index(name) for name in ("Quinacridone Rose", "Hookers Green")]
    assert on_black[opaque].min() > 0.35
    assert on_black[transparent].max() < 0.05


def test_curtis_yellow_and_phthalo_green_mix_to_green() -> None:
    names = [row["pigment"] for row in CURTIS]
    K, S = _curtis("K"), _curtis("S")
    shares = np.zeros(len(names))
    shares[[names.index("Hansa Yellow"), names.index("Phthalo Green")]] = 1.0
    red, green, blue = film_reflectance(*mix_coefficients(shares, K, S), 1.0, 1.0)
    assert green > red
    assert green > blue


def test_curtis_opaque_mix_lies_between_its_paints_band_by_band() -> None:
    """True of K/S, a mediant of the paints' own; thin films may leave the interval slightly."""
    K, S = _curtis("K"), _curtis("S")
    R_inf = reflectance_from_ratio(K / S)
    for i in range(len(K)):
        for j in range(i):
            mixed_K, mixed_S = mix_coefficients([1, 1], K[[i, j]], S[[i, j]])
            R = reflectance_from_ratio(mixed_K / mixed_S)
            assert np.all(R_inf[[i, j]].min(axis=0) <= R)
            assert np.all(R_inf[[i, j]].max(axis=0) >= R)

"""K and S of 27 artists' acrylics (Okumura 2005) through films and mixes at every wavelength."""
# ruff: noqa: N803, N806 - K, S, X and R keep the case they have in the papers

import csv
from pathlib import Path

import numpy as np
import pytest

from studio.colour.science import tristimulus
from studio.mixing.film import film_reflectance, mix_coefficients, reflectance_from_ratio
from studio.mixing.layers import film_layer
from studio.mixing.ranges import FloatArray

TABLE = Path(__file__).resolve().parents[2] / "shared" / "okumura2005_k_s_27_acrylics.csv"
WHITE = "Titanium White"


def _read() -> tuple[list[float], dict[str, dict[str, FloatArray]]]:
    with TABLE.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(line for line in file if not line.startswith("#")))
    wavelengths = [float(name) for name in rows[0] if name.isdecimal()]
    table: dict[str, dict[str, FloatArray]] = {}
    for row in rows:
        numbers = np.array([float(row[f"{nm:g}"]) for nm in wavelengths])
        table.setdefault(row["paint"], {})[row["coef"]] = numbers
    return wavelengths, table


WAVELENGTHS, PAINTS = _read()
NAMES = [name for name in PAINTS if name != WHITE]
SHARES_OF_WHITE = np.linspace(0.0, 1.0, 41)


def test_the_table_has_27_paints_at_40_wavelengths() -> None:
    assert (len(PAINTS), len(WAVELENGTHS)) == (27, 40)


@pytest.mark.parametrize("X", [1e-9, 1e-3, 1.0, 1e3, 1e9])
@pytest.mark.parametrize("Rg", [0.0, 0.9])
def test_films_and_layers_are_stable_from_a_trace_to_opaque(X: float, Rg: float) -> None:
    K, S = (np.array([paint[letter] for paint in PAINTS.values()]) for letter in "KS")
    with np.errstate(all="raise", under="ignore"):
        R = film_reflectance(K, S, X, Rg)
        layer = film_layer(K, S, X)
    opaque = reflectance_from_ratio(K / S)
    assert np.all(np.minimum(opaque, Rg) - 1e-12 <= R)
    assert np.all(np.maximum(opaque, Rg) + 1e-12 >= R)
    assert np.all((layer.T >= 0.0) & (layer.R + layer.T <= 1.0 + 1e-12))


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize(("X", "Rg"), [(0.2, 0.9), (1.0, 0.9), (5.0, 0.05), (1e6, 0.5)])
def test_letdowns_with_white_get_lighter_all_the_way(name: str, X: float, Rg: float) -> None:
    K, S = _letdowns(name)
    lightness = tristimulus(WAVELENGTHS).lab(film_reflectance(K, S, X, Rg))[:, 0]
    assert np.all(np.diff(lightness) > 0.0)


@pytest.mark.parametrize("name", NAMES)
def test_an_infinitely_thick_letdown_is_the_opaque_mix(name: str) -> None:
    K, S = _letdowns(name)
    thick = film_reflectance(K, S, 1e9, [0.0])
    np.testing.assert_allclose(thick, reflectance_from_ratio(K / S), rtol=1e-12)


def _letdowns(name: str) -> tuple[FloatArray, FloatArray]:
    shares = np.stack([1.0 - SHARES_OF_WHITE, SHARES_OF_WHITE], axis=1)
    paint, white = PAINTS[name], PAINTS[WHITE]
    return mix_coefficients(shares, [paint["K"], white["K"]], [paint["S"], white["S"]])

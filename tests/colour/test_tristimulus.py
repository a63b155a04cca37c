"""Batches of spectra and colours come out as each of them by itself."""

import csv
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.colour.difference import ciede2000 as of_two
from studio.colour.reflectance import Reflectance
from studio.colour.science import reflectance_to_lab, tristimulus
from studio.colour.tristimulus import ciede2000, ciede2000_root

PUBLISHED = Path(__file__).resolve().parents[1] / "published"
TRIPLES = st.tuples(st.floats(0, 100), st.floats(-120, 120), st.floats(-120, 120))
SPECTRA = np.random.default_rng(1).uniform(0.002, 0.98, (6, 41))


@pytest.mark.parametrize(("first", "count"), [(380, 41), (400, 31), (360, 36)])
@pytest.mark.parametrize(("illuminant", "observer"), [("D50", 2), ("D65", 10), ("A", 2)])
def test_lab_of_a_batch_is_that_of_each_spectrum(
    first: int, count: int, illuminant: str, observer: int
) -> None:
    light = tristimulus([first + 10.0 * k for k in range(count)], illuminant, observer)
    for spectrum, lab in zip(SPECTRA[:, :count], light.lab(SPECTRA[:, :count]), strict=True):
        alone = Reflectance(float(first), 10.0, tuple(spectrum.tolist()))
        expected = reflectance_to_lab(alone, illuminant, observer).coordinates
        np.testing.assert_allclose(lab, expected, atol=1e-9)


def test_slopes_are_those_of_small_differences() -> None:
    light = tristimulus([400.0 + 10.0 * k for k in range(31)])
    dark = np.concatenate([SPECTRA[:, :31], np.full((1, 31), 0.003)])
    size = 1e-6
    for spectrum, slopes in zip(dark, light.lab_slopes(dark), strict=True):
        up, down = (light.lab(spectrum + sign * size * np.eye(31)) for sign in (1, -1))
        np.testing.assert_allclose(slopes, (up - down).T / (2 * size), rtol=1e-5, atol=1e-4)


def test_black_is_black() -> None:
    light = tristimulus([400.0 + 10.0 * k for k in range(31)])
    np.testing.assert_allclose(light.lab(np.zeros(31)), 0.0, atol=1e-12)


@given(TRIPLES, TRIPLES)
def test_differences_are_those_of_each_pair(
    one: tuple[float, float, float], other: tuple[float, float, float]
) -> None:
    # Where two hues are opposite to within rounding, either way round is right.
    expected = {of_two(one, other), of_two(other, one)}
    found = float(ciede2000(one, other))
    assert any(found == pytest.approx(value, abs=1e-6) for value in expected) or (
        _opposite(one, other)
    )


def _opposite(one: tuple[float, float, float], other: tuple[float, float, float]) -> bool:
    turn = np.arctan2(one[2], one[1]) - np.arctan2(other[2], other[1])
    return bool(abs(abs(np.sin(turn))) < 1e-2 and np.cos(turn) < 0)


def test_differences_of_sharma_2005() -> None:
    """Sharma, Wu, Dalal (2005), table 1, to the four decimals printed."""
    with (PUBLISHED / "ciede2000_sharma2005_34pairs.csv").open(encoding="utf-8") as file:
        rows = [line for line in file if not line.startswith("#")]
    table = np.array([[float(cell) for cell in row[-7:]] for row in list(csv.reader(rows))[1:]])
    assert len(table) == 34
    np.testing.assert_allclose(ciede2000(table[:, :3], table[:, 3:6]), table[:, 6], atol=5.1e-5)


def test_a_small_difference_is_the_length_that_the_root_gives() -> None:
    rng = np.random.default_rng(2)
    lab = rng.uniform([10, -60, -60], [95, 60, 60], (200, 3))
    away = rng.normal(0, 0.1, (200, 3))
    length = np.linalg.norm((ciede2000_root(lab) @ away[:, :, np.newaxis])[:, :, 0], axis=1)
    np.testing.assert_allclose(length, ciede2000(lab, lab + away), rtol=0.03, atol=1e-3)

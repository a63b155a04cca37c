"""Colour differences agree with the published pairs and with an independent implementation."""

import csv
from collections.abc import Callable
from pathlib import Path
from typing import Final

import colour
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.colour.difference import Triple, cie76, ciede2000, cmc

PUBLISHED: Final = Path(__file__).resolve().parents[1] / "published"
PRINTED: Final = 5.0001e-5
"""Half a unit of the last of four decimals printed in the table."""
COUNT: Final = 2000

axes = st.floats(-128.0, 128.0)
colours = st.tuples(st.floats(0.0, 100.0), axes, axes)

Pairs = tuple[np.ndarray, np.ndarray]


def _lab(rng: np.random.Generator) -> np.ndarray:
    """Colours all over L*a*b*."""
    low, high = (0.0, -128.0, -128.0), (100.0, 128.0, 128.0)
    return rng.uniform(low, high, (COUNT, 3))


def _polar(lightness: np.ndarray, chroma: np.ndarray, hue: np.ndarray) -> np.ndarray:
    angle = np.radians(hue)
    return np.stack([lightness, chroma * np.cos(angle), chroma * np.sin(angle)], axis=1)


def _around(rng: np.random.Generator, hue: float) -> np.ndarray:
    """Colours within 3 degrees of a hue, on both sides of it."""
    lightness, chroma = rng.uniform(0, 100, COUNT), rng.uniform(0, 120, COUNT)
    return _polar(lightness, chroma, hue + rng.uniform(-3, 3, COUNT))


def _neighbours(rng: np.random.Generator) -> Pairs:
    first = _lab(rng)
    return first, np.clip(first + rng.normal(0, 1, first.shape), (0, -200, -200), 200)


def _greyish(rng: np.random.Generator) -> Pairs:
    grey = (1.0, 0.004, 0.004)
    return _lab(rng) * grey, _lab(rng) * grey


def _same_hue(rng: np.random.Generator) -> Pairs:
    first, other = _lab(rng), _lab(rng)
    other[:, 1:] = first[:, 1:] * rng.uniform(0.05, 0.95, (COUNT, 1))
    return first, other


def _same_hue_and_chroma(rng: np.random.Generator) -> Pairs:
    first, other = _lab(rng), _lab(rng)
    other[:, 1:] = first[:, 1:]
    return first, other


def _equal(rng: np.random.Generator) -> Pairs:
    first = _lab(rng)
    return first, first.copy()


KINDS: Final[dict[str, Callable[[np.random.Generator], Pairs]]] = {
    "anywhere": lambda rng: (_lab(rng), _lab(rng)),
    "close together": _neighbours,
    "nearly neutral": _greyish,
    "one exactly neutral": lambda rng: (_lab(rng) * (1.0, 0.0, 0.0), _lab(rng)),
    "hue about 0": lambda rng: (_around(rng, 0.0), _around(rng, 0.0)),
    "hue about 180": lambda rng: (_around(rng, 180.0), _around(rng, 180.0)),
    "blue, where the rotation term acts": lambda rng: (_around(rng, 275.0), _around(rng, 275.0)),
    "the same hue": _same_hue,
    "lightness alone": _same_hue_and_chroma,
    "equal": _equal,
}


def _pairs(kind: str) -> Pairs:
    """Pairs of colours of one kind, always the same ones."""
    return KINDS[kind](np.random.default_rng(20050101))


def _triples(array: np.ndarray) -> list[Triple]:
    return [(float(row[0]), float(row[1]), float(row[2])) for row in array]


def _published_pairs() -> list[tuple[str, Triple, Triple, float]]:
    with (PUBLISHED / "ciede2000_sharma2005_34pairs.csv").open(encoding="utf-8") as file:
        return [
            (
                row["pair"],
                (float(row["L1"]), float(row["a1"]), float(row["b1"])),
                (float(row["L2"]), float(row["a2"]), float(row["b2"])),
                float(row["dE00"]),
            )
            for row in csv.DictReader(file)
        ]


def test_all_34_published_pairs_are_there() -> None:
    assert [pair[0] for pair in _published_pairs()] == [str(n) for n in range(1, 35)]


@pytest.mark.parametrize(("number", "lab1", "lab2", "expected"), _published_pairs())
def test_ciede2000_is_the_published_one_both_ways_round(
    number: str, lab1: Triple, lab2: Triple, expected: float
) -> None:
    # Sharma, Wu, Dalal (2005), Table 1, to the four decimals printed there.
    assert abs(ciede2000(lab1, lab2) - expected) < PRINTED, number
    assert abs(ciede2000(lab2, lab1) - expected) < PRINTED, number


@pytest.mark.parametrize("kind", KINDS)
def test_ciede2000_equals_that_of_colour_science(kind: str) -> None:
    first, second = _pairs(kind)
    ours = [ciede2000(*pair) for pair in zip(_triples(first), _triples(second), strict=True)]
    np.testing.assert_allclose(ours, colour.delta_E(first, second, "CIE 2000"), rtol=0, atol=1e-9)


@pytest.mark.parametrize("kind", KINDS)
def test_cie76_equals_that_of_colour_science(kind: str) -> None:
    first, second = _pairs(kind)
    ours = [cie76(*pair) for pair in zip(_triples(first), _triples(second), strict=True)]
    np.testing.assert_allclose(ours, colour.delta_E(first, second, "CIE 1976"), rtol=0, atol=1e-9)


@pytest.mark.parametrize("weights", [(2.0, 1.0), (1.0, 1.0), (1.4, 0.7)])
@pytest.mark.parametrize("kind", KINDS)
def test_cmc_equals_that_of_colour_science(kind: str, weights: tuple[float, float]) -> None:
    first, second = _pairs(kind)
    ours = [
        cmc(reference, sample, *weights)
        for reference, sample in zip(_triples(first), _triples(second), strict=True)
    ]
    theirs = colour.delta_E(first, second, "CMC", l=weights[0], c=weights[1])
    # Within rounding: a hue difference is the root of a small difference of large squares.
    np.testing.assert_allclose(ours, theirs, rtol=1e-9, atol=2e-6)


def test_cmc_weighs_2_to_1_unless_told_otherwise() -> None:
    assert cmc((50, 10, 10), (60, 12, 9)) == cmc((50, 10, 10), (60, 12, 9), 2.0, 1.0)


def test_cmc_is_weighed_by_the_reference() -> None:
    pale, vivid = (70.0, 5.0, 5.0), (60.0, 50.0, 40.0)
    assert cmc(pale, vivid) > 1.5 * cmc(vivid, pale)


@given(colours, colours)
def test_ciede2000_and_cie76_are_the_same_both_ways_round(one: Triple, other: Triple) -> None:
    assert ciede2000(one, other) == ciede2000(other, one)
    assert cie76(one, other) == cie76(other, one)


@given(colours, axes)
def test_opposite_hues_differ_alike_both_ways_round(one: Triple, scale: float) -> None:
    opposite = (one[0], -one[1] * abs(scale) / 128, -one[2] * abs(scale) / 128)
    assert ciede2000(one, opposite) == ciede2000(opposite, one)


@given(colours)
def test_a_colour_does_not_differ_from_itself(lab: Triple) -> None:
    assert ciede2000(lab, lab) == 0.0
    assert cie76(lab, lab) == 0.0
    assert cmc(lab, lab) == 0.0


@given(colours, colours)
def test_no_difference_is_negative(one: Triple, other: Triple) -> None:
    assert min(ciede2000(one, other), cie76(one, other), cmc(one, other)) >= 0.0


def test_lightness_alone_about_mid_grey_counts_in_full() -> None:
    # S_L is 1 where the mean lightness is 50: equation 18 of Sharma, Wu, Dalal (2005).
    assert ciede2000((45, 0, 0), (55, 0, 0)) == pytest.approx(10.0, abs=1e-12)

"""The bounds of the search hold for random and difficult pairs, and broken ones are found out."""

import math
from dataclasses import replace
from pathlib import Path
from types import ModuleType
from typing import Final

import numpy as np
import pytest

from studio.colour import box, least
from studio.colour.difference import CIE76, CIEDE2000, Metric, Triple, cmc_metric
from tests.colour.bound_check import (
    METRICS,
    Between,
    ciede2000,
    left_out,
    overstated,
    references,
    samples,
)

every_metric = pytest.mark.parametrize(
    ("metric", "between"), METRICS, ids=[metric.name for metric, _ in METRICS]
)


@every_metric
def test_the_differences_of_many_are_those_of_one(metric: Metric, between: Between) -> None:
    chance = np.random.default_rng(1)
    for reference, _ in zip(references(chance), range(40), strict=False):
        found = samples(chance, reference)[:40]
        expected = [metric.between(reference, tuple(each)) for each in found.tolist()]
        # At 180° to the last digit, rounding decides which of two mean hues is taken.
        unlike = np.abs(between(reference, found) - expected) > 1e-7
        assert np.mean(unlike) < 0.2


@every_metric
def test_no_colour_within_a_difference_lies_outside_its_box(
    metric: Metric, between: Between
) -> None:
    faults, pairs = left_out(np.random.default_rng(20), metric, between, 60)
    assert faults == 0
    assert pairs > 300_000


@every_metric
def test_no_colour_of_a_box_differs_by_less_than_its_least(
    metric: Metric, between: Between
) -> None:
    faults, pairs = overstated(np.random.default_rng(21), metric, between, 400)
    assert faults == 0
    assert pairs > 200_000


@every_metric
def test_the_published_pairs_lie_in_their_boxes(metric: Metric, between: Between) -> None:
    del between
    path = Path(__file__).parents[1] / "published" / "ciede2000_sharma2005_34pairs.csv"
    pairs = np.genfromtxt(path, delimiter=",", skip_header=1, usecols=range(1, 7))
    assert len(pairs) == 34
    for pair in pairs.tolist():
        one, other = tuple(pair[:3]), tuple(pair[3:])
        for first, second in ((one, other), (other, one)):
            found = metric.box(first, metric.between(first, second))
            for place, value in enumerate(second):
                assert found[2 * place] <= value <= found[2 * place + 1]


@pytest.mark.parametrize("metric", [CIEDE2000, CIE76, cmc_metric()], ids=lambda each: each.name)
@pytest.mark.parametrize("reference", [(50.0, 0.0, 0.0), (40.0, 30.0, 20.0), (30.0, 10.0, -60.0)])
def test_a_box_is_worth_asking_for(metric: Metric, reference: Triple) -> None:
    sides = metric.box(reference, 1.0)
    assert all(sides[place + 1] - sides[place] < 16.0 for place in (0, 2, 4))


def test_t_never_exceeds_its_bound() -> None:
    h = np.arange(0.0, math.tau, 1e-4)
    t = (
        1.0
        - 0.17 * np.cos(h - math.radians(30.0))
        + 0.24 * np.cos(2.0 * h)
        + 0.32 * np.cos(3.0 * h + math.radians(6.0))
        - 0.20 * np.cos(4.0 * h - math.radians(63.0))
    )
    assert np.max(t) + 2.41 * 0.5e-4 < box.T_MOST
    assert np.min(t) > 0.0
    assert np.max(np.abs(np.diff(t))) / 1e-4 < box.T_SLOPE


BROKEN: Final = {
    "box": [
        ("math.radians(275.0)", "math.radians(245.0)"),
        ("math.radians(25.0)", "math.radians(15.0)"),
        ("2.0 * (3.0 - 2.0 * g_of", "1.4 * (3.0 - 2.0 * g_of"),
        ("math.radians(60.0) * math.exp", "math.radians(40.0) * math.exp"),
        ("spare = 1.0 - 0.0075 * tau", "spare = 1.0"),
        ("1.0 + 0.015 * abs(l1", "1.0 + 0.010 * abs(l1"),
        ("max(low / 1.5, c1 - disc, 0.0)", "max(low, c1 - disc, 0.0)"),
        ("min(high, c1 + disc)", "min(high / 1.5, c1 + disc)"),
        ("rho * rho / 4.0", "rho * rho / 8.0"),
        ("s, k = 0.0225 * t", "s, k = 0.02 * t"),
        ("h1_half + eta / 2.0", "h1_half + eta / 4.0"),
        ("0.0225 * t, 0.0075 *", "0.0225 * t, 0.005 *"),
        ("0.045 * c1_high", "0.035 * c1_high"),
        ("/ (1.0 - 0.0225 * d)", "/ 1.0"),
        ("h1, h1_half + eta)", "h1, h1_half + 0.8 * eta)"),
        ("a1 - disc / g_low", "a1 - disc / g_high"),
        ("- half) / _WIDTH", "- 0.0) / _WIDTH"),
        ("math.radians(30.0)", "math.radians(60.0)"),
        ("0.32 * math", "0.22 * math"),
        ("(2.0 * math.sqrt(one * other))", "(2.3 * math.sqrt(one * other))"),
    ],
    "least": [
        ("0.015 * l_50", "0.012 * l_50"),
        ("0.045 * mean", "0.04 * mean"),
        ("0.015 * mean", "0.012 * mean"),
        (">= math.pi", "> 7.0"),
        ("math.pi / 2.0 + off1", "math.pi / 4.0 + off1"),
        ("opposite or (more", "(more"),
        ("(1.0 - rho / 2.0) * (d", "(1.0 - rho / 4.0) * (d"),
        ("off1 + off2 + 1e-12", "off1 + 1e-12"),
        ("alike = ", "alike = False and "),
        ("- rho * y[0] * z_at", "- 0.0"),
        ("max(0.0, abs(apart) - off)", "abs(apart)"),
    ],
}
"""Pieces of the code and what they are replaced by; BOX.md names what no pair finds."""


def _module(path: Path, old: str, new: str) -> ModuleType:
    """A module of a file in which one piece of the code is replaced."""
    code = path.read_text(encoding="utf-8")
    assert old in code
    module = ModuleType(path.stem)
    exec(compile(code.replace(old, new), str(path), "exec"), module.__dict__)  # noqa: S102
    return module


@pytest.mark.parametrize(
    ("name", "old", "new"),
    [(name, *pieces) for name, every in BROKEN.items() for pieces in every],
    ids=lambda value: str(value)[:30],
)
def test_a_broken_bound_is_found_out(name: str, old: str, new: str) -> None:
    path = Path(str({"box": box, "least": least}[name].__file__))
    module = _module(path, old, new)
    if name == "box":
        broken, check = replace(CIEDE2000, box=module.ciede2000_box), left_out
    else:
        broken, check = replace(CIEDE2000, least=module.ciede2000_least), overstated
    chance = np.random.default_rng(5)
    assert any(check(chance, broken, ciede2000, 100)[0] for _ in range(10))

"""Random colours that try the bounds of the search, many at a time.

A box that is to hold all within τ is tried with the colours that random pairs put there; a least
difference of a box with colours all over it, its corners too. Pairs favour where the formulas are
difficult: neutral and nearly so, opposite hues (exactly 180° apart too), blue about 275°, the axes,
and colours that differ little.

`python -m tests.colour.bound_check --millions 100` from the project's folder tries longer, and says
how many pairs it tried.
"""

import argparse
import math
import sys
from collections.abc import Callable, Iterator
from typing import Final

import numpy as np
from numpy.typing import NDArray

from studio.colour.box import Box
from studio.colour.difference import CIE76, CIEDE2000, Metric, Triple, cmc_metric, cmc_weights

Array = NDArray[np.float64]
Between = Callable[[Triple, Array], Array]
SLACK: Final = 1e-9
MANY: Final = 1500
"""Colours for each reference."""


def ciede2000(reference: Triple, samples: Array) -> Array:
    """ΔE00 of many samples; equations 2 to 22 of Sharma, Wu, Dalal (2005), here on arrays."""
    (l1, a1, b1), (l2, a2, b2) = reference, samples.T
    c_bar_7 = ((math.hypot(a1, b1) + np.hypot(a2, b2)) / 2) ** 7
    g = 1.5 - 0.5 * np.sqrt(c_bar_7 / (c_bar_7 + 25.0**7))
    c1, c2 = np.hypot(g * a1, b1), np.hypot(g * a2, b2)
    h1 = np.degrees(np.arctan2(b1, g * a1)) % 360.0
    h2 = np.degrees(np.arctan2(b2, g * a2)) % 360.0
    neutral = c1 * c2 == 0.0
    far = np.abs(h2 - h1) > 180.0
    dh = np.where(neutral, 0.0, h2 - h1 - np.where(far, np.copysign(360.0, h2 - h1), 0.0))
    h_sum = h1 + h2
    h = np.where(far, h_sum + np.where(h_sum < 360.0, 360.0, -360.0), h_sum) / 2
    h = np.where(neutral, h_sum, h)
    t = (
        1.0
        - 0.17 * np.cos(np.radians(h - 30.0))
        + 0.24 * np.cos(np.radians(2.0 * h))
        + 0.32 * np.cos(np.radians(3.0 * h + 6.0))
        - 0.20 * np.cos(np.radians(4.0 * h - 63.0))
    )
    c_bar = (c1 + c2) / 2
    turn = np.radians(60.0 * np.exp(-(((h - 275.0) / 25.0) ** 2)))
    r_t = -2.0 * np.sqrt(c_bar**7 / (c_bar**7 + 25.0**7)) * np.sin(turn)
    l_50 = ((l1 + l2) / 2 - 50.0) ** 2
    x = (l2 - l1) / (1.0 + 0.015 * l_50 / np.sqrt(20.0 + l_50))
    y = (c2 - c1) / (1.0 + 0.045 * c_bar)
    z = 2.0 * np.sqrt(c1 * c2) * np.sin(np.radians(dh) / 2) / (1.0 + 0.015 * c_bar * t)
    return np.asarray(np.sqrt(np.maximum(0.0, x * x + y * y + z * z + r_t * y * z)))


def cie76(reference: Triple, samples: Array) -> Array:
    """ΔE*ab of many samples."""
    return np.asarray(np.linalg.norm(samples - reference, axis=1))


def cmc(lightness: float, chroma: float) -> Between:
    """CMC(l:c) of many samples from one standard."""

    def between(reference: Triple, samples: Array) -> Array:
        s_l, s_c, s_h = cmc_weights(reference, lightness, chroma)
        dl, da, db = (samples - reference).T
        dc = np.hypot(samples[:, 1], samples[:, 2]) - math.hypot(*reference[1:])
        dh2 = np.maximum(0.0, da * da + db * db - dc * dc)
        return np.asarray(np.sqrt((dl / s_l) ** 2 + (dc / s_c) ** 2 + dh2 / s_h**2))

    return between


METRICS: Final[tuple[tuple[Metric, Between], ...]] = (
    (CIEDE2000, ciede2000),
    (CIE76, cie76),
    (cmc_metric(), cmc(2.0, 1.0)),
    (cmc_metric(1.0, 1.0), cmc(1.0, 1.0)),
    (cmc_metric(0.5, 3.0), cmc(0.5, 3.0)),
)


def references(chance: np.random.Generator) -> Iterator[Triple]:
    """Colours of every difficult kind, in turns, without end."""
    while True:
        hue = math.radians(275.0 + chance.normal(0.0, 20.0))
        chroma = chance.uniform(0.0, 130.0)
        axis = chance.normal(0.0, 50.0)
        for a, b in (
            (0.0, 0.0),
            chance.normal(0.0, 1e-3, 2),
            chance.normal(0.0, 6.0, 2),
            (chroma * math.cos(hue), chroma * math.sin(hue)),
            (axis, 0.0),
            (0.0, axis),
            *chance.uniform(-130.0, 130.0, (3, 2)),
        ):
            yield float(chance.uniform(0.0, 100.0)), float(a), float(b)


def samples(chance: np.random.Generator, reference: Triple) -> Array:
    """Colours to compare with a reference, of one kind drawn at random."""
    lightness = np.where(
        chance.random(MANY) < 0.5, reference[0], chance.uniform(0.0, 100.0, MANY)
    )  # fmt: skip
    kind = chance.integers(7)
    if kind == 0:
        ab = chance.uniform(-150.0, 150.0, (MANY, 2))
    elif kind == 1:
        ab = reference[1:] + chance.normal(0.0, 10 ** chance.uniform(-2.0, 1.5), (MANY, 2))
    elif kind == 2:  # exactly opposite
        ab = -np.outer(chance.uniform(0.0, 2.0, MANY), reference[1:])
    elif kind == 3:  # nearly opposite
        ab = -np.outer(chance.uniform(0.0, 2.0, MANY), reference[1:])
        ab += chance.normal(0.0, 10 ** chance.uniform(-9.0, 0.5), (MANY, 2))
    elif kind == 4:  # neutral, nearly
        ab = chance.normal(0.0, 10 ** chance.uniform(-9.0, 1.0), (MANY, 2))
    elif kind == 5:  # the same hue
        ab = np.outer(chance.uniform(0.0, 2.0, MANY), reference[1:])
        ab += chance.normal(0.0, 1.0, (MANY, 2))
    else:
        hue = np.radians(275.0 + chance.normal(0.0, 40.0, MANY))
        chroma = chance.uniform(0.0, 130.0, MANY)
        ab = np.stack([chroma * np.cos(hue), chroma * np.sin(hue)], axis=1)
    return np.column_stack([lightness, ab])


def left_out(
    chance: np.random.Generator, metric: Metric, between: Between, count: int
) -> tuple[int, int]:
    """How many colours a box leaves out that it is to hold, and how many pairs were tried."""
    faults = pairs = 0
    for reference, _ in zip(references(chance), range(count), strict=False):
        found = samples(chance, reference)
        differences = between(reference, found)
        # Just what one of the pairs differs by, where a box that is too small shows at once.
        some = np.quantile(differences, chance.random(3) ** 2, method="nearest").tolist()
        for tau in (*some, float(10 ** chance.uniform(-1.0, 1.3))):
            box = np.array(metric.box(reference, tau))
            outside = (found < box[::2]) | (found > box[1::2])
            faults += int(np.sum(outside.any(axis=1) & (differences <= tau)))
            pairs += len(found)
    return faults, pairs


def overstated(
    chance: np.random.Generator, metric: Metric, between: Between, count: int
) -> tuple[int, int]:
    """How many boxes have a colour that differs by less than is said, and how many pairs were
    tried.
    """
    faults = pairs = 0
    for reference, _ in zip(references(chance), range(count), strict=False):
        centres = samples(chance, reference)[:4]
        for centre in centres:
            half = 10 ** chance.uniform(-2.0, 1.3, 3)
            ends = np.stack([centre - half, centre + half], axis=1)
            inside = centre + half * chance.uniform(-1.0, 1.0, (MANY // 8, 3))
            edge = chance.integers(2, size=inside.shape, dtype=np.int8)
            onto = chance.random(inside.shape) < 0.4
            inside = np.where(onto, np.where(edge == 0, ends[:, 0], ends[:, 1]), inside)
            least = metric.least(reference, Box(*ends.ravel().tolist()))
            faults += bool(np.min(between(reference, inside)) < least - SLACK)
            pairs += len(inside)
    return faults, pairs


def main() -> None:
    """Try the bounds of every metric with many pairs."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--millions", type=float, default=10.0, help="pairs for each bound (10)")
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    chance = np.random.default_rng(options.seed)
    wrong = 0
    for metric, between in METRICS:
        for check in (left_out, overstated):
            faults = pairs = 0
            while pairs < options.millions * 1e6:
                more, tried = check(chance, metric, between, 500)
                faults, pairs = faults + more, pairs + tried
            line = f"{metric.name:<14}{check.__name__:<12}{pairs:>14,} pairs, {faults} wrong\n"
            sys.stdout.write(line)
            wrong += faults
    sys.exit(wrong > 0)


if __name__ == "__main__":
    main()

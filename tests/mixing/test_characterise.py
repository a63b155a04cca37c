"""Characterised paints: what was put in comes out, and more swatches tell more."""

from dataclasses import replace

import numpy as np
import pytest

from studio.colour.tristimulus import ciede2000
from studio.mixing.characterisation import (
    Characterisation,
    contradictory,
    cosines,
    from_arrays,
    to_arrays,
)
from studio.mixing.characterise import characterise, left_out
from studio.mixing.error_model import USUAL, bound, calibrated
from studio.mixing.observation import Observation
from studio.mixing.predict import expected_error, predict, recipes_of
from tests.mixing.synthetic import (
    BLUE,
    IDS,
    LIGHT,
    PAPER,
    RED,
    TRUTH,
    WAVELENGTHS,
    WHITE,
    YELLOW,
    mixes,
    spectrum,
    swatch,
    washes,
)

BLACK = np.full(len(WAVELENGTHS), 0.03)
ASKED = [
    ({BLUE: 1.0, YELLOW: 1.0}, 3.0),
    ({BLUE: 3.0, YELLOW: 1.0, WHITE: 1.0}, 2.0),
    ({RED: 1.0, YELLOW: 2.0}, 5.0),
    ({RED: 1.0, WHITE: 3.0}, 4.0),
    ({BLUE: 1.0, RED: 1.0}, 2.0),
]


def _error(known: Characterisation) -> float:
    shares = recipes_of(known, [parts for parts, _ in ASKED])
    water = [water for _, water in ASKED]
    truth = np.array([spectrum(parts, water) for parts, water in ASKED])
    found = predict(known, shares, water, PAPER)
    return float(ciede2000(LIGHT.lab(found), LIGHT.lab(truth)).mean())


@pytest.fixture(scope="module")
def full() -> list[Observation]:
    """Washes, mixes, and each paint over black."""
    return [*washes(), *mixes(), *(swatch({paint: 1.0}, 1.0, paper=BLACK) for paint in IDS)]


@pytest.fixture(scope="module")
def known(full: list[Observation]) -> Characterisation:
    return characterise(full, LIGHT)


def test_k_and_s_come_back(known: Characterisation) -> None:
    assert known.paints == IDS
    strong = TRUTH.K > 0.3
    np.testing.assert_allclose(known.K[strong], TRUTH.K[strong], rtol=0.25)
    np.testing.assert_allclose(known.S.mean(axis=1), TRUTH.S.mean(axis=1), rtol=0.25)
    assert np.median(known.fitted) < 0.3
    assert np.all(np.abs(known.ln_extra) < 0.1)


def test_prediction_error_shrinks_with_data(full: list[Observation]) -> None:
    with_white = [swatch({paint: 1.0, WHITE: 1.0}) for paint in (BLUE, YELLOW, RED)]
    few = _error(characterise(washes(), LIGHT))
    more = _error(characterise([*washes(), *with_white], LIGHT))
    most = _error(characterise(full, LIGHT))
    assert most < more < few
    assert most < 0.5


def test_expected_error_shrinks_with_data(full: list[Observation]) -> None:
    asked = {BLUE: 1.0, YELLOW: 1.0}
    errors = []
    for swatches in (washes((3.0,)), washes(), full):
        found = replace(characterise(swatches, LIGHT), error=USUAL)
        errors.append(float(expected_error(found, recipes_of(found, [asked]), 3.0, PAPER)[0]))
    assert errors[0] > errors[1] > errors[2] > USUAL.floor


def test_a_swatch_on_black_tells_of_scattering(full: list[Observation]) -> None:
    del full
    on_white = characterise(washes(), LIGHT)
    on_both = characterise(
        [*washes(), *(swatch({paint: 1.0}, 3.0, paper=BLACK) for paint in IDS)], LIGHT
    )
    away = [
        np.abs(np.log(found.S.mean(axis=1) / TRUTH.S.mean(axis=1))).mean()
        for found in (on_white, on_both)
    ]
    assert away[1] < 0.5 * away[0]


def test_the_same_swatches_give_the_same_numbers(
    full: list[Observation], known: Characterisation
) -> None:
    again = characterise(full, LIGHT)
    np.testing.assert_array_equal(again.parameters.ln_K, known.parameters.ln_K)
    np.testing.assert_array_equal(again.covariance, known.covariance)


def test_a_start_nearby_leads_to_the_same_paints(
    full: list[Observation], known: Characterisation
) -> None:
    start = characterise(full[:-1], LIGHT)
    warm = characterise(full, LIGHT, start=start)
    asked = recipes_of(known, [parts for parts, _ in ASKED])
    one, other = (predict(each, asked, 3.0, PAPER) for each in (known, warm))
    assert ciede2000(LIGHT.lab(one), LIGHT.lab(other)).max() < 0.2


def test_a_start_of_other_wavelengths_is_passed_over(known: Characterisation) -> None:
    other = replace(known, parameters=replace(known.parameters, ln_K=known.parameters.ln_K[:, :5]))
    swatches = washes((3.0,))
    plain, started = characterise(swatches, LIGHT), characterise(swatches, LIGHT, start=other)
    np.testing.assert_array_equal(plain.parameters.ln_K, started.parameters.ln_K)


def test_support_says_what_a_paint_rests_on(full: list[Observation]) -> None:
    estimated = replace(full[0], estimated=True)
    found = characterise([estimated, *full[1:]], LIGHT).of(BLUE)
    assert (found.alone, found.mixed, found.mixes, found.grounds) == (4, 9, 9, 2)
    assert found.partners == (YELLOW, RED, WHITE)
    assert found.estimated == 1


def test_pairs_that_were_mixed_are_known(known: Characterisation) -> None:
    assert known.pair_seen([BLUE, RED, WHITE])
    alone = characterise([*washes(), *mixes([(BLUE, RED)])], LIGHT)
    assert alone.pair_seen([BLUE, RED])
    assert not alone.pair_seen([BLUE, RED, WHITE])
    with pytest.raises(KeyError):
        known.of(99)


def test_unrecorded_water_is_found_from_the_colour() -> None:
    thin = swatch({BLUE: 1.0}, 7.0)
    without = Observation(thin.parts, thin.spectrum, thin.paper, None)
    found = characterise([*washes(), *mixes(), without], LIGHT)
    expected = TRUTH.dilution * np.log(4.0 / 8.0)
    assert found.ln_extra[-1] == pytest.approx(expected, abs=0.2)
    assert np.abs(found.ln_extra[:-1]).max() < 0.1


def test_layers_count_as_film(full: list[Observation]) -> None:
    two = swatch({RED: 1.0}, 3.0, layers=2.0)
    found = characterise([*full, two], LIGHT)
    assert found.fitted[-1] < 0.5
    assert abs(found.ln_extra[-1]) < 0.1


def test_a_swatch_that_contradicts_the_others_is_found(full: list[Observation]) -> None:
    swapped = replace(full[0], spectrum=full[6].spectrum, name="S1")
    assert contradictory(characterise([*full[1:], swapped], LIGHT)) == (len(full) - 1,)
    assert contradictory(characterise(full, LIGHT)) == ()


def test_what_is_left_out_is_what_a_fit_without_it_predicts(
    full: list[Observation], known: Characterisation
) -> None:
    pair = frozenset({BLUE, YELLOW})
    rest = [each for each in full if frozenset(each.parts) != pair]
    rows = [row for row, each in enumerate(full) if frozenset(each.parts) == pair]
    without = characterise(rest, LIGHT)
    shares = recipes_of(without, [full[row].parts for row in rows])
    water = [full[row].water for row in rows]
    anew = LIGHT.lab(predict(without, shares, np.array(water, dtype=float), PAPER))
    found = left_out(full, known, pairs=True)
    # Other pairs may have been left out with it; here each pair goes alone.
    assert ciede2000(found.lab[rows], anew).max() < 0.5
    np.testing.assert_allclose(found.delta_e[rows], known.left_out[rows], atol=0.2)
    alone = [row for row, each in enumerate(full) if len(each.parts) == 1]
    assert np.all(np.isnan(found.lab[alone]))
    assert np.all(np.isfinite(found.expected[rows]))


def test_a_mix_alone_may_be_left_out(full: list[Observation], known: Characterisation) -> None:
    by_mix, by_pair = (left_out(full, known, pairs=pairs) for pairs in (False, True))
    assert np.nanmean(by_mix.delta_e) <= np.nanmean(by_pair.delta_e) + 0.1


def test_without_mixes_the_usual_error_holds() -> None:
    found = characterise(washes(), LIGHT)
    assert found.error == USUAL
    assert np.all(np.isnan(found.left_out))


def test_a_paint_known_from_one_mix_alone_keeps_it() -> None:
    """Leaving it out would leave nothing to predict from."""
    found = characterise([*washes()[:9], swatch({BLUE: 1.0, WHITE: 1.0})], LIGHT)
    assert np.isnan(found.left_out[-1])


def test_the_calibrated_error_covers_two_thirds() -> None:
    rng = np.random.default_rng(0)
    variance = rng.uniform(0.5, 9.0, 4000)
    distance = np.linalg.norm(rng.normal(0, 1, (4000, 3)), axis=1) * np.sqrt(
        (0.5 * variance + 1.0) / 3.0
    )
    model = calibrated(distance, variance)
    assert np.mean(distance <= bound(model, variance)) == pytest.approx(0.68, abs=0.02)
    surest = np.argsort(variance)[:1000]
    within = np.mean(distance[surest] <= bound(model, variance[surest]))
    assert within == pytest.approx(0.68, abs=0.06)


def test_arrays_hold_a_characterisation(known: Characterisation) -> None:
    read = from_arrays(to_arrays(known))
    assert read.paints == known.paints
    assert read.support == known.support
    assert read.error == known.error
    shares = recipes_of(known, [parts for parts, _ in ASKED])
    np.testing.assert_array_equal(
        predict(read, shares, 3.0, PAPER), predict(known, shares, 3.0, PAPER)
    )
    np.testing.assert_allclose(
        expected_error(read, shares, 3.0, PAPER),
        expected_error(known, shares, 3.0, PAPER),
        rtol=1e-3,
    )


def test_cosines_are_orthonormal() -> None:
    for count in (8, 31):
        basis = cosines(count)
        np.testing.assert_allclose(basis.T @ basis, np.eye(basis.shape[1]), atol=1e-12)


def test_no_swatches_and_other_wavelengths_are_refused() -> None:
    with pytest.raises(ValueError, match="there is none with a spectrum"):
        characterise([], LIGHT)
    short = Observation({1: 1.0}, np.full(5, 0.5), np.full(5, 0.9), 3.0, name="S7")
    with pytest.raises(ValueError, match="S7 needs the wavelengths"):
        characterise([short], LIGHT)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"parts": {}}, "paints with parts above 0"),
        ({"parts": {1: 0.0}}, "paints with parts above 0"),
        ({"spectrum": np.full(16, 1.2)}, "spectrum of S7 must lie between 0 and 1"),
        ({"paper": np.full(5, 0.9)}, "same wavelengths"),
        ({"water": -1.0}, "must be finite and 0 or more"),
        ({"layers": 0.0}, "must be above 0"),
        ({"weight": 0.0}, "must be above 0"),
    ],
)
def test_impossible_swatches_are_refused(change: dict[str, object], message: str) -> None:
    facts: dict[str, object] = {
        "parts": {1: 1.0},
        "spectrum": np.full(16, 0.5),
        "paper": np.full(16, 0.9),
        "water": 3.0,
        "name": "S7",
    }
    with pytest.raises(ValueError, match=message):
        Observation(**(facts | change))  # type: ignore[arg-type]

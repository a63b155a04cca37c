"""Predicted washes, glazes and patches held to what was measured."""

import numpy as np
import pytest

from studio.colour.tristimulus import ciede2000
from studio.mixing.anchor import anchored, predict_anchored, predict_between
from studio.mixing.characterisation import Characterisation
from studio.mixing.characterise import characterise
from studio.mixing.improve import best_swatch, paint_errors
from studio.mixing.observation import Observation
from studio.mixing.parameters import wash_slopes
from studio.mixing.predict import expected_error, glaze, predict, recipes, recipes_of
from tests.mixing.synthetic import (
    BLUE,
    IDS,
    LIGHT,
    PAPER,
    RED,
    WHITE,
    YELLOW,
    mixes,
    spectrum,
    swatch,
    washes,
)


@pytest.fixture(scope="module")
def known() -> Characterisation:
    return characterise([*washes(), *mixes()], LIGHT)


GREEN = {BLUE: 1.0, YELLOW: 2.0}


def test_a_batch_is_each_of_its_recipes(known: Characterisation) -> None:
    shares = recipes_of(known, [GREEN, {RED: 1.0}, {RED: 1.0, WHITE: 1.0}])
    water, layers = [1.0, 3.0, 6.0], [1.0, 2.0, 1.0]
    paper = np.array([PAPER, 0.9 * PAPER, 0.5 * PAPER])
    together = predict(known, shares, water, paper, layers)
    assert together.shape == (3, len(PAPER))
    errors = expected_error(known, shares, water, paper, layers)
    for row in range(3):
        alone = (known, shares[row], water[row], paper[row], layers[row])
        np.testing.assert_allclose(predict(*alone)[0], together[row], rtol=1e-12)
        assert expected_error(*alone)[0] == pytest.approx(errors[row], rel=1e-9)


def test_it_is_the_reflectance_that_paints_are_fitted_by(known: Characterisation) -> None:
    batch = recipes(recipes_of(known, [GREEN, {RED: 1.0}]), 2.0, PAPER)
    fitted = wash_slopes(known.parameters, batch, np.zeros(2)).R
    np.testing.assert_allclose(predict(known, batch.shares, 2.0, PAPER), fitted, atol=1e-9)


def test_more_water_is_paler_and_more_layers_are_darker(known: Characterisation) -> None:
    shares = np.repeat(recipes_of(known, [GREEN]), 6, axis=0)
    by_water = LIGHT.lab(predict(known, shares, np.arange(0.0, 12.0, 2.0), PAPER))[:, 0]
    by_layers = LIGHT.lab(predict(known, shares, 4.0, PAPER, np.arange(1.0, 7.0)))[:, 0]
    assert np.all(np.diff(by_water) > 0.0)
    assert np.all(np.diff(by_layers) < 0.0)


def test_blotting_leads_back_to_the_paper(known: Characterisation) -> None:
    left = np.array([1.0, 0.5, 0.1, 1e-4, 0.0])
    shares = np.repeat(recipes_of(known, [GREEN]), len(left), axis=0)
    spectra = predict(known, shares, 3.0, PAPER, left)
    assert np.all(np.diff(LIGHT.lab(spectra)[:, 0]) > 0.0)
    np.testing.assert_allclose(spectra[-1], PAPER, atol=1e-12)
    np.testing.assert_allclose(spectra[-2], PAPER, atol=1e-2)


def test_a_ground_darker_than_the_surface_counts_as_black(known: Characterisation) -> None:
    shares = recipes_of(known, [{WHITE: 1.0}])
    black = np.zeros_like(PAPER)
    at_surface = np.full_like(PAPER, known.parameters.k1)
    np.testing.assert_allclose(
        predict(known, shares, 3.0, black), predict(known, shares, 3.0, at_surface)
    )


def test_a_glaze_of_one_paint_over_itself_is_nearly_two_layers(known: Characterisation) -> None:
    """But for the unevenness of two films, which evens out."""
    shares = recipes_of(known, [{BLUE: 1.0}])
    one = recipes(shares, 4.0, PAPER)
    twice = glaze(known, one, one)
    both = predict(known, shares, 4.0, PAPER, 2.0)
    assert ciede2000(LIGHT.lab(twice), LIGHT.lab(both))[0] < 4.0
    assert LIGHT.lab(twice)[0, 0] < LIGHT.lab(predict(known, shares, 4.0, PAPER))[0, 0]


def test_the_order_of_glazes_matters(known: Characterisation) -> None:
    blue, yellow = (
        recipes(recipes_of(known, [{paint: 1.0}]), 1.0, PAPER) for paint in (BLUE, YELLOW)
    )
    over = LIGHT.lab(glaze(known, yellow, blue))
    under = LIGHT.lab(glaze(known, blue, yellow))
    assert ciede2000(over, under)[0] > 0.5


def test_a_glaze_of_nothing_is_the_wash_below(known: Characterisation) -> None:
    wash = recipes(recipes_of(known, [GREEN]), 3.0, PAPER)
    nothing = recipes(recipes_of(known, [{RED: 1.0}]), 3.0, PAPER, 0.0)
    below = predict(known, wash.shares, 3.0, PAPER)
    np.testing.assert_allclose(glaze(known, nothing, wash), below, atol=1e-12)


def test_a_paint_that_is_less_known_is_less_sure() -> None:
    rest = [each for each in [*washes(), *mixes()] if RED not in each.parts]
    found = characterise([*rest, swatch({RED: 1.0})], LIGHT)
    errors = paint_errors(found, PAPER)
    assert np.argmax(errors) == found.paints.index(RED)


def test_the_best_swatch_is_expected_to_help(known: Characterisation) -> None:
    rest = [each for each in [*washes(), *mixes()] if RED not in each.parts]
    found = characterise([*rest, swatch({RED: 1.0}, 8.0)], LIGHT)
    told = best_swatch(found, RED, PAPER)
    assert RED in dict(told.parts)
    assert told.after < told.before
    assert told.before == pytest.approx(paint_errors(found, PAPER)[found.paints.index(RED)])
    only = best_swatch(found, RED, PAPER, partners=[WHITE, RED])
    assert set(dict(only.parts)) <= {RED, WHITE}
    assert only.after >= told.after
    sure = best_swatch(known, BLUE, PAPER)
    assert sure.before - sure.after < told.before - told.after


def test_an_only_paint_is_judged_by_its_wash() -> None:
    found = characterise([swatch({BLUE: 1.0})], LIGHT)
    assert paint_errors(found, PAPER).shape == (1,)
    assert dict(best_swatch(found, BLUE, PAPER).parts) == {BLUE: 1.0}
    with pytest.raises(ValueError, match="not in tuple"):
        best_swatch(found, RED, PAPER)


def test_an_anchor_meets_its_patch(known: Characterisation) -> None:
    patch = swatch(GREEN, 3.0, ln_extra=0.3)
    tinged = Observation(GREEN, patch.spectrum * np.linspace(0.9, 1.0, len(PAPER)), PAPER, 3.0)
    anchor = anchored(known, tinged)
    assert anchor.ln_extra == pytest.approx(0.3, abs=0.15)
    met = predict_anchored(known, anchor, recipes_of(known, [GREEN]), 3.0, PAPER)
    np.testing.assert_allclose(met[0], tinged.spectrum, rtol=1e-9)


def test_an_anchor_carries_over_to_the_corrected_mix(known: Characterisation) -> None:
    patch = swatch(GREEN, 3.0, ln_extra=0.3)
    more_blue = {BLUE: 1.5, YELLOW: 2.0}
    truth = spectrum(more_blue, 3.0, ln_extra=0.3)
    shares = recipes_of(known, [more_blue])
    plain = predict(known, shares, 3.0, PAPER)
    held = predict_anchored(known, anchored(known, patch), shares, 3.0, PAPER)
    away = [ciede2000(LIGHT.lab(each), LIGHT.lab(truth))[0] for each in (plain, held)]
    assert away[1] < 0.3 * away[0]


def test_a_tint_between_two_meets_both_and_lies_between(known: Characterisation) -> None:
    dark, pale = swatch(GREEN, 1.0, ln_extra=0.2), swatch(GREEN, 8.0, ln_extra=-0.2)
    found = predict_between(known, dark, pale, [1.0, 3.0, 8.0])
    np.testing.assert_allclose(found[0], dark.spectrum, rtol=1e-9)
    np.testing.assert_allclose(found[2], pale.spectrum, rtol=1e-9)
    assert np.all(np.diff(LIGHT.lab(found)[:, 0]) > 0.0)
    for one, other in ((dark, dark), (dark, Observation(GREEN, pale.spectrum, PAPER))):
        with pytest.raises(ValueError, match="two recorded waters"):
            predict_between(known, one, other, 2.0)


def test_recipes_without_paint_and_unknown_paints_are_refused(known: Characterisation) -> None:
    with pytest.raises(ValueError, match="at least one paint"):
        predict(known, np.zeros((1, len(IDS))), 3.0, PAPER)
    with pytest.raises(ValueError, match="water must be finite"):
        predict(known, np.ones((1, len(IDS))), -1.0, PAPER)
    with pytest.raises(KeyError):
        recipes_of(known, [{99: 1.0}])

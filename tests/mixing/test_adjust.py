"""Corrections of a test patch, in a studio of made-up paints whose K and S are known."""

from dataclasses import replace
from typing import Final

import numpy as np
import pytest

from studio.colour.tristimulus import ciede2000
from studio.mixing import changes as c
from studio.mixing.adjust import Correction, adjust
from studio.mixing.bent_spectrum import bent_to
from studio.mixing.characterisation import Characterisation
from studio.mixing.characterise import characterise
from studio.mixing.held import held
from studio.mixing.observation import Observation
from studio.mixing.ranges import FloatArray
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

GREEN: Final = {BLUE: 2.0, YELLOW: 1.0}


@pytest.fixture(scope="module")
def known() -> Characterisation:
    """What the washes and mixes of the synthetic studio tell."""
    return characterise([*washes(), *mixes()], LIGHT)


def lab_of(
    parts: dict[int, float], water: float, layers: float = 1.0, ln_extra: float = 0.0
) -> FloatArray:
    return LIGHT.lab(spectrum(parts, water, layers, ln_extra=ln_extra))


def same(parts: dict[int, float], water: float, layers: float = 1.0) -> c.Change:
    return c.Change(c.Way.ADD, tuple(parts.items()), water, layers)


@pytest.mark.parametrize("layers", [1.0, 2.0])
@pytest.mark.parametrize("water", [3.0, None])
def test_adding_nothing_gives_the_measured_colour(
    known: Characterisation, water: float | None, layers: float
) -> None:
    odd = spectrum(GREEN, 4.0, layers, ln_extra=0.2) * np.linspace(0.93, 1.04, len(PAPER))
    patch = Observation(GREEN, odd, PAPER, water, layers)
    again = held(known, patch).after([same(GREEN, 3.0, layers)])
    assert again.shared[0] == 1.0
    np.testing.assert_allclose(again.spectra[0], odd, rtol=1e-9)


def test_a_glaze_of_next_to_nothing_and_a_whole_film_left_change_nothing(
    known: Characterisation,
) -> None:
    odd = spectrum(GREEN, 3.0, ln_extra=0.3) * np.linspace(0.95, 1.05, len(PAPER))
    patch = Observation(GREEN, odd, PAPER, 3.0)
    changes = [
        c.Change(c.Way.GLAZE, ((RED, 1.0),), 1e7, 1.0),
        c.Change(c.Way.LIFT, tuple(GREEN.items()), 3.0, 1.0),
    ]
    np.testing.assert_allclose(held(known, patch).after(changes).spectra, [odd, odd], rtol=1e-3)


def test_what_the_patch_differs_by_fades_with_the_step(known: Characterisation) -> None:
    odd = spectrum(GREEN, 3.0) * 0.9
    after = held(known, Observation(GREEN, odd, PAPER, 3.0)).after(
        [same(GREEN, water) for water in (3.0, 3.5, 5.0, 12.0)]
    )
    assert list(after.shared) == sorted(after.shared, reverse=True)
    assert after.shared[-1] < 0.2
    labs = LIGHT.lab(after.spectra)
    assert list(labs[:, 0]) == sorted(labs[:, 0])  # more water, lighter


def test_a_small_step_is_surer_than_a_large_one(known: Characterisation) -> None:
    to_patch = held(known, swatch(GREEN))
    changes = [same(GREEN, 3.0), same(GREEN, 3.5), same({BLUE: 2.0, YELLOW: 2.0}, 3.0)]
    told = to_patch.errors(changes, to_patch.after(changes).shared)
    untold = to_patch.errors(changes, np.zeros(len(changes)))
    less = told / untold  # a thinner film is surer by itself
    assert less[0] < less[1] < less[2] <= 1.0
    assert told[0] > 0.1


def test_lifting_by_hand_is_less_sure_than_another_layer_is_laid(known: Characterisation) -> None:
    to_patch = held(known, swatch(GREEN))
    parts = tuple(GREEN.items())
    changes = [c.Change(c.Way.LIFT, parts, 3.0, 0.5), c.Change(c.Way.LAYER, parts, 3.0, 1.5)]
    lifted, laid = to_patch.errors(changes, np.ones(2))
    assert lifted > laid


@pytest.mark.parametrize(
    ("added", "more_water"),
    [({YELLOW: 0.5}, 0.0), ({RED: 0.25}, 1.0), ({}, 3.0), ({BLUE: 1.0, RED: 0.5}, 0.0)],
    ids=str,
)
def test_what_was_left_out_of_a_mix_is_found(
    known: Characterisation, added: dict[int, float], more_water: float
) -> None:
    wanted = c.addition(c.Puddle(GREEN, 3.0), 1.0, added, more_water)
    true = lab_of(dict(wanted.parts), wanted.water)
    ways = adjust(known, swatch(GREEN), true, IDS)
    found = next(
        each
        for each in ways
        if each.change.way is c.Way.ADD and set(dict(each.change.added)) == set(added)
    )
    assert found.delta_e < 0.8
    for paint, amount in added.items():
        assert dict(found.change.added)[paint] == pytest.approx(amount, rel=0.51)
    best = ways[0]
    assert best.change.way is c.Way.ADD
    again = lab_of(dict(best.change.parts), best.change.water)
    assert ciede2000(again, true) < 1.0 < ciede2000(lab_of(GREEN, 3.0), true)


def test_a_patch_that_came_out_wrong_is_corrected_from_where_it_is(known: Characterisation) -> None:
    """The brush was loaded more than the water tells; what is wanted is the recipe as planned."""
    heavy = Observation(GREEN, spectrum(GREEN, 3.0, ln_extra=0.25), PAPER, 3.0)
    wanted = lab_of(GREEN, 3.0)
    best = adjust(known, heavy, wanted, IDS)[0]
    assert best.change.kind == (c.Way.ADD, (), True)
    truly = lab_of(dict(best.change.parts), best.change.water, ln_extra=0.25)
    assert ciede2000(truly, wanted) < 0.5 * ciede2000(LIGHT.lab(heavy.spectrum), wanted)


def kinds(ways: list[Correction]) -> set[c.Way]:
    return {each.change.way for each in ways}


def test_darker_is_reached_by_layers_glazes_or_a_fresh_mix_and_lighter_by_lifting(
    known: Characterisation,
) -> None:
    patch = swatch(GREEN, 6.0)
    assert {c.Way.LAYER, c.Way.FRESH} & kinds(adjust(known, patch, lab_of(GREEN, 3.0), IDS))
    lighter = kinds(adjust(known, patch, lab_of(GREEN, 6.0, layers=0.5), IDS))
    assert c.Way.LIFT in lighter
    assert c.Way.LAYER not in lighter


def test_on_another_paper_nothing_is_done_to_the_patch(known: Characterisation) -> None:
    ways = adjust(known, swatch(GREEN, 6.0), lab_of(GREEN, 3.0), IDS, paper=PAPER * 0.97)
    assert ways
    assert kinds(ways) <= {c.Way.ADD, c.Way.FRESH}


def test_only_paints_that_may_be_added_are(known: Characterisation) -> None:
    wanted = lab_of({BLUE: 2.0, YELLOW: 1.0, RED: 1.0}, 3.0)
    for each in adjust(known, swatch(GREEN), wanted, [WHITE]):
        laid_anew = each.change.parts if each.change.way is c.Way.GLAZE else each.change.added
        assert {paint for paint, _ in laid_anew} <= {WHITE}
        assert each.change.way not in {c.Way.LAYER, c.Way.FRESH}
    with_red = adjust(known, swatch(GREEN), wanted, IDS, must_add=[RED])
    assert with_red
    assert all(RED in dict(each.change.parts) for each in with_red)


def test_a_step_more_is_proposed_only_where_it_tells(known: Characterisation) -> None:
    wanted = lab_of({BLUE: 2.0, YELLOW: 2.0}, 3.0)
    ways = adjust(known, swatch(GREEN), wanted, IDS)
    for place, each in enumerate(ways):
        for other in ways[:place]:
            if set(other.change.kind[1]) <= set(each.change.kind[1]) and (
                other.change.way is each.change.way and other.change.kind[2] <= each.change.kind[2]
            ):
                assert each.delta_e < other.delta_e - 0.29


def test_nothing_is_proposed_for_a_patch_that_is_right(known: Characterisation) -> None:
    patch = swatch(GREEN)
    assert adjust(known, patch, LIGHT.lab(patch.spectrum), IDS) == []


def test_three_paints_are_strengthened_together() -> None:
    puddle = c.Puddle({BLUE: 4.0, YELLOW: 2.0, RED: 1.0}, 3.0)
    together = [
        each
        for each in c.additions(puddle, 1.0, IDS)
        if dict(each.added) == {BLUE: 2.0, YELLOW: 1.0, RED: 0.5}
    ]
    assert {each.water for each in together} >= {2.0}
    assert c.around(puddle, together[0])[0].added == together[0].added


def test_amounts_are_those_a_painter_can_measure() -> None:
    assert c.amounts(c.Puddle({BLUE: 3.0, YELLOW: 1.0}, 1.0))[:2] == (0.125, 0.25)
    assert max(c.amounts(c.Puddle({BLUE: 12.0, YELLOW: 5.0}, 1.0))) == 16.0
    assert c.waters(c.Puddle({BLUE: 1.0}, 1.0))[0] == 0.0
    assert all(each.water > 0.0 for each in c.fresh_mixes(c.Puddle({BLUE: 1.0}, 1.0), 1.0))
    assert c.fresh_mixes(c.Puddle({BLUE: 1.0}, 0.5), 1.0) == []


@pytest.mark.parametrize("lab", [(55.0, -20.0, 5.0), (70.0, 10.0, 30.0), (30.0, 0.0, -10.0)])
def test_a_bent_spectrum_has_the_lab(lab: tuple[float, float, float]) -> None:
    found = bent_to(LIGHT, spectrum(GREEN, 3.0), np.array(lab))
    assert found is not None
    np.testing.assert_allclose(LIGHT.lab(found), lab, atol=1e-5)
    assert 0.0 < found.min() <= found.max() <= 1.0


def test_a_colour_that_no_reflectance_has_is_told() -> None:
    assert bent_to(LIGHT, spectrum(GREEN, 3.0), np.array([90.0, 90.0, -90.0])) is None
    assert bent_to(LIGHT, spectrum(GREEN, 3.0), np.array([104.0, 0.0, 0.0])) is None


def test_what_is_already_there_is_not_bent() -> None:
    read = spectrum(GREEN, 3.0)
    again = bent_to(LIGHT, read, LIGHT.lab(read))
    assert again is not None
    np.testing.assert_allclose(again, read)


def test_a_paint_that_is_not_characterised_is_refused(known: Characterisation) -> None:
    with pytest.raises(KeyError):
        adjust(known, replace(swatch(GREEN), parts={BLUE: 1.0, 99: 1.0}), np.zeros(3), IDS)

"""Tints between measured ones."""

import numpy as np
import pytest

from studio.colour.tristimulus import ciede2000
from studio.mixing.characterisation import Characterisation
from studio.mixing.characterise import characterise
from studio.mixing.observation import Observation
from studio.mixing.tint_series import left_out_errors, nearest_tint, tint_error
from tests.mixing.synthetic import BLUE, LIGHT, PAPER, YELLOW, mixes, spectrum, swatch, washes

GREEN = {BLUE: 2.0, YELLOW: 1.0}


@pytest.fixture(scope="module")
def known() -> Characterisation:
    """What the washes and mixes of the synthetic studio tell."""
    return characterise([*washes(), *mixes()], LIGHT)


@pytest.mark.parametrize("water", [1.5, 3.0, 6.0])
@pytest.mark.parametrize("extra", [0.0, 0.2])
def test_the_water_of_a_tint_between_is_found(
    known: Characterisation, water: float, extra: float
) -> None:
    series = [swatch(GREEN, each, ln_extra=extra) for each in (8.0, 1.0)]
    wanted = LIGHT.lab(spectrum(GREEN, water, ln_extra=extra))
    tint = nearest_tint(known, series, wanted)
    assert tint is not None
    assert tint.is_between
    assert tint.beside == (1, 0)
    assert tint.water == pytest.approx(water, rel=0.2)
    assert tint.delta_e < 0.7
    assert tint.delta_e == pytest.approx(float(ciede2000(tint.lab, wanted)))


@pytest.mark.parametrize(("water", "end"), [(12.0, 1), (0.75, 0)])
def test_one_step_beyond_the_ends_is_told_apart(
    known: Characterisation, water: float, end: int
) -> None:
    series = [swatch(GREEN, each) for each in (1.5, 8.0)]
    tint = nearest_tint(known, series, LIGHT.lab(spectrum(GREEN, water)))
    assert tint is not None
    assert tint.beside == (end,)
    assert tint.water == water
    far = nearest_tint(known, series, LIGHT.lab(PAPER))
    assert far is not None
    assert far.water == 12.0  # no further than one step


def test_lightness_follows_the_water_through_the_measured_ends(known: Characterisation) -> None:
    """Both ends were laid other than the model has them; between them lightness only rises."""
    ends = [swatch(GREEN, 1.0, ln_extra=0.2), swatch(GREEN, 16.0, ln_extra=-0.2)]
    wanted = [LIGHT.lab(spectrum(GREEN, each)) for each in (1.25, 2.0, 4.0, 8.0, 14.0)]
    found = [nearest_tint(known, ends, each) for each in wanted]
    points = sorted((tint.water, tint.lab[0]) for tint in found if tint is not None)
    assert len(points) == 5
    assert [lightness for _, lightness in points] == sorted(lightness for _, lightness in points)
    assert LIGHT.lab(ends[0].spectrum)[0] < points[0][1]
    assert points[-1][1] < LIGHT.lab(ends[1].spectrum)[0]


def test_a_series_is_judged_by_its_inner_tints(known: Characterisation) -> None:
    series = [swatch(GREEN, each) for each in (4.0, 1.0, 8.0, 2.0, 4.0)]
    errors = left_out_errors(known, [series, [swatch(GREEN, 2.0)], []])
    assert len(errors) == 1  # beside 4:1 lies another 4:1
    odd = [series[0], series[1], swatch(GREEN, 2.0, ln_extra=0.4)]
    assert left_out_errors(known, [odd])[0] > errors.max() + 1.0


def test_the_usual_error_gives_way_to_the_measured_one() -> None:
    none = np.empty(0)
    assert tint_error(none, between=False) > tint_error(none, between=True) == 0.7
    assert 0.7 < tint_error(np.full(4, 3.0), between=True) < 3.0
    assert tint_error(np.full(400, 3.0), between=True) == pytest.approx(3.0, abs=0.05)


def test_a_tint_of_unknown_water_belongs_to_no_series(known: Characterisation) -> None:
    unknown = Observation(GREEN, spectrum(GREEN, 3.0), PAPER)
    with pytest.raises(ValueError, match="the water of each"):
        nearest_tint(known, [swatch(GREEN, 1.0), unknown], LIGHT.lab(PAPER))


def test_one_tint_alone_leads_a_step_beyond_itself(known: Characterisation) -> None:
    tint = nearest_tint(known, [swatch(GREEN, 3.0)] * 2, LIGHT.lab(spectrum(GREEN, 4.0)))
    assert tint is not None
    assert not tint.is_between
    assert tint.water == 4.0

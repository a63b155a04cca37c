"""Two swatches are compared by their spectra under each light, or it is told why they cannot be."""

import math
from typing import Final

import pytest

from studio.actions.compare_swatches import compare_swatches, lighting, spectra_of
from studio.actions.log_swatch import log_swatch, read_swatch
from studio.actions.make_reading import Circumstances, reading_of_spectrum
from studio.actions.match_colour import Wanted, match_colour
from studio.actions.read_target import Target, read_target
from studio.catalogue.reading import Method, Reading, State
from studio.catalogue.swatch import Application, Swatch, SwatchFacts
from studio.colour.difference import ciede2000
from studio.colour.lab import Lab
from studio.colour.reflectance import Reflectance
from studio.colour.science import reflectance_to_lab
from studio.errors import BadInput
from tests.actions.conftest import DAY, Shelf, read
from tests.conftest import TODAY

LIGHTS: Final = ("A", "LED-B3")


def _curve(waves: float = 0.0, up: float = 0.0, *, length: float = 18) -> Reflectance:
    """A tan wash with waves in its spectrum, which make nearly a metamer of it."""
    return Reflectance(
        380.0,
        10.0,
        tuple(
            0.12 + up + 0.45 / (1 + math.exp(-(nm - 570) / 30)) + waves * math.sin(nm / length)
            for nm in range(380, 731, 10)
        ),
    )


def _spectral(curve: Reflectance, state: State = State.DRY) -> Reading:
    how = Circumstances(DAY, Method.SPECTROPHOTOMETER, state)
    return reading_of_spectrum(curve, how)


def _swatch(shelf: Shelf, recipe: str, curve: Reflectance, state: State = State.DRY) -> Swatch:
    return log_swatch(
        shelf.work,
        mix=shelf.mix(recipe),
        paper=shelf.paper("SR"),
        facts=SwatchFacts("", None, 1, Application.FLAT_WASH, DAY),
        reading=_spectral(curve, state),
        today=TODAY,
    )


def test_each_light_tells_the_difference_of_the_two_spectra(shelf: Shelf) -> None:
    one, other = _curve(), _curve(0.03)
    found = compare_swatches(_swatch(shelf, "1 UM", one), _swatch(shelf, "1 BS", other), LIGHTS)
    assert [each.light for each in found.lights] == list(LIGHTS)
    here = [reflectance_to_lab(curve).coordinates for curve in (one, other)]
    for each in found.lights:
        there = [reflectance_to_lab(curve, each.light).coordinates for curve in (one, other)]
        assert each.delta_e == pytest.approx(ciede2000(*there))
        assert each.reference_delta_e == pytest.approx(ciede2000(*here))
        assert each.index > 0.1
    assert found.delta_e == pytest.approx(ciede2000(*here))
    assert found.without_spectrum == ()


def test_which_is_held_beside_which_turns_the_words_alone(shelf: Shelf) -> None:
    one, other = _swatch(shelf, "1 UM", _curve()), _swatch(shelf, "1 BS", _curve(0.03, 0.1))
    forth, back = compare_swatches(one, other, LIGHTS), compare_swatches(other, one, LIGHTS)
    assert forth.separation.numbers.lightness == -back.separation.numbers.lightness
    assert [each.delta_e for each in forth.lights] == pytest.approx(
        [each.delta_e for each in back.lights]
    )
    assert [each.index for each in forth.lights] == pytest.approx(
        [each.index for each in back.lights]
    )


def test_a_metamer_breaks_and_is_named(shelf: Shelf) -> None:
    one = _swatch(shelf, "1 UM", _curve())
    other = _swatch(shelf, "1 BS", _curve(0.05, length=12))
    found = compare_swatches(one, other, ("A", "FL2", "FL11", "D55"))
    assert found.delta_e < 0.5
    assert [each.light for each in found.breaking] == ["FL2", "FL11"]


def test_several_spectra_count_by_their_mean_colour_and_labs_not_at_all(shelf: Shelf) -> None:
    swatch = _swatch(shelf, "1 UM", _curve())
    swatch = read_swatch(shelf.work, swatch, _spectral(_curve(0.02, 0.1)), TODAY)
    swatch = read_swatch(shelf.work, swatch, read(Lab(20, 0, 0)), TODAY)
    assert len(spectra_of(swatch)) == 2
    other = _swatch(shelf, "1 BS", _curve(0.0, 0.05))
    found = compare_swatches(other, swatch, ("A",)).lights[0]
    labs = [reflectance_to_lab(each, "A").coordinates for each in (_curve(), _curve(0.02, 0.1))]
    mean = (
        (labs[0][0] + labs[1][0]) / 2,
        (labs[0][1] + labs[1][1]) / 2,
        (labs[0][2] + labs[1][2]) / 2,
    )
    expected = ciede2000(reflectance_to_lab(_curve(0.0, 0.05), "A").coordinates, mean)
    assert found.delta_e == pytest.approx(expected)


def test_a_wet_spectrum_tells_nothing_of_a_swatch_that_was_read_dry(shelf: Shelf) -> None:
    swatch = _swatch(shelf, "1 UM", _curve(), State.WET)
    assert len(spectra_of(swatch)) == 1
    swatch = read_swatch(shelf.work, swatch, read(Lab(60, 10, 20)), TODAY)
    assert spectra_of(swatch) == ()


def test_without_spectra_the_studios_light_is_all_there_is(shelf: Shelf) -> None:
    one = shelf.swatch("1 UM", Lab(50, 0, 0))
    other = _swatch(shelf, "1 BS", _curve())
    found = compare_swatches(one, other, LIGHTS)
    assert found.lights == found.breaking == ()
    assert found.without_spectrum == (one,)
    assert found.delta_e == pytest.approx(ciede2000((50, 0, 0), other.lab.coordinates))
    assert compare_swatches(one, shelf.swatch("1 BS", Lab(50, 0, 1)), LIGHTS).without_spectrum


def test_what_cannot_be_compared_is_refused(shelf: Shelf) -> None:
    dry, wet = _swatch(shelf, "1 UM", _curve()), _swatch(shelf, "1 BS", _curve(), State.WET)
    with pytest.raises(BadInput, match="S1 is compared with itself"):
        compare_swatches(dry, dry, LIGHTS)
    for pair in ((dry, wet), (wet, dry)):
        with pytest.raises(BadInput, match="S2 has only been read wet"):
            compare_swatches(*pair, LIGHTS)


def test_a_fluorescing_spectrum_has_no_colour_under_a_light_that_makes_it_whiter_than_white(
    shelf: Shelf,
) -> None:
    values = tuple(1.2 if 560 <= nm <= 610 else 0.6 for nm in range(380, 731, 10))
    bright = _swatch(shelf, "1 UM", Reflectance(380.0, 10.0, values))
    with pytest.raises(BadInput, match="no colour of S1 under HP1 can be computed"):
        compare_swatches(bright, _swatch(shelf, "1 BS", _curve()), ("HP1",))


def test_matches_are_looked_at_under_lights_where_they_have_a_spectrum(shelf: Shelf) -> None:
    wanted = _swatch(shelf, "1 UM", _curve())
    near = _swatch(shelf, "1 BS", _curve(0.02))
    bare = shelf.swatch("1 CR", Lab(*wanted.lab.coordinates))
    target = read_target(shelf.work, wanted.facts.code)
    result = match_colour(shelf.work, target, Wanted(), lights=LIGHTS)
    assert result.lights == LIGHTS
    lights = {match.swatch.id: match.lights for match in result.matches}
    assert lights[bare.id] is None
    assert lights[near.id] == compare_swatches(wanted, near, LIGHTS).lights
    plain = match_colour(shelf.work, target, Wanted())
    assert plain.lights == ()
    assert {match.lights for match in plain.matches} == {None}
    assert [match.swatch.id for match in plain.matches] == [
        match.swatch.id for match in result.matches
    ]


def test_a_target_without_a_spectrum_is_refused_with_the_reason(shelf: Shelf) -> None:
    bare = shelf.swatch("1 CR", Lab(50, 0, 0))
    typed = Target(Lab(50, 0, 0), "grey")
    with pytest.raises(BadInput, match="a colour alone has no spectrum"):
        lighting(shelf.work, typed, LIGHTS, wet=False)
    with pytest.raises(BadInput, match="S1 has no spectrum of its dry colour"):
        match_colour(shelf.work, read_target(shelf.work, bare.facts.code), Wanted(), lights=LIGHTS)
    wet = _swatch(shelf, "1 BS", _curve(), State.WET)
    with pytest.raises(BadInput, match="expected dry colour of a wet patch has no spectrum"):
        lighting(shelf.work, read_target(shelf.work, wet.facts.code), LIGHTS, wet=True)

"""Mixes are one whatever the order and scale; swatches follow their readings."""

from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from studio.actions.add_mix import add_mix, describe_mix
from studio.actions.edit_paint import retire_paint
from studio.actions.find import (
    find_mix,
    find_paint,
    find_paper,
    find_pigment,
    find_recipe,
    find_swatch,
)
from studio.actions.log_swatch import edit_swatch, log_swatch, mix_to_log, read_swatch
from studio.catalogue.reading import State
from studio.catalogue.recipe import in_lowest_terms
from studio.catalogue.swatch import Application, Swatch, SwatchFacts
from studio.colour.lab import Lab
from studio.errors import BadInput, NotFound
from tests.actions.conftest import DAY, Shelf, read
from tests.conftest import TODAY

MUD = Lab(42.0, 3.0, 9.0)
FACTS = SwatchFacts("", 4.0, 2, Application.GLAZE, DAY, " box  2 ", None, "#6b7a5e")


def test_a_mix_is_recorded_once_under_the_next_code(shelf: Shelf) -> None:
    recipe = find_recipe(shelf.work, "2 ultramarine + 1 BS")
    mix, new = add_mix(shelf.work, recipe, DAY, name=" Wet  mud ", note="")
    assert new
    assert (mix.code, mix.name, mix.note, mix.created_on) == ("M1", "Wet mud", None, DAY)
    assert shelf.work.mixes.all() == (mix,)
    again, new = add_mix(shelf.work, recipe, TODAY)
    assert (again, new) == (mix, False)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(
    amounts=st.lists(st.integers(1, 12), min_size=3, max_size=3),
    scale=st.fractions("1/8", 8, max_denominator=8),
    order=st.permutations([0, 1, 2]),
)
def test_the_same_recipe_in_any_order_and_scale_is_the_same_mix(
    shelf: Shelf, amounts: list[int], scale: Fraction, order: list[int]
) -> None:
    keys = [shelf.paint(code).id for code in ("UM", "BS", "AC")]
    parts = [(key, Fraction(amount)) for key, amount in zip(keys, amounts, strict=True)]
    mix, _ = add_mix(shelf.work, in_lowest_terms(parts), DAY)
    shuffled = [(parts[place][0], parts[place][1] * scale) for place in order]
    assert add_mix(shelf.work, in_lowest_terms(shuffled), DAY) == (mix, False)


def test_a_mix_of_other_parts_is_another_mix(shelf: Shelf) -> None:
    codes = [shelf.mix(text).code for text in ("2 UM + BS", "UM + BS", "UM + 2 BS", "UM", "BS")]
    assert codes == ["M1", "M2", "M3", "M4", "M5"]


def test_a_recorded_mix_takes_a_name_it_lacks_and_refuses_another(shelf: Shelf) -> None:
    recipe = find_recipe(shelf.work, "UM + BS")
    add_mix(shelf.work, recipe, DAY, code="mud", note="for keels")
    mix, new = add_mix(shelf.work, recipe, DAY, code="MUD", name="keel")
    assert not new
    assert (mix.code, mix.name, mix.note) == ("MUD", "keel", "for keels")
    assert shelf.work.mixes.with_code("MUD") == mix
    for given_, said in (
        ({"name": "hull"}, "has the name 'keel' already"),
        ({"note": "for hulls"}, "has the note 'for keels' already"),
        ({"code": "M9"}, "recorded already as MUD"),
    ):
        with pytest.raises(BadInput, match=said):
            add_mix(shelf.work, recipe, DAY, **given_)
    with pytest.raises(BadInput, match="code MUD is taken by another mix"):
        add_mix(shelf.work, find_recipe(shelf.work, "UM"), DAY, code="MUD")
    assert shelf.work.mixes.all() == (mix,)


def test_name_and_note_of_a_mix_are_changed_kept_or_removed(shelf: Shelf) -> None:
    mix, _ = add_mix(shelf.work, find_recipe(shelf.work, "UM"), DAY, name="creek", note="cold")
    describe_mix(shelf.work, mix, "tidal creek", None)
    assert shelf.work.mixes.with_code("M1") == replace(mix, name="tidal creek")
    describe_mix(shelf.work, mix, None, "")
    assert shelf.work.mixes.with_code("M1") == replace(mix, note=None)


def test_mixes_are_found_by_code_name_or_recipe(shelf: Shelf) -> None:
    mix, _ = add_mix(shelf.work, find_recipe(shelf.work, "2 UM + BS"), DAY, name="creek mud")
    for words in ("m1", " M1 ", "mud", "Creek Mud", "1 BS + 2 UM", "4 um + 2 sienna"):
        assert find_mix(shelf.work, words) == mix, words
    with pytest.raises(NotFound, match="has not been mixed yet"):
        find_mix(shelf.work, "3 UM + BS")
    with pytest.raises(NotFound, match="no mix is called 'sky'"):
        find_mix(shelf.work, "sky")
    with pytest.raises(BadInput, match="is not clear"):
        find_mix(shelf.work, "UM +")


def test_a_mix_to_log_is_recorded_when_its_recipe_is_new(shelf: Shelf) -> None:
    mix = mix_to_log(shelf.work, "2 UM + BS", DAY)
    assert mix_to_log(shelf.work, "M1", DAY) == mix_to_log(shelf.work, "BS + 2 UM", DAY) == mix
    assert mix_to_log(shelf.work, "ultramarine", DAY).code == "M2"
    with pytest.raises(NotFound, match="no paint is called 'umber'"):
        mix_to_log(shelf.work, "umber", DAY)
    shelf.mix("UM + AC")
    named = add_mix(shelf.work, find_recipe(shelf.work, "UM + AC"), DAY, name="evening sky")[0]
    with pytest.raises(NotFound, match=r"near it: .*evening sky"):
        mix_to_log(shelf.work, "evning", DAY)
    assert shelf.work.mixes.all()[-1] == named


def test_a_retired_paint_gives_way_to_one_in_use_of_the_same_name(shelf: Shelf) -> None:
    retire_paint(shelf.work, shelf.paint("UM"))
    assert find_paint(shelf.work, "ultramarine").facts.code == "UM"
    with pytest.raises(NotFound, match="fits 3 paints"):
        find_paint(shelf.work, "hard & quay")
    for code in ("TG", "SO"):
        retire_paint(shelf.work, shelf.paint(code))
    assert find_paint(shelf.work, "hard & quay").facts.code == "CR"


def test_papers_pigments_and_swatches_are_found_by_what_a_painter_types(shelf: Shelf) -> None:
    swatch = shelf.swatch("UM", MUD)
    assert find_paper(shelf.work, "smooth").facts.code == "SM"
    assert find_pigment(shelf.work, "pb 29").ci_name == "PB29"
    assert find_pigment(shelf.work, "alizarin crimson").ci_name == "PR83"
    assert find_swatch(shelf.work, " s1 ") == swatch
    with pytest.raises(NotFound, match="no swatch has the code 'S9'"):
        find_swatch(shelf.work, "S9")
    with pytest.raises(NotFound, match="pigment"):
        find_pigment(shelf.work, "PB998")


def _log(shelf: Shelf, facts: SwatchFacts = FACTS, day: date = DAY, lab: Lab = MUD) -> Swatch:
    return log_swatch(
        shelf.work, mix=shelf.mix("UM"), paper=shelf.paper("SR"), facts=facts,
        reading=read(lab, day), today=TODAY,
    )  # fmt: skip


def test_a_swatch_is_recorded_with_its_reading_and_its_target_as_a_colour(shelf: Shelf) -> None:
    swatch = _log(shelf)
    assert swatch.facts == replace(
        FACTS, code="S1", kept_at="box 2", target_lab=swatch.facts.target_lab
    )
    assert swatch.facts.target_lab is not None
    assert swatch.facts.target_lab.lightness == pytest.approx(49.6, abs=0.5)
    assert swatch.lab == MUD
    assert swatch.readings == (read(MUD),)
    assert _log(shelf, replace(FACTS, target="s1")).facts.target_lab == MUD


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"made_on": TODAY + timedelta(days=1)}, "the day 2026-11-26 lies in the future"),
        ({"water": -1.0}, "water must be at least 0"),
        ({"layers": 0}, "the number of layers"),
        ({"code": "S 1"}, "must start with a letter"),
        ({"target": "lab(mud)"}, "not a CSS colour"),
        ({"code": "S1"}, "code S1 is taken by another swatch"),
        ({"made_on": DAY + timedelta(days=1)}, "the reading of 2026-05-04 is older"),
    ],
)
def test_an_impossible_swatch_is_refused(
    shelf: Shelf, change: dict[str, object], said: str
) -> None:
    shelf.swatch("UM", MUD)
    with pytest.raises(BadInput, match=said):
        _log(shelf, replace(FACTS, **change))  # type: ignore[arg-type]
    assert shelf.work.swatches.count() == 1


def test_a_reading_ahead_of_today_or_before_its_swatch_is_refused(shelf: Shelf) -> None:
    swatch = _log(shelf)
    for day, said in (
        (TODAY + timedelta(days=1), "the day of the reading 2026-11-26 lies in the future"),
        (DAY - timedelta(days=1), "is older than the swatch"),
    ):
        with pytest.raises(BadInput, match=said):
            read_swatch(shelf.work, swatch, read(MUD, day), TODAY)
        with pytest.raises(BadInput, match=said):
            _log(shelf, day=day)
    assert shelf.work.swatches.all() == (swatch,)


def test_a_dry_reading_takes_the_place_of_a_wet_colour_and_further_ones_are_averaged(
    shelf: Shelf,
) -> None:
    swatch = shelf.swatch("UM", Lab(30.0, 10.0, -60.0), state=State.WET)
    assert swatch.state is State.WET
    dry = read_swatch(shelf.work, swatch, read(Lab(34.0, 8.0, -50.0)), TODAY)
    assert (dry.state, dry.lab) == (State.DRY, Lab(34.0, 8.0, -50.0))
    mean = read_swatch(shelf.work, dry, read(Lab(36.0, 8.0, -54.0)), TODAY)
    assert mean.lab == Lab(35.0, 8.0, -52.0)
    wet = read_swatch(shelf.work, mean, read(Lab(20.0, 0.0, 0.0), state=State.WET), TODAY)
    assert (wet.state, wet.lab, len(wet.readings)) == (State.DRY, Lab(35.0, 8.0, -52.0), 4)
    assert shelf.work.swatches.all() == (wet,)


def test_a_swatch_is_corrected_and_keeps_its_readings(shelf: Shelf) -> None:
    swatch = _log(shelf)
    wanted = replace(swatch.facts, code="CARD7", layers=3, made_on=DAY - timedelta(days=2))
    changed = edit_swatch(shelf.work, swatch, wanted, shelf.paper("SM"), TODAY)
    assert changed.facts == wanted
    assert changed.paper_id == shelf.paper("SM").id
    assert (changed.readings, changed.lab) == (swatch.readings, swatch.lab)


def test_the_colour_a_swatch_was_made_for_stays_when_the_swatch_that_gave_it_changes(
    shelf: Shelf,
) -> None:
    model = shelf.swatch("BS", Lab(50.0, 20.0, 30.0))
    swatch = _log(shelf, replace(FACTS, target="S1"))
    edit_swatch(shelf.work, model, replace(model.facts, code="CARD1"), shelf.paper("SR"), TODAY)
    noted = replace(swatch.facts, note="from memory of the creek")
    changed = edit_swatch(shelf.work, swatch, noted, shelf.paper("SR"), TODAY)
    assert changed.facts == noted
    assert changed.facts.target_lab == Lab(50.0, 20.0, 30.0)
    other = edit_swatch(shelf.work, swatch, replace(noted, target="#fff"), shelf.paper("SR"), TODAY)
    assert other.facts.target_lab is not None
    assert other.facts.target_lab.lightness == pytest.approx(100.0)
    none = edit_swatch(shelf.work, swatch, replace(noted, target=None), shelf.paper("SR"), TODAY)
    assert (none.facts.target, none.facts.target_lab) == (None, None)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"made_on": DAY + timedelta(days=1)}, "S1 was read on 2026-05-04, so it was made by then"),
        ({"code": "S2"}, "code S2 is taken by another swatch"),
        ({"code": ""}, "must start with a letter"),
        ({"layers": 101}, "the number of layers"),
    ],
)
def test_an_impossible_correction_of_a_swatch_is_refused(
    shelf: Shelf, change: dict[str, object], said: str
) -> None:
    swatch = _log(shelf)
    _log(shelf)
    facts = replace(swatch.facts, **change)  # type: ignore[arg-type]
    with pytest.raises(BadInput, match=said):
        edit_swatch(shelf.work, swatch, facts, shelf.paper("SR"), TODAY)
    assert shelf.work.swatches.all()[0] == swatch

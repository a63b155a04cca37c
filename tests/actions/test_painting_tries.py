"""Test swatches are held against the colours of a painting, and what is wrong with each is said."""

import random
from dataclasses import replace
from typing import Final

import colour as colour_science
import pytest

from studio.actions.log_swatch import edit_swatch, log_swatch, read_swatch
from studio.actions.painting.find_painting import find_painting
from studio.actions.painting.tries import (
    Try,
    keep_try,
    made_for,
    nearest_try,
    standing_text,
    tries_of,
)
from studio.actions.remove_swatch import remove_swatch, restore_swatch
from studio.catalogue.reading import State
from studio.catalogue.swatch import Application, Swatch, SwatchFacts
from studio.colour.lab import Lab
from studio.errors import BadInput
from tests.actions.conftest import DAY, Shelf, read
from tests.actions.painted import begun, tried, with_passage
from tests.conftest import TODAY

WANTED: Final = Lab(40.0, 4.0, 9.0)
WRITTEN: Final = "lab(40 4 9)"


@pytest.fixture
def mud(shelf: Shelf) -> Shelf:
    """The painting P1 with one passage, mud, which is to be of the colour WANTED."""
    with_passage(shelf.work, begun(shelf), "mud", WRITTEN)
    return shelf


def _laid(shelf: Shelf, lab: Lab, state: State = State.DRY) -> Swatch:
    return shelf.swatch("2 UM + 1 BS", lab, state=state)


def _tries(shelf: Shelf, colour: int = 0) -> tuple[Try, ...]:
    painting = find_painting(shelf.work, "P1")
    return tries_of(shelf.work, painting, painting.passages[0].colours[colour])


def test_how_far_off_a_try_is_agrees_with_colour_science(mud: Shelf) -> None:
    """ΔE00 against colour-science 0.4 (BSD), `colour.delta_E(..., method="CIE 2000")`."""
    chance = random.Random(7)  # noqa: S311 - drawn alike each time
    for _ in range(25):
        lab = Lab(chance.uniform(5, 95), chance.uniform(-60, 60), chance.uniform(-60, 60))
        tried(mud.work, "mud", _laid(mud, lab))
    tries = _tries(mud)
    assert [each.number for each in tries] == list(range(1, 26))
    for each in tries:
        expected = colour_science.delta_E(
            WANTED.coordinates, each.swatch.lab.coordinates, method="CIE 2000"
        )
        assert each.delta_e == pytest.approx(float(expected), abs=1e-9)


def test_each_try_says_what_was_still_to_be_corrected(mud: Shelf) -> None:
    for lab in (Lab(52.0, 4.0, 9.0), Lab(40.0, 4.0, 24.0), Lab(40.2, 4.0, 9.0)):
        tried(mud.work, "mud", _laid(mud, lab))
    lighter, yellower, same = _tries(mud)
    assert lighter.separation.words[0] == "much lighter"
    assert "more intense" in yellower.separation.sentence
    assert same.separation.sentence == "the same to the eye"
    assert [each.passes for each in (lighter, yellower, same)] == [False, False, True]


def test_how_a_try_stands_to_those_before_it(mud: Shelf) -> None:
    said = []
    for lightness in (50.0, 44.0, 46.0, 46.0, 41.0):
        tried(mud.work, "mud", _laid(mud, replace(WANTED, lightness=lightness)))
        said.append(standing_text(_tries(mud)))
    numbers = [f"{each.delta_e:.1f}" for each in _tries(mud)]
    assert said == [
        f"try 1: ΔE00 {numbers[0]}",
        f"try 2: ΔE00 {numbers[1]}, nearer than try 1 ({numbers[0]})",
        f"try 3: ΔE00 {numbers[2]}, farther off than try 2 ({numbers[1]})",
        (
            f"try 4: ΔE00 {numbers[3]}, as near as try 3 ({numbers[2]}); try 2 is the nearest "
            f"({numbers[1]})"
        ),
        f"try 5: ΔE00 {numbers[4]}, nearer than try 4 ({numbers[3]})",
    ]


def test_a_wet_try_neither_passes_nor_is_nearest_until_it_was_read_dry(mud: Shelf) -> None:
    wet = _laid(mud, WANTED, State.WET)
    tried(mud.work, "mud", wet)
    (first,) = _tries(mud)
    assert (first.delta_e, first.passes, nearest_try((first,))) == (0.0, False, None)
    assert standing_text((first,)) == "try 1: ΔE00 0.0, read wet: read it again once it is dry"
    read_swatch(mud.work, wet, read(Lab(48.0, 4.0, 9.0)), TODAY)
    (first,) = _tries(mud)
    assert nearest_try((first,)) == first
    assert first.delta_e > 5


def test_the_tolerance_is_the_paintings_own(shelf: Shelf) -> None:
    with_passage(shelf.work, begun(shelf, within=0.5), "mud", WRITTEN)
    tried(shelf.work, "mud", _laid(shelf, replace(WANTED, lightness=41.0)))
    assert [each.passes for each in _tries(shelf)] == [False]
    painting = find_painting(shelf.work, "P1")
    shelf.work.paintings.change(replace(painting, tolerance=1.0))
    assert [each.passes for each in _tries(shelf)] == [True]


def test_a_swatch_is_held_against_a_colour_once_and_against_others_too(mud: Shelf) -> None:
    swatch = _laid(mud, WANTED)
    painting = tried(mud.work, "mud", swatch)
    passage = painting.passages[0]
    with pytest.raises(BadInput, match="S1 is try 1 for 'mud' already"):
        keep_try(mud.work, passage, passage.colours[0], swatch)
    with_passage(mud.work, painting, "pool", "#999ea5")
    painting = tried(mud.work, "pool", swatch)
    assert painting.passages[1].colours[0].tries == (swatch.id,)


def test_a_removed_swatch_is_no_try_until_it_is_restored(mud: Shelf) -> None:
    first, second = _laid(mud, WANTED), _laid(mud, replace(WANTED, a=6.0))
    tried(mud.work, "mud", first)
    tried(mud.work, "mud", second)
    removed = remove_swatch(mud.work, first, "smudged", TODAY)
    assert [each.swatch.facts.code for each in _tries(mud)] == ["S2"]
    restore_swatch(mud.work, removed)
    assert [each.swatch.facts.code for each in _tries(mud)] == ["S1", "S2"]


def test_a_new_swatch_keeps_the_colour_it_was_made_for(mud: Shelf) -> None:
    painting = find_painting(mud.work, "P1")
    passage = painting.passages[0]
    facts = SwatchFacts("", 3.0, 2, Application.GLAZE, DAY, target="something else")
    swatch = log_swatch(
        mud.work,
        mix=mud.mix("UM"),
        paper=mud.paper("SM"),
        facts=made_for(facts, painting, passage, passage.colours[0]),
        reading=read(Lab(30.0, 0.0, 0.0)),
        today=TODAY,
    )
    assert (swatch.facts.target, swatch.facts.target_lab) == ("P1 mud", WANTED)
    assert (swatch.facts.water, swatch.facts.layers) == (3.0, 2)
    # Correcting how it was made leaves the colour alone, though no target has that name.
    edited = edit_swatch(
        mud.work, swatch, replace(swatch.facts, kept_at="box 4"), mud.paper("SM"), TODAY
    )
    assert edited.facts.target_lab == WANTED


def test_the_second_colour_of_a_passage_is_told_apart(shelf: Shelf) -> None:
    painting = with_passage(shelf.work, begun(shelf), "mud", WRITTEN, "#999ea5")
    passage = painting.passages[0]
    facts = SwatchFacts("", None, 1, Application.FLAT_WASH, DAY)
    told = [made_for(facts, painting, passage, each).target for each in passage.colours]
    assert told == ["P1 mud", "P1 mud, colour 2"]
    tried(shelf.work, "mud", _laid(shelf, WANTED), colour=1)
    assert _tries(shelf) == ()
    assert len(_tries(shelf, 1)) == 1

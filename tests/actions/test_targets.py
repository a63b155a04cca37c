"""Targets get names that nothing else could mean, and are found by them wherever one is matched."""

from datetime import date

import pytest

from studio.actions.find_target import find_target
from studio.actions.log_swatch import log_swatch
from studio.actions.match_colour import Wanted, match_colour
from studio.actions.name_target import name_target
from studio.actions.read_target import read_target
from studio.catalogue.swatch import Application, SwatchFacts
from studio.colour.lab import Lab
from studio.errors import BadInput, NotFound
from tests.actions.conftest import DAY, Shelf, read
from tests.conftest import TODAY

MUD = Lab(38.0, 4.0, 14.0)


def test_a_target_is_recorded_under_its_folded_name(shelf: Shelf) -> None:
    file = shelf.work.files.keep("creek.jpg", b"picture", TODAY)
    added = name_target(
        shelf.work, "  Mud under   the HULL ", MUD, today=TODAY, spread=1.5,
        place="at 40%,62%, 9 x 9 px", picture=file, note=" low tide ",
    )  # fmt: skip
    assert (added.name, added.lab, added.spread) == ("mud under the hull", MUD, 1.5)
    assert (added.place, added.note, added.created_on) == (
        "at 40%,62%, 9 x 9 px", "low tide", TODAY,
    )  # fmt: skip
    assert added.picture == file
    assert shelf.work.targets.all() == (added,)


@pytest.mark.parametrize(
    "name",
    [
        "#5b5f6e", "5b5f6e", "facade", "tan", "Tan", "lab(62 12 30)", "rgb(1 2 3)",
        "5YR 6/4", "5 yr 6/4", "N5/", "n 5", "5YR 99/99", "S1", "s12", "S999", "creek7", "M3",
    ],
)  # fmt: skip
def test_a_name_that_could_be_a_colour_or_a_code_is_refused(shelf: Shelf, name: str) -> None:
    with pytest.raises(BadInput, match="could be read as a colour or the code of a swatch"):
        name_target(shelf.work, name, MUD, today=TODAY)
    assert shelf.work.targets.all() == ()


@pytest.mark.parametrize("name", ["mud", "MUD", " Mud "])
def test_a_name_is_taken_once_in_any_case(shelf: Shelf, name: str) -> None:
    name_target(shelf.work, "mud", MUD, today=TODAY)
    with pytest.raises(BadInput, match="a target is called 'mud' already; choose another name"):
        name_target(shelf.work, name, MUD, today=TODAY)


def test_an_empty_name_is_refused(shelf: Shelf) -> None:
    with pytest.raises(BadInput, match="the name of the target is empty"):
        name_target(shelf.work, "  ", MUD, today=TODAY)


def test_a_target_is_matched_by_its_name_in_any_case_or_by_a_part(shelf: Shelf) -> None:
    swatch = shelf.swatch("UM", Lab(38.5, 4.0, 14.0))
    name_target(shelf.work, "mud under the hull", MUD, today=date(2026, 5, 4))
    for text in ("mud under the hull", "MUD Under the  hull", "hull", "hull mud"):
        target = read_target(shelf.work, text)
        assert target.lab == MUD
        assert target.given == "mud under the hull"
        assert target.note == "target of 2026-05-04"
        assert target.swatch_id is None
        (found,) = match_colour(shelf.work, target, Wanted()).matches
        assert found.swatch.id == swatch.id


def test_a_target_of_a_picture_tells_where_it_was_taken(shelf: Shelf) -> None:
    file = shelf.work.files.keep("creek.jpg", b"picture", TODAY)
    name_target(
        shelf.work, "mud", MUD, today=TODAY, place="cell B3 top left, 80 x 53 px", picture=file
    )
    note = f"target of {TODAY}, from creek.jpg cell B3 top left, 80 x 53 px"
    assert read_target(shelf.work, "mud").note == note


def test_a_colour_stays_a_colour_whatever_targets_are_called(shelf: Shelf) -> None:
    name_target(shelf.work, "tan mud", MUD, today=TODAY)
    assert read_target(shelf.work, "tan").given == "tan"
    assert read_target(shelf.work, "tan m").given == "tan mud"


def test_a_part_of_several_names_lists_them(shelf: Shelf) -> None:
    for number in range(1, 11):
        name_target(shelf.work, f"creek {number}", MUD, today=TODAY)
    sentence = (
        r"'creek' fits 10 targets; say which by its whole name: creek 1, .*creek 8 and 2 more"
    )
    with pytest.raises(NotFound, match=sentence) as refusal:
        read_target(shelf.work, "creek")
    assert len(refusal.value.candidates) == 10
    assert read_target(shelf.work, "creek 1").given == "creek 1"  # and not creek 10


def test_what_is_neither_colour_nor_target_is_told_of_both(shelf: Shelf) -> None:
    name_target(shelf.work, "mud", MUD, today=TODAY)
    with pytest.raises(
        NotFound, match=r"nothing is called 'estuary'; a target is a colour .*named"
    ):
        read_target(shelf.work, "estuary")


def test_a_missing_target_is_told_what_is_near_it(shelf: Shelf) -> None:
    with pytest.raises(NotFound, match="no target is called 'mud'; see: studio target list"):
        find_target(shelf.work, "mud")
    with pytest.raises(NotFound, match="no target is called ' '"):
        find_target(shelf.work, " ")
    name_target(shelf.work, "wet mudbank", MUD, today=TODAY)
    with pytest.raises(NotFound, match="no target is called 'wet mudbark'; near it: wet mudbank"):
        find_target(shelf.work, "wet mudbark")


def test_a_swatch_is_made_for_a_named_target(shelf: Shelf) -> None:
    name_target(shelf.work, "mud under the hull", MUD, today=TODAY)
    swatch = log_swatch(
        shelf.work,
        mix=shelf.mix("UM"),
        paper=shelf.paper("SR"),
        facts=SwatchFacts("", None, 1, Application.FLAT_WASH, DAY, target="mud under the hull"),
        reading=read(Lab(40.0, 4.0, 14.0)),
        today=TODAY,
    )
    assert swatch.facts.target == "mud under the hull"
    assert swatch.facts.target_lab == MUD

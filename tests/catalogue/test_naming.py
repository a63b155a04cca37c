"""A typed name finds the one thing it means, or says what it could mean."""

from dataclasses import dataclass
from typing import Final

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.catalogue.naming import CODE, code, find, initials
from studio.errors import BadInput, ExitStatus, NotFound


@dataclass(frozen=True)
class Thing:
    """Something with a code and a name."""

    code: str
    name: str
    kept: bool = True


SHELF: Final = (
    Thing("FU", "Northlight French Ultramarine"),
    Thing("UB", "Mill Lane Ultramarine Blue"),
    Thing("BS", "Northlight Burnt Sienna"),
    Thing("RS", "Northlight Raw Sienna"),
    Thing("RS2", "Mill Lane Raw Sienna", kept=False),
    Thing("BLUE", "Mill Lane Indigo"),
)


def _find(wanted: str, what: str = "paint", things: tuple[Thing, ...] = SHELF) -> str:
    thing = find(
        wanted,
        things,
        what=what,
        code_of=lambda each: each.code,
        name_of=lambda each: each.name,
        preferred=lambda each: each.kept,
    )
    return thing.code


@pytest.mark.parametrize(
    ("wanted", "means"),
    [
        ("FU", "FU"),
        (" fu ", "FU"),
        ("northlight burnt sienna", "BS"),
        ("Northlight   French  ULTRAMARINE", "FU"),
        ("burnt", "BS"),
        ("sienna burnt", "BS"),
        ("ultram mill", "UB"),
        ("blue", "BLUE"),
        ("blue ultramarine", "UB"),
    ],
)
def test_a_code_a_name_or_a_part_of_it_finds_the_thing(wanted: str, means: str) -> None:
    assert _find(wanted) == means


def test_a_code_goes_before_a_name_and_a_whole_name_before_a_part() -> None:
    things = (Thing("SKY", "Rain"), Thing("A", "Sky"), Thing("B", "Sky Blue"))
    assert _find("sky", things=things) == "SKY"
    assert _find("sky", things=things[1:]) == "A"


def test_among_several_the_only_preferred_one_wins() -> None:
    assert _find("raw sienna") == "RS"


def test_one_that_is_not_preferred_is_still_found_by_its_code_and_name() -> None:
    assert _find("rs2") == "RS2"
    assert _find("mill lane raw sienna") == "RS2"
    assert _find("lane raw") == "RS2"


def test_a_name_that_fits_several_lists_those_preferred() -> None:
    with pytest.raises(NotFound, match="'sienna' fits 2 paints; say which by its code") as refusal:
        _find("sienna")
    assert refusal.value.candidates == (
        "BS (Northlight Burnt Sienna)",
        "RS (Northlight Raw Sienna)",
    )
    assert all(label in str(refusal.value) for label in refusal.value.candidates)
    assert refusal.value.status is ExitStatus.NOT_FOUND


def test_where_none_is_preferred_all_are_listed() -> None:
    retired = tuple(Thing(f"P{n}", f"Old Green {n}", kept=False) for n in range(3))
    with pytest.raises(NotFound, match="fits 3 paints; say which") as refusal:
        _find("old green", things=retired)
    assert len(refusal.value.candidates) == 3


def test_many_candidates_are_cut_in_the_sentence_but_kept_in_full() -> None:
    many = tuple(Thing(f"M{n}", f"Grey {n}") for n in range(20))
    with pytest.raises(NotFound, match=r"fits 20 mixes.* and 12 more$") as refusal:
        _find("grey", "mix", many)
    assert len(refusal.value.candidates) == 20


@pytest.mark.parametrize("wanted", ["ultramrine", "siena", "idnigo", "BLEU"])
def test_a_slip_is_answered_with_what_is_near_it(wanted: str) -> None:
    with pytest.raises(NotFound, match=f"no paint is called '{wanted}'; near it: ") as refusal:
        _find(wanted)
    near = " ".join(refusal.value.candidates)
    assert {"ultramrine": "FU (", "siena": "BS (", "idnigo": "BLUE (", "BLEU": "BLUE ("}[
        wanted
    ] in near


def test_nothing_near_is_answered_with_where_to_look() -> None:
    with pytest.raises(NotFound, match=r"; see: studio paper list$") as refusal:
        _find("zzzz", "paper")
    assert refusal.value.candidates == ()


def test_every_word_must_stand_in_the_name() -> None:
    with pytest.raises(NotFound):
        _find("burnt ultramarine")


@pytest.mark.parametrize("wanted", ["", "   ", "\t"])
def test_an_empty_name_means_nothing(wanted: str) -> None:
    with pytest.raises(NotFound, match="no paint was named"):
        _find(wanted)


def test_on_an_empty_shelf_nothing_is_found() -> None:
    with pytest.raises(NotFound, match="see: studio paint list"):
        _find("blue", things=())


@pytest.mark.parametrize(
    ("typed", "stored"), [("fu", "FU"), (" Fu2 ", "FU2"), ("A" * 12, "A" * 12)]
)
def test_a_code_is_stored_in_capitals(typed: str, stored: str) -> None:
    assert code(typed) == stored


@pytest.mark.parametrize("typed", ["", " ", "2FU", "F U", "F-U", "F.", "Ä", "A" * 13, "_A"])
def test_what_is_no_code_is_refused(typed: str) -> None:
    with pytest.raises(BadInput, match="must start with a letter"):
        code(typed)


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("French Ultramarine", "FU"),
        ("burnt sienna", "BS"),
        ("Indigo", "IN"),
        ("Sap Green (Deep) 3", "SGD"),
        ("4 Blue", "BL"),
        ("Quinacridone-Gold", "QG"),
        ("1234", "X"),
        ("青", "X"),
        ("one two three four five six seven eight nine", "OTTFFSSE"),
    ],
)
def test_initials_are_those_of_the_words(name: str, expected: str) -> None:
    assert initials(name, set()) == expected


def test_taken_initials_are_numbered() -> None:
    assert initials("Burnt Sienna", {"BS"}) == "BS2"
    assert initials("Burnt Sienna", {"BS", "BS2", "BS3"}) == "BS4"


@given(st.lists(st.text(max_size=60), max_size=40))
def test_initials_are_always_a_new_and_proper_code(names: list[str]) -> None:
    taken: set[str] = set()
    for name in names:
        new = initials(name, taken)
        assert new not in taken
        assert CODE.fullmatch(new)
        assert code(new) == new
        taken.add(new)

"""A target is a CSS colour, a Munsell notation or the code of a swatch."""

import pytest

from studio.actions.log_swatch import edit_swatch
from studio.actions.name_target import name_target
from studio.actions.read_target import read_colour, read_target
from studio.colour.lab import Lab
from studio.errors import BadInput, NotFound
from tests.actions.conftest import Shelf
from tests.conftest import TODAY


@pytest.mark.parametrize(
    "text",
    ["lab(62 12 30)", "lab(62, 12, 30)", "LAB( 62% 12 30 )", "  lab(62  12   30) "],
)
def test_a_css_colour_is_read_however_it_is_spaced(text: str) -> None:
    target = read_colour(text)
    assert target.lab.coordinates == pytest.approx((62.0, 12.0, 30.0))
    assert target.lab.is_standard
    assert target.given == " ".join(text.split())
    assert target.note is None
    assert target.swatch_id is None


def test_the_same_colour_in_every_notation_is_the_same_target() -> None:
    # CSS Color 4: the named colour tan is rgb(210 180 140), #d2b48c.
    labs = [read_colour(text).lab.coordinates for text in ("tan", "#d2b48c", "rgb(210 180 140)")]
    assert labs[1] == pytest.approx(labs[0])
    assert labs[2] == pytest.approx(labs[0])
    assert labs[0] == pytest.approx((75.0, 7.0, 24.6), abs=1.0)


def test_a_munsell_notation_says_how_it_was_converted() -> None:
    target = read_colour("5yr 6 / 4")
    assert target.given == "5YR 6/4"
    assert target.note == "adapted from illuminant C to D50 (Bradford)"
    assert target.lab.a > 0 < target.lab.b
    # Munsell value 6 has Y = 29.30 % by the polynomial of ASTM D1535, which is L* 61.05.
    neutral = read_colour("N6/")
    assert neutral.lab.lightness == pytest.approx(61.05, abs=0.05)
    assert neutral.lab.chroma < 0.5


@pytest.mark.parametrize(
    "text",
    [
        "",
        "mud",
        "#12345",
        "lab(62 12)",
        "rgb(1 2 3 / 50%)",
        "5YR 6/40",
        "5YR 11/4",
        "lab(nan 1 1)x",
    ],
)
def test_what_is_no_colour_is_refused_with_examples(text: str) -> None:
    with pytest.raises(BadInput, match=r"write a colour like #b5843c, lab\(62 12 30\)"):
        read_colour(text)


def test_the_code_of_a_swatch_is_its_colour_and_names_the_swatch(shelf: Shelf) -> None:
    swatch = shelf.swatch("UM", Lab(30.0, 20.0, -60.0))
    target = read_target(shelf.work, " s1 ")
    assert (target.lab, target.given, target.swatch_id) == (swatch.lab, "S1", swatch.id)
    assert target.note == "swatch S1"
    assert read_target(shelf.work, "#b5843c") == read_colour("#b5843c")


def test_a_swatch_of_a_code_of_its_own_is_a_target_too(shelf: Shelf) -> None:
    swatch = shelf.swatch("UM", Lab(30.0, 20.0, -60.0))
    facts = type(swatch.facts)("CREEK7", None, 1, swatch.facts.application, swatch.facts.made_on)
    edit_swatch(shelf.work, swatch, facts, shelf.paper("SR"), TODAY)
    assert read_target(shelf.work, "creek7").swatch_id == swatch.id


def test_a_code_without_a_swatch_is_not_found_rather_than_no_colour(shelf: Shelf) -> None:
    with pytest.raises(NotFound, match="no swatch has the code 'S77'"):
        read_target(shelf.work, "S77")
    with pytest.raises(NotFound, match="nothing is called 'creek7'"):
        read_target(shelf.work, "creek7")


def test_a_name_that_fits_nothing_is_told_what_is_near_it_and_what_a_target_may_be(
    shelf: Shelf,
) -> None:
    name_target(shelf.work, "mud under the hull", Lab(40.0, 4.0, 9.0), today=TODAY)
    with pytest.raises(NotFound) as refusal:
        read_target(shelf.work, "Mud under the hill")
    assert refusal.value.candidates == ("mud under the hull",)
    sentence = str(refusal.value)
    assert "nothing is called 'Mud under the hill'; near it: mud under the hull; " in sentence
    for form in ("#b5843c", "lab(", "lch(", "Munsell", "S12", "studio target list"):
        assert form in sentence
    with pytest.raises(NotFound, match=r"nothing is called 'lavendar'; near it: lavender"):
        read_target(shelf.work, "lavendar")
    with pytest.raises(NotFound, match=r"nothing is called 'zzz'; a target is") as refusal:
        read_target(shelf.work, "zzz")
    assert refusal.value.candidates == ()


def test_a_mix_or_a_paint_is_no_one_colour_and_its_swatches_are_pointed_to(shelf: Shelf) -> None:
    shelf.swatch("2 UM + 1 BS", Lab(40.0, 4.0, 9.0))
    with pytest.raises(NotFound, match=r"'m1' is a mix and not one colour; .*studio mix show M1"):
        read_target(shelf.work, "m1")
    for name in ("um", "Ultramarine", "Saltings Colour Ultramarine", "saltings ultra"):
        with pytest.raises(NotFound, match=f"'{name}' is a paint .*studio mix list --with UM"):
            read_target(shelf.work, name)


@pytest.mark.parametrize("text", ["#12345", "lab(50 0)", "5YR 6", "20%", "", " ", "-3", "hsl(1)"])
def test_what_is_written_as_a_colour_and_is_none_is_bad_input(shelf: Shelf, text: str) -> None:
    with pytest.raises(BadInput, match="write a colour like #b5843c"):
        read_target(shelf.work, text)

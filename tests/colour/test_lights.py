"""Lights are named as CIE 15 names them, in any case, and each is told in words."""

import colour
import pytest

from studio.colour.lab import ILLUMINANTS
from studio.colour.lights import REFERENCE, USUAL, light_kind, read_lights


@pytest.mark.parametrize(
    ("typed", "lights"),
    [
        ("A", ("A",)),
        ("a, led-b3 ,fl3.15", ("A", "LED-B3", "FL3.15")),
        ("FL2,FL2,A,FL2", ("FL2", "A")),
        ("D50,D65", ("D65",)),
    ],
)
def test_lights_are_read_in_any_case_and_each_once(typed: str, lights: tuple[str, ...]) -> None:
    assert read_lights(typed) == lights


@pytest.mark.parametrize("typed", ["", "A,", "gallery", "D51", "A;FL2", "LED"])
def test_what_is_no_illuminant_is_refused_with_some_that_are(typed: str) -> None:
    with pytest.raises(
        ValueError, match=r"not an illuminant of CIE 15; name lights such as A, D65"
    ):
        read_lights(typed)


@pytest.mark.parametrize("typed", ["D50", "d50, D50"])
def test_the_reference_alone_is_nothing_to_compare_with(typed: str) -> None:
    with pytest.raises(ValueError, match="name another"):
        read_lights(typed)


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("A", "incandescent lamp"),
        ("B", "sunlight by filters, superseded"),
        ("D50", "daylight"),
        ("D65", "daylight"),
        ("E", "equal energy"),
        ("ID65", "daylight behind glass"),
        ("FL1", "fluorescent"),
        ("FL2", "fluorescent"),
        ("FL3.10", "fluorescent"),
        ("FL7", "fluorescent, broad bands"),
        ("FL11", "fluorescent, narrow bands"),
        ("HP1", "high pressure discharge"),
        ("LED-B3", "LED, blue with phosphor"),
        ("LED-BH1", "LED, blue with phosphor and red"),
        ("LED-RGB1", "LED, red, green and blue"),
        ("LED-V2", "LED, violet with phosphor"),
    ],
)
def test_a_light_is_told_in_words(name: str, kind: str) -> None:
    assert light_kind(name) == kind


def test_every_illuminant_has_words_and_an_unknown_one_none() -> None:
    assert all(light_kind(name) for name in ILLUMINANTS)
    with pytest.raises(AssertionError):
        light_kind("gallery")


def test_the_usual_lights_are_warm_white_and_cool_and_none_is_the_reference() -> None:
    xy = colour.CCS_ILLUMINANTS["CIE 1931 2 Degree Standard Observer"]
    kelvin = [float(colour.xy_to_CCT(xy[name], method="McCamy 1992")) for name in USUAL]
    # CIE 15: A 2856 K, LED-B3 4103 K, FL2 4230 K.
    assert kelvin == pytest.approx([2856, 4103, 4230], abs=40)
    assert REFERENCE not in USUAL

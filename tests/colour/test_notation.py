"""Colours as people write them: CSS Color 4 spellings and Munsell notations."""

from typing import Final

import numpy as np
import pytest
from coloraide import Color
from hypothesis import given
from hypothesis import strategies as st

from studio.colour.display import on_screen
from studio.colour.lab import Lab
from studio.colour.notation import canonical_munsell, css_to_lab

LAB_EXAMPLES: Final = {
    "lab(29.2345% 39.3825 20.0664)": "#7d2329",
    "lab(52.2345% 40.1645 59.9971)": "#c65d06",
    "lab(60.2345% -5.3654 58.956)": "#9d9318",
    "lab(62.2345% -34.9638 47.7721)": "#68a639",
    "lab(67.5345% -8.6911 -41.6019)": "#62acef",
}
"""Examples of lab() in CSS Color Module Level 4 and their sRGB, both from memory."""

LCH_EXAMPLES: Final = (
    "lch(29.2345% 44.2 27)",
    "lch(52.2345% 72.2 56.2)",
    "lch(60.2345% 59.2 95.2)",
    "lch(62.2345% 59.2 126.2)",
    "lch(67.5345% 42.5 258.2)",
)
"""The same five colours as lch() in CSS Color Module Level 4, from memory."""

NAMED: Final = {
    "tan": "#d2b48c",
    "orange": "#ffa500",
    "rebeccapurple": "#663399",
    "white": "#ffffff",
    "black": "#000000",
    "olivedrab": "#6b8e23",
}
"""Named colours of CSS Color Module Level 4, from memory."""


def _channels(hex_code: str) -> tuple[int, int, int]:
    return int(hex_code[1:3], 16), int(hex_code[3:5], 16), int(hex_code[5:7], 16)


def _close(lab: Lab, other: Lab, within: float = 1e-6) -> bool:
    pairs = zip(lab.coordinates, other.coordinates, strict=True)
    return lab.is_standard and other.is_standard and max(abs(x - y) for x, y in pairs) < within


def _by_coloraide(text: str) -> Lab:
    lightness, a, b = Color(text).convert("lab").coords(nans=False)
    return Lab(min(100.0, max(0.0, lightness)), a, b)


@pytest.mark.parametrize(("text", "hex_code"), [*LAB_EXAMPLES.items()])
def test_the_lab_examples_of_the_standard_have_its_srgb(text: str, hex_code: str) -> None:
    shown = on_screen(css_to_lab(text))
    assert shown.in_gamut
    steps = zip(shown.rgb, _channels(hex_code), strict=True)
    assert max(abs(ours - theirs) for ours, theirs in steps) <= 1


@pytest.mark.parametrize(("lch", "lab"), [*zip(LCH_EXAMPLES, LAB_EXAMPLES, strict=True)])
def test_the_lch_examples_of_the_standard_are_its_lab_examples(lch: str, lab: str) -> None:
    # The standard prints a* and b* to four decimals.
    assert _close(css_to_lab(lch), css_to_lab(lab), within=5e-4)


@pytest.mark.parametrize(("name", "hex_code"), [*NAMED.items()])
def test_a_named_colour_is_its_hex_code_in_any_case(name: str, hex_code: str) -> None:
    assert _close(css_to_lab(name), css_to_lab(hex_code))
    assert css_to_lab(f"  {name.title()} ") == css_to_lab(name)


@pytest.mark.parametrize(
    ("text", "same"),
    [
        ("#b5843c", "#B5843C"),
        ("#abc", "#aabbcc"),
        ("#aabbccff", "#aabbcc"),
        ("#abcf", "#aabbcc"),
        ("rgb(181 132 60)", "#b5843c"),
        ("rgb(181, 132, 60)", "#b5843c"),
        ("rgb(100% 0% 50.19607843%)", "#ff0080"),
        ("rgb(181 132 60 / 100%)", "#b5843c"),
        ("hsl(0 100% 50%)", "#ff0000"),
        ("hsl(120deg 100% 50%)", "#00ff00"),
        ("hsl(240, 100%, 50%)", "#0000ff"),
        ("hwb(60 0% 0%)", "#ffff00"),
        ("lab(100% 0 0)", "#ffffff"),
        ("lab(0% 0 0)", "#000000"),
        ("lch(50% 0 0)", "lab(50 0 0)"),
        ("lab(50% 50% -50%)", "lab(50 62.5 -62.5)"),
        ("lch(50% 50% 90deg)", "lch(50 75 90)"),
        ("lch(50 30 0.25turn)", "lab(50 0 30)"),
        ("lch(50 30 -90)", "lab(50 0 -30)"),
        ("lch(50 -30 90)", "lab(50 0 0)"),
        ("lab(62, 12, 30)", "lab(62 12 30)"),
        ("lab(62,12,30)", "lab(62 12 30)"),
        (" LAB( 62  12 30 ) ", "lab(62 12 30)"),
        ("lab(62 +12 30.0)", "lab(62 12 30)"),
        ("lab(62 12 30 / 1)", "lab(62 12 30)"),
        ("lab(62 none 30)", "lab(62 0 30)"),
        ("color(srgb 1 0 0)", "#ff0000"),
    ],
)
def test_two_spellings_are_one_colour(text: str, same: str) -> None:
    assert _close(css_to_lab(text), css_to_lab(same))


@given(st.floats(0.0, 100.0), st.floats(-200.0, 200.0), st.floats(-200.0, 200.0))
def test_lab_is_read_as_it_is_written(lightness: float, a: float, b: float) -> None:
    wanted = Lab(lightness, a, b)
    for text in (f"lab({lightness:.9f} {a:.9f} {b:.9f})", f"lab({lightness:.9f}%,{a:.9f},{b:.9f})"):
        assert _close(css_to_lab(text), wanted)


@given(st.integers(0, 0xFFFFFF))
def test_a_hex_code_comes_back_from_the_screen(number: int) -> None:
    hex_code = f"#{number:06x}"
    lab = css_to_lab(hex_code)
    assert on_screen(lab).hex == hex_code
    assert _close(lab, _by_coloraide(hex_code))


def test_lch_is_read_as_coloraide_reads_it() -> None:
    rng = np.random.default_rng(5)
    for lightness, chroma, hue in rng.uniform((0, 0, -720), (100, 150, 720), (500, 3)):
        text = f"lch({lightness:.6f} {chroma:.6f} {hue:.6f})"
        assert _close(css_to_lab(text), _by_coloraide(text))


@pytest.mark.parametrize(
    "text",
    [
        "", "   ", "garbage", "#12", "#12345", "#gggggg", "62 12 30", "lab 62 12 30", "lab(62 12)",
        "lab(62;12;30)", "lab(1.2.3 12 30)", "lab(nan 0 0)", "lab(50 infinity 0)", "lab(62 12 30",
        "lab(62 12 30) x", "rgb(1 2)", "currentcolor", "cmyk(0 0 0 0)", "color(srgb nan 0 0)",
        "5YR 6/4",
    ],
)  # fmt: skip
def test_what_is_no_colour_is_refused_by_its_text(text: str) -> None:
    with pytest.raises(ValueError, match="is not a CSS colour") as refusal:
        css_to_lab(text)
    assert repr(text) in str(refusal.value)


@pytest.mark.parametrize(
    "text",
    [
        "transparent",
        "#ffffff80",
        "#fff8",
        "rgb(0 0 0 / 50%)",
        "rgba(1, 2, 3, 0.9)",
        "lab(50 0 0/0)",
    ],
)
def test_a_transparent_colour_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="give an opaque colour"):
        css_to_lab(text)


@pytest.mark.parametrize(
    "text", ["lab(120 0 0)", "lab(100.01% 0 0)", "lab(-5 0 0)", "lch(101 5 5)", "color(srgb 2 2 2)"]
)
def test_a_lightness_outside_0_to_100_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="runs from 0 to 100"):
        css_to_lab(text)


@pytest.mark.parametrize(
    ("text", "lightness"),
    [("lab(100.0000001 0 0)", 100.0), ("lab(-0.0000001 0 0)", 0.0), ("oklab(100% 0 0)", 100.0)],
)
def test_a_hair_beyond_the_ends_is_rounding(text: str, lightness: float) -> None:
    assert css_to_lab(text).lightness == pytest.approx(lightness, abs=1e-5)


@pytest.mark.parametrize("text", ["lab(50 201 0)", "lab(50 0 -300)", "lch(50 250 0)"])
def test_an_axis_beyond_200_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="run from -200 to 200"):
        css_to_lab(text)


@pytest.mark.parametrize(
    "text",
    [
        "rgb(1e300 0 0)",
        "color(srgb 1e300 0 0)",
        "color(srgb 1e400 0 0)",
        "rgb(1e400 0 0)",
        "color(xyz 1e400 1e400 1e400)",
        "oklch(0.5 1e200 3)",
        "lch(50 30 1e400)",
        "lab(50 1e400 0)",
    ],
)
def test_a_number_beyond_all_bounds_is_refused_and_not_black(text: str) -> None:
    with pytest.raises(ValueError, match=r"is not a CSS colour|three finite numbers"):
        css_to_lab(text)


@pytest.mark.parametrize(
    ("text", "canonical"),
    [
        ("5YR 6/4", "5YR 6/4"),
        ("5yr6/4", "5YR 6/4"),
        (" 5.0 YR  6.0 / 4.0 ", "5YR 6/4"),
        ("2.5pb 4.25/10", "2.5PB 4.25/10"),
        ("10R 5/0", "10R 5/0"),
        ("N5", "N5/"),
        ("n 5/", "N5/"),
        ("N 5.50 /", "N5.5/"),
        ("N0", "N0/"),
    ],
)
def test_munsell_notations_have_one_spelling(text: str, canonical: str) -> None:
    assert canonical_munsell(text) == canonical
    assert canonical_munsell(canonical) == canonical


@pytest.mark.parametrize("hue", ["R", "YR", "Y", "GY", "G", "BG", "B", "PB", "P", "RP"])
def test_every_hue_family_of_munsell_is_known(hue: str) -> None:
    assert canonical_munsell(f"7.5{hue.lower()} 3/2") == f"7.5{hue} 3/2"


@pytest.mark.parametrize(
    "text",
    ["", "N", "YR 6/4", "5X 6/4", "5YR", "5YR 6", "5YR 6/", "5YR /4", "5RY 6/4", "-5YR 6/4", "tan",
     "5YR 6/4 x", "#b5843c", "5YR 6/-4", "5,5YR 6/4"],
)  # fmt: skip
def test_what_is_no_munsell_notation_is_none(text: str) -> None:
    assert canonical_munsell(text) is None

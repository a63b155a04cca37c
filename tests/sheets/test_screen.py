"""Patches, marks and small texts of the terminal."""

import io
from datetime import date
from typing import Final

import pytest
from rich.text import Text

from studio.catalogue.spread import Spread
from studio.colour.difference import Components
from studio.colour.lab import Lab
from studio.colour.words import Separation, separation
from studio.sheets.record_parts import spread_text
from studio.sheets.screen import (
    OUTSIDE,
    console_for,
    day_text,
    indented,
    lab_text,
    layers_text,
    legend,
    make_it,
    patch,
    print_parts,
    separation_text,
    shows_colour,
    signed,
    verified_text,
    water_text,
)
from tests.sheets.conftest import ColorSystem, Terminal, printed

# sRGB #808080 is L* 53.585 under D50 (CSS Color 4: rgb(128 128 128) is lab(53.59% 0 0)).
GREY: Final = Lab(53.585, 0.0, 0.0)
# Beyond sRGB in every direction of chroma: no screen colour has C* 150 at L* 50.
VIVID: Final = Lab(50.0, 0.0, -150.0)


def test_true_colour_shows_the_colour_itself(terminal: Terminal) -> None:
    console = terminal("truecolor")
    console.print(patch(console, GREY))
    assert printed(console) == "\x1b[48;2;128;128;128m    \x1b[0m\n"


def test_patches_side_by_side_touch(terminal: Terminal) -> None:
    console = terminal("truecolor")
    console.print(patch(console, GREY, Lab(100.0, 0.0, 0.0)))
    assert printed(console) == (
        "\x1b[48;2;128;128;128m    \x1b[0m\x1b[48;2;255;255;255m    \x1b[0m\n"
    )


@pytest.mark.parametrize("colours", ["256", "standard"])
def test_few_colours_are_marked_as_near(colours: ColorSystem, terminal: Terminal) -> None:
    console = terminal(colours)
    # rich keeps a style as it was first shown, so each kind of terminal gets a grey of its own.
    grey = Lab(60.0 if colours == "256" else 70.0, 0.0, 0.0)
    assert patch(console, grey).plain == "    ~"
    console.print(patch(console, grey))
    assert "48;2;" not in printed(console)
    assert printed(console).startswith("\x1b[")


def test_without_colour_the_code_stands_there(terminal: Terminal) -> None:
    console = terminal(None)
    assert patch(console, GREY).plain == "#808080"
    assert patch(console, GREY, Lab(0.0, 0.0, 0.0)).plain == "#808080 #000000"


def test_a_terminal_told_to_use_no_colour_gets_none(terminal: Terminal) -> None:
    console = terminal("truecolor", no_color=True)
    assert not shows_colour(console)
    console.print(patch(console, GREY))
    assert printed(console) == "#808080\n"


def test_the_variable_no_color_is_heeded(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("FORCE_COLOR", "1")
    monkeypatch.setenv("COLORTERM", "truecolor")
    monkeypatch.setenv("TERM", "xterm-256color")
    monkeypatch.delenv("NO_COLOR", raising=False)
    coloured = console_for(io.StringIO())
    assert (shows_colour(coloured), coloured.color_system) == (True, "truecolor")
    monkeypatch.setenv("NO_COLOR", "1")
    plain = console_for(io.StringIO())
    assert not shows_colour(plain)
    assert patch(plain, GREY).plain == "#808080"


def test_a_pipe_gets_no_colour(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("FORCE_COLOR", "TTY_COMPATIBLE"):
        monkeypatch.delenv(name, raising=False)
    assert not shows_colour(console_for(io.StringIO()))


@pytest.mark.parametrize("colours", ["truecolor", "256", None])
def test_a_colour_outside_the_screen_is_marked(colours: ColorSystem, terminal: Terminal) -> None:
    console = terminal(colours)
    assert patch(console, VIVID).plain.endswith("*14.0")
    assert "*" not in patch(console, GREY).plain


def test_the_legend_explains_the_marks_that_stand_there_and_no_others(terminal: Terminal) -> None:
    beyond = OUTSIDE
    near = "~ as near as this terminal shows"
    assert legend(terminal("truecolor"), GREY) is None
    assert legend(terminal("truecolor"), GREY, VIVID) == beyond
    assert legend(terminal("256"), GREY) == near
    assert legend(terminal("256"), VIVID) == f"{beyond}; {near}"
    assert legend(terminal(None), GREY) is None
    assert legend(terminal("256", no_color=True), VIVID) == beyond


@pytest.mark.parametrize(
    ("value", "text"),
    [(0.0, "0.0"), (0.04, "0.0"), (-0.04, "0.0"), (0.06, "+0.1"), (-3.25, "−3.2"), (12.0, "+12.0")],
)
def test_signed_numbers_have_their_sign_unless_they_round_to_zero(value: float, text: str) -> None:
    assert signed(value) == text


def test_a_lab_names_its_white() -> None:
    assert lab_text(GREY) == "L* 53.6  a* 0.0  b* 0.0  (D50/2°)"
    assert lab_text(Lab(41.0, 2.0, -12.0, "D65", 10)) == "L* 41.0  a* +2.0  b* −12.0  (D65/10°)"


def test_differences_stand_in_the_order_of_correcting() -> None:
    numbers = Components(lightness=-1.2, chroma=3.0, hue=0.5)
    assert separation_text(Separation((), numbers)) == "ΔL* −1.2, ΔH* +0.5, ΔC* +3.0"


def test_near_grey_the_lean_stands_where_the_words_name_it() -> None:
    apart = separation((50.0, 0.0, 0.0), (50.0, 1.0, -7.0))
    assert apart.words == ("much bluer", "a trace redder")
    assert separation_text(apart) == "ΔL* 0.0, Δa* +1.0, Δb* −7.0"


def test_a_correction_is_said_as_one_says_it_at_the_palette() -> None:
    needed = separation((50.0, 30.0, 0.0), (51.5, 30.0, 0.0))
    assert make_it(needed) == "Make it a little lighter (ΔL* +1.5, ΔH* 0.0, ΔC* 0.0)"
    none = separation((50.0, 30.0, 0.0), (50.3, 30.3, 0.3))
    assert none.words == ()
    assert make_it(none).startswith("It is off by too little in value, hue and chroma")


@pytest.mark.parametrize(
    ("mcdm", "said"),
    [
        (0.2, "3 dry readings agree to ΔE00 0.2 on average"),
        (1.0, "3 dry readings agree to ΔE00 1.0 on average"),
        (15.5, "3 dry readings differ from their mean by ΔE00 15.5 on average"),
    ],
)
def test_how_far_readings_agree_is_said_in_plain_words(mcdm: float, said: str) -> None:
    assert spread_text(Spread(mcdm, 3, ())) == said


@pytest.mark.parametrize(
    ("water", "text"),
    [(None, "water not recorded"), (0.0, "no water"), (3.0, "water 3:1"), (0.5, "water 0.5:1")],
)
def test_water_is_a_ratio(water: float | None, text: str) -> None:
    assert water_text(water) == text


def test_one_layer_is_singular() -> None:
    assert [layers_text(1), layers_text(2)] == ["1 layer", "2 layers"]


def test_a_day_has_no_leading_zero() -> None:
    assert day_text(date(2026, 3, 4)) == "4 Mar 2026"


def test_verified_and_unverified_are_never_told_alike() -> None:
    assert verified_text(None) == "unverified"
    assert verified_text(date(2026, 3, 4)) == "verified 4 Mar 2026"


def test_a_symbol_stays_on_the_line_of_its_number(terminal: Terminal) -> None:
    for width in range(24, 60):
        console = terminal(None, width=width)
        indented(console, "much darker than the mud (ΔL* −1.2 and ΔE00 4.0 of b* 12)", 4)
        lines = printed(console).splitlines()
        assert " ".join(line.strip() for line in lines) == (
            "much darker than the mud (ΔL* −1.2 and ΔE00 4.0 of b* 12)"
        )
        assert not [line for line in lines if line.endswith(("*", "00", " "))]
        assert all(line.startswith("    ") and len(line) <= width for line in lines)


def test_parts_that_do_not_fit_stand_below(terminal: Terminal) -> None:
    wide, narrow = terminal(None, width=40), terminal(None, width=20)
    for console in (wide, narrow):
        print_parts(console, "  1  ", ["#808080", Text("ΔE00 1.57"), "M38"], 5)
    assert printed(wide) == "  1  #808080  ΔE00 1.57  M38\n"
    assert printed(narrow) == "  1  #808080\n     ΔE00 1.57  M38\n"

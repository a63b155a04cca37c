"""Texts, words, numbers and days are taken as they are meant, or refused in one sentence."""

import math
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.catalogue.checks import iso_date, number, optional_text, past, text, word
from studio.catalogue.paint import Transparency
from studio.catalogue.paper import Surface
from studio.errors import BadInput, ExitStatus

TODAY = date(2026, 11, 25)


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("cold grey", "cold grey"),
        ("  cold \t\n grey  ", "cold grey"),
        ("cold\u00a0grey", "cold grey"),
        ("Grünspan, №3 – “dry”", "Grünspan, №3 – “dry”"),
        ("x" * 1000, "x" * 1000),
        (" " * 5000 + "x", "x"),
    ],
)
def test_white_space_is_folded(typed: str, kept: str) -> None:
    assert text(typed, "the note") == kept


def _kept(typed: str) -> str | None:
    try:
        return text(typed, "the note")
    except BadInput:
        return None


@given(st.text())
def test_a_text_is_refused_or_kept_for_good(typed: str) -> None:
    kept = _kept(typed)
    assert kept is None or _kept(kept) == kept
    assert kept is None or (kept.isprintable() and "  " not in kept and 0 < len(kept) <= 1000)


@given(st.text("abc éß№ ", max_size=300))
def test_a_printable_text_keeps_all_its_words(typed: str) -> None:
    assert (_kept(typed) or "").split() == typed.split()


@pytest.mark.parametrize("typed", ["", "   ", "\n\t", "\u2003"])
def test_an_empty_text_is_refused(typed: str) -> None:
    with pytest.raises(BadInput, match="the maker is empty") as refusal:
        text(typed, "the maker")
    assert refusal.value.status is ExitStatus.BAD_INPUT


def test_a_text_of_more_than_1000_characters_is_refused() -> None:
    with pytest.raises(BadInput, match="longer than 1,000 characters"):
        text("x" * 1001, "the note")


@pytest.mark.parametrize(
    "bad", ["a\x00b", "a\x1b[31mb", "a\x7fb", "a\u200bb", "a\u202eb", "a\ud800b"]
)
def test_characters_that_cannot_be_printed_are_refused(bad: str) -> None:
    with pytest.raises(BadInput, match="cannot be printed"):
        text(bad, "the note")


@pytest.mark.parametrize("nothing", [None, "", "  \n"])
def test_an_optional_text_may_be_nothing(nothing: str | None) -> None:
    assert optional_text(nothing, "the note") is None


def test_an_optional_text_is_checked_like_any_other() -> None:
    assert optional_text(" dried  slowly ", "the note") == "dried slowly"
    with pytest.raises(BadInput):
        optional_text("a\x00b", "the note")


@pytest.mark.parametrize(
    "spelled", ["cold pressed", "Cold Pressed", " COLD_PRESSED ", "cold  pressed"]
)
def test_a_word_is_known_in_any_spelling_of_its_case(spelled: str) -> None:
    assert word(spelled, Surface, "the surface") is Surface.COLD_PRESSED


def test_a_word_may_hold_a_hyphen() -> None:
    assert word("Semi-Opaque", Transparency, "the transparency") is Transparency.SEMI_OPAQUE


@pytest.mark.parametrize("spelled", ["", "cold", "smooth", "coldpressed"])
def test_an_unknown_word_is_refused_with_the_known_ones(spelled: str) -> None:
    with pytest.raises(BadInput, match="choose one of: hot pressed, cold pressed, rough"):
        word(spelled, Surface, "the surface")


@pytest.mark.parametrize("value", [0, 0.5, 100])
def test_a_number_within_its_limits_is_kept(value: float) -> None:
    assert number(value, "the water", 0, 100) == value


@pytest.mark.parametrize("value", [-0.001, 100.001, math.nan, math.inf, -math.inf])
def test_a_number_outside_its_limits_is_refused_with_them(value: float) -> None:
    with pytest.raises(BadInput, match="the water must be at least 0 and at most 100, not"):
        number(value, "the water", 0, 100)


@pytest.mark.parametrize("value", [10**400, -(10**400)])
def test_a_whole_number_of_hundreds_of_digits_is_refused_like_any_other(value: int) -> None:
    with pytest.raises(BadInput, match="at least 0 and at most 100, not"):
        number(value, "the water", 0, 100)


def test_the_lower_limit_can_be_left_out() -> None:
    assert number(0.001, "the price", 0, 9, above=True) == 0.001
    for value in (0.0, -1.0, math.nan, 9.5):
        with pytest.raises(BadInput, match="must be above 0 and at most 9, not"):
            number(value, "the price", 0, 9, above=True)


def test_today_and_before_are_past() -> None:
    assert past(TODAY, TODAY, "the day") == TODAY
    assert past(TODAY - timedelta(days=9000), TODAY, "the day") < TODAY


def test_tomorrow_is_refused() -> None:
    with pytest.raises(
        BadInput, match="the day 2026-11-26 lies in the future; today is 2026-11-25"
    ):
        past(TODAY + timedelta(days=1), TODAY, "the day")


@given(st.dates(min_value=date(1000, 1, 1)))
def test_a_day_is_read_as_it_is_written(day: date) -> None:
    assert iso_date(f" {day.isoformat()} ", "the day") == day


@pytest.mark.parametrize(
    "typed",
    ["", "today", "2026-3-14", "14.3.2026", "2026-02-30", "2026-13-01", "2026-03-14T00:00",
     "20260314", "2026-W11-6", "2026-W11", "0000-01-01", "-2026-03-14"],
)  # fmt: skip
def test_a_day_written_in_another_way_is_refused(typed: str) -> None:
    with pytest.raises(BadInput, match="is not a date; write it as 2026-03-14"):
        iso_date(typed, "the day")

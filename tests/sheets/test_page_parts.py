"""Clean text, marks and widths of columns."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.sheets.blocks import Grid
from studio.sheets.page_parts import column_shares, marked, plain
from tests.sheets.pages import KELP, LONG_WORD, MUD


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("Slipway Rag", "Slipway Rag"),
        ("two\nlines\tand a tab\r", "two lines and a tab "),
        ("bell\x07 escape\x1b[31m", "bell escape[31m"),
        ("right \u202eto left", "right to left"),
        ("L*\N{NO-BREAK SPACE}41", "L*\N{NO-BREAK SPACE}41"),
        ("half \ud800 a pair", "half \ufffd a pair"),
        ("no \uffff character", "no \ufffd character"),
        ("private \ue000 stays", "private \ue000 stays"),
        ("e\u0301 is one", "\u00e9 is one"),
        ("joined\N{ZERO WIDTH JOINER}letters", "joined\N{ZERO WIDTH JOINER}letters"),
    ],
)
def test_control_characters_are_left_out(text: str, shown: str) -> None:
    assert plain(text) == shown


def test_a_colour_outside_srgb_is_marked_before_its_caption() -> None:
    assert marked(MUD, "mud") == ("mud",)
    assert marked(KELP, "kelp") == ("*8.8 kelp",)


def test_columns_are_as_wide_as_asked_where_there_is_room() -> None:
    assert column_shares(Grid(("a", "b"), (("c", "d"),), (1, 3))) == (0.25, 0.75)
    assert column_shares(Grid(("a", "b"), (("c", "d"),))) == (0.5, 0.5)


def test_a_column_is_widened_for_its_longest_word() -> None:
    narrow, wide = column_shares(Grid(("harmonised", "detail"), (("", "a"),), (1, 30)))
    assert narrow * 188 == pytest.approx(10 * 2.3 + 4)
    assert wide == pytest.approx(1 - narrow)


def test_a_word_too_long_for_any_column_takes_no_more_than_a_long_one() -> None:
    shares = column_shares(Grid(("a", "b"), ((LONG_WORD, "c"),), (1, 9)))
    assert shares[0] * 188 == pytest.approx(16 * 1.8 + 4)


def test_blanks_that_do_not_break_hold_a_word_together() -> None:
    shares = column_shares(Grid(("a", "b"), (("?\N{NO-BREAK SPACE}unverified", "c"),), (1, 90)))
    assert shares[0] * 188 == pytest.approx(12 * 1.8 + 4)


@given(
    st.lists(
        st.tuples(st.text(max_size=30), st.floats(0.1, 100), st.text(max_size=30)),
        min_size=1,
        max_size=12,
    )
)
def test_shares_are_above_nothing_and_fill_the_width(
    columns: list[tuple[str, float, str]],
) -> None:
    names, widths, cells = zip(*columns, strict=True)
    shares = column_shares(Grid(names, (cells,), widths))
    assert len(shares) == len(columns)
    assert min(shares) > 0
    assert sum(shares) == pytest.approx(1)

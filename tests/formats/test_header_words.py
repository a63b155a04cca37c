"""What free text says of a day, a filter, a backing and a white."""

from datetime import date

import pytest

from studio.catalogue.reading import Backing
from studio.formats.header_words import (
    backing_in,
    day_in,
    illuminant_named,
    observer_named,
    white_in,
)
from studio.formats.plain_text import decoded, listed, number, printable


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("2026-05-04", date(2026, 5, 4)),
        ("2026/5/4 16:45", date(2026, 5, 4)),
        ("2026-05-04T10:00:00Z", date(2026, 5, 4)),
        ("04.05.2026", date(2026, 5, 4)),
        ("25/11/2026", date(2026, 11, 25)),
        ("11/25/2026", date(2026, 11, 25)),
        ("5/5/2026", date(2026, 5, 5)),
        ("5/4/2026", None),  # May or April
        ("May 4, 2026", date(2026, 5, 4)),
        ("Mon Sept 7 2026", date(2026, 9, 7)),
        ("4 May 2026", date(2026, 5, 4)),
        ("4. May 2026", date(2026, 5, 4)),
        ("4 Mud 2026", None),
        ("2026-02-30", None),
        ("2026-13-01", None),
        ("31.02.2026", None),
        ("at low water", None),
        ("", None),
    ],
)
def test_a_day_is_read_where_it_can_only_be_one(text: str, day: date | None) -> None:
    assert day_in(text) == day


@pytest.mark.parametrize(
    ("text", "backing"),
    [("White tile", Backing.WHITE), ("BLACK", Backing.BLACK), ("self-backing", Backing.SELF),
     ("wood", None), ("", None)],
)  # fmt: skip
def test_a_backing_is_found_in_its_words(text: str, backing: Backing | None) -> None:
    assert backing_in(text) is backing


def test_whites_have_the_names_of_cie_15() -> None:
    assert illuminant_named(" d65 ") == "D65"
    assert illuminant_named("F2") == illuminant_named("fl2") == "FL2"
    assert illuminant_named("TL84") is None
    assert [observer_named(name) for name in ("10_Degree", "2", "1931", "1964", "5", "")] == [
        10, 2, 2, 10, None, None,
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("texts", "white"),
    [
        (["a lamp"], (None, None)),
        (["illuminated by a window"], (None, None)),
        (["illuminant D65", "illuminant A, observer 10"], ("D65", 10)),
        (["10 deg", "D50 2°"], ("D50", 10)),
        (["Illuminant D51"], (None, None)),
        (["observer 5"], (None, None)),
    ],
)
def test_the_first_text_that_names_a_white_counts(
    texts: list[str], white: tuple[str | None, int | None]
) -> None:
    assert white_in(texts) == white


def test_numbers_have_a_point_or_a_comma_and_nothing_else() -> None:
    good = {"1": 1.0, " -0,5 ": -0.5, "+.5": 0.5, "1.": 1.0, "2e-3": 0.002}
    assert {text: number(text) for text in good} == good
    bad = ("", "nan", "inf", "1_0", "0x1", "1e999", "1.2.3", "1,2,3", "\u0664", "1 2", "-")
    assert [text for text in bad if number(text) is not None] == []


def test_names_lose_what_cannot_be_printed() -> None:
    assert printable("a\u200bb\tc\x00d \n e") == "ab c d e"
    assert len(printable("x" * 500)) == 200


def test_text_is_read_in_the_encodings_of_instruments() -> None:
    for encoding in ("utf-8", "utf-8-sig", "utf-16", "latin-1"):
        assert decoded("10° mud\x1a".encode(encoding), "f") == "10° mud"


def test_many_names_are_counted() -> None:
    assert listed(["a", "b"]) == "a, b"
    assert listed(["a", "b", "c"], 2) == "a, b and 1 more"

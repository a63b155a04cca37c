"""A fade test lies in a band of ASTM D4303, and tells where it contradicts a published rating."""

import csv
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.catalogue.evidence import Evidence
from studio.catalogue.fade import (
    BANDS,
    BLUE_WOOL_STEPS,
    INDICATIVE,
    FadeReading,
    FadeTest,
    category_of,
    category_of_step,
    exposure_of_step,
)
from studio.catalogue.lightfastness import CATEGORIES, LightfastnessRating, Scale
from studio.colour.lab import Lab

SHARED = Path(__file__).resolve().parents[2] / "shared"
HUNG = date(2026, 3, 1)
COVERED = Lab(40, 10, -30)


def _read(delta_e: float, day: date = HUNG) -> FadeReading:
    return FadeReading(day, COVERED, replace(COVERED, lightness=COVERED.lightness + delta_e))


def _test(*changes: float) -> FadeTest:
    readings = tuple(
        _read(change, date(2026, month, 1)) for month, change in enumerate(changes, start=4)
    )
    return FadeTest(1, "F1", 1, None, None, "south window", HUNG, readings=readings)


def _rated(rating: str, scale: Scale = Scale.ASTM_D4303) -> LightfastnessRating:
    return LightfastnessRating("PB29", scale, rating, "watercolour", None, "x", Evidence.MEMORY)


@pytest.mark.parametrize(
    ("delta_e", "category"),
    # ASTM D4303: I up to ΔE*ab 4, II up to 8, III up to 16, IV up to 24; V above, from memory.
    [
        (0.0, "I"), (3.99, "I"), (4.0, "I"), (4.01, "II"),
        (7.99, "II"), (8.0, "II"), (8.01, "III"),
        (15.99, "III"), (16.0, "III"), (16.01, "IV"),
        (23.99, "IV"), (24.0, "IV"), (24.01, "V"), (100.0, "V"),
    ],
)  # fmt: skip
def test_a_change_lies_in_its_band_of_astm_d4303(delta_e: float, category: str) -> None:
    assert category_of(delta_e) == category


@pytest.mark.parametrize(("low", "high"), [(4.3, 8.3), (4.8, 8.8), (5.3, 9.3)])
def test_the_last_bits_of_a_difference_push_nothing_over_a_limit(low: float, high: float) -> None:
    reading = FadeReading(HUNG, Lab(low, 0, 0), Lab(high, 0, 0))
    assert reading.delta_e > 4  # 8.3 - 4.3 in binary
    assert reading.category == "I"


def test_the_shipped_table_of_categories_agrees() -> None:
    with (SHARED / "astm_d4303_categories.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert [row["category"] for row in rows] == list(CATEGORIES)
    assert tuple(float(row["dE_ab_to"]) for row in rows[:-1]) == BANDS
    assert rows[-1]["dE_ab_to"] == ""
    assert all(
        category_of(float(row["dE_ab_to"])) == row["category"] for row in rows if row["dE_ab_to"]
    )


def test_the_shipped_table_sets_the_same_blue_wool_steps_beside_them() -> None:
    with (SHARED / "astm_d4303_categories.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    for row in rows:
        low, _, high = row["blue_wool_commonly_quoted"].partition("-")
        for step in range(int(low), int(high or low) + 1):
            assert category_of_step(step) == row["category"]


@given(st.floats(0, 300), st.floats(0, 300))
def test_more_change_is_never_a_better_category(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert CATEGORIES.index(category_of(low)) <= CATEGORIES.index(category_of(high))


def test_each_blue_wool_step_needs_about_twice_the_exposure_of_the_last() -> None:
    # CAMEO (Museum of Fine Arts, Boston), Blue Wool Standard page.
    steps = range(1, BLUE_WOOL_STEPS + 1)
    assert [exposure_of_step(step) for step in steps] == [1, 2, 4, 8, 16, 32, 64, 128]


def test_the_change_is_the_straight_distance_of_the_halves() -> None:
    # CIE 1976 ΔE*ab of (3, 4, 12) apart is 13.
    reading = FadeReading(HUNG, Lab(40, 10, -30), Lab(43, 14, -18))
    assert reading.delta_e == pytest.approx(13)
    assert reading.category == "III"


def test_the_worst_reading_counts_even_when_a_later_one_is_better() -> None:
    test = _test(2, 9, 7)
    assert test.worst is test.readings[1]
    assert _test().worst is None


@pytest.mark.parametrize(
    ("rating", "allows"), [("I", 4.0), ("II", 8.0), ("III", 16.0), ("IV", 24.0)]
)
def test_it_contradicts_a_rating_once_it_has_changed_more_than_that_allows(
    rating: str, allows: float
) -> None:
    assert not _test(1, allows).contradicts(_rated(rating))
    assert _test(1, allows + 0.1).contradicts(_rated(rating))


def test_nothing_is_worse_than_the_worst_rating_says() -> None:
    assert not _test(60).contradicts(_rated("V"))


def test_a_blue_wool_rating_is_held_to_the_category_beside_it() -> None:
    # Usual correspondence, from memory: 6 stands beside II, 5 beside III.
    assert _test(12).contradicts(_rated("8", Scale.BLUE_WOOL))
    assert _test(12).contradicts(_rated("6", Scale.BLUE_WOOL))
    assert not _test(12).contradicts(_rated("5", Scale.BLUE_WOOL))


def test_without_reading_or_rating_nothing_is_contradicted() -> None:
    assert not _test().contradicts(_rated("I"))
    assert not _test(50).contradicts(None)


def test_a_home_test_is_called_indicative_and_no_rating() -> None:
    assert "indicative" in INDICATIVE
    assert "no rating" in INDICATIVE

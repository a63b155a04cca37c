"""Ratings rank on both scales, and the worst that counts for a watercolour is found."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.catalogue.evidence import Evidence
from studio.catalogue.lightfastness import (
    CATEGORIES,
    FADING,
    WORDS,
    LightfastnessRating,
    Scale,
    category_rank,
    rank_of,
    worst,
)
from studio.errors import BadInput

CONFIRMED = date(2026, 5, 1)


def _rating(
    rating: str,
    medium: str = "watercolour",
    scale: Scale = Scale.ASTM_D4303,
    verified_on: date | None = None,
    source: str = "a test",
) -> LightfastnessRating:
    return LightfastnessRating(
        pigment="PB29",
        scale=scale,
        rating=rating,
        medium=medium,
        year=None,
        source=source,
        evidence=Evidence.MEMORY,
        verified_on=verified_on,
    )


@pytest.mark.parametrize(
    ("category", "rank"), [("I", 1), ("II", 2), ("III", 3), ("IV", 4), ("V", 5)]
)
def test_astm_categories_rank_from_best_to_worst(category: str, rank: int) -> None:
    assert category_rank(category) == rank
    assert rank_of(Scale.ASTM_D4303, category) == rank
    assert _rating(category).category == category
    assert category in WORDS


def test_a_category_may_be_typed_small() -> None:
    assert category_rank(" ii ") == 2


@pytest.mark.parametrize(
    ("step", "category"),
    [("8", "I"), ("7", "I"), ("6", "II"), ("5", "III"), ("4", "III"), ("3", "IV"), ("2", "IV"),
     ("1", "V")],
)  # fmt: skip
def test_blue_wool_steps_stand_beside_the_usual_category(step: str, category: str) -> None:
    # Usual correspondence, from memory; no part of ASTM D4303 or ISO 105-B.
    assert _rating(step, scale=Scale.BLUE_WOOL).category == category


@pytest.mark.parametrize(("span", "like"), [("3-6", "3"), ("6-3", "3"), ("7-8", "7"), ("6-7", "6")])
def test_a_blue_wool_range_counts_by_its_lower_end(span: str, like: str) -> None:
    assert rank_of(Scale.BLUE_WOOL, span) == rank_of(Scale.BLUE_WOOL, like)


@given(st.integers(1, 8), st.integers(1, 8))
def test_a_higher_blue_wool_step_never_ranks_worse(one: int, other: int) -> None:
    low, high = sorted((one, other))
    assert rank_of(Scale.BLUE_WOOL, str(high)) <= rank_of(Scale.BLUE_WOOL, str(low))


@pytest.mark.parametrize("rating", ["", "0", "VI", "IIII", "1", "A", "I-II", "excellent"])
def test_what_is_no_astm_category_is_refused_with_those_there_are(rating: str) -> None:
    with pytest.raises(BadInput, match="is not one of I, II, III, IV, V"):
        _rating(rating)


@pytest.mark.parametrize(
    "rating", ["", "0", "9", "10", "I", "3-", "-3", "3-9", "3 6", "3-6-7", "6.5"]
)
def test_what_is_no_blue_wool_step_is_refused(rating: str) -> None:
    with pytest.raises(BadInput, match="is not a step from 1 to 8 or a range such as 3-6"):
        _rating(rating, scale=Scale.BLUE_WOOL)


def test_a_paint_is_reported_from_category_three_on() -> None:
    # Common practice, no source: paintings for sale want I or II.
    assert [category for category in CATEGORIES if category_rank(category) >= FADING] == [
        "III",
        "IV",
        "V",
    ]


def test_of_no_ratings_there_is_no_worst() -> None:
    assert worst([]) is None


def test_the_worst_of_all_sources_counts() -> None:
    ratings = [_rating("I"), _rating("IV"), _rating("II")]
    assert worst(ratings) is ratings[1]


def test_scales_are_weighed_against_each_other() -> None:
    ratings = [_rating("III"), _rating("2", scale=Scale.BLUE_WOOL), _rating("I")]
    assert worst(ratings) is ratings[1]


def test_a_rating_in_watercolour_goes_before_one_in_another_medium() -> None:
    ratings = [_rating("V", "oil"), _rating("II"), _rating("IV", "acrylic")]
    assert worst(ratings) is ratings[1]


def test_ratings_in_other_media_count_where_there_are_no_others() -> None:
    ratings = [_rating("I", "oil"), _rating("III", "acrylic")]
    assert worst(ratings) is ratings[1]


def test_of_equal_ratings_the_verified_one_is_named() -> None:
    ratings = [_rating("III"), _rating("III", verified_on=CONFIRMED), _rating("III", source="b")]
    assert worst(ratings) is ratings[1]


def test_a_worse_rating_counts_even_when_a_better_one_is_verified() -> None:
    ratings = [_rating("IV"), _rating("I", verified_on=CONFIRMED)]
    assert worst(ratings) is ratings[0]


@given(st.lists(st.sampled_from(CATEGORIES), min_size=1))
def test_nothing_ranks_worse_than_the_worst(categories: list[str]) -> None:
    found = worst(iter([_rating(category) for category in categories]))
    assert found is not None
    assert found.rank == max(map(category_rank, categories))

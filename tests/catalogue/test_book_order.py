"""The orders of a swatch book: whole, stable, and in parts that say what they hold."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.catalogue.book_order import HUE_STEP, NEUTRALS, Order, is_neutral, parts_by
from studio.colour.lab import Lab
from studio.colour.words import NEUTRAL_CHROMA

axes = st.floats(-120.0, 120.0)
colours = st.builds(Lab, st.floats(0.0, 100.0), axes, axes)
many = st.lists(colours, max_size=40)


def _of(hue: float, chroma: float = 40.0, lightness: float = 50.0) -> Lab:
    angle = math.radians(hue)
    return Lab(lightness, chroma * math.cos(angle), chroma * math.sin(angle))


@given(many, st.sampled_from(Order))
def test_every_colour_stands_in_one_part_and_no_part_twice(labs: list[Lab], order: Order) -> None:
    parts = parts_by(order, labs)
    assert sorted(at for part in parts for at in part.places) == list(range(len(labs)))
    titles = [part.title for part in parts]
    assert len(titles) == len(set(titles))
    assert all(part.places for part in parts)


@given(many)
def test_by_chroma_and_by_value_each_is_no_more_than_the_last(labs: list[Lab]) -> None:
    chromas = [labs[at].chroma for part in parts_by(Order.CHROMA, labs) for at in part.places]
    assert chromas == sorted(chromas, reverse=True)
    values = [labs[at].lightness for part in parts_by(Order.VALUE, labs) for at in part.places]
    assert values == sorted(values, reverse=True)


@given(many)
def test_by_hue_steps_go_once_around_and_each_from_light_to_dark(labs: list[Lab]) -> None:
    placed = [labs[at] for part in parts_by(Order.HUE, labs) for at in part.places]
    for one, other in pairwise(placed):
        assert is_neutral(other) or not is_neutral(one)
        if is_neutral(one) == is_neutral(other):
            steps = [
                0.0 if is_neutral(lab) else (lab.hue - 340.0) % 360.0 // HUE_STEP
                for lab in (one, other)
            ]
            assert steps[0] <= steps[1]
            assert steps[0] < steps[1] or one.lightness >= other.lightness


@given(colours, st.sampled_from(Order), st.integers(2, 5))
def test_what_is_equal_stays_in_the_order_it_was_given_in(
    lab: Lab, order: Order, count: int
) -> None:
    (part,) = parts_by(order, [lab] * count)
    assert part.places == tuple(range(count))


@pytest.mark.parametrize(
    ("hue", "title"),
    [
        (0.0, "Magentas and roses"), (19.9, "Magentas and roses"), (20.1, "Reds"),
        (55.0, "Oranges and browns"), (85.0, "Yellows and ochres"), (140.0, "Greens"),
        (200.0, "Blue-greens"), (270.0, "Blues"), (320.0, "Violets"), (339.9, "Violets"),
        (340.1, "Magentas and roses"),
    ],
)  # fmt: skip
def test_a_hue_has_the_name_of_its_part(hue: float, title: str) -> None:
    (part,) = parts_by(Order.HUE, [_of(hue)])
    assert part.title == title
    (grey,) = parts_by(Order.HUE, [_of(hue, NEUTRAL_CHROMA - 0.01)])
    assert grey.title == NEUTRALS


def test_parts_follow_each_other_around_the_circle_with_neutrals_last() -> None:
    labs = [_of(hue) for hue in range(0, 360, 5)] + [Lab(90, 0, 0), Lab(20, 1, 1)]
    titles = [part.title for part in parts_by(Order.HUE, labs)]
    assert titles == [
        *("Magentas and roses", "Reds", "Oranges and browns", "Yellows and ochres", "Greens"),
        *("Blue-greens", "Blues", "Violets", NEUTRALS),
    ]
    assert parts_by(Order.HUE, labs)[-1].places == (72, 73)


@pytest.mark.parametrize(
    ("lab", "order", "title"),
    [
        (Lab(100, 0, 0), Order.VALUE, "L* 90 to 100"), (Lab(90, 0, 0), Order.VALUE, "L* 90 to 100"),
        (Lab(89.9, 0, 0), Order.VALUE, "L* 80 to 90"), (Lab(0, 0, 0), Order.VALUE, "L* 0 to 10"),
        (Lab(50, 60, 0), Order.CHROMA, "C* 60 and above"),
        (Lab(50, 59.9, 0), Order.CHROMA, "C* 40 to 60"),
        (Lab(50, 5, 0), Order.CHROMA, "C* 5 to 15"), (Lab(50, 0, 0), Order.CHROMA, "C* 0 to 5"),
    ],
)  # fmt: skip
def test_a_part_says_between_what_its_colours_lie(lab: Lab, order: Order, title: str) -> None:
    (part,) = parts_by(order, [lab])
    assert part.title == title

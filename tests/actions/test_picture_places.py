"""Corners and swatch areas as they are typed."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.actions.picture_places import areas_of, corners_of
from studio.errors import BadInput
from studio.picture.decoding import Picture
from studio.picture.encodings import Plain
from studio.picture.rgb_spaces import SRGB

PICTURE = Picture("tide.jpg", np.zeros((1000, 2000, 3), np.uint8), Plain(SRGB))


@pytest.mark.parametrize(
    "text",
    ["200,100 1800,100 1800,900 200,900", "10%,10% 90%,10% 90%,90% 10%,90%",
     "200px 100px; 1800,10% 1800 900 200,900"],
)  # fmt: skip
def test_corners_in_pixels_and_percent(text: str) -> None:
    expected = [[200, 100], [1800, 100], [1800, 900], [200, 900]]
    np.testing.assert_allclose(corners_of(text, PICTURE), expected)


@pytest.mark.parametrize("text", ["", "1,2 3,4 5,6", "1,2 3,4 5,6 7,mud", "1,2 3,4 5,6 7,8 9,9"])
def test_corners_that_are_not_four_points_are_refused(text: str) -> None:
    with pytest.raises(BadInput, match="are not clear; write four points, clockwise from"):
        corners_of(text, PICTURE)


def test_corners_outside_are_refused() -> None:
    with pytest.raises(BadInput, match="outside the picture, which is 2000 x 1000 pixels"):
        corners_of("0,0 2001,0 1800,900 200,900", PICTURE)


def test_areas_have_names() -> None:
    areas = areas_of(["S12=60,500,70,80", "s13 = 10%,10%,5%,5%"], None, PICTURE)
    assert [(name, spot.left, spot.top) for name, spot in areas] == [
        ("S12", 60, 500),
        ("s13", 200, 100),
    ]
    ((name, spot),) = areas_of(["60,500,70,80"], "S12", PICTURE)
    assert (name, spot.place) == ("S12", "area 60,500,70,80 px")


def test_areas_without_a_swatch_or_with_two_are_refused() -> None:
    with pytest.raises(BadInput, match="no swatch area is given; give each one as --area S12="):
        areas_of([], "S12", PICTURE)
    with pytest.raises(BadInput, match="area '60,500,70,80' has no swatch; write it like S12=60"):
        areas_of(["60,500,70,80"], None, PICTURE)
    with pytest.raises(BadInput, match="has no swatch"):
        areas_of(["=60,500,70,80"], None, PICTURE)
    with pytest.raises(BadInput, match="belongs to S12; leave out one of the two names"):
        areas_of(["S13=60,500,70,80"], "S12", PICTURE)


@given(st.text(max_size=40))
def test_any_text_is_a_place_or_one_sentence(text: str) -> None:
    for read in (lambda: corners_of(text, PICTURE), lambda: areas_of([text], None, PICTURE)):
        try:
            read()
        except BadInput as refused:
            assert str(refused)  # noqa: PT017 - nearly every example is refused

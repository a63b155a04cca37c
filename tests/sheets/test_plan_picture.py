"""The reference with its grid and marks: each at its spot, none upon another."""

import io
from typing import Final

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageDraw

from studio.picture.decoding import Picture
from studio.picture.encodings import Plain
from studio.picture.grid import Grid, kept_area
from studio.picture.rgb_spaces import SRGB
from studio.sheets import plan_picture as drawing
from studio.sheets.plan_picture import Mark, plan_picture

WIDTH: Final = 900
HEIGHT: Final = 600
MARGIN: Final = 90


def _flat() -> Picture:
    return Picture("creek.jpg", np.full((HEIGHT, WIDTH, 3), 128, np.uint8), Plain(SRGB))


def _grid(sheet: tuple[float, float] = (300.0, 200.0)) -> Grid:
    return Grid(kept_area(WIDTH, HEIGHT, sheet))


@pytest.mark.parametrize("at", [(0.3, 0.35), (0.62, 0.9), (0.05, 0.1)])
def test_a_ring_lies_around_its_spot_and_leaves_it_open(at: tuple[float, float]) -> None:
    picture = plan_picture(_flat(), _grid(), [Mark(at, "7")])
    pixels = np.asarray(Image.open(io.BytesIO(picture.file)).convert("L")).astype(int)
    # The canvas is 1600 pixels wide inside its margins, the file 1600 with them.
    scale = picture.width / (1600 + 2 * MARGIN)
    x, y = (
        round((MARGIN + at[0] * 1600) * scale),
        round((MARGIN + at[1] * 1600 * HEIGHT / WIDTH) * scale),
    )
    assert pixels[y, x] == pytest.approx(128, abs=12)
    around = pixels[y - 20 : y + 21, x - 20 : x + 21]
    assert around.min() < 40
    assert around.max() > 220


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(st.floats(0, 1), st.floats(0, 1)), min_size=1, max_size=6))
def test_numbers_keep_off_each_other_and_stay_on_the_picture(
    places: list[tuple[float, float]],
) -> None:
    draw = ImageDraw.Draw(Image.new("RGB", (1780, 1246)))
    whole = (90.0, 90.0, 1690.0, 1156.0)
    spots = [(90 + x * 1600, 90 + y * 1066) for x, y in places]
    taken = [drawing._around(*spot, drawing._RING, drawing._RING) for spot in spots]
    boxes: list[drawing.Box] = []
    for number, spot in enumerate(spots, start=1):
        box = drawing._draw_mark(draw, str(number), spot, taken, whole)
        taken.append(box)
        boxes.append(box)
    for index, box in enumerate(boxes):
        near = [
            other
            for place, other in enumerate(spots)
            if place != index and np.hypot(*np.subtract(other, spots[index])) < 200
        ]
        if not near:  # alone, there is always room
            assert drawing._within(box, whole)
            assert not any(drawing._overlap(box, other) for other in boxes if other is not box)


def test_what_is_shown_is_told_to_who_cannot_see_it() -> None:
    picture = plan_picture(_flat(), _grid(), [Mark((0.5, 0.5), "1"), Mark((0.2, 0.2), "2a")])
    assert picture.instead == (
        "The reference picture creek.jpg under a grid of 4 cells a side; spots 1, 2a are marked"
    )
    assert plan_picture(_flat(), _grid(), []).caption == (
        "creek.jpg; no colour was picked from it."
    )

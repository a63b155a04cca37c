"""Copies to print and lattices to read: the picture's own colours, in fewer pixels."""

import io
import warnings
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from studio.colour.display import on_screen
from studio.colour.lab import Lab
from studio.picture.decoding import Picture, from_bytes
from studio.picture.encodings import Plain
from studio.picture.lattice import lattice
from studio.picture.rgb_spaces import ADOBE_RGB, SRGB
from studio.picture.screen_copy import screen_copy
from studio.picture.spots import Spot

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import colour

rgb = st.tuples(*[st.integers(0, 255)] * 3)


def flat(triple: tuple[int, int, int], size: tuple[int, int] = (12, 9)) -> Picture:
    """A PNG of one colour, decoded."""
    file = io.BytesIO()
    Image.new("RGB", size, triple).save(file, "PNG")
    return from_bytes(file.getvalue(), "flat.png")


@settings(max_examples=60)
@given(rgb)
def test_a_flat_picture_has_the_lab_of_iec_61966_2_1(triple: tuple[int, int, int]) -> None:
    """Held against colour-science's own sRGB and Bradford, from 8-bit values to Lab under D50."""
    labs = lattice(flat(triple), Spot(2, 3, 5, 4, ""), 1000).reshape(-1, 3)
    d50 = np.array([0.3457, 0.3585])
    xyz = colour.RGB_to_XYZ(
        np.array(triple) / 255,
        colour.RGB_COLOURSPACES["sRGB"],
        d50,
        "Bradford",
        apply_cctf_decoding=True,
    )
    expected = colour.XYZ_to_Lab(xyz, d50)
    assert labs.shape == (20, 3)
    # The standard prints its matrix to four digits; the studio derives it from the primaries.
    assert np.abs(labs - expected).max() < 0.05


@pytest.mark.parametrize(
    ("triple", "lab"),
    [
        # IEC 61966-2-1: equal channels are neutral; 8-bit 119 decodes to 0.18447: L* 50.03.
        ((0, 0, 0), (0.0, 0.0, 0.0)),
        ((255, 255, 255), (100.0, 0.0, 0.0)),
        ((119, 119, 119), (50.03, 0.0, 0.0)),
    ],
)
def test_greys_are_neutral(triple: tuple[int, int, int], lab: tuple[float, float, float]) -> None:
    assert lattice(flat(triple), Spot(0, 0, 1, 1, ""), 1)[0, 0] == pytest.approx(lab, abs=0.01)


@given(rgb)
@settings(max_examples=60)
def test_a_copy_of_an_srgb_picture_keeps_its_numbers(triple: tuple[int, int, int]) -> None:
    assert (screen_copy(flat(triple), 100) == np.array(triple)).all()
    assert (screen_copy(flat(triple), 5) == np.array(triple)).all()


def test_a_copy_is_averaged_in_whole_squares_and_not_longer_than_asked() -> None:
    pixels = np.zeros((7, 10, 3), np.uint8)
    pixels[::2] = 200
    copy = screen_copy(Picture("stripes", pixels, Plain(SRGB)), 5)
    assert copy.shape == (3, 5, 3)
    assert (copy == 100).all()


def test_a_line_of_pixels_is_copied_too() -> None:
    pixels = np.full((1, 900, 3), 77, np.uint8)
    assert screen_copy(Picture("line", pixels, Plain(SRGB)), 100).shape == (1, 100, 3)
    assert screen_copy(Picture("post", pixels.swapaxes(0, 1), Plain(SRGB)), 100).shape == (
        100,
        1,
        3,
    )


def test_a_wider_space_is_turned_into_srgb() -> None:
    pixels = np.full((4, 4, 3), (120, 140, 90), np.uint8)
    picture = Picture("wide", pixels, Plain(ADOBE_RGB))
    lightness, a, b = map(float, picture.lab(pixels[:1, 0])[0])
    lab = Lab(lightness, a, b)
    assert tuple(screen_copy(picture, 4)[0, 0]) == on_screen(lab).rgb
    assert tuple(screen_copy(picture, 4)[0, 0]) != (120, 140, 90)


def test_sixteen_bits_and_grey_are_copied_in_eight_bits_and_colour() -> None:
    pixels = np.full((6, 6, 1), 257 * 130, np.uint16)
    copy = screen_copy(Picture("grey", pixels, Plain(SRGB)), 3)
    assert copy.dtype == np.uint8
    assert (copy == 130).all()
    assert copy.shape == (3, 3, 3)


@given(st.integers(1, 300), st.integers(1, 300), st.integers(1, 500))
@settings(max_examples=60)
def test_a_lattice_reads_evenly_and_about_as_many_as_asked(
    width: int, height: int, most: int
) -> None:
    rows, columns = np.indices((height + 3, width + 5)).astype(np.uint16)
    pixels = np.stack([rows, columns, columns], axis=-1)

    class Numbers:
        """An encoding whose Lab are the numbers themselves."""

        def lab(self, values: np.ndarray) -> np.ndarray:
            return values.astype(np.float64)

    numbers: Any = Numbers()
    found = lattice(Picture("numbers", pixels, numbers), Spot(5, 3, width, height, ""), most)
    downs, acrosses = found[:, 0, 0], found[0, :, 1]
    assert downs.min() >= 3
    assert acrosses.min() >= 5
    steps = {*np.diff(downs), *np.diff(acrosses)}
    assert len(steps) <= 1
    step = steps.pop() if steps else max(width, height)
    assert downs[0] - 3 <= step
    assert downs.max() > height + 2 - step
    assert acrosses.max() > width + 4 - step
    assert found.shape[0] * found.shape[1] <= most + width + height

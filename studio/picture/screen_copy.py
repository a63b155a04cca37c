"""A smaller copy of a picture in sRGB, to be drawn on and printed."""

from typing import Final

import numpy as np

from studio.colour.lab_arrays import Floats, lab_to_xyz
from studio.picture.decoding import Picture
from studio.picture.encodings import Pixels
from studio.picture.rgb_spaces import SRGB

_ROWS: Final = 64
"""Rows of the copy that are computed at once."""


def screen_copy(picture: Picture, longest: int) -> Pixels:
    """(height, width, 3) sRGB bytes (IEC 61966-2-1), its longer side at least half of `longest`.

    Pixels are averaged in whole squares, so that the sides become a whole fraction of the
    picture's; a picture that is no longer than `longest` keeps its size. What lies outside sRGB is
    cut off a channel at a time.

    Args:
        picture: any picture.
        longest: pixels of the longer side, which the copy does not exceed by more than one.
    """
    step = max(1, -(-max(picture.width, picture.height) // longest))
    height, width = max(1, picture.height // step), max(1, picture.width // step)
    down, across = min(step, picture.height), min(step, picture.width)
    copy = np.empty((height, width, 3), np.uint8)
    for top in range(0, height, _ROWS):
        rows = min(_ROWS, height - top)
        strip = picture.pixels[top * step : top * step + rows * down, : width * across]
        # Down first, then across: a sum over both axes at once takes four times as long.
        columns = strip.reshape(rows, down, -1).sum(axis=1, dtype=np.float32)
        squares = columns.reshape(rows, width, across, -1).sum(axis=2) / (down * across)
        copy[top : top + rows] = _srgb(picture.lab(np.rint(squares).astype(strip.dtype)))
    return copy


def _srgb(labs: Floats) -> Pixels:
    linear = np.clip(lab_to_xyz(labs) @ np.linalg.inv(SRGB.matrix).T, 0.0, 1.0)
    encoded = np.where(
        linear <= 0.0031308,  # noqa: PLR2004 - limit of the curve
        12.92 * linear,
        1.055 * np.maximum(linear, 0.0031308) ** (1 / 2.4) - 0.055,
    )
    rounded: Pixels = np.rint(255.0 * encoded).astype(np.uint8)
    return rounded

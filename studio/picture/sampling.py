"""What the pixels of a patch or an area say: their colour, and whether it can be trusted."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from studio.colour.lab_arrays import Floats
from studio.picture.decoding import Picture
from studio.picture.encodings import Pixels
from studio.picture.homography import Homography
from studio.picture.spots import Spot

PATCH_SHARE: Final = 0.5
"""Side of what is read of a patch, as a share of the patch's own: clear of gaps and edges."""

POINTS: Final = 48
"""Points across and down a patch at most."""

_AREA_POINTS: Final = 256
_BLOCKS: Final = 4
_TRIMMED: Final = 0.1
_LUMINANCE: Final = np.array([0.25, 0.65, 0.10])
"""About what each channel adds to luminance, for any camera; only evenness is judged by it."""


@dataclass(frozen=True, slots=True, eq=False)
class Sample:
    """The pixels of a patch or an area in brief.

    Args:
        linear: (3,) linear RGB, the mean of the pixels without the tenth farthest from the median.
        blocks: (b, 3) linear RGB of its sixteenths, or fewer where it is small.
        pixels: how many were looked at.
        full: share of them with a channel at full scale, 0 to 1.
        empty: share of them with a channel at zero, 0 to 1.
    """

    linear: Floats
    blocks: Floats
    pixels: int
    full: float
    empty: float

    def lightness_range(self, white: float) -> float:
        """L* of the lightest less that of the darkest block, beside a white of that luminance."""
        y = np.maximum(self.blocks @ _LUMINANCE, 0.0) / white
        lightness = np.where(y > 216 / 24389, 116.0 * np.cbrt(y) - 16.0, y * 24389 / 27)
        return float(np.ptp(lightness))

    @property
    def luminance(self) -> float:
        """About its luminance, 0 to about 1."""
        return float(self.linear @ _LUMINANCE)


def patch_sample(
    picture: Picture,
    onto: Homography,
    centre: Floats,
    size: tuple[float, float],
    points: int = POINTS,
) -> Sample:
    """The middle of a patch, at up to so many points across and down.

    Args:
        picture: where it lies.
        onto: from the unit square over the chart to pixels.
        centre: (2,) of the patch in the unit square.
        size: width and height of a patch in the unit square.
        points: across and down, where the patch has so many pixels.
    """
    half = np.array(size) * PATCH_SHARE / 2
    corners = onto(centre + half * np.array([[-1.0, -1], [1, -1], [1, 1], [-1, 1]]))
    sides = np.linalg.norm(np.roll(corners, -1, axis=0) - corners, axis=1)
    across, down = (
        int(np.clip((sides[first] + sides[first + 2]) / 2, 1, points)) for first in (0, 1)
    )
    x, y = np.meshgrid(
        (np.arange(across) + 0.5) / across * 2 - 1, (np.arange(down) + 0.5) / down * 2 - 1
    )
    places = onto(centre + half * np.column_stack([x.ravel(), y.ravel()]))
    columns, rows = np.floor(places).astype(np.int64).T
    values = picture.pixels[
        np.clip(rows, 0, picture.height - 1), np.clip(columns, 0, picture.width - 1)
    ]
    return _sample(picture, values.reshape(down, across, -1))


def area_sample(picture: Picture, spot: Spot) -> Sample:
    """A rectangle, at every pixel or, where it is larger, at 256 x 256 points or somewhat more."""
    step = max(1, min(spot.width, spot.height) // _AREA_POINTS)
    values = picture.pixels[
        spot.top : spot.top + spot.height : step, spot.left : spot.left + spot.width : step
    ]
    return _sample(picture, values)


def _sample(picture: Picture, values: Pixels) -> Sample:
    linear = picture.linear(values)
    flat = linear.reshape(-1, 3)
    away = np.linalg.norm(flat - np.median(flat, axis=0), axis=1)
    kept = flat[away <= np.quantile(away, 1.0 - _TRIMMED)]
    blocks = [
        block.reshape(-1, 3).mean(axis=0)
        for row in np.array_split(linear, min(_BLOCKS, linear.shape[0]), axis=0)
        for block in np.array_split(row, min(_BLOCKS, linear.shape[1]), axis=1)
    ]
    device = values.reshape(len(flat), -1)
    top = picture.full_scale - picture.full_scale // 255
    return Sample(
        kept.mean(axis=0),
        np.array(blocks),
        len(flat),
        float((device >= top).any(axis=1).mean()),
        float((device == 0).any(axis=1).mean()),
    )

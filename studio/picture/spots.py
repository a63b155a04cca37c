"""A spot of a picture, as a painter points at it, and the one colour that stands for it."""

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from studio.colour.difference import Triple, ciede2000
from studio.errors import BadInput
from studio.picture.grid import Grid, Rectangle

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

TOO_VARIED: Final = 3.0
"""A spot whose pixels differ by more ΔE00 (mean) than this holds several colours: 2 to 3 is what
passes across a painting (common practice, no source)."""

SIZE: Final = "2%"
"""Side of the square around a point, of the picture's shorter side."""

_LEAST_SIDE: Final = 3
_NUMBER: Final = re.compile(r"(-?\d+(?:\.\d+)?)\s*(%|px)?")
_ROUNDING: Final = 1e-6
_STEPS: Final = 200
_STILL: Final = 1e-6
"""The search for the median stops when it moves less than this, in units of L*a*b*."""


@dataclass(frozen=True, slots=True)
class Spot:
    """A rectangle of whole pixels, inside a picture.

    Args:
        left: the first column, counted from 0.
        top: the first row, counted from 0.
        width: columns, at least 1.
        height: rows, at least 1.
        place: where it is, in the words it was chosen with.
    """

    left: int
    top: int
    width: int
    height: int
    place: str

    @property
    def middle(self) -> tuple[float, float]:
        """(x, y) of its middle, pixels."""
        return self.left + self.width / 2, self.top + self.height / 2


@dataclass(frozen=True, slots=True)
class SpotColour:
    """The colour that stands for a spot.

    Args:
        lab: (L*, a*, b*) under the white of the pixels.
        spread: mean ΔE00 of the pixels from it.
    """

    lab: Triple
    spread: float

    @property
    def is_varied(self) -> bool:
        """Whether the spot holds several colours."""
        return self.spread > TOO_VARIED


def spot_at(text: str, size: str, width: int, height: int) -> Spot:
    """The square around a point, cut off at the edges of the picture.

    Args:
        text: `40%,62%` of width and height, or pixels counted from 0: `1200,850`.
        size: its side: `2%` of the shorter side of the picture, or pixels; 3 pixels at least.
        width: of the picture, pixels.
        height: of the picture, pixels.

    Raises:
        BadInput: the point is not clear or lies outside the picture, or the size is not above 0.
    """
    x, y = (
        _pixel(number, side) if is_share else number
        for (number, is_share), side in zip(
            _numbers(text, 2, "the point", "40%,62% or 1200,850"), (width, height), strict=True
        )
    )
    if not (0 <= x < width and 0 <= y < height):
        msg = (
            f"the point {text} lies outside the picture; it runs from 0% to 100%, or in pixels "
            f"from 0,0 to {width - 1},{height - 1}"
        )
        raise BadInput(msg)
    ((number, is_share),) = _numbers(size, 1, "the size of the spot", "2% or 25")
    shorter = min(width, height)
    wanted = number * shorter / 100 if is_share else number
    if not 0 < wanted <= shorter + _LEAST_SIDE:
        msg = (
            f"the size of the spot must be above 0 and at most the shorter side of the picture "
            f"({shorter} pixels, 100%), not {size}"
        )
        raise BadInput(msg)
    side = max(_LEAST_SIDE, round(wanted))
    left, top = max(0, int(x) - side // 2), max(0, int(y) - side // 2)
    right, bottom = (
        min(int(x) - side // 2 + side, width),
        min(int(y) - side // 2 + side, height),
    )
    return Spot(left, top, right - left, bottom - top, f"at {_written(text)}")


def spot_of_area(text: str, width: int, height: int) -> Spot:
    """A rectangle of a picture.

    Args:
        text: left, top, width and height, in pixels or in percent of the picture's sides.
        width: of the picture, pixels.
        height: of the picture, pixels.

    Raises:
        BadInput: it is not clear, is empty, or reaches beyond the picture.
    """
    numbers = _numbers(text, 4, "the area", "30%,55%,10%,5% or 1200,850,120,60")
    left, top, across, down = (
        number * side / 100 if is_share else number
        for (number, is_share), side in zip(numbers, (width, height, width, height), strict=True)
    )
    if across <= 0 or down <= 0:
        msg = f"the area {text} is empty; give a width and a height above 0"
        raise BadInput(msg)
    beyond = left + across > width + _ROUNDING or top + down > height + _ROUNDING
    if beyond or not (0 <= left < width and 0 <= top < height):
        msg = (
            f"the area {text} reaches beyond the picture, which is {width} x {height} pixels; "
            "give left, top, width and height inside it"
        )
        raise BadInput(msg)
    pixels = Rectangle(left, top, across, down).whole_pixels
    return Spot(*pixels, f"area {_written(text)}")


def spot_of_cell(text: str, grid: Grid) -> Spot:
    """A cell of the painter's grid, or a part of one.

    Raises:
        BadInput: there is no such cell, or it is smaller than a pixel.
    """
    cell = grid.cell(text)
    area = cell.area
    if min(area.width, area.height) < 1.0:
        msg = f"{cell.name} is smaller than a pixel of this picture; choose a larger part"
        raise BadInput(msg)
    return Spot(*area.whole_pixels, f"cell {cell.name}")


def colour_of_spot(labs: "NDArray[np.float64]") -> SpotColour:
    """The colour that stands for some pixels, and how far they differ from it.

    Args:
        labs: L*, a*, b* of each pixel, shape (n, 3), n at least 1.
    """
    import numpy as np  # noqa: PLC0415

    lab = geometric_median(labs)
    colours, counts = np.unique(labs, axis=0, return_counts=True)
    apart = [ciede2000(lab, (float(l), float(a), float(b))) for l, a, b in colours]  # noqa: E741
    return SpotColour(lab, float(np.average(apart, weights=counts)))


def geometric_median(labs: "NDArray[np.float64]") -> Triple:
    """The colour with the least sum of distances (ΔE*ab) to some colours.

    Up to half of the pixels may be glints, twigs or noise without carrying it away; and unlike the
    median of each axis, it does not depend on where the axes of the space lie.

    Source: Vardi, Zhang (2000), "The multivariate L1-median and associated data depth", PNAS 97(4),
    equations 2.3 to 2.7 (Weiszfeld's iteration, kept going where it meets a data point).

    Args:
        labs: shape (n, 3), n at least 1.
    """
    import numpy as np  # noqa: PLC0415

    x, weights = np.unique(labs, axis=0, return_counts=True)
    y = np.median(labs, axis=0)
    for _ in range(_STEPS):
        distances = np.linalg.norm(x - y, axis=1)
        away = distances > _STILL
        if not away.any():
            break
        pull = weights[away] / distances[away]
        t = pull @ x[away] / pull.sum()  # (2.4), T(y)
        r = float(np.linalg.norm(pull @ (x[away] - y)))  # (2.7)
        here = float(weights[~away].sum())  # eta(y)
        stay = 1.0 if r <= here else here / r
        moved = (1.0 - stay) * t + stay * y  # (2.6)
        still = float(np.linalg.norm(moved - y)) < _STILL
        y = moved
        if still:
            break
    # The steps creep where the median is a data point, so that the nearest one may be better yet.
    nearest = x[np.linalg.norm(x - y, axis=1).argmin()]
    y = min(y, nearest, key=lambda place: float(weights @ np.linalg.norm(x - place, axis=1)))
    lightness, a, b = map(float, y)
    return lightness, a, b


def _pixel(percent: float, side: int) -> float:
    """A share of a side in pixels; 100 % is the last one."""
    return side - 1 if percent == 100 else percent * side / 100  # noqa: PLR2004 - the edge itself


def _written(text: str) -> str:
    """Numbers as they were given, with their unit."""
    plain = "".join(text.lower().split())
    return plain if "%" in plain else plain.replace("px", "") + " px"


def _numbers(text: str, count: int, what: str, example: str) -> list[tuple[float, bool]]:
    """So many numbers separated by commas, each with whether it is a percentage."""
    parts = [_NUMBER.fullmatch(part.strip()) for part in text.lower().split(",")]
    found = [(float(part[1]), part[2] == "%") for part in parts if part is not None]
    if len(found) != count or len(parts) != count:
        msg = f"{what} {text!r} is not clear; write it like {example}"
        raise BadInput(msg)
    return found

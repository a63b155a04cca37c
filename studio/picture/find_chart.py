"""Find a chart in a picture: even, square regions that lie in rows and columns."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np

from studio.colour.lab_arrays import Floats
from studio.errors import BadInput
from studio.picture.chart import Chart
from studio.picture.decoding import Picture
from studio.picture.homography import UNIT_SQUARE, homography
from studio.picture.way_up import WayUp, way_up

_LONGEST: Final = 600
_STEPS: Final = (0.02, 0.035, 0.06)
"""Differences between neighbours, of full scale, below which a region is even."""

_LEAST_AREA, _LARGEST_SHARE = 30, 0.06
_SEEN: Final = 0.7
"""Share of the patches that must be seen as regions; black ones run into their border."""

_SURE: Final = 6.0
"""Median ΔE00 that a found chart may miss by."""

_APART: Final = 1.5
_SEEDS: Final = 60

Cell = tuple[int, int]


@dataclass(frozen=True, slots=True)
class _Region:
    """An even region: its middle (x, y) in pixels of the reduced picture, and its side."""

    middle: tuple[float, float]
    side: float


def find_chart(picture: Picture, chart: Chart) -> Floats:
    """(4, 2) corners of a chart, pixels, clockwise from its own top left.

    Raises:
        BadInput: it was not found for certain.
    """
    step = max(1, -(-max(picture.width, picture.height) // _LONGEST))
    best: WayUp | None = None
    for threshold in _STEPS:
        regions = _regions(_reduced(picture, step), threshold)
        cells = _lattice(regions)
        for corners in _placed(regions, cells, chart):
            found = way_up(picture, chart, corners * step)
            if best is None or found.misfit < best.misfit:
                best = found
        if best is not None and best.misfit <= _SURE and best.runner_up > _APART * best.misfit:
            return best.corners
    msg = (
        f"{chart.name} was not found in {picture.name} for certain; give the outer corners of its "
        "four corner patches, clockwise from its top left: "
        '--corners "120,80 1480,95 1470,990 110,975"'
    )
    raise BadInput(msg)


def _reduced(picture: Picture, step: int) -> Floats:
    """(height, width, channels) means of squares, 0 to 1."""
    height, width = picture.height // step, picture.width // step
    reduced = np.empty((height, width, picture.pixels.shape[2]))
    for row in range(height):
        strip = picture.pixels[row * step : (row + 1) * step, : width * step]
        reduced[row] = strip.reshape(step, width, step, -1).mean(axis=(0, 2))
    scaled: Floats = reduced / picture.full_scale
    return scaled


def _regions(values: Floats, threshold: float) -> list[_Region]:
    """Even regions that are about as wide as high and filled, as patches are."""
    # A quarter of a second, for the search alone.
    from scipy import ndimage  # noqa: PLC0415

    window = (3, 3, 1)
    spread = ndimage.maximum_filter(values, window) - ndimage.minimum_filter(values, window)
    labels, count = ndimage.label((spread < threshold).all(axis=2))
    y, x = np.indices(labels.shape, dtype=np.float64)
    numbers = np.arange(1, count + 1)
    area = ndimage.sum_labels(np.ones_like(x), labels, numbers)
    mean_x, mean_y = ndimage.mean(x, labels, numbers), ndimage.mean(y, labels, numbers)
    of_xx = ndimage.mean(x * x, labels, numbers) - mean_x**2
    of_yy = ndimage.mean(y * y, labels, numbers) - mean_y**2
    of_xy = ndimage.mean(x * y, labels, numbers) - mean_x * mean_y
    product = np.sqrt(np.maximum(of_xx * of_yy - of_xy**2, 0.0))
    half, root = (of_xx + of_yy) / 2, np.hypot((of_xx - of_yy) / 2, of_xy)
    longer, shorter = half + root, np.maximum(half - root, 1e-6)
    # A filled parallelogram has an area of 12 times the root of its second moments' product.
    fill = area / np.maximum(12 * product, 1e-6)
    good = (
        (area >= _LEAST_AREA)
        & (area <= _LARGEST_SHARE * labels.size)
        & (longer < 4 * shorter)
        & (np.abs(fill - 1) < 0.15)  # noqa: PLR2004 - ragged edges
    )
    return [
        _Region((float(mean_x[i]) + 0.5, float(mean_y[i]) + 0.5), float(np.sqrt(area[i])))
        for i in np.flatnonzero(good)
    ]


def _lattice(regions: list[_Region]) -> dict[Cell, int]:
    """The largest set of regions that lie in rows and columns: cell to index of the region."""
    if len(regions) < 4:  # noqa: PLR2004 - a homography needs four
        return {}
    middles = np.array([region.middle for region in regions])
    sides = np.array([region.side for region in regions])
    best: dict[Cell, int] = {}
    order = np.argsort(np.abs(np.log(sides / np.median(sides))))[:_SEEDS]
    for seed in order.tolist():
        if seed in best.values():
            continue
        for across, down in _bases(middles, sides, seed):
            grown = _grown(middles, sides, seed, across, down)
            if len(grown) > len(best):
                best = grown
    return best


def _bases(middles: Floats, sides: Floats, seed: int) -> Iterator[tuple[Floats, Floats]]:
    """Pairs of steps from a region to neighbours of like size, about at right angles."""
    steps = middles - middles[seed]
    distance = np.linalg.norm(steps, axis=1)
    alike = np.abs(np.log(sides / sides[seed])) < 0.5  # noqa: PLR2004 - a factor of 1.6
    near = alike & (distance > 0.8 * sides[seed]) & (distance < 2.2 * sides[seed])
    nearest = np.flatnonzero(near)[np.argsort(distance[near])][:6]
    for i in nearest:
        for j in nearest:
            cross = steps[i, 0] * steps[j, 1] - steps[i, 1] * steps[j, 0]
            if cross > 0.8 * distance[i] * distance[j]:
                yield steps[i], steps[j]


def _grown(
    middles: Floats, sides: Floats, seed: int, across: Floats, down: Floats
) -> dict[Cell, int]:
    """Regions reached from one by steps that are learnt anew at each, as perspective bends them."""
    cells: dict[Cell, int] = {(0, 0): seed}
    waiting = [((0, 0), across, down)]
    while waiting:
        (row, column), across, down = waiting.pop(0)
        here = middles[cells[row, column]]
        for d_row, d_column in ((0, 1), (1, 0), (0, -1), (-1, 0)):
            cell = row + d_row, column + d_column
            if cell in cells:
                continue
            step = d_column * across + d_row * down
            gaps = np.linalg.norm(middles - here - step, axis=1)
            found = int(gaps.argmin())
            close = gaps[found] < 0.25 * np.linalg.norm(step)
            alike = abs(np.log(sides[found] / sides[seed])) < 0.7  # noqa: PLR2004 - a factor of 2
            if not close or not alike or found in cells.values():
                continue
            cells[cell] = found
            moved = (middles[found] - here) * (d_column + d_row)
            waiting.append((cell, moved, down) if d_column else (cell, across, moved))
    return cells


def _placed(regions: list[_Region], cells: dict[Cell, int], chart: Chart) -> Iterator[Floats]:
    """Corners of each way to lay the chart's rows and columns over a lattice."""
    if not cells:
        return
    places = np.array(list(cells))
    middles = np.array([regions[index].middle for index in cells.values()])
    low, high = places.min(axis=0), places.max(axis=0)
    for rows, columns in {(chart.rows, chart.columns), (chart.columns, chart.rows)}:
        size = np.array([rows, columns])
        first, last = np.minimum(low, high - size + 1), np.maximum(low, high - size + 1)
        for top in range(int(first[0]), int(last[0]) + 1):
            for left in range(int(first[1]), int(last[1]) + 1):
                inside = ((places >= (top, left)) & (places < (top + rows, left + columns))).all(1)
                if inside.sum() < _SEEN * len(chart.patches):
                    continue
                unit = (places[inside] - (top, left) + 0.5)[:, ::-1] / (columns, rows)
                yield homography(unit, middles[inside])(UNIT_SQUARE)

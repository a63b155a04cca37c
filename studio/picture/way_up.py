"""Which way up a chart lies: the arrangement whose colours fit best."""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from studio.colour.correction import cleanest, fit_matrix
from studio.colour.lab_arrays import Floats
from studio.picture.chart import Chart
from studio.picture.decoding import Picture
from studio.picture.homography import Homography, from_corners
from studio.picture.sampling import patch_sample

STRANGE: Final = 10.0
"""Median ΔE00 of a plain matrix above which what was read is not this chart."""

_SUSPECT: Final = 6.0
"""Median ΔE00 from which some patches may be covered, so that the others are asked alone."""

_CLEAN: Final = 5.0
_APART: Final = 1.5
"""What the cleaner half may miss by, and how much more it must by any other way up."""

_CLEARLY: Final = 1.2
_POINTS: Final = 8


@dataclass(frozen=True, slots=True, eq=False)
class WayUp:
    """A chart laid onto four corners.

    Args:
        misfit: median ΔE00 of the patches through a plain matrix, each left out in turn.
        runner_up: the same of the next best way up.
        chart: in the arrangement that fits.
        onto: from the unit square over it to pixels.
        corners: (4, 2) pixels, clockwise from its top left.
        turned: another corner was given first.
    """

    misfit: float
    runner_up: float
    chart: Chart
    onto: Homography
    corners: Floats
    turned: bool


def way_up(picture: Picture, chart: Chart, corners: Floats, *, covered: bool = False) -> WayUp:
    """The best of eight: four corners to start from, rows and columns as they are or exchanged.

    The way the corners were given in is kept unless another fits clearly better.

    Args:
        picture: where it lies.
        chart: its patches.
        corners: (4, 2) pixels around it.
        covered: up to half of the patches may be covered; where all of them fit badly, the half
            that agrees best among itself decides.

    Raises:
        BadInput: the corners enclose nothing.
    """
    tried, clean = [], []
    for arranged in (chart, chart.transposed):
        size = 1 / arranged.columns, 1 / arranged.rows
        for first in range(4):
            rolled = _clockwise(np.roll(corners, -first, axis=0))
            onto = from_corners(rolled)
            linear = [
                patch_sample(picture, onto, c, size, _POINTS).linear for c in arranged.centres
            ]
            misfit = float(np.median(fit_matrix(np.array(linear), arranged.lab).errors))
            tried.append(WayUp(misfit, 0.0, arranged, onto, rolled, first != 0))
            if covered:
                half = cleanest(np.array(linear), arranged.lab)[1]
                clean.append(replace(tried[-1], misfit=half))
    if covered and min(one.misfit for one in tried) > _SUSPECT:
        best, second = sorted(clean, key=lambda one: one.misfit)[:2]
        if best.misfit <= _CLEAN and second.misfit > _APART * best.misfit:
            return replace(best, runner_up=second.misfit)
    ranked = sorted(tried, key=lambda one: one.misfit)
    best = tried[0] if tried[0].misfit <= _CLEARLY * ranked[0].misfit else ranked[0]
    next_best = ranked[1] if best is ranked[0] else ranked[0]
    return WayUp(best.misfit, next_best.misfit, best.chart, best.onto, best.corners, best.turned)


def _clockwise(corners: Floats) -> Floats:
    before, after = corners[1] - corners[0], corners[2] - corners[1]
    return corners if before[0] * after[1] > before[1] * after[0] else corners[[0, 3, 2, 1]]

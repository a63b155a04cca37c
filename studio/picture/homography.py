"""The flat chart as the camera sees it: a square carried onto any four corners, and back."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from studio.colour.lab_arrays import Floats
from studio.errors import BadInput

UNIT_SQUARE: Final = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]])
"""Corners clockwise from the top left, y downwards."""

_STRAIGHT: Final = 0.02
"""Sine of the angle below which a corner counts as none."""


@dataclass(frozen=True, slots=True, eq=False)
class Homography:
    """A projective map of the plane.

    Args:
        matrix: (3, 3), for homogeneous columns (x, y, 1).
    """

    matrix: Floats

    def __call__(self, points: Floats) -> Floats:
        """(n, 2) points carried over."""
        carried = np.column_stack([points, np.ones(len(points))]) @ self.matrix.T
        moved: Floats = carried[:, :2] / carried[:, 2:]
        return moved

    @property
    def inverse(self) -> "Homography":
        """The way back."""
        return Homography(np.asarray(np.linalg.inv(self.matrix), dtype=np.float64))


def homography(source: Floats, target: Floats) -> Homography:
    """The projective map that carries points best onto others, exactly for four.

    Source: Hartley, Zisserman (2004), "Multiple View Geometry", algorithm 4.2 (normalised DLT).

    Args:
        source: (n, 2), n at least 4.
        target: (n, 2).
    """
    before, after = _normaliser(source), _normaliser(target)
    (x, y), (u, v) = before(source).T, after(target).T
    one, zero = np.ones_like(x), np.zeros_like(x)
    rows = np.concatenate(
        [
            np.column_stack([x, y, one, zero, zero, zero, -u * x, -u * y, -u]),
            np.column_stack([zero, zero, zero, x, y, one, -v * x, -v * y, -v]),
        ]
    )
    solution = np.linalg.svd(rows)[2][-1].reshape(3, 3)
    return Homography(np.linalg.inv(after.matrix) @ solution @ before.matrix)


def from_corners(corners: Floats) -> Homography:
    """The map from the unit square onto a chart whose corners are given around it.

    Args:
        corners: (4, 2) pixels, clockwise from the chart's top left; anticlockwise is turned round.

    Raises:
        BadInput: three corners lie on a line, or the corners are not in order around the chart.
    """
    edges = np.roll(corners, -1, axis=0) - corners
    after = np.roll(edges, -1, axis=0)
    lengths = np.linalg.norm(edges, axis=1)
    turns = edges[:, 0] * after[:, 1] - edges[:, 1] * after[:, 0]
    sines = turns / np.maximum(lengths * np.roll(lengths, -1), 1e-9)
    if (sines > _STRAIGHT).all():
        return homography(UNIT_SQUARE, corners)
    if (sines < -_STRAIGHT).all():
        return homography(UNIT_SQUARE, corners[[0, 3, 2, 1]])
    msg = (
        "the four corners enclose no chart; give them in order around it, clockwise from the top "
        'left: --corners "120,80 1480,95 1470,990 110,975"'
    )
    raise BadInput(msg)


def _normaliser(points: Floats) -> Homography:
    """A shift and a scale that put points around the origin at a mean distance of √2."""
    middle = points.mean(axis=0)
    scale = np.sqrt(2.0) / max(float(np.linalg.norm(points - middle, axis=1).mean()), 1e-12)
    return Homography(
        np.array([[scale, 0, -scale * middle[0]], [0, scale, -scale * middle[1]], [0, 0, 1.0]])
    )

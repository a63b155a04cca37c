"""Evenly spread pixels of a part of a picture: a huge one costs no more than a small one."""

import numpy as np

from studio.colour.lab_arrays import Floats
from studio.picture.decoding import Picture
from studio.picture.spots import Spot


def lattice(picture: Picture, spot: Spot, most: int) -> Floats:
    """L*, a*, b* (D50/2°) of every pixel of a part, or of every second, third, … row and column.

    Args:
        picture: any picture.
        spot: the part, inside the picture.
        most: about how many pixels are read at most.

    Returns:
        Shape (rows, columns, 3).
    """
    step = int(np.ceil(np.sqrt(max(1.0, spot.width * spot.height / most))))
    row, column = min(step // 2, spot.height - 1), min(step // 2, spot.width - 1)
    bottom, right = spot.top + spot.height, spot.left + spot.width
    return picture.lab(
        picture.pixels[spot.top + row : bottom : step, spot.left + column : right : step]
    )

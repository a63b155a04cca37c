"""The ranges that numbers of paint optics must lie in."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

FloatArray = NDArray[np.float64]

ROUNDING = 1e-12
"""How far a fraction computed in double precision may pass its bound."""


def fraction(value: ArrayLike, name: str) -> FloatArray:
    """The value as an array; ValueError where an element is outside 0 to 1."""
    array = np.asarray(value, dtype=np.float64)
    if not np.all((array >= 0.0) & (array <= 1.0)):
        msg = f"the {name} must lie between 0 and 1"
        raise ValueError(msg)
    return array


def coefficient(value: ArrayLike, name: str) -> FloatArray:
    """The value as an array; ValueError where an element is negative or not finite."""
    array = np.asarray(value, dtype=np.float64)
    if not np.all((array >= 0.0) & np.isfinite(array)):
        msg = f"the {name} must be finite and 0 or more"
        raise ValueError(msg)
    return array

"""Spectra as files write them: named columns, points in any order, fractions or percent."""

import math
import re
from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import Final

from studio.colour.reflectance import HIGHEST, Reflectance

_COLUMN: Final = re.compile(
    r"(?:spectral|spec|refl|reflectance|r|nm|wl|lambda)?[\s_-]*(?:nm)?[\s_-]*"
    r"(\d{3,4}(?:[.,]\d+)?)\s*(?:nm)?",
    re.IGNORECASE | re.ASCII,
)
_FROM_NM: Final = 200.0
_TO_NM: Final = 2500.0
_SAME_STEP: Final = 0.01
"""nm; files print wavelengths with two or three decimals at most."""
_SURELY_FRACTION: Final = 1.5
"""Above it a text file may as well hold percent of a very dark sample."""

PERCENT_REMARK: Final = "reflectance is in percent and was divided by 100"

Points = Sequence[tuple[float, float]]
"""(wavelength in nm, value) of one spectrum."""


def wavelength_of(column: str) -> float | None:
    """The wavelength (nm) of a column such as SPECTRAL_NM380, SPECTRAL_380, nm380, SPEC_380, 380.

    None where the column is none of a spectrum.
    """
    found = _COLUMN.fullmatch(column.strip())
    if found is None:
        return None
    wavelength = float(found[1].replace(",", "."))
    return wavelength if _FROM_NM <= wavelength <= _TO_NM else None


def is_percent(values: Iterable[float]) -> bool:
    """Whether the reflectances of a whole file are percent; no fraction reaches 3.

    Raises:
        ValueError: the highest one is above 1.5 and below 3, so that it may be either.
    """
    highest = max(values, default=0.0)
    if _SURELY_FRACTION < highest < HIGHEST:
        msg = (
            f"reflectance goes up to {highest:g}, which may be percent or fluorescence; export it "
            "with a reading of the paper in the same file, so that the scale shows"
        )
        raise ValueError(msg)
    return highest >= HIGHEST


def spectrum_of(points: Points, *, percent: bool = False) -> Reflectance:
    """A spectrum from its points, in whatever order they stand.

    Args:
        points: (nm, reflectance), equal steps apart once sorted.
        percent: whether reflectance is in percent.

    Raises:
        ValueError: there are too few points, a wavelength stands twice or is missing, a value is
            negative or no number, or the spectrum does not cover 400 to 680 nm.
    """
    if not all(math.isfinite(number) for point in points for number in point):
        msg = "one of the wavelengths or values of its spectrum is not a number"
        raise ValueError(msg)
    ordered = sorted(points)
    if len(ordered) < 2:  # noqa: PLR2004 - a step needs two
        msg = "its spectrum has fewer than two wavelengths"
        raise ValueError(msg)
    _check_steps([wavelength for wavelength, _ in ordered])
    for wavelength, value in ordered:
        if value < 0.0:
            msg = (
                f"reflectance at {wavelength:g} nm is {value:g}, below zero; calibrate the "
                "instrument and read it again"
            )
            raise ValueError(msg)
    start = ordered[0][0]
    step = round((ordered[-1][0] - start) / (len(ordered) - 1), 6)
    scale = 100.0 if percent else 1.0
    return Reflectance(start, step, tuple(value / scale for _, value in ordered))


def _check_steps(wavelengths: Sequence[float]) -> None:
    steps = [after - before for before, after in pairwise(wavelengths)]
    if min(steps) < _SAME_STEP:
        twice = wavelengths[steps.index(min(steps))]
        msg = f"wavelength {twice:g} nm stands twice; export the spectrum again"
        raise ValueError(msg)
    if max(steps) - min(steps) <= _SAME_STEP:
        return
    usual = sorted(steps)[len(steps) // 2]
    whole = all(abs(step / usual - round(step / usual)) * usual <= _SAME_STEP for step in steps)
    if whole:
        at = steps.index(max(steps))
        msg = (
            f"wavelengths are missing between {wavelengths[at]:g} and {wavelengths[at + 1]:g} nm; "
            "export the spectrum without gaps"
        )
        raise ValueError(msg)
    shown = ", ".join(f"{wavelength:g}" for wavelength in wavelengths[:4])
    msg = f"its wavelengths ({shown}, … nm) are not equally far apart; export it in equal steps"
    raise ValueError(msg)

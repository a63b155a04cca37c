"""A measured reflectance spectrum, kept as it was read."""

import math
from dataclasses import dataclass
from typing import Final

VISIBLE_FROM: Final = 400.0
VISIBLE_TO: Final = 680.0
"""A spectrum must reach across this range (nm) before a colour is computed from it.

Instruments that end at 680 nm exist; beyond it lies 0.6 % of D50's X and 0.2 % of its Y, which the
nearest value stands for (ASTM E308)."""

HIGHEST: Final = 3.0
"""Reflectance factors above 1 occur with what fluoresces, such as optical brighteners; they stay
below 3 (ISO 17972-1), so from there on they are percent."""


@dataclass(frozen=True, slots=True)
class Reflectance:
    """Reflectance factors at equal steps of wavelength.

    Args:
        start: first wavelength, nm, 200 to 1000.
        step: distance of two readings, nm, above 0 and at most 20.
        values: reflectance factors as fractions, 0 to below 3 (1 is the perfect diffuser).

    Raises:
        ValueError: the spectrum does not cover 400 to 680 nm or a number is out of its range.
    """

    start: float
    step: float
    values: tuple[float, ...]

    def __post_init__(self) -> None:
        if not (math.isfinite(self.start) and 200.0 <= self.start <= 1000.0):  # noqa: PLR2004
            msg = f"a spectrum starts between 200 and 1000 nm, not at {self.start:g}"
            raise ValueError(msg)
        if not (math.isfinite(self.step) and 0.0 < self.step <= 20.0):  # noqa: PLR2004
            msg = f"the step of a spectrum is above 0 and at most 20 nm, not {self.step:g}"
            raise ValueError(msg)
        if self.start > VISIBLE_FROM or self.end < VISIBLE_TO:
            msg = (
                f"a spectrum must cover 400 to 680 nm; this one runs from {self.start:g} "
                f"to {self.end:g}"
            )
            raise ValueError(msg)
        for index, value in enumerate(self.values):
            if not math.isfinite(value) or value < 0.0:
                msg = f"reflectance at {self.start + index * self.step:g} nm is {value:g}"
                raise ValueError(msg)
        if max(self.values) >= HIGHEST:
            msg = (
                f"reflectance goes up to {max(self.values):g}: give fractions from 0 to 1, "
                "not percent"
            )
            raise ValueError(msg)

    @property
    def end(self) -> float:
        """Last wavelength, nm."""
        return self.start + self.step * (len(self.values) - 1)

    @property
    def wavelengths(self) -> tuple[float, ...]:
        """The wavelength of each value, nm."""
        return tuple(self.start + index * self.step for index in range(len(self.values)))


def fluorescence(spectrum: Reflectance) -> str | None:
    """Where a spectrum reflects more than falls on it, in words; None where it does not."""
    above = [
        (value, wavelength)
        for wavelength, value in zip(spectrum.wavelengths, spectrum.values, strict=True)
        if value > 1.0
    ]
    if not above:
        return None
    value, wavelength = max(above)
    return f"it fluoresces: reflectance is up to {value:.3g} at {wavelength:g} nm"

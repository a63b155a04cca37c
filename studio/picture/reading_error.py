"""The error to expect of one swatch read by a chart: its own, not the chart's.

`parts` says what it may err by for each reason; `expected_error` adds them as variances. The
weights were fitted by maximum likelihood on rendered photographs of pigments and checked on others:
`benchmarks/picture_error.py` fits and checks them again.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from studio.colour.lab_arrays import Floats, delta_e
from studio.picture.chart_reading import ChartReading

WEIGHTS: Final = np.array([0.18, 1.26, 0.366, 0.0189, 1.03])
"""Of each of `parts`, in standard deviations."""

USUAL: Final = 1.05
MOST: Final = 1.76
"""The 68 and 95 % quantiles of ΔE00 beside the standard deviation so predicted."""

_NEAR: Final = 20.0
"""ΔE00 within which the errors of patches speak for a swatch."""

_NEAREST: Final = 4
_STEP: Final = 0.05


@dataclass(frozen=True, slots=True)
class Expected:
    """What a reading errs by.

    Args:
        usual: ΔE00 that 68 % of such readings stay under.
        most: ΔE00 that 95 % stay under.
    """

    usual: float
    most: float

    def with_doubt(self, more: float) -> "Expected":
        """The same with a further cause of error, ΔE00, that is independent of the others."""
        return Expected(
            float(np.hypot(self.usual, more)),
            float(np.hypot(self.most, MOST / USUAL * more)),
        )


def expected_error(reading: ChartReading, linear: Floats, lab: Floats, place: Floats) -> Expected:
    """What the reading of a swatch errs by.

    Args:
        reading: of the chart.
        linear: (3,) linear RGB of the swatch.
        lab: (3,) its L*, a*, b* under D50/2° by this chart.
        place: (2,) where it lies, pixels.
    """
    deviation = float(np.linalg.norm(WEIGHTS * parts(reading, linear, lab, place)))
    return Expected(USUAL * deviation, MOST * deviation)


def parts(reading: ChartReading, linear: Floats, lab: Floats, place: Floats) -> Floats:
    """(5,) what a swatch may err by for each reason, ΔE00 before weighting.

    In order: what is always there; what patches of like colour were missed by when left out; how
    far the other corrections disagree about it (root mean square); the chart's mean error times
    the distance to the four patches nearest in colour; the doubt about the light at its place.
    """
    patches, errors = reading.fit.lab, reading.fit.errors
    apart = delta_e(patches, np.broadcast_to(lab, patches.shape))
    near = np.exp(-0.5 * (apart / _NEAR) ** 2) + 1e-6
    around = float(near @ errors / near.sum())
    away = float(np.sort(apart)[:_NEAREST].mean())
    even = linear[None] / reading.falloff.light(place[None])[:, None]
    opinions = np.array([lab, *(rival.lab(even)[0] for rival in reading.fit.rivals)])
    apart = delta_e(opinions[1:], np.broadcast_to(lab, opinions[1:].shape))
    disputed = float(np.sqrt((apart**2).mean())) if len(apart) else 0.0
    darker, lighter = (reading.fit.correction.lab(even * (1 + step)) for step in (-_STEP, _STEP))
    light = float(delta_e(darker, lighter)[0]) / (2 * _STEP) * reading.falloff.doubt(place)
    return np.array([1.0, around, disputed, reading.fit.mean * away, light])

"""How the light falls off over a picture: a slope of its logarithm, from chart and paper."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from studio.colour.correction import QUICK, fit_correction
from studio.colour.lab_arrays import Floats

_FIRST_TRIES: Final = ((0.0, 0.0), (0.1, 0.0), (0.0, 0.1))
_BETTER: Final = 0.95

PAPERS: Final = 3
"""Places on one sheet of paper that settle how the light falls off."""

_LEAST: Final = 0.02
"""Falloff over what was seen that is left alone: 2 % is ΔL* of 0.7 at most."""

_DIRECTIONS: Final = (
    *("the right", "the lower right", "the bottom", "the lower left"),
    *("the left", "the upper left", "the top", "the upper right"),
)


@dataclass(frozen=True, slots=True, eq=False)
class Falloff:
    """Light as a function of place.

    Args:
        slope: (2,) change of the logarithm of light a pixel, to the right and downwards; zero
            where no falloff was found.
        origin: (2,) the place whose light counts as 1, pixels.
        reach: (m, 2) the places it was found from, pixels.
        paper: what the light on the paper still varies by once the slope is taken out, as a
            fraction; None where paper was shown at fewer than four places.
    """

    slope: Floats
    origin: Floats
    reach: Floats
    paper: float | None = None

    def light(self, places: Floats) -> Floats:
        """(n,) light at (n, 2) places, 1 at the origin."""
        light: Floats = np.exp((places - self.origin) @ self.slope)
        return light

    @property
    def share(self) -> float:
        """What the light loses from the brightest to the darkest of the places seen, 0 to 1."""
        light = self.light(self.reach)
        return float(1.0 - light.min() / light.max())

    @property
    def towards(self) -> str:
        """Where it gets darker, in words."""
        angle = np.degrees(np.arctan2(-self.slope[1], -self.slope[0]))
        return _DIRECTIONS[round(float(angle) / 45.0) % 8]

    def is_beyond(self, place: Floats) -> bool:
        """Whether a place lies farther from all that was seen than half its breadth."""
        low, high = self.reach.min(axis=0), self.reach.max(axis=0)
        outside = np.maximum(np.maximum(low - place, place - high), 0.0)
        return bool(np.linalg.norm(outside) > 0.5 * np.linalg.norm(high - low))


def even_light(places: Floats) -> Falloff:
    """No falloff, for want of anything to learn one from."""
    return Falloff(np.zeros(2), places.mean(axis=0), places)


def falloff_of_paper(
    papers: Sequence[tuple[Floats, float]], chart: Floats | None = None
) -> Falloff:
    """The falloff over one sheet of paper, by least squares.

    Args:
        papers: middle (2,) in pixels and luminance of three places or more.
        chart: (n, 2) middles of the patches of a chart in the same light, pixels.
    """
    places = np.array([place for place, _ in papers])
    level = np.log(np.maximum([luminance for _, luminance in papers], 1e-6))
    origin = places.mean(axis=0)
    design = np.column_stack([places - origin, np.ones(len(papers))])
    slope = np.linalg.lstsq(design, level, rcond=None)[0][:2].astype(np.float64)
    reach = places if chart is None else np.concatenate([places, chart])
    found = _worth_it(slope, origin, reach)
    left = float(np.exp(np.ptp(level - np.log(found.light(places)))) - 1.0)
    return Falloff(found.slope, origin, reach, left if len(papers) > 3 else None)  # noqa: PLR2004


def falloff_of_chart(places: Floats, linear: Floats, lab: Floats) -> Falloff:
    """The falloff over a chart: the one that lets the correction err least on patches left out.

    So a camera's tone curve is not taken for falloff along the grey scale. A slope is kept only
    where it lowers that error by a twentieth.

    Args:
        places: (n, 2) middles of the patches, pixels.
        linear: (n, 3) linear RGB of the patches.
        lab: (n, 3) their reference Lab under D50/2°.
    """
    # A quarter of a second, for the search alone.
    from scipy.optimize import minimize  # noqa: PLC0415

    origin = places.mean(axis=0)
    breadth = float(np.ptp(places, axis=0).max())
    offsets = (places - origin) / breadth

    def error(slope: Floats) -> float:
        return fit_correction(linear / np.exp(offsets @ slope)[:, None], lab, QUICK).mean

    even = error(np.zeros(2))
    found = minimize(
        error,
        np.zeros(2),
        method="Nelder-Mead",
        options={"initial_simplex": _FIRST_TRIES, "xatol": 0.002, "fatol": 0.005, "maxfev": 80},
    )
    slope = np.asarray(found.x, dtype=np.float64) / breadth
    return _worth_it(slope if found.fun <= _BETTER * even else np.zeros(2), origin, places)


def _worth_it(slope: Floats, origin: Floats, reach: Floats) -> Falloff:
    found = Falloff(slope, origin, reach)
    return found if found.share >= _LEAST else Falloff(np.zeros(2), origin, reach)

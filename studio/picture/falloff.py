"""How the light falls off over a picture: a slope and a bend of its logarithm, with their doubt."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from typing import Final

import numpy as np

from studio.colour.correction import QUICK, Method, fit_correction, unexplained
from studio.colour.lab_arrays import Floats

_BETTER: Final = 0.95

PAPERS: Final = 3
"""Places on one sheet of paper that settle how the light falls off."""

_LEAST: Final = 0.02
"""Falloff over what was seen that is left alone: 2 % is ΔL* of 0.7 at most."""

UNKNOWN: Final = 0.08
"""Standard error of the light, as a fraction, from which it counts as not known: ΔL* of 1 to 3."""

_PAPER: Final = 0.02
"""What the luminance of one sheet of paper departs from slope and bend by, as a fraction: its own
unevenness, and what lamps do beyond the second order; an estimate."""

_SLOPE: Final = 0.3
_BEND: Final = 0.06
"""Standard deviations, before a picture is looked at, of the slope over a chart's breadth and of
the bend over its square: lamps and windows two to six breadths away, by the inverse-square law."""

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
        paper: what the light on the paper still varies by once all this is taken out, as a
            fraction; None where paper was shown at fewer than four places.
        bend: (3,) of its second order, a pixel squared: of x x, x y, y y.
        breadth: pixels that count as 1 in `doubts`.
        doubts: (5, 5) covariance of slope and bend, in breadths; None where nothing tells it.
    """

    slope: Floats
    origin: Floats
    reach: Floats
    paper: float | None = None
    bend: Floats = field(default_factory=lambda: np.zeros(3))
    breadth: float = 1.0
    doubts: Floats | None = None

    def light(self, places: Floats) -> Floats:
        """(n,) light at (n, 2) places, 1 at the origin."""
        terms = _terms(places - self.origin)
        light: Floats = np.exp(terms @ np.concatenate([self.slope, self.bend]))
        return light

    def doubt(self, place: Floats) -> float:
        """Standard error of the light at a place (2,), as a fraction of it."""
        if self.doubts is None:
            return 0.0
        terms = _terms((place - self.origin)[None] / self.breadth)[0]
        return float(np.sqrt(max(float(terms @ self.doubts @ terms), 0.0)))

    @property
    def share(self) -> float:
        """What the light loses from the brightest to the darkest of the places seen, 0 to 1."""
        light = self.light(self.reach)
        return float(1.0 - light.min() / light.max())

    @property
    def towards(self) -> str:
        """Where it gets darker, in words."""
        away = self.reach - self.reach.mean(axis=0)
        slope = np.linalg.lstsq(away, np.log(self.light(self.reach)), rcond=None)[0]
        slope = slope if slope.any() else self.slope
        return direction(-slope)

    def is_beyond(self, place: Floats) -> bool:
        """Whether the light at a place is not known.

        So it is where its standard error is above 8 %; where nothing tells that error, farther from
        all that was seen than half its breadth.
        """
        if self.doubts is not None:
            return self.doubt(place) > UNKNOWN
        low, high = self.reach.min(axis=0), self.reach.max(axis=0)
        outside = np.maximum(np.maximum(low - place, place - high), 0.0)
        return bool(np.linalg.norm(outside) > 0.5 * np.linalg.norm(high - low))


def direction(step: Floats) -> str:
    """Where a step (2,) of pixels to the right and downwards leads, in words."""
    angle = np.degrees(np.arctan2(step[1], step[0]))
    return _DIRECTIONS[round(float(angle) / 45.0) % 8]


def _terms(offsets: Floats) -> Floats:
    """(n, 5) terms of slope and bend of (n, 2) offsets."""
    x, y = offsets[:, 0], offsets[:, 1]
    return np.column_stack([x, y, x * x, x * y, y * y])


def even_light(places: Floats) -> Falloff:
    """No falloff, for want of anything to learn one from."""
    return Falloff(np.zeros(2), places.mean(axis=0), places)


def falloff_of_paper(papers: Sequence[tuple[Floats, float]]) -> Falloff:
    """The falloff over one sheet of paper alone, by least squares.

    Args:
        papers: middle (2,) in pixels and luminance of three places or more.
    """
    places = np.array([place for place, _ in papers])
    level = np.log(np.maximum([luminance for _, luminance in papers], 1e-6))
    origin = places.mean(axis=0)
    design = np.column_stack([places - origin, np.ones(len(papers))])
    slope = np.linalg.lstsq(design, level, rcond=None)[0][:2].astype(np.float64)
    found = _worth_it(Falloff(slope, origin, places))
    return replace(found, paper=_left(found, places, level))


def falloff_of_chart(
    places: Floats, linear: Floats, lab: Floats, papers: Sequence[tuple[Floats, float]] = ()
) -> Falloff:
    """The falloff over a chart and paper beside it, from both together.

    Slope and bend are those that leave least unexplained: of the patches after the correction was
    fitted anew (variable projection; Golub, Pereyra 1973, "The differentiation of pseudo-inverses
    and nonlinear least squares problems whose variables separate", SIAM Journal on Numerical
    Analysis 10(2)), of the paper's luminance, and of what lamps may do at all. So a camera's tone
    curve is not taken for falloff along the grey scale, places in one row say nothing of the
    direction across it, and the doubt grows where nothing was seen. Without paper, a falloff is
    kept only where it lowers the error on patches left out by a twentieth.

    Args:
        places: (n, 2) middles of the patches, pixels.
        linear: (n, 3) linear RGB of the patches.
        lab: (n, 3) their reference Lab under D50/2°.
        papers: middle (2,) in pixels and luminance of places on one sheet of paper.
    """
    origin = places.mean(axis=0)
    breadth = float(np.ptp(places, axis=0).max())
    terms = _terms((places - origin) / breadth)
    seen = np.array([place for place, _ in papers]).reshape(-1, 2)
    level = np.log(np.maximum([luminance for _, luminance in papers], 1e-6))
    on_paper = _terms((seen - origin) / breadth)
    found = [_settled(method, terms, linear, lab, on_paper, level) for method in QUICK]

    def error(light: Floats) -> float:
        return fit_correction(linear / np.exp(terms @ light)[:, None], lab, QUICK).mean

    light, doubts = min((one for one in found if one is not None), key=lambda one: error(one[0]))
    if not papers and error(light) > _BETTER * error(np.zeros(5)):
        light = np.zeros(5)
    falloff = _worth_it(
        Falloff(
            light[:2] / breadth,
            origin,
            np.concatenate([places, seen]),
            bend=light[2:] / breadth**2,
            breadth=breadth,
            doubts=doubts,
        )
    )
    return replace(falloff, paper=_left(falloff, seen, level))


def _settled(  # noqa: PLR0913, PLR0917 - patches and papers, each with place and value
    method: Method, terms: Floats, linear: Floats, lab: Floats, on_paper: Floats, level: Floats
) -> tuple[Floats, Floats] | None:
    """Slope and bend by one method with their covariance; None where it has too many terms."""
    # A quarter of a second, for the search alone.
    from scipy.optimize import least_squares  # noqa: PLC0415

    free = 3 * (len(lab) - method.terms) - 5
    if free < len(lab):
        return None
    spread = np.array([_SLOPE, _SLOPE, _BEND, _BEND, _BEND])
    flat = on_paper - on_paper.mean(axis=0) if len(level) else on_paper
    risen = level - level.mean() if len(level) else level

    def rest(light: Floats) -> Floats:
        return unexplained(method, linear / np.exp(terms @ light)[:, None], lab).ravel()

    def weighed(noise: float) -> Callable[[Floats], Floats]:
        return lambda light: np.concatenate(
            [rest(light) / noise, (risen - flat @ light) / _PAPER, light / spread]
        )

    light = np.zeros(5)
    jacobian = np.zeros((0, 5))
    for _ in range(2):
        noise = max(float(np.sqrt((rest(light) ** 2).sum() / free)), 1e-6)
        solved = least_squares(weighed(noise), light, method="lm", max_nfev=60)
        light, jacobian = np.asarray(solved.x), np.asarray(solved.jac)
    return light, np.asarray(np.linalg.inv(jacobian.T @ jacobian), dtype=np.float64)


def _left(falloff: Falloff, places: Floats, level: Floats) -> float | None:
    """What paper still varies by, as a fraction; None for fewer than four places."""
    if len(places) <= PAPERS:
        return None
    return float(np.exp(np.ptp(level - np.log(falloff.light(places)))) - 1.0)


def _worth_it(found: Falloff) -> Falloff:
    if found.share >= _LEAST:
        return found
    return replace(found, slope=np.zeros(2), bend=np.zeros(3))

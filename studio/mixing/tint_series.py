"""A mix's own tints, and the waters between those that were measured."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np

from studio.colour.tristimulus import ciede2000
from studio.mixing.anchor import anchored, predict_anchored, predict_between
from studio.mixing.characterisation import Characterisation
from studio.mixing.error_model import COVERED
from studio.mixing.observation import Observation, batch_of
from studio.mixing.ranges import FloatArray

WATERS: Final = (
    *(0.5, 0.75, 1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0, 3.5, 4.0, 4.5, 5.0, 5.5, 6.0, 7.0, 8.0),
    *(9.0, 10.0, 11.0, 12.0, 14.0, 16.0, 18.0, 20.0, 24.0, 28.0, 32.0),
)
"""Parts of water to one of paint that can be measured out."""

BEYOND: Final = 1.5
"""Paint in a film may be so many times that of the last measured tint, or that part of it."""

USUAL_ERROR: Final = 0.7
"""ΔE00 of a tint between two others where no inner tint tells it (of 78 washes of NTU WPSM that
the model had not seen, 68 % lay within 0.6 of what their neighbours told)."""
USUAL_COUNT: Final = 4
"""So many inner tints the usual error counts as."""
LESS_SURE: Final = 1.6
"""How many times the error of a tint between two others is taken for one beyond the last."""


@dataclass(frozen=True, slots=True, eq=False)
class Tint:
    """A tint that was not measured.

    Args:
        water: parts of water to one of paint.
        spectrum: predicted reflectance, (wavelengths,).
        lab: predicted L*a*b*.
        delta_e: ΔE00 from the wanted colour.
        beside: places of the measured tints it rests on: two it lies between, or the last one.
    """

    water: float
    spectrum: FloatArray
    lab: tuple[float, float, float]
    delta_e: float
    beside: tuple[int, ...]

    @property
    def is_between(self) -> bool:
        """Whether it lies between two measured tints."""
        return len(self.beside) > 1


def nearest_tint(
    known: Characterisation, series: Sequence[Observation], wanted: FloatArray
) -> Tint | None:
    """The measurable water at which a mix comes nearest a colour, measured tints left out.

    Between two tints what they differ by from the model goes over from one to the other; one step
    beyond the first and the last it is kept.

    Args:
        known: the paints.
        series: tints of one mix on one ground in as many layers, each with its water.
        wanted: L*a*b* under the light of the characterisation, (3,).

    Raises:
        ValueError: the water of one is not recorded.
    """
    waters = [_water(each) for each in series]
    of_water = {water: place for place, water in reversed(list(enumerate(waters)))}
    places = [of_water[water] for water in sorted(of_water)]
    found: list[Tint] = []
    for one, other in pairwise(places):
        inside = [each for each in WATERS if waters[one] < each < waters[other]]
        if inside:
            spectra = predict_between(known, series[one], series[other], inside)
            found.append(_best(known, inside, spectra, wanted, (one, other)))
    for end, sign in ((places[0], -1), (places[-1], 1)):
        outside = [
            each
            for each in WATERS
            if 0.0 < sign * np.log((1.0 + each) / (1.0 + waters[end])) <= np.log(BEYOND)
        ]
        if outside:
            spectra = _beyond(known, series[end], outside)
            found.append(_best(known, outside, spectra, wanted, (end,)))
    return min(found, key=lambda tint: tint.delta_e, default=None)


def left_out_errors(
    known: Characterisation, every_series: Iterable[Sequence[Observation]]
) -> FloatArray:
    """ΔE00 of each inner tint from what its two neighbours give without it, (inner tints,).

    The gap it is predicted across is wider than that of a tint between two neighbours.
    """
    errors = []
    for series in every_series:
        ordered = sorted(series, key=_water)
        for before, inner, after in zip(ordered[:-2], ordered[1:-1], ordered[2:], strict=True):
            if _water(before) < _water(inner) < _water(after):
                spectrum = predict_between(known, before, after, _water(inner))
                light = known.light
                errors.append(ciede2000(light.lab(spectrum)[0], light.lab(inner.spectrum)))
    return np.array(errors, dtype=np.float64)


def tint_error(errors: FloatArray, *, between: bool) -> float:
    """The ΔE00 that about 68 % of such tints stay within, from inner tints that were left out."""
    own = float(np.quantile(errors, COVERED)) if len(errors) else 0.0
    error = (len(errors) * own + USUAL_COUNT * USUAL_ERROR) / (len(errors) + USUAL_COUNT)
    return error if between else LESS_SURE * error


def _beyond(known: Characterisation, end: Observation, waters: Sequence[float]) -> FloatArray:
    shares = np.repeat(batch_of([end], known.paints).shares, len(waters), axis=0)
    return predict_anchored(known, anchored(known, end), shares, waters, end.paper, end.layers)


def _best(
    known: Characterisation,
    waters: Sequence[float],
    spectra: FloatArray,
    wanted: FloatArray,
    beside: tuple[int, ...],
) -> Tint:
    labs = known.light.lab(spectra)
    away = ciede2000(labs, wanted)
    best = int(np.argmin(away))
    lightness, a, b = map(float, labs[best])
    return Tint(waters[best], spectra[best], (lightness, a, b), float(away[best]), beside)


def _water(tint: Observation) -> float:
    if tint.water is None:
        msg = "a series of tints needs the water of each"
        raise ValueError(msg)
    return tint.water

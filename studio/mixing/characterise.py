"""K and S of every paint from all dry swatches at once, with how well they are known.

The swatches give the most probable parameters: those that lie near what is usual of watercolours
(`settings`) and near what was measured (`misfit`). All swatches of one mix on one ground share one
weight, since a series of dilutions repeats its mix's deviations.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

import numpy as np

from studio.colour.tristimulus import Tristimulus, ciede2000
from studio.mixing.characterisation import (
    Characterisation,
    Support,
    cosines,
)
from studio.mixing.error_model import bound, calibrated
from studio.mixing.least_squares import Fit, descend
from studio.mixing.leave_out import SHORT, leave_out
from studio.mixing.misfit import Measured, measured
from studio.mixing.observation import Observation, batch_of
from studio.mixing.parameters import wash_slopes
from studio.mixing.ranges import FloatArray
from studio.mixing.settings import DEFAULT, LAW, Settings
from studio.mixing.unknowns import Layout, Prior, prior

Key = tuple[tuple[tuple[int, float], ...], bytes]


class LeftOutColours(NamedTuple):
    """Swatches that were predicted from the others; not a number where that cannot be.

    Args:
        lab: predicted L*a*b*, (swatches, 3).
        delta_e: ΔE00 from the measured colour, (swatches,).
        expected: the error that about 68 % stay within, (swatches,).
    """

    lab: FloatArray
    delta_e: FloatArray
    expected: FloatArray


class _Whole(NamedTuple):
    paints: tuple[int, ...]
    layout: Layout
    known: Prior
    data: Measured
    fit: Fit


def characterise(
    swatches: Sequence[Observation],
    light: Tristimulus,
    *,
    settings: Settings = DEFAULT,
    start: Characterisation | None = None,
) -> Characterisation:
    """The paints of some swatches.

    The same swatches give the same numbers; a `start` near them gives them sooner, and the same to
    within the last step of the descent.

    Args:
        swatches: dry ones, each spectrum on the wavelengths of `light`.
        light: the light that colours are judged in.
        settings: what is usual, and weights.
        start: an earlier characterisation by the same light.

    Raises:
        ValueError: there is no swatch, or one has other wavelengths.
    """
    whole = _fit(swatches, light, settings, start)
    layout, data, fit = whole.layout, whole.data, whole.fit
    sets = [frozenset(each.parts) for each in swatches]
    others = leave_out(layout, data, whole.known, fit, sets, sets)
    parameters = layout.parameters(fit.vector)
    shown = light.lab(wash_slopes(parameters, data.batch, fit.ln_extra).R)
    distance = ciede2000(others.lab, data.lab)
    laid = (others.by_thickness * settings.thickness) ** 2
    return Characterisation(
        whole.paints,
        parameters,
        light,
        _covariance(layout, fit, whole.known.precision),
        settings.thickness,
        calibrated(SHORT * distance, others.variance + laid),
        _support(swatches, whole.paints),
        ciede2000(shown, data.lab),
        distance,
        fit.ln_extra,
    )


def left_out(
    swatches: Sequence[Observation],
    known: Characterisation,
    *,
    pairs: bool,
    settings: Settings = DEFAULT,
) -> LeftOutColours:
    """What the model predicts of each mix from the other swatches.

    Args:
        swatches: those that the paints were characterised from.
        known: what came of it.
        pairs: leave out all mixes of the same paints together, instead of one mix with all its
            dilutions.
        settings: as they were characterised with.

    Raises:
        ValueError: as `characterise`.
    """
    whole = _fit(swatches, known.light, settings, known)
    sets = [frozenset(each.parts) for each in swatches]
    groups = sets if pairs else [_mix_on_ground(each)[0] for each in swatches]
    others = leave_out(whole.layout, whole.data, whole.known, whole.fit, sets, groups)
    laid = (others.by_thickness * settings.thickness) ** 2
    return LeftOutColours(
        others.lab,
        ciede2000(others.lab, whole.data.lab),
        bound(known.error, others.variance + laid),
    )


def _fit(
    swatches: Sequence[Observation],
    light: Tristimulus,
    settings: Settings,
    start: Characterisation | None,
) -> _Whole:
    if not swatches:
        msg = "paints are characterised from swatches; there is none with a spectrum"
        raise ValueError(msg)
    for each in swatches:
        if len(each.spectrum) != len(light.wavelengths):
            msg = f"the spectrum of {each.name or 'a swatch'} needs the wavelengths of the light"
            raise ValueError(msg)
    paints = tuple(sorted({paint for each in swatches for paint in each.parts}))
    layout = Layout(len(paints), len(light.wavelengths))
    known = prior(layout, float(light.wavelengths[1] - light.wavelengths[0]), settings)
    data = _measured(swatches, paints, light, settings)
    fit = descend(layout, data, known, _start(layout, known.mean, paints, start))
    return _Whole(paints, layout, known, data, fit)


def _measured(
    swatches: Sequence[Observation],
    paints: Sequence[int],
    light: Tristimulus,
    settings: Settings,
) -> Measured:
    keys = [_mix_on_ground(each) for each in swatches]
    alike = Counter(keys)
    weight = [
        each.weight
        * settings.mix_weight
        / alike[key]
        * (settings.estimated if each.estimated else 1.0)
        for each, key in zip(swatches, keys, strict=True)
    ]
    per_wavelength = settings.spectral / np.sqrt(len(light.wavelengths))
    # The spectrum estimated from a Lab says no more than the Lab.
    spectral = [0.0 if each.estimated else per_wavelength for each in swatches]
    thickness = [
        settings.unknown_thickness if each.water is None else settings.thickness
        for each in swatches
    ]
    return measured(
        batch_of(swatches, paints),
        np.array([each.spectrum for each in swatches], dtype=np.float64),
        np.array(weight),
        np.array(spectral),
        np.array(thickness),
        settings.robust,
        light,
    )


def _mix_on_ground(each: Observation) -> Key:
    total = sum(each.parts.values())
    shares = tuple((paint, round(n / total, 9)) for paint, n in sorted(each.parts.items()))
    return shares, np.asarray(each.paper, dtype=np.float64).tobytes()


def _start(
    layout: Layout, mean: FloatArray, paints: Sequence[int], start: Characterisation | None
) -> FloatArray:
    """What is usual, with what an earlier characterisation knew in its place."""
    if start is None or start.parameters.ln_K.shape[1] != layout.wavelengths:
        return mean
    usual = layout.parameters(mean.copy())
    for row, paint in enumerate(paints):
        if paint in start.paints:
            before = start.paints.index(paint)
            usual.ln_K[row] = start.parameters.ln_K[before]
            usual.ln_S_part[row] = start.parameters.ln_S_part[before]
    return layout.vector(replace(usual, law=start.parameters.law))


def _covariance(layout: Layout, fit: Fit, precision: FloatArray) -> FloatArray:
    """Covariance of the unknowns along the cosines, and of the law."""
    from scipy.linalg import cho_factor, solve_triangular  # noqa: PLC0415 - heavy

    basis = cosines(layout.wavelengths)
    width, rows = basis.shape[1], 2 * layout.paints
    lift = np.zeros((layout.size, rows * width + len(LAW)))
    spectral = lift[: layout.spectral, : rows * width]
    blocks = spectral.reshape(rows, layout.wavelengths, rows, width)
    at = np.arange(rows)
    blocks[at, :, at, :] = basis
    lift[layout.spectral :, rows * width :] = np.eye(len(LAW))
    factor, _ = cho_factor(fit.last.matrix + precision, check_finite=False)
    half = solve_triangular(factor, lift, trans=1, check_finite=False)
    return np.asarray(half.T @ half)


def _support(swatches: Sequence[Observation], paints: Sequence[int]) -> tuple[Support, ...]:
    found = []
    for paint in paints:
        own = [each for each in swatches if paint in each.parts]
        mixed = [each for each in own if len(each.parts) > 1]
        partners = {other for each in mixed for other in each.parts} - {paint}
        found.append(
            Support(
                paint,
                len(own) - len(mixed),
                len(mixed),
                len({_mix_on_ground(each)[0] for each in mixed}),
                tuple(sorted(partners)),
                len({_mix_on_ground(each)[1] for each in own}),
                sum(each.estimated for each in own),
            )
        )
    return tuple(found)

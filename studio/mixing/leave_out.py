"""What the other swatches predict of some: whole mixes, or whole sets of paints, left out in turn.

Leaving swatches out moves the most probable parameters by one Newton step on the equations without
them, (H - H_out) step = g_out, instead of a fit anew; checked against fits anew in the tests.
"""

from collections import Counter
from collections.abc import Hashable, Sequence
from typing import Final, NamedTuple

import numpy as np
import numpy.typing as npt

from studio.mixing.least_squares import Fit
from studio.mixing.misfit import Measured, colour_slopes, equations
from studio.mixing.observation import Batch
from studio.mixing.parameters import wash_slopes
from studio.mixing.ranges import FloatArray
from studio.mixing.unknowns import Layout, Prior

FOLDS: Final = 8
"""At most so many times are swatches left out; groups of them are dealt out among these times."""

SHORT: Final = 1.025
"""By how much one step falls short of the error of a fit anew: 1.02 to 1.035 in three folds of real
watercolours."""


class LeftOut(NamedTuple):
    """Swatches against what the others predict; not a number where none is left out.

    Args:
        lab: predicted L*a*b*, (swatches, 3).
        variance: of the prediction's colour from the parameters, ΔE00², (swatches,).
        by_thickness: ΔE00 for a change of 1 in ln thickness, (swatches,).
    """

    lab: FloatArray
    variance: FloatArray
    by_thickness: FloatArray


def leave_out(  # noqa: PLR0913, PLR0917 - all that a fit knows
    layout: Layout,
    data: Measured,
    known: Prior,
    fit: Fit,
    sets: Sequence[frozenset[int]],
    groups: Sequence[Hashable],
) -> LeftOut:
    """Predictions of every mix of two and more paints from swatches outside its group.

    Args:
        layout: of the unknowns.
        data: the measured swatches.
        known: the prior.
        fit: to all of them.
        sets: the paints in each swatch.
        groups: what is left out together: each swatch's set of paints, or its mix.
    """
    from scipy.linalg import cho_factor, cho_solve, solve_triangular  # noqa: PLC0415 - heavy

    count = len(sets)
    found = LeftOut(*(np.full(shape, np.nan) for shape in ((count, 3), (count,), (count,))))
    here = layout.parameters(fit.vector)
    matrix = fit.last.matrix + known.precision
    gradient = fit.last.gradient + known.precision @ (fit.vector - known.mean)
    for rows in _dealt(sets, groups):
        part = subset(data, rows)
        out = equations(here, part, fit.ln_extra[rows], fit.influence[rows])
        factor, lower = cho_factor(matrix - out.matrix, check_finite=False)
        step = -cho_solve((factor, lower), gradient - out.gradient, check_finite=False)
        moved = layout.parameters(fit.vector + np.clip(step, -1.5, 1.5))
        slopes = wash_slopes(moved, part.batch, np.zeros(len(rows)))
        by_unknown, by_thickness = colour_slopes(moved, part.batch, slopes, part.root, part.light)
        spread = solve_triangular(
            factor, by_unknown.reshape(-1, layout.size).T, trans=1, check_finite=False
        )
        found.lab[rows] = part.light.lab(slopes.R)
        found.variance[rows] = (spread**2).sum(axis=0).reshape(-1, 3).sum(axis=1)
        found.by_thickness[rows] = np.sqrt((by_thickness**2).sum(axis=1))
    return found


def subset(data: Measured, rows: npt.NDArray[np.intp]) -> Measured:
    """Some of the swatches."""
    batch = Batch(*(np.asarray(each)[rows] for each in data.batch))
    return Measured(
        batch,
        data.spectra[rows],
        data.lab[rows],
        data.root[rows],
        data.weight[rows],
        data.spectral[rows],
        data.thickness[rows],
        data.robust,
        data.light,
    )


def _dealt(
    sets: Sequence[frozenset[int]], groups: Sequence[Hashable]
) -> list[npt.NDArray[np.intp]]:
    """The rows that are left out together: every paint's groups spread over the folds.

    A group stays where one of its paints would be left without any swatch.
    """
    paints = dict(zip(groups, sets, strict=True))
    held = Counter(paint for each in paints.values() for paint in each)
    folds: list[list[Hashable]] = [[] for _ in range(FOLDS)]
    for group, own in paints.items():
        if len(own) > 1 and min(held[paint] for paint in own) > 1:
            crowd = [(sum(len(own & paints[other]) for other in fold), len(fold)) for fold in folds]
            folds[crowd.index(min(crowd))].append(group)
    return [
        np.array([row for row, group in enumerate(groups) if group in fold])
        for fold in map(set, folds)
        if fold
    ]

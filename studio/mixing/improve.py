"""How well each paint is known, and which one swatch would tell most of it."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from studio.mixing.characterisation import Characterisation
from studio.mixing.error_model import bound
from studio.mixing.predict import recipes, sensitivity
from studio.mixing.ranges import FloatArray
from studio.mixing.settings import DEFAULT, USUAL_WATER

DARK_WATER: Final = 1.0
PALE_WATER: Final = 8.0
"""Parts of water of the two washes that are weighed against mixes."""


@dataclass(frozen=True, slots=True)
class Suggestion:
    """A swatch that is not there yet.

    Args:
        parts: parts of each paint by id.
        water: parts of water to one of paint.
        before: mean expected error of the paint's 1:1 mixes, ΔE00, as things are.
        after: the same once this swatch is measured.
    """

    parts: tuple[tuple[int, float], ...]
    water: float
    before: float
    after: float


def paint_errors(known: Characterisation, paper: ArrayLike) -> FloatArray:
    """Mean expected error of each paint's 1:1 mixes with every other, ΔE00, (paints,).

    A studio's only paint is judged by its own wash.

    Args:
        known: the paints.
        paper: reflectance of the paper, (wavelengths,).
    """
    means = []
    for row in range(len(known.paints)):
        variance, laid, _ = _uses(known, row, paper)
        means.append(float(bound(known.error, variance + laid).mean()))
    return np.array(means)


def best_swatch(
    known: Characterisation,
    paint: int,
    paper: ArrayLike,
    partners: Iterable[int] | None = None,
) -> Suggestion:
    """The swatch after which the paint's 1:1 mixes would be predicted best.

    Weighed are a dark and a pale wash of the paint alone and its 1:1 mix with each partner. What a
    swatch would tell follows from the covariance alone, before its colour is known.

    Args:
        known: the paints.
        paint: id of the paint.
        paper: reflectance of the paper the swatch would be laid on, (wavelengths,).
        partners: ids of paints it may be mixed with; all others by default.

    Raises:
        ValueError: the paint is not characterised.
    """
    row = known.paints.index(paint)
    among = set(known.paints if partners is None else partners) - {paint}
    offered: list[tuple[dict[int, float], float]] = [
        ({paint: 1.0}, DARK_WATER),
        ({paint: 1.0}, PALE_WATER),
        *(({paint: 1.0, other: 1.0}, USUAL_WATER) for other in known.paints if other in among),
    ]
    variance, laid, by_use = _uses(known, row, paper)
    before = float(bound(known.error, variance + laid).mean())
    width = by_use.shape[-1]
    spread = by_use.reshape(-1, width) @ known.covariance
    best: Suggestion | None = None
    for parts, water in offered:
        shares = np.array([[parts.get(each, 0.0) for each in known.paints]])
        by_swatch, by_thickness = sensitivity(known, recipes(shares, water, paper))
        rows, film = by_swatch[0], by_thickness[0]
        noise = np.eye(3) / DEFAULT.mix_weight + known.thickness**2 * np.outer(film, film)
        shared = spread @ rows.T
        told = shared @ np.linalg.inv(noise + rows @ known.covariance @ rows.T)
        gain = (told * shared).sum(axis=1).reshape(-1, 3).sum(axis=1)
        left = np.maximum(variance - gain, 0.0)
        after = float(bound(known.error, left + laid).mean())
        if best is None or after < best.after:
            best = Suggestion(tuple(sorted(parts.items())), water, before, after)
    assert best is not None  # noqa: S101 - the washes are always offered
    return best


def _uses(
    known: Characterisation, row: int, paper: ArrayLike
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """What a paint is judged by: variance by the parameters and by the thickness, and slopes."""
    count = len(known.paints)
    shares = np.eye(count)
    shares[:, row] = 1.0
    if count > 1:
        shares = np.delete(shares, row, axis=0)
    by_unknown, by_thickness = sensitivity(known, recipes(shares, USUAL_WATER, paper))
    spread = by_unknown @ known.covariance
    return (
        np.asarray((spread * by_unknown).sum(axis=(1, 2))),
        np.asarray(known.thickness**2 * (by_thickness**2).sum(axis=1)),
        by_unknown,
    )

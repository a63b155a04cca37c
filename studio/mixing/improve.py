"""How well each paint is known, and which one swatch would tell most of it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from studio.mixing.characterisation import Characterisation
from studio.mixing.error_model import bound
from studio.mixing.observation import Batch
from studio.mixing.predict import recipes, sensitivity
from studio.mixing.ranges import FloatArray
from studio.mixing.settings import DEFAULT, USUAL_WATER

DARK_WATER: Final = 1.0
PALE_WATER: Final = 8.0
"""Parts of water of the two washes that are weighed against mixes."""

Offer = tuple[dict[int, float], float]
"""A swatch that may be laid: parts of each paint by id, and parts of water to one of paint."""
Uses = tuple[FloatArray, FloatArray, FloatArray]
"""Of some recipes, ΔE00²: variance by the parameters and by the thickness; and their slopes."""


@dataclass(frozen=True, slots=True)
class Suggestion:
    """A swatch that is not there yet.

    Args:
        parts: parts of each paint by id.
        water: parts of water to one of paint.
        before: mean expected error of what it is judged by, such as the paint's 1:1 mixes, ΔE00,
            as things are.
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
    offered: list[Offer] = [
        *_alone(paint),
        *(({paint: 1.0, other: 1.0}, USUAL_WATER) for other in known.paints if other in among),
    ]
    return _most_telling(known, _uses(known, row, paper), offered, paper)


def most_telling(
    known: Characterisation,
    shares: FloatArray,
    water: FloatArray,
    paper: ArrayLike,
    layers: float = 1.0,
) -> Suggestion:
    """The swatch after which some recipes would be predicted best.

    Weighed are a dark and a pale wash of each of their paints alone, and the 1:1 mix of each two
    that are in one of them together.

    Args:
        known: the paints.
        shares: parts of each paint, (recipes, paints) in the order of `known.paints`.
        water: parts of water to one of paint, (recipes,).
        paper: reflectance of the paper, (wavelengths,).
        layers: how many of the film lie on each other in the recipes; the swatch is of one.

    Raises:
        ValueError: a number out of its range, or a recipe without paint.
    """
    held = [{known.paints[place] for place in np.flatnonzero(row)} for row in shares]
    paints = sorted(set().union(*held))
    pairs = sorted({pair for each in held for pair in combinations(sorted(each), 2)})
    offered: list[Offer] = [
        *(offer for paint in paints for offer in _alone(paint)),
        *(({one: 1.0, other: 1.0}, USUAL_WATER) for one, other in pairs),
    ]
    uses = _judged_by(known, recipes(shares, water, paper, layers))
    return _most_telling(known, uses, offered, paper)


def _alone(paint: int) -> list[Offer]:
    return [({paint: 1.0}, DARK_WATER), ({paint: 1.0}, PALE_WATER)]


def _most_telling(
    known: Characterisation, uses: Uses, offered: Sequence[Offer], paper: ArrayLike
) -> Suggestion:
    """The one of some swatches that brings the mean expected error of some uses down most."""
    variance, laid, by_use = uses
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


def _uses(known: Characterisation, row: int, paper: ArrayLike) -> Uses:
    """What a paint is judged by: its 1:1 mixes."""
    count = len(known.paints)
    shares = np.eye(count)
    shares[:, row] = 1.0
    if count > 1:
        shares = np.delete(shares, row, axis=0)
    return _judged_by(known, recipes(shares, USUAL_WATER, paper))


def _judged_by(known: Characterisation, asked: Batch) -> Uses:
    by_unknown, by_thickness = sensitivity(known, asked)
    spread = by_unknown @ known.covariance
    return (
        np.asarray((spread * by_unknown).sum(axis=(1, 2))),
        np.asarray(known.thickness**2 * (by_thickness**2).sum(axis=1)),
        by_unknown,
    )

"""What to do about a test patch that is not yet right, the best first."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from studio.colour.tristimulus import ciede2000
from studio.mixing import changes as c
from studio.mixing.characterisation import Characterisation
from studio.mixing.held import Held, held, water_of
from studio.mixing.observation import Observation
from studio.mixing.ranges import FloatArray

REFINED: Final = 16
"""So many kinds of addition are looked at closely."""
TELLING: Final = 0.3
"""ΔE00 by which each further thing to measure must bring the patch nearer, or it is left out."""


@dataclass(frozen=True, slots=True, eq=False)
class Correction:
    """A change with what it is predicted to lead to.

    Args:
        change: what to do.
        spectrum: predicted reflectance, (wavelengths,).
        lab: predicted L*a*b* under the light of the characterisation.
        delta_e: ΔE00 of that from the wanted colour.
        error: about 68 % of patches stay within this ΔE00 of the prediction.
    """

    change: c.Change
    spectrum: FloatArray
    lab: tuple[float, float, float]
    delta_e: float
    error: float

    @property
    def likely(self) -> float:
        """ΔE00 to be expected of the patch that is laid: prediction and error together."""
        return float(np.hypot(self.delta_e, self.error))

    @property
    def score(self) -> float:
        """What corrections are ranked by: the ΔE00 to be expected, and each thing to measure."""
        return self.likely + TELLING * self.change.steps


def adjust(  # noqa: PLR0913 - what may be done
    known: Characterisation,
    patch: Observation,
    wanted: FloatArray,
    may_add: Sequence[int],
    *,
    must_add: Sequence[int] = (),
    paper: FloatArray | None = None,
) -> list[Correction]:
    """The ways to bring a patch nearer to a colour, best first; one of each kind.

    Args:
        known: the paints.
        patch: as it was measured, dry.
        wanted: L*a*b* under the light of the characterisation, (3,).
        may_add: ids of the paints that may be added, glazed or laid again.
        must_add: ids of paints that every proposal adds or glazes with.
        paper: what the next patch comes on, where it is another than that of this one; nothing is
            then done to the patch itself.

    Raises:
        KeyError: a paint is not characterised.
    """
    held_to = held(known, patch, paper)
    puddle = c.Puddle(patch.parts, water_of(patch))
    added = [
        each
        for each in c.additions(puddle, patch.layers, may_add)
        if set(must_add) <= set(dict(each.added))
    ]
    close: list[c.Change] = []
    for best in _best_of_kinds(_judged(held_to, added, wanted))[:REFINED]:
        close += c.around(puddle, best[1])
    others: list[c.Change] = []
    if paper is None:
        others = c.over_the_patch(puddle, patch.layers, may_add)
    if set(puddle.parts) <= set(may_add):
        others += c.fresh_mixes(puddle, patch.layers)
    others = [each for each in others if set(must_add) <= _touched(each)]
    return _worth_it(_corrections(held_to, [*close, *others], wanted), here(held_to, wanted))


def here(held_to: Held, wanted: FloatArray) -> float:
    """ΔE00 of the patch as it is from the wanted colour."""
    return float(ciede2000(held_to.known.light.lab(held_to.patch.spectrum), wanted))


Judged = tuple[float, c.Change]


def _judged(held_to: Held, changes: Sequence[c.Change], wanted: FloatArray) -> list[Judged]:
    if not changes:
        return []
    away = ciede2000(held_to.known.light.lab(held_to.after(changes).spectra), wanted)
    return list(zip(away.tolist(), changes, strict=True))


def _best_of_kinds(judged: Sequence[Judged]) -> list[Judged]:
    best: dict[object, Judged] = {}
    for each in judged:
        kind = each[1].kind
        if kind not in best or each[0] < best[kind][0]:
            best[kind] = each
    return sorted(best.values(), key=lambda each: each[0] + TELLING * each[1].steps)


def _corrections(
    held_to: Held, changes: Sequence[c.Change], wanted: FloatArray
) -> list[Correction]:
    chosen = [each for _, each in _best_of_kinds(_judged(held_to, changes, wanted))]
    if not chosen:
        return []
    after = held_to.after(chosen)
    labs = held_to.known.light.lab(after.spectra)
    away = ciede2000(labs, wanted)
    errors = held_to.errors(chosen, after.shared)
    found = [
        Correction(change, spectrum, _triple(lab), float(delta_e), float(error))
        for change, spectrum, lab, delta_e, error in zip(
            chosen, after.spectra, labs, away, errors, strict=True
        )
    ]
    return sorted(found, key=lambda each: each.score)


def _worth_it(corrections: Sequence[Correction], now: float) -> list[Correction]:
    """Those that bring the patch nearer, and nearer than a part of what they do would."""
    kept: list[Correction] = []
    for each in corrections:
        simpler = [other for other in kept if _part_of(other.change, each.change)]
        least = min([now, *(other.delta_e for other in simpler)])
        if each.delta_e < least - TELLING:
            kept.append(each)
    return kept


def _part_of(one: c.Change, other: c.Change) -> bool:
    """Whether one change does less than another of the same way."""
    (way, paints, water), (other_way, other_paints, other_water) = one.kind, other.kind
    return way is other_way and set(paints) <= set(other_paints) and water <= other_water


def _touched(change: c.Change) -> set[int]:
    """The paints that a change lays more of."""
    return set(dict(change.parts)) if change.way is not c.Way.LIFT else set()


def _triple(lab: FloatArray) -> tuple[float, float, float]:
    lightness, a, b = map(float, lab)
    return lightness, a, b

"""Swatches that cannot all be right: two of one mix that disagree, or one that nothing explains."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Final

import numpy as np

from studio.actions.model_inputs import Patch
from studio.colour.difference import ciede2000
from studio.colour.lab import Lab
from studio.mixing.observation import load_of_water

DISAGREE: Final = 6.0
"""ΔE00 between two washes of the same mix, water, layers and paper that no hand accounts for."""

MORE: Final = 1.25
"""A film with so many times the paint of another must not be paler (assumed, no source)."""


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Swatches that contradict each other or all others.

    Args:
        codes: of the swatches.
        why: a sentence that names them, without its full stop.
        delta_e: by how much, ΔE00.
    """

    codes: tuple[str, ...]
    why: str
    delta_e: float


def between_patches(patches: Sequence[Patch]) -> list[Contradiction]:
    """Pairs of patches of one mix on one paper that cannot both be right, the worst first."""
    alike: dict[tuple[int, int], list[Patch]] = {}
    for patch in patches:
        if patch.swatch.facts.water is not None and patch.weight >= 0.5:  # noqa: PLR2004 - half
            alike.setdefault((patch.mix.id, patch.swatch.paper_id), []).append(patch)
    found = [
        contradiction
        for group in alike.values()
        for one, other in combinations(group, 2)
        if one.swatch.id != other.swatch.id and (contradiction := _between(one, other)) is not None
    ]
    return sorted(found, key=lambda each: -each.delta_e)


def from_all_others(patches: Sequence[Patch], fitted: Sequence[float]) -> list[Contradiction]:
    """Patches that the model cannot follow, the worst first.

    Args:
        patches: those that contradict all others.
        fitted: ΔE00 of each from the nearest that the model comes.
    """
    found = [
        Contradiction(
            (patch.code,),
            f"{patch.code} is ΔE00 {away:.1f} from what all other swatches of its paints tell, "
            "however thick its film",
            away,
        )
        for patch, away in zip(patches, fitted, strict=True)
    ]
    return sorted(found, key=lambda each: -each.delta_e)


def _between(one: Patch, other: Patch) -> Contradiction | None:
    less, more = sorted((one, other), key=_paint_in)
    (pale, dark) = (less.swatch.lab, more.swatch.lab)
    apart = _distance(pale, dark)
    codes = (less.code, more.code)
    if _paint_in(more) < MORE * _paint_in(less):
        if apart < DISAGREE or _laid(less) != _laid(more):
            return None
        why = (
            f"{codes[0]} and {codes[1]} are the same mix laid alike and differ by ΔE00 {apart:.1f}"
        )
        return Contradiction(codes, why, apart)
    if not more.white:
        return None
    white = more.white[0].lab
    deeper = _distance(pale, white) - _distance(dark, white)
    if deeper < DISAGREE:
        return None
    why = (
        f"{codes[1]} was laid with more paint than {codes[0]} of the same mix ({_words(more)} "
        f"against {_words(less)}) and is nearer to the paper by ΔE00 {deeper:.1f}"
    )
    return Contradiction(codes, why, deeper)


def _paint_in(patch: Patch) -> float:
    water = np.array(patch.swatch.facts.water or 0.0)
    return float(load_of_water(water)) * patch.swatch.facts.layers


def _laid(patch: Patch) -> tuple[object, ...]:
    facts = patch.swatch.facts
    return facts.water, facts.layers, facts.application


def _words(patch: Patch) -> str:
    facts = patch.swatch.facts
    layers = "" if facts.layers == 1 else f" in {facts.layers} layers"
    return f"water {facts.water:g}:1{layers}"


def _distance(one: Lab, other: Lab) -> float:
    return ciede2000(one.coordinates, other.coordinates)

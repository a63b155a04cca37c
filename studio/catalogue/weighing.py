"""What is left in a container of paint, from its weight."""

from dataclasses import dataclass
from typing import Final

from studio.catalogue.container import Container
from studio.errors import BadInput

ASSUMED_DENSITY: Final = 1.5
"""g/ml of tube watercolour where none was learnt; it runs from about 1.3 to 1.8 (from memory)."""

SCALE_ERROR: Final = 0.05
"""g; a kitchen or pocket scale that shows 0.1 g rounds by this much."""


@dataclass(frozen=True, slots=True)
class Weighed:
    """What a weighing found.

    Args:
        left: ml.
        basis: how it was computed, for people.
        assumed: rests on the assumed density.
    """

    left: float
    basis: str
    assumed: bool


def left_by_weight(container: Container, weight: float, learnt_density: float | None) -> Weighed:
    """What is left in a container, ml, from its weight now.

    Args:
        container: with the weights that are known of it.
        weight: what the scale shows, g.
        learnt_density: g/ml of the same paint from another container, where known.

    Raises:
        BadInput: it weighs more than full or less than empty, or no reference weight is known.
    """
    full, empty, capacity = container.full_g, container.empty_g, container.capacity
    if full is not None and weight > full + SCALE_ERROR:
        msg = (
            f"{container.code} weighs {full:g} g full, and {weight:g} g is more; weigh again, or "
            "correct the full weight: studio stock weigh --as full"
        )
        raise BadInput(msg)
    if empty is not None and weight < empty - SCALE_ERROR:
        msg = (
            f"{container.code} weighs {empty:g} g empty, and {weight:g} g is less; weigh again, or "
            "correct the empty weight: studio stock weigh --as empty"
        )
        raise BadInput(msg)
    if capacity is not None and full is not None and empty is not None and full > empty:
        share = min(1.0, max(0.0, (weight - empty) / (full - empty)))
        return Weighed(
            round(capacity * share, 3), f"{empty:g} g empty, {full:g} g full", assumed=False
        )
    density, assumed = (learnt_density, False) if learnt_density else (ASSUMED_DENSITY, True)
    said = f"{'assumed' if assumed else 'learnt'} density {density:.2f} g/ml"
    if empty is not None:
        left = (weight - empty) / density
        basis = f"{empty:g} g empty, {said}"
    elif full is not None and capacity is not None:
        left = capacity - (full - weight) / density
        basis = f"{full:g} g full, {said}"
    else:
        msg = (
            f"neither the full nor the empty weight of {container.code} is known; weigh a full one "
            f"first: studio stock weigh {container.code} GRAMS --as full"
        )
        raise BadInput(msg)
    if left < -SCALE_ERROR / density - 0.02 * (capacity or 0.0):
        msg = (
            f"{container.code} at {weight:g} g would hold less than nothing by its {said}; weigh "
            "an empty one: studio stock weigh --as empty"
        )
        raise BadInput(msg)
    if capacity is not None and left > capacity * 1.02 + SCALE_ERROR / density:
        msg = (
            f"{container.code} at {weight:g} g would hold {left:.3g} ml by its {said}, and it "
            f"holds {capacity:g}; weigh a full one: studio stock weigh --as full"
        )
        raise BadInput(msg)
    most = left if capacity is None else min(left, capacity)
    return Weighed(round(max(0.0, most), 3), basis, assumed)

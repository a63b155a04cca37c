"""How much wash a painting takes: areas of its passages, films by technique, what stays behind."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from studio.catalogue.painting import Painting, Passage
from studio.catalogue.painting_rules import is_on_paper, share_on_paper
from studio.catalogue.swatch import Application
from studio.mixing.settings import USUAL_WATER

PRACTICE: Final = "common practice, no source"
ML_PER_M2: Final = {
    Application.FLAT_WASH: 100.0,
    Application.GRADED_WASH: 100.0,
    Application.WET_IN_WET: 140.0,
    Application.DRY_BRUSH: 40.0,
    Application.GLAZE: 80.0,
    Application.SPATTER: 20.0,
    Application.LIFTED: 0.0,
}
"""Paint and water that a layer takes, ml for each m²: 100 are a film of 0.1 mm. Assumed."""
KEPT_BACK: Final = 0.2
"""Share of a mix that stays in well and brush. Assumed."""
LEAST_KEPT: Final = 0.5
"""What stays there at least, ml. Assumed."""
_NOTHING: Final = 1e-6
"""A share that is none but for rounding."""


@dataclass(frozen=True, slots=True)
class Areas:
    """What the passages of a painting cover.

    Args:
        mm2: by the id of each passage.
        remarks: what was assumed, a sentence each.
    """

    mm2: dict[int, float]
    remarks: tuple[str, ...]


def areas_of(painting: Painting) -> Areas:
    """The area of each passage.

    A passage without a share takes, where it goes over another, as much as that one; those on bare
    paper divide equally what the others leave. Where nothing is left, or nobody knows what spatter
    goes over, one takes as many parts as there are passages.
    """
    passages, whole = painting.passages, painting.area_mm2
    mm2 = {each.id: each.share * whole for each in passages if each.share is not None}
    unknown = [each for each in passages if each.share is None]
    bare = [each for each in unknown if is_on_paper(each)]
    left = 1.0 - share_on_paper(passages)
    remarks = []
    if bare and left > _NOTHING:
        mm2.update({each.id: left / len(bare) * whole for each in bare})
        remarks.append(
            f"{_named(passages, bare)} without a share: what the others leave, divided equally, "
            f"{left / len(bare):.0%} of the painted area each."
        )
    by_id = {each.id: each for each in passages}
    over = [each for each in unknown if each.over in by_id]
    other = [each for each in unknown if each.id not in mm2 and each not in over]
    if other:
        mm2.update({each.id: whole / len(passages) for each in other})
        remarks.append(
            f"{_named(passages, other)} without a share, and none is left: taken as one part of "
            f"{len(passages)}."
        )
    for each in over:
        mm2[each.id] = mm2[_ground(each, by_id, mm2)]
    if over:
        remarks.append(
            f"{_named(passages, over)} without a share: taken as large as what it goes over."
        )
    if any(len(each.colours) > 1 for each in passages):
        remarks.append("A passage of several colours is divided equally between them.")
    return Areas(mm2, tuple(remarks))


def _ground(passage: Passage, by_id: dict[int, Passage], known: dict[int, float]) -> int:
    """The passage below, however many go over each other, whose area is known."""
    seen: set[int] = set()
    below = passage
    while below.id not in known and below.id not in seen and below.over in by_id:
        seen.add(below.id)
        below = by_id[below.over or 0]
    return below.id if below.id in known else next(iter(known))


def _named(passages: Sequence[Passage], some: Sequence[Passage]) -> str:
    """Passages by number and name; of many, how many they are."""
    if len(some) > 3:  # noqa: PLR2004 - as many as are read at a glance
        return f"{len(some)} passages"
    numbers = {each.id: number for number, each in enumerate(passages, start=1)}
    return "Passage " + ", ".join(f"{numbers[each.id]} {each.name}" for each in some)


def wash_ml(passage: Passage, mm2: float) -> float:
    """Paint and water that some area of a passage takes, all layers.

    Args:
        passage: how it is laid.
        mm2: the area.
    """
    return ML_PER_M2[passage.technique] * mm2 / 1e6 * passage.layers


def with_rest(wash: float) -> float:
    """A wash (ml) with what stays in well and brush; none of none."""
    return wash + max(KEPT_BACK * wash, LEAST_KEPT) if wash else 0.0


def paint_and_water(wash: float, water: float | None) -> tuple[float, float | None]:
    """The paint and the water (ml) of a wash; the water is None where the ratio is not known.

    Args:
        wash: both together, ml.
        water: parts of water to one of paint; the usual one is assumed without it.
    """
    ratio = USUAL_WATER if water is None else water
    paint = wash / (1.0 + ratio)
    return paint, None if water is None else wash - paint


def assumptions(techniques: Iterable[Application], *, water_unknown: bool) -> tuple[str, ...]:
    """What the amounts rest on, for the techniques of a painting."""
    used = dict.fromkeys(techniques)
    films = ", ".join(f"{each} {ML_PER_M2[each]:g}" for each in ML_PER_M2 if each in used)
    said = [
        f"A layer takes ml of wash for each m²: {films} ({PRACTICE}).",
        f"{KEPT_BACK:.0%} more, at least {LEAST_KEPT:g} ml a mix, stays in the well ({PRACTICE}).",
    ]
    if Application.LIFTED in used:
        said.append("What is lifted takes no paint of its own.")
    if water_unknown:
        said.append(
            f"Where a swatch does not say its water, {USUAL_WATER:g} parts to one of paint are "
            f"assumed ({PRACTICE})."
        )
    return tuple(said)

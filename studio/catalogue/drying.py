"""How a wash changes while it dries, from test patches that were read both wet and dry."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from studio.catalogue.reading import Reading, State
from studio.colour.difference import Components, Triple, ciede2000, components
from studio.colour.lab import AXIS_LIMIT, Lab

ENOUGH: Final = 5
"""So many pairs of one paper or of the same paints are preferred to all pairs together: their mean
is then uncertain by less than half of what single patches vary (common practice, no source)."""

PUBLISHED_LIGHTNESS: Final = 2.3
PUBLISHED_PAINTS: Final = 75
PUBLISHED_SOURCE: Final = "B. MacEvoy, handprint.com, watercolor drying shifts"
"""Mean change of L* of other paints, to be shown beside the owner's own and never computed with."""


@dataclass(frozen=True, slots=True)
class DryingPair:
    """One patch, wet and dry, both under D50 for 2 degrees.

    Args:
        wet: mean of what was read while it was wet.
        dry: mean of what was read on the first day it was read dry.
    """

    wet: Lab
    dry: Lab

    @property
    def shift(self) -> Components:
        """ΔL*, ΔC*ab and ΔH*ab, dry minus wet."""
        return components(self.wet.coordinates, self.dry.coordinates)


@dataclass(frozen=True, slots=True)
class DryingShift:
    """The mean change of some pairs and how sure it is.

    Args:
        pairs: how many patches it comes from, at least 1.
        mean: ΔL*, ΔC*ab and ΔH*ab, dry minus wet.
        spread: standard deviation of single patches around the mean; None for a single pair.
        left_out: mean ΔE00 between each patch as it dried and as the others foretold it, each left
            out in turn; None for a single pair.
    """

    pairs: int
    mean: Components
    spread: Components | None
    left_out: float | None

    @property
    def standard_error(self) -> Components | None:
        """Standard error of the mean; None for a single pair."""
        if self.spread is None:
            return None
        root = math.sqrt(self.pairs)
        spread = self.spread
        return Components(spread.lightness / root, spread.chroma / root, spread.hue / root)


def pair_of(readings: Sequence[Reading]) -> DryingPair | None:
    """The wet and the dry colour of one swatch; None where the order of its readings tells none.

    A wet reading counts when it is not later than the first day of a dry one: what was wetted again
    tells nothing of drying. Readings of one method are compared with each other where both states
    were read by it, so that the shift is not the difference of two instruments.
    """
    dry_days = [reading.read_on for reading in readings if reading.state is State.DRY]
    if not dry_days:
        return None
    first = min(dry_days)
    wet = [each for each in readings if each.state is State.WET and each.read_on <= first]
    dry = [each for each in readings if each.state is State.DRY and each.read_on == first]
    shared = {each.method for each in wet} & {each.method for each in dry}
    if shared:
        wet = [each for each in wet if each.method in shared]
        dry = [each for each in dry if each.method in shared]
    return DryingPair(_mean_lab(wet), _mean_lab(dry)) if wet else None


def shift_of(pairs: Sequence[DryingPair]) -> DryingShift | None:
    """The mean shift of some pairs; None where there is none."""
    if not pairs:
        return None
    shifts = [pair.shift for pair in pairs]
    if len(shifts) == 1:
        return DryingShift(1, shifts[0], None, None)
    return DryingShift(len(shifts), _mean(shifts), _spread(shifts), _left_out(pairs))


def dried(wet: Lab, shift: Components) -> Lab:
    """The colour that a wet one is expected to dry to.

    ΔL* and ΔC*ab are added; ΔH*ab becomes the turn of the hue that it is at these chromas
    (ΔH*ab = 2 √(C1 C2) sin(Δh/2), CIE 15). L* stays within 0 to 100, C*ab within 0 to 200, and a
    grey without any hue stays grey.
    """
    lightness = max(0.0, min(100.0, wet.lightness + shift.lightness))
    chroma = max(0.0, min(AXIS_LIMIT, wet.chroma + shift.chroma))
    between = 2.0 * math.sqrt(wet.chroma * chroma)
    if between == 0.0:
        return Lab(lightness, 0.0, 0.0)
    turn = 2.0 * math.asin(max(-1.0, min(1.0, shift.hue / between)))
    hue = math.radians(wet.hue) + turn
    return Lab(lightness, chroma * math.cos(hue), chroma * math.sin(hue))


def _mean_lab(readings: Sequence[Reading]) -> Lab:
    labs: list[Triple] = [reading.lab.coordinates for reading in readings]
    lightness, a, b = (math.fsum(axis) / len(labs) for axis in zip(*labs, strict=True))
    return Lab(lightness, a, b)


def _axes(shifts: Sequence[Components]) -> list[list[float]]:
    return [
        [shift.lightness for shift in shifts],
        [shift.chroma for shift in shifts],
        [shift.hue for shift in shifts],
    ]


def _mean(shifts: Sequence[Components]) -> Components:
    return Components(*(math.fsum(axis) / len(axis) for axis in _axes(shifts)))


def _spread(shifts: Sequence[Components]) -> Components:
    spreads = []
    for axis in _axes(shifts):
        mean = math.fsum(axis) / len(axis)
        spreads.append(math.sqrt(math.fsum((x - mean) ** 2 for x in axis) / (len(axis) - 1)))
    return Components(*spreads)


def _left_out(pairs: Sequence[DryingPair]) -> float:
    shifts = [pair.shift for pair in pairs]
    apart = []
    for index, pair in enumerate(pairs):
        expected = dried(pair.wet, _mean([*shifts[:index], *shifts[index + 1 :]]))
        apart.append(ciede2000(expected.coordinates, pair.dry.coordinates))
    return math.fsum(apart) / len(apart)

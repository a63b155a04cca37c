"""The colour of each swatch area of a picture, with what should be known of it."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from studio.colour.difference import Triple
from studio.colour.lab import AXIS_LIMIT
from studio.colour.lab_arrays import Floats, delta_e
from studio.errors import BadInput
from studio.picture.card_reading import CardReading
from studio.picture.chart_reading import ChartReading
from studio.picture.decoding import Picture
from studio.picture.sampling import Sample, area_sample
from studio.picture.spots import Spot

LEAST_SIDE: Final = 5
"""Pixels across and down that an area needs."""

_FULL: Final = 0.02
_EMPTY: Final = 0.25
_VARIED: Final = 3.0


@dataclass(frozen=True, slots=True)
class AreaReading:
    """A swatch area as it was read.

    Args:
        name: of the swatch, as it was typed.
        spot: where it lies.
        lab: L*, a*, b* under D50/2°.
        spread: mean ΔE00 of its sixteenths from it.
        notes: what should be known of it, each a clause.
    """

    name: str
    spot: Spot
    lab: Triple
    spread: float
    notes: tuple[str, ...]


def read_area(
    picture: Picture, name: str, spot: Spot, basis: ChartReading | CardReading
) -> AreaReading:
    """The colour of an area.

    Args:
        picture: where it lies.
        name: of the swatch.
        spot: where.
        basis: how device values become Lab.

    Raises:
        BadInput: it is too small, overexposed, outside the picture's colour space, or lighter than
            white.
    """
    if min(spot.width, spot.height) < LEAST_SIDE:
        msg = (
            f"the area of {name} is {spot.width} x {spot.height} pixels, and {LEAST_SIDE} x "
            f"{LEAST_SIDE} are needed; give a larger one"
        )
        raise BadInput(msg)
    sample = area_sample(picture, spot)
    _refuse_clipped(name, sample)
    place = np.array(spot.middle)
    lab = basis.lab(sample.linear, place)
    if lab[0] > 100.0:  # noqa: PLR2004 - white
        msg = (
            f"{name} reads lighter than white (L* {lab[0]:.0f}): it catches glare, or chart and "
            "swatch are not in the same light; take the picture again"
        )
        raise BadInput(msg)
    if not np.abs(lab).max() <= AXIS_LIMIT:
        msg = (
            f"{name} reads as no colour (a* {lab[1]:.0f}, b* {lab[2]:.0f}): it is too unlike the "
            "patches of the chart; check that the chart was read right with --annotate"
        )
        raise BadInput(msg)
    lightness, a, b = max(float(lab[0]), 0.0), float(lab[1]), float(lab[2])
    blocks = np.array([basis.lab(block, place) for block in sample.blocks])
    spread = float(delta_e(blocks, np.broadcast_to(lab, blocks.shape)).mean())
    return AreaReading(
        name, spot, (lightness, a, b), spread, tuple(_notes(sample, spread, place, basis))
    )


def _refuse_clipped(name: str, sample: Sample) -> None:
    if sample.full > _FULL:
        msg = (
            f"{name} is overexposed or catches glare: {100 * sample.full:.0f} % of its pixels "
            "are at full scale; take the picture again, darker, with the lamps to the sides"
        )
        raise BadInput(msg)
    if sample.empty > _EMPTY:
        msg = (
            f"{name} lies outside the picture's colour space: {100 * sample.empty:.0f} % of its "
            "pixels have a channel at 0; save the picture in a wider space, such as Display P3"
        )
        raise BadInput(msg)


def _notes(
    sample: Sample,
    spread: float,
    place: Floats,
    basis: ChartReading | CardReading,
) -> Sequence[str]:
    notes = []
    if spread > _VARIED:
        notes.append(f"it varies by ΔE00 {spread:.1f} within: a smaller area may tell more")
    if isinstance(basis, ChartReading):
        light = float(basis.falloff.light(place[None])[0])
        seen = [p.sample.luminance for p in basis.patches if p.refusal is None]
        luminance = sample.luminance / light
        if luminance > 1.1 * max(seen):
            notes.append("it is lighter than every patch that counts: less sure")
        elif luminance < 0.9 * min(seen):
            notes.append("it is darker than every patch that counts: less sure")
    if len(basis.falloff.reach) > 2 and basis.falloff.is_beyond(place):  # noqa: PLR2004 - a breadth
        notes.append("the light was not seen so far out: lay it nearer to the chart")
    return notes

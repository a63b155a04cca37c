"""The colour of each swatch area of a picture, with what should be known of it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from studio.colour.difference import Triple, ciede2000
from studio.colour.lab import AXIS_LIMIT
from studio.colour.lab_arrays import Floats, delta_e
from studio.errors import BadInput
from studio.picture.card_reading import ERROR, CardReading
from studio.picture.chart_reading import ChartReading
from studio.picture.decoding import Picture
from studio.picture.glare import rise_over
from studio.picture.reading_error import expected_error
from studio.picture.sampling import Sample, area_sample
from studio.picture.spots import TOO_VARIED, Spot

LEAST_SIDE: Final = 5
"""Pixels across and down that an area needs."""

_FULL: Final = 0.02
_EMPTY: Final = 0.25
_VARIED: Final = 3.0
_VEILED: Final = 2.0
"""ΔE00 of doubt for each L* of a smooth rise: soft glare lies over the darkest part as well."""


@dataclass(frozen=True, slots=True)
class AreaReading:
    """A swatch area as it was read.

    Args:
        name: of the swatch, as it was typed.
        spot: where it lies.
        lab: L*, a*, b* under D50/2°.
        spread: mean ΔE00 of its sixteenths from it.
        error: ΔE00 to expect; by a chart 68 % of such readings stay under it.
        most: ΔE00 that 95 % stay under; None without a chart.
        notes: what should be known of it, each a clause.
    """

    name: str
    spot: Spot
    lab: Triple
    spread: float
    error: float
    most: float | None
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
    notes = list(_notes(sample, spread, place, basis))
    rise = rise_over(spot, sample, basis)
    doubt = 0.0
    if rise is not None:
        why = "as under soft glare" if rise.is_veil else "as under soft glare or in a graded wash"
        notes.append(
            f"it grows lighter by L* {rise.lightness:.1f} towards {rise.towards}, {why}: read a "
            "second place of it, or take the picture again with the lamps to the sides"
        )
        doubt = _VEILED * rise.lightness
    if isinstance(basis, ChartReading):
        expected = expected_error(basis, sample.linear, lab, place).with_doubt(doubt)
        error, most = expected.usual, expected.most
    else:
        error, most = float(np.hypot(ERROR, doubt)), None
    return AreaReading(name, spot, (lightness, a, b), spread, error, most, tuple(notes))


def compared(areas: Sequence[AreaReading]) -> tuple[AreaReading, ...]:
    """Areas with what several places of one swatch say of each other.

    Places that differ by more than ΔE00 3 get a note, and the difference is added to their error.
    """
    made = []
    for area in areas:
        others = [one for one in areas if one is not area and one.name == area.name]
        apart = max((ciede2000(area.lab, one.lab) for one in others), default=0.0)
        if apart <= TOO_VARIED:
            made.append(area)
            continue
        note = (
            f"another place of {area.name} reads ΔE00 {apart:.1f} otherwise: glare on one of them, "
            "uneven light or an uneven wash; the darker one is the more likely"
        )
        most = None if area.most is None else float(np.hypot(area.most, 2 * apart))
        made.append(
            replace(
                area,
                error=float(np.hypot(area.error, apart)),
                most=most,
                notes=(*area.notes, note),
            )
        )
    return tuple(made)


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

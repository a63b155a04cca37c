"""A painting in the making: its passages in working order, and the colours each is to have."""

from dataclasses import dataclass
from datetime import date
from typing import Final

from studio.catalogue.measurement_file import MeasurementFile
from studio.catalogue.removal import Removal
from studio.catalogue.swatch import Application
from studio.colour.lab import Lab

TOLERANCE: Final = 3.0
"""ΔE00 that passes across a painting (common practice, no source); each painting has its own."""


@dataclass(frozen=True, slots=True)
class PassageColour:
    """A colour that a passage is to have.

    Args:
        id: database id.
        lab: under D50 for 2 degrees.
        given: as it was typed: a colour, a swatch, a named target; None for a picked one.
        place: where in the reference picture it was picked; None for a typed one.
        at: the middle of that spot, as shares (0 to 1) of the picture's width and height, as it is
            seen; None for a typed one.
        spread: mean ΔE00 of the spot's pixels from the colour; None for a typed one.
        tries: ids of the test swatches that were held against it, in the order they were made,
            without removed ones.
        picture: the picture it was picked from, which may be an earlier one than the painting's
            own; None for a typed one.
    """

    id: int
    lab: Lab
    given: str | None = None
    place: str | None = None
    at: tuple[float, float] | None = None
    spread: float | None = None
    tries: tuple[int, ...] = ()
    picture: MeasurementFile | None = None


@dataclass(frozen=True, slots=True)
class Passage:
    """A part of a painting that is laid in one go.

    Args:
        id: database id.
        name: such as "far bank"; one of a kind within its painting.
        technique: how it is laid.
        colours: what it is to have, the main one first; empty while none was chosen.
        share: of the painted area, above 0 and at most 1; None while unknown.
        layers: how many, each dry before the next.
        dry_before_next: whether it has to be dry before the next passage begins.
        over: id of the passage that it glazes or is lifted from; None for bare paper.
        note: remarks.
    """

    id: int
    name: str
    technique: Application
    colours: tuple[PassageColour, ...] = ()
    share: float | None = None
    layers: int = 1
    dry_before_next: bool = True
    over: int | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class Painting:
    """A painting from its start to its end.

    Args:
        id: database id.
        code: short code, such as P3.
        title: what it is called.
        paper_id: id of its paper.
        width_mm: of the painted area.
        height_mm: of the painted area.
        tolerance: ΔE00 within which a mix passes for a colour of it.
        started_on: the day.
        passages: in working order.
        reference: the picture it is painted from, told again by its digest; None without one.
        reference_path: where that picture lay when it was last seen.
        finished_on: the day its paint was booked; None while it is in the making.
        note: remarks.
        removed: the mark of a removed painting.
    """

    id: int
    code: str
    title: str
    paper_id: int
    width_mm: float
    height_mm: float
    tolerance: float
    started_on: date
    passages: tuple[Passage, ...] = ()
    reference: MeasurementFile | None = None
    reference_path: str | None = None
    finished_on: date | None = None
    note: str | None = None
    removed: Removal | None = None

    @property
    def area_mm2(self) -> float:
        """The painted area."""
        return self.width_mm * self.height_mm

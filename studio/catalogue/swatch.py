"""A test swatch: a mix laid on a paper, and what was read from it."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from studio.catalogue.reading import Reading, State
from studio.catalogue.removal import Removal
from studio.colour.lab import Lab


class Application(StrEnum):
    """How the paint was laid."""

    FLAT_WASH = "flat wash"
    GRADED_WASH = "graded wash"
    WET_IN_WET = "wet in wet"
    DRY_BRUSH = "dry brush"
    GLAZE = "glaze"
    SPATTER = "spatter"
    LIFTED = "lifted"


@dataclass(frozen=True, slots=True)
class SwatchFacts:
    """How a swatch was made and where its card is.

    Args:
        code: short code, such as S12.
        water: parts of water to one part of paint, by volume; None when unknown.
        layers: number of layers, each dry before the next.
        application: how it was laid.
        made_on: the day.
        kept_at: where the physical card is.
        note: remarks.
        target: the colour it was made for, as it was given.
        target_lab: that colour under D50/2°.
    """

    code: str
    water: float | None
    layers: int
    application: Application
    made_on: date
    kept_at: str | None = None
    note: str | None = None
    target: str | None = None
    target_lab: Lab | None = None


@dataclass(frozen=True, slots=True)
class SetAside:
    """A reading that stays on record and no longer counts.

    Args:
        number: its number among all readings of the swatch, in the order they were recorded.
        reading: the reading.
        removal: when and why.
    """

    number: int
    reading: Reading
    removal: Removal


@dataclass(frozen=True, slots=True)
class Swatch:
    """A recorded swatch with its readings and the colour it is searched by.

    Args:
        id: database id.
        facts: how it was made.
        mix_id: id of its mix.
        paper_id: id of its paper.
        state: dry when any reading is dry.
        lab: mean of its readings in that state, D50/2°.
        readings: every reading that counts, in the order they were recorded.
        set_aside: the readings that do not.
        removed: the mark of a removed swatch, which no search and no list shows.
    """

    id: int
    facts: SwatchFacts
    mix_id: int
    paper_id: int
    state: State
    lab: Lab
    readings: tuple[Reading, ...]
    set_aside: tuple[SetAside, ...] = ()
    removed: Removal | None = None

    @property
    def numbers(self) -> tuple[int, ...]:
        """The numbers of the readings that count, among all in the order they were recorded."""
        aside = {each.number for each in self.set_aside}
        every = range(1, len(self.readings) + len(aside) + 1)
        return tuple(number for number in every if number not in aside)

    @property
    def every_reading(self) -> tuple[Reading, ...]:
        """The readings that count and those that were set aside."""
        return (*self.readings, *(each.reading for each in self.set_aside))

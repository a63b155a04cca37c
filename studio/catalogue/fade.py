"""The owner's own fade tests: a strip half covered, half in the light, read from time to time."""

from dataclasses import dataclass
from datetime import date
from typing import Final

from studio.catalogue.lightfastness import CATEGORIES, LightfastnessRating, Scale, rank_of
from studio.colour.difference import cie76
from studio.colour.lab import Lab

BANDS: Final = (4.0, 8.0, 16.0, 24.0)
"""Highest ΔE*ab of categories I to IV; above the last it is V. Source: ASTM D4303 (I to IV), V
from memory; the table stands in shared/astm_d4303_categories.csv."""

BLUE_WOOL_STEPS: Final = 8
"""Blue wool references, 1 the first to fade (ISO 105-B)."""

BLUE_WOOL_RATIO: Final = 2.0
"""About how many times the exposure of the step before each step needs. Source: CAMEO (Museum of
Fine Arts, Boston), Blue Wool Standard page."""

_ROUNDING: Final = 1e-9
"""What the last bits of a difference may add to it: 8.3 - 4.3 is a little more than 4."""

INDICATIVE: Final = (
    "A home test is indicative only: sun, glass, season and damp differ from ASTM D4303's "
    "exposures, so its category is a hint and no rating."
)


def category_of(delta_e: float) -> str:
    """The ASTM D4303 category of a colour change ΔE*ab; a limit belongs to the better category."""
    return CATEGORIES[sum(delta_e > limit + _ROUNDING for limit in BANDS)]


def exposure_of_step(step: int) -> float:
    """About how many times the exposure of blue wool step 1 a step (1 to 8) needs to fade."""
    return BLUE_WOOL_RATIO ** (step - 1)


def category_of_step(step: int) -> str:
    """The category usually set beside a blue wool step (1 to 8): from memory, no part of D4303."""
    return CATEGORIES[rank_of(Scale.BLUE_WOOL, str(step)) - 1]


@dataclass(frozen=True, slots=True)
class FadeReading:
    """Both halves of a strip, read on one day.

    Args:
        read_on: the day.
        covered: colour of the covered half, D50/2°.
        exposed: colour of the exposed half, D50/2°.
        blue_wool: highest step of a blue wool card beside it that has visibly faded, 0 for none;
            None without a card.
        note: remarks.
    """

    read_on: date
    covered: Lab
    exposed: Lab
    blue_wool: int | None = None
    note: str | None = None

    @property
    def delta_e(self) -> float:
        """ΔE*ab (CIE 1976) of the exposed half from the covered half."""
        return cie76(self.covered.coordinates, self.exposed.coordinates)

    @property
    def category(self) -> str:
        """The band of ASTM D4303 that the change lies in so far."""
        return category_of(self.delta_e)


@dataclass(frozen=True, slots=True)
class FadeTest:
    """A strip of a paint or a mix.

    Args:
        id: database id.
        code: such as F1.
        paint_id: id of the paint, or None for a mix.
        mix_id: id of the mix, or None for a paint.
        paper_id: id of the paper, where recorded.
        place: where it hangs.
        started_on: the day.
        ended_on: the day it was taken down, None while it hangs.
        note: remarks.
        readings: in the order of their days.
    """

    id: int
    code: str
    paint_id: int | None
    mix_id: int | None
    paper_id: int | None
    place: str
    started_on: date
    ended_on: date | None = None
    note: str | None = None
    readings: tuple[FadeReading, ...] = ()

    @property
    def worst(self) -> FadeReading | None:
        """The reading with the largest change; None before the first."""
        return max(self.readings, key=lambda reading: reading.delta_e, default=None)

    def contradicts(self, published: LightfastnessRating | None) -> bool:
        """Whether it has changed more than a published rating allows."""
        worst = self.worst
        if worst is None or published is None:
            return False
        return CATEGORIES.index(worst.category) + 1 > published.rank

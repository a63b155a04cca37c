"""Readings taken for one swatch, from wherever they come, and how they are recorded."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from studio.actions.log_swatch import log_swatch, read_swatch
from studio.catalogue.mix import Mix
from studio.catalogue.paper import Paper
from studio.catalogue.reading import Reading
from studio.catalogue.swatch import Swatch, SwatchFacts
from studio.storage.unit_of_work import UnitOfWork


@dataclass(frozen=True, slots=True)
class TakenReadings:
    """Readings of one swatch.

    Args:
        readings: one at least, unless all of them are recorded already.
        remarks: what the owner should know of them, a sentence each.
    """

    readings: tuple[Reading, ...]
    remarks: tuple[str, ...] = ()


Taking = Callable[[UnitOfWork, Swatch | None], TakenReadings]
"""Makes the readings of a swatch (None: a new one) inside the transaction that records them; files
are opened and looked through before."""


def log_with(  # noqa: PLR0913 - a swatch is its mix, paper, facts and readings
    work: UnitOfWork,
    taken: TakenReadings,
    *,
    mix: Mix,
    paper: Paper,
    facts: SwatchFacts,
    today: date,
) -> Swatch:
    """Record a swatch with all the readings that were taken of it.

    Raises:
        BadInput: a fact or a reading is impossible.
    """
    first, *others = taken.readings
    swatch = log_swatch(work, mix=mix, paper=paper, facts=facts, reading=first, today=today)
    for reading in others:
        swatch = read_swatch(work, swatch, reading, today)
    return swatch


def read_with(work: UnitOfWork, taken: TakenReadings, swatch: Swatch, today: date) -> Swatch:
    """Add all the readings that were taken of a swatch.

    Raises:
        BadInput: a reading was made before the swatch, or in the future.
    """
    for reading in taken.readings:
        swatch = read_swatch(work, swatch, reading, today)
    return swatch

"""How long a paint or paper will last, from the studio's own use."""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from studio.catalogue.container import Container
from studio.catalogue.stock import Stock, StockKind

WINDOW: Final = timedelta(days=365)
"""Use is looked at over the last year, so that the seasons even out."""

SHORTEST: Final = 14
"""Days of record below which no rate is told."""

SETTLING: Final = frozenset({StockKind.WEIGHED, StockKind.CORRECTED})
"""Entries that say what is really there: a decrease is use that nobody booked."""


@dataclass(frozen=True, slots=True)
class Forecast:
    """How fast an item is used and how long it lasts at that rate.

    Args:
        per_week: use in its unit a week.
        weeks: weeks until nothing is left.
        weeks_low: weeks if use is one standard error faster.
        weeks_high: weeks if it is one standard error slower; infinite when that is no use at all.
        entries: how many entries the rate rests on.
        days: over how many days.
    """

    per_week: float
    weeks: float
    weeks_low: float
    weeks_high: float
    entries: int
    days: int

    @property
    def confidence(self) -> str:
        """How sure it is, in words."""
        if math.isinf(self.weeks_high):
            return "a guess"
        spread = (self.weeks_high - self.weeks_low) / (2 * self.weeks) if self.weeks else 0.0
        return "fairly sure" if spread < 0.3 else "rough" if spread < 0.7 else "a guess"  # noqa: PLR2004


def forecast(containers: Iterable[Container], stock: Stock, today: date) -> Forecast | None:
    """How long an item lasts; None where there is too little record or no use.

    What is poured into a pan or thrown away is not painted with. A weighing or count that finds
    more than was thought takes that much back from the uses booked since the one before it; more
    than those was found, not unused.

    The use of a period is taken for a compound Poisson sum of n entries x: its relative standard
    error is sqrt(sum x²) / sum x (any textbook of probability; equal entries give 1/sqrt(n)).
    """
    every = list(containers)
    days = [event.happened_on for container in every for event in container.events]
    if stock.left is None or not days:
        return None
    start = max(min(days), today - WINDOW)
    span = (today - start).days
    uses = [use for container in every for day, use in _uses(container) if day > start]
    used = sum(uses)
    if span < SHORTEST or used <= 0:
        return None
    per_day = used / span
    error = math.sqrt(sum(x * x for x in uses)) / used
    weeks = stock.left / per_day / 7
    slower = math.inf if error >= 1.0 else weeks / (1.0 - error)
    return Forecast(per_day * 7, weeks, weeks / (1.0 + error), slower, len(uses), span)


def _uses(container: Container) -> list[tuple[date, float]]:
    """The days and amounts of what was painted with, in the container's unit, each above zero."""
    settled: list[tuple[date, float]] = []
    booked: list[tuple[date, float]] = []
    for line in container.lines:
        event, change = line.event, line.change
        if event.kind is StockKind.USED:
            booked.append((event.happened_on, -change))
        elif event.kind in SETTLING:
            total = math.fsum(use for _, use in booked)
            kept = 1.0 - change / total if 0 < change <= total else 1.0
            settled += [(day, use * kept) for day, use in booked]
            booked = []
            if change < 0:
                settled.append((event.happened_on, -change))
    return [(day, use) for day, use in (*settled, *booked) if use > 0]

"""Containers to try entries on, and strategies of entries."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Final

from hypothesis import strategies as st

from studio.catalogue.container import Container, ContainerKind
from studio.catalogue.stock import StockEvent, StockKind, Unit, WeighedAs
from studio.errors import BadInput

START: Final = date(2026, 1, 1)
TUBE: Final = Container(1, "FU-1", 7, None, ContainerKind.TUBE, Unit.ML, 14.0, "L1")
PAD: Final = Container(2, "SR-1", None, 9, ContainerKind.PAD, Unit.SHEETS, 20.0, None)
MANY: Final = Container(3, "FU-9", 7, None, ContainerKind.ASSORTED, Unit.ML, None, None)

MOVES: Final = (StockKind.OPENED, StockKind.LENT, StockKind.RETURNED)
ADDING: Final = (StockKind.BOUGHT, StockKind.REFILLED)
TAKING: Final = (StockKind.USED, StockKind.POURED, StockKind.DISCARDED)
SETTING: Final = (StockKind.WEIGHED, StockKind.CORRECTED)


def entry(kind: StockKind, amount: float | None = None, day: int = 0) -> StockEvent:
    """An entry so many days after the first of January."""
    return StockEvent(kind, START + timedelta(days=day), amount)


def weighed(grams: float, mark: WeighedAs, amount: float, day: int = 0) -> StockEvent:
    """A weighing of a full or an empty container."""
    return StockEvent(
        StockKind.WEIGHED, START + timedelta(days=day), amount, weight_g=grams, weighed_as=mark
    )


def holding(container: Container, *events: StockEvent) -> Container:
    """A container with entries."""
    return replace(container, events=events)


def with_entry(container: Container, event: StockEvent) -> Container:
    """A container with one more entry, or as it was where the entry is refused."""
    changed = replace(container, events=(*container.events, event))
    try:
        _ = changed.lines
    except BadInput:
        return container
    return changed


hundredths = st.integers(1, 3000).map(lambda number: number / 100)


@st.composite
def entries(draw: st.DrawFn) -> StockEvent:
    """Any entry; most will be refused where they fall."""
    kind = draw(st.sampled_from(StockKind))
    amount = None if kind in MOVES else draw(hundredths)
    if kind in SETTING:
        amount = draw(st.just(0.0) | hundredths)
    if kind is StockKind.DISCARDED:
        amount = draw(st.none() | hundredths)
    return entry(kind, amount, draw(st.integers(0, 60)))

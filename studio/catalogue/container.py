"""A container of paint or paper, its ledger, and what the ledger leaves, line by line."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from functools import cached_property
from typing import Final

from studio.catalogue.stock import Stock, StockEvent, StockKind, Unit, WeighedAs
from studio.errors import BadInput

ROUNDING: Final = 1e-6
"""Amounts are kept to a millionth of their unit."""


class ContainerKind(StrEnum):
    """What paint or paper is kept in; an assortment is many of them counted together."""

    TUBE = "tube"
    PAN = "pan"
    HALF_PAN = "half pan"
    QUARTER_PAN = "quarter pan"
    JAR = "jar"
    BOTTLE = "bottle"
    STICK = "stick"
    PAD = "pad"
    BLOCK = "block"
    LOOSE_SHEETS = "loose sheets"
    ROLL = "roll"
    ASSORTED = "assorted"


PAPER_KINDS: Final = frozenset(
    {ContainerKind.PAD, ContainerKind.BLOCK, ContainerKind.LOOSE_SHEETS, ContainerKind.ROLL}
)
"""Kinds that hold paper; an assortment may hold either."""


@dataclass(frozen=True, slots=True)
class Line:
    """An entry of a ledger, what it changed and what was left after it."""

    event: StockEvent
    change: float
    left: float


@dataclass(frozen=True)
class Container:
    """A container with its entries, oldest first.

    Args:
        id: database id.
        code: item code and number, such as FU-1.
        paint_id: id of the paint in it, or None.
        paper_id: id of the paper in it, or None.
        kind: tube, pan, pad, …
        unit: ml, sheets or mm.
        capacity: what a full one holds, in its unit; None for an assortment.
        lot: batch number.
        events: its entries in the order they happened.
    """

    id: int
    code: str
    paint_id: int | None
    paper_id: int | None
    kind: ContainerKind
    unit: Unit
    capacity: float | None
    lot: str | None
    events: tuple[StockEvent, ...] = ()

    @cached_property
    def lines(self) -> tuple[Line, ...]:
        """Each entry with what it changed; the changes add up to what is left.

        Raises:
            BadInput: the entries cannot have happened in this order.
        """
        lines: list[Line] = []
        for event in self.events:
            lines.append(_line(self, lines, event))
        return tuple(lines)

    @property
    def left(self) -> float:
        """What is left in it, in its unit."""
        return self.lines[-1].left if self.lines else 0.0

    @property
    def on_shelf(self) -> bool:
        """Neither lent nor discarded."""
        return _where(self.events) not in {StockKind.LENT, StockKind.DISCARDED}

    @property
    def is_lent(self) -> bool:
        """Lent and not yet returned."""
        return _where(self.events) is StockKind.LENT

    @property
    def opened_on(self) -> date | None:
        """The day it was opened, None while it is not."""
        return next((e.happened_on for e in self.events if e.kind is StockKind.OPENED), None)

    @property
    def is_open(self) -> bool:
        """Opened, or used, or made to be open (a pan)."""
        pans = {ContainerKind.PAN, ContainerKind.HALF_PAN, ContainerKind.QUARTER_PAN}
        touched = {StockKind.OPENED, StockKind.USED, StockKind.POURED, StockKind.REFILLED}
        return self.kind in pans or any(event.kind in touched for event in self.events)

    @property
    def full_g(self) -> float | None:
        """Its weight when full, g, from its last weighing as full."""
        return self._weight(WeighedAs.FULL)

    @property
    def empty_g(self) -> float | None:
        """Its weight when empty, g, from its last weighing as empty."""
        return self._weight(WeighedAs.EMPTY)

    def _weight(self, mark: WeighedAs) -> float | None:
        weights = [e.weight_g for e in self.events if e.weighed_as is mark]
        return weights[-1] if weights else None

    @property
    def density(self) -> float | None:
        """Density of what is in it, g/ml, where it was weighed full and empty."""
        if self.unit is not Unit.ML or not (self.full_g and self.empty_g and self.capacity):
            return None
        return (self.full_g - self.empty_g) / self.capacity

    @property
    def estimated(self) -> bool:
        """Whether an estimate has been booked since the last weighing or count."""
        estimated = False
        for event in self.events:
            if event.kind in {StockKind.WEIGHED, StockKind.CORRECTED}:
                estimated = event.estimated
            elif event.estimated:
                estimated = True
        return estimated

    @property
    def bought(self) -> StockEvent | None:
        """Its last purchase."""
        bought = [event for event in self.events if event.kind is StockKind.BOUGHT]
        return bought[-1] if bought else None


def _where(events: Sequence[StockEvent]) -> StockKind | None:
    """The last entry that moved a container off the shelf or back."""
    moves = {
        StockKind.LENT,
        StockKind.RETURNED,
        StockKind.DISCARDED,
        StockKind.CORRECTED,
        StockKind.BOUGHT,
    }
    return next(
        (
            event.kind
            for event in reversed(events)
            if event.kind in moves and not _discards_part(event)
        ),
        None,
    )


def _discards_part(event: StockEvent) -> bool:
    return event.kind is StockKind.DISCARDED and event.amount is not None


def _line(container: Container, before: Sequence[Line], event: StockEvent) -> Line:
    """What an entry changes, given those before it."""
    code, unit = container.code, container.unit
    left = before[-1].left if before else 0.0
    day = event.happened_on.isoformat()
    if before and event.happened_on < before[-1].event.happened_on:
        msg = (
            f"{code} has an entry of {before[-1].event.happened_on.isoformat()}; one of {day} "
            "would come before it, so correct what is left instead: studio stock correct"
        )
        raise BadInput(msg)
    where = _where([line.event for line in before])
    _refuse_absent(container, where, event)
    amount = event.amount or 0.0
    match event.kind:
        case StockKind.BOUGHT | StockKind.REFILLED:
            after = left + amount
            if container.capacity is not None and after > container.capacity + ROUNDING:
                msg = (
                    f"{code} holds {container.capacity:g} {unit} and has {left:g}; {amount:g} more "
                    "do not go in"
                )
                raise BadInput(msg)
        case StockKind.DISCARDED if event.amount is None:
            after = 0.0
        case StockKind.USED | StockKind.POURED | StockKind.DISCARDED:
            after = left - amount
            if after < -ROUNDING:
                msg = (
                    f"{amount:g} {unit} {event.kind} on {day}, but {code} has only {left:g} "
                    f"{unit}; book a purchase, or correct what is left: studio stock correct"
                )
                raise BadInput(msg)
        case StockKind.WEIGHED | StockKind.CORRECTED:
            after = amount
        case StockKind.OPENED | StockKind.LENT | StockKind.RETURNED:
            after = left
    after = round(max(0.0, after), 6)
    return Line(event, after - left, after)


def _refuse_absent(container: Container, where: StockKind | None, event: StockEvent) -> None:
    """Refuse what cannot happen to a container that is lent, discarded or here."""
    allowed = {
        StockKind.LENT: {StockKind.RETURNED, StockKind.DISCARDED, StockKind.CORRECTED},
        StockKind.DISCARDED: {StockKind.CORRECTED},
    }
    if where in allowed and event.kind not in allowed[where]:
        msg = f"{container.code} is {where}; it cannot be {event.kind} until it is back"
        raise BadInput(msg)
    if event.kind is StockKind.RETURNED and where is not StockKind.LENT:
        msg = f"{container.code} was not lent, so it cannot be returned"
        raise BadInput(msg)


def total(containers: Iterable[Container], unit: Unit) -> Stock:
    """What is left of an item over its containers on the shelf."""
    every = list(containers)
    if not every:
        return Stock(None, unit, None)
    here = [container for container in every if container.on_shelf]
    days = [event.happened_on for container in every for event in container.events]
    return Stock(
        left=round(sum(container.left for container in here), 6),
        unit=every[0].unit,
        as_of=max(days, default=None),
        estimated=any(container.estimated for container in here),
    )

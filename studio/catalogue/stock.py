"""What is left of a paint or a paper, folded from its events in the order they happened."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum

from studio.errors import BadInput


class StockKind(StrEnum):
    """What happened: three of them change what is left by an amount, a count sets it."""

    BOUGHT = "bought"
    USED = "used"
    COUNTED = "counted"
    DISCARDED = "discarded"


class Unit(StrEnum):
    """The unit of a stock event: paint in ml, paper in sheets."""

    ML = "ml"
    SHEETS = "sheets"


@dataclass(frozen=True, slots=True)
class StockEvent:
    """One entry of the ledger.

    Args:
        kind: what happened.
        amount: ml of paint or sheets of paper, zero only for a count.
        unit: ml or sheets.
        happened_on: the day.
        price: what was paid, for a purchase.
        currency: ISO 4217 code of the price.
        lot: batch number, for a purchase.
        note: remarks.
    """

    kind: StockKind
    amount: float
    unit: Unit
    happened_on: date
    price: Decimal | None = None
    currency: str | None = None
    lot: str | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class Stock:
    """What is left.

    Args:
        left: ml or sheets, None when nothing was ever recorded.
        unit: ml or sheets.
        as_of: day of the last event.
    """

    left: float | None
    unit: Unit
    as_of: date | None


def fold(events: Iterable[StockEvent], unit: Unit) -> Stock:
    """What a ledger leaves, from its events in order; never below zero.

    Raises:
        BadInput: more is used or discarded than was there.
    """
    left: float | None = None
    as_of = None
    for event in events:
        if event.kind is StockKind.COUNTED:
            left = event.amount
        elif event.kind is StockKind.BOUGHT:
            left = (left or 0.0) + event.amount
        else:
            if left is None or event.amount > left + 1e-9:
                msg = (
                    f"{event.amount:g} {unit} {event.kind} on {event.happened_on.isoformat()}, but "
                    f"only {left or 0.0:g} {unit} are on record; record the purchase or a count"
                )
                raise BadInput(msg)
            left = max(0.0, left - event.amount)
        as_of = event.happened_on
    return Stock(None if left is None else round(left, 6), unit, as_of)

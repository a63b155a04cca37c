"""The stock ledger: what can happen to a container, and what is then left."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum


class StockKind(StrEnum):
    """What happened to a container."""

    BOUGHT = "bought"
    OPENED = "opened"
    USED = "used"
    WEIGHED = "weighed"
    REFILLED = "refilled"
    POURED = "poured"
    LENT = "lent"
    RETURNED = "returned"
    DISCARDED = "discarded"
    CORRECTED = "corrected"


class Unit(StrEnum):
    """The unit of an amount: paint in ml, paper in sheets, a roll in mm of its length."""

    ML = "ml"
    SHEETS = "sheets"
    MM = "mm"


class WeighedAs(StrEnum):
    """Whether a weighing is one of a full or an empty container, from which weights are learnt."""

    FULL = "full"
    EMPTY = "empty"


@dataclass(frozen=True, slots=True)
class StockEvent:
    """One entry of the ledger of a container; entries are only ever added.

    Args:
        kind: what happened.
        happened_on: the day.
        amount: what was bought, used, refilled or poured, or what a weighing or correction found to
            be left, in the unit of the container; None where nothing was measured.
        weight_g: what the scale showed, g.
        weighed_as: full or empty, when it was.
        estimated: the amount is a guess or rests on one, until a weighing or count settles it.
        other: code of the container that paint was poured from or into.
        price: what was paid, for a purchase.
        currency: ISO 4217 code of the price.
        note: remarks.
    """

    kind: StockKind
    happened_on: date
    amount: float | None = None
    weight_g: float | None = None
    weighed_as: WeighedAs | None = None
    estimated: bool = False
    other: str | None = None
    price: Decimal | None = None
    currency: str | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class Stock:
    """What is left of a paint or a paper on the shelf.

    Args:
        left: in its unit; None when no container was ever recorded.
        unit: ml, sheets or mm.
        as_of: day of the last entry.
        estimated: rests on an estimate that no weighing or count has settled.
    """

    left: float | None
    unit: Unit
    as_of: date | None
    estimated: bool = False


def amount_text(amount: float, unit: Unit) -> str:
    """An amount to a hundredth of its unit; a scale that shows 0.1 g tells no more."""
    return f"{round(amount, 2):g} {unit}".replace("-", "\N{MINUS SIGN}")

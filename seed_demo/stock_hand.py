"""The hand that keeps the demo's stock book: what is really left, and what it writes down."""

from dataclasses import dataclass, replace
from datetime import date
from math import floor
from typing import Final

from seed_demo.plan_shelf import Planned
from studio.catalogue.container import Container, ContainerKind
from studio.catalogue.stock import StockEvent, StockKind, Unit, WeighedAs
from studio.catalogue.weighing import left_by_weight
from studio.errors import BadInput

Row = dict[str, str]

_SHUT: Final = frozenset({"tube", "jar"})
"""Kinds that are opened before paint comes out of them."""

_STEP: Final = {"sheets": 1.0, "mm": 10.0}
"""To what paper is measured; paint is to 0.1 ml, and to 0.01 ml in small pans."""


@dataclass(slots=True)
class Kept:
    """A container: as it really is, and as the book has it."""

    planned: Planned
    book: Container
    left: float
    away: bool = False

    @property
    def step(self) -> float:
        """To what an amount of it is measured."""
        return _STEP.get(self.planned.unit, 0.1 if self.planned.holds > 2 else 0.01)  # noqa: PLR2004


class Hand:
    """Keeps the book of one item.

    An entry that the program would refuse is not written: the painter would read why and let it be.

    Args:
        by_weight: its empty tubes are weighed.
    """

    def __init__(self, *, by_weight: bool) -> None:
        self.rows: list[Row] = []
        self._by_weight = by_weight
        self._kept: dict[str, Kept] = {}
        self._carried = 0.0

    def buy(self, day: str, planned: Planned) -> None:
        """Book a full container."""
        book = Container(
            id=len(self._kept),
            code=planned.code,
            paint_id=1,
            paper_id=None,
            kind=ContainerKind(planned.kind),
            unit=Unit(planned.unit),
            capacity=planned.holds,
            lot=None,
        )
        kept = self._kept[planned.code] = Kept(planned, book, planned.holds)
        weight = planned.weight(planned.holds) if planned.density else None
        event = StockEvent(
            StockKind.BOUGHT,
            date.fromisoformat(day),
            planned.holds,
            weight,
            None if weight is None else WeighedAs.FULL,
        )
        self._write(
            kept,
            event,
            container_kind=planned.kind,
            capacity=f"{planned.holds:g}",
            price=f"{planned.price:.2f}",
            currency="GBP",
            lot=planned.lot,
        )

    def open(self, day: str, code: str) -> None:
        """Book that a tube or jar was opened."""
        kept = self._kept[code]
        if kept.planned.kind in _SHUT and kept.book.opened_on is None:
            self._write(kept, StockEvent(StockKind.OPENED, date.fromisoformat(day)))

    def use(self, day: str, amount: float, note: str, *, estimated: bool = False) -> None:
        """Use an amount and book it as exactly as it is measured."""
        wanted = amount + self._carried
        while (kept := self._in_use()) is not None:
            part = floor(wanted / kept.step + 0.5) * kept.step
            self.open(day, kept.planned.code)
            taken = round(min(part, kept.left), 6)
            event = StockEvent(
                StockKind.USED, date.fromisoformat(day), taken, estimated=estimated, note=note
            )
            if taken > 0:
                kept.left = round(kept.left - taken, 6)
                self._write(kept, event)
            wanted -= taken
            if kept.left >= kept.step / 2:
                break
            self._finish(day, kept)
        self._carried = wanted

    def spend(self, day: str, amount: float) -> None:
        """Use an amount that nobody books; the scale tells it later."""
        while (kept := self._in_use()) is not None:
            self.open(day, kept.planned.code)
            taken = min(amount, kept.left)
            kept.left -= taken
            amount -= taken
            if kept.left >= kept.step / 2:
                break
            self._finish(day, kept)

    def weigh(self, day: str, code: str = "") -> None:
        """Put the container in use, or a named one, on the scale."""
        kept = self._kept[code] if code else self._in_use()
        if kept is not None:
            self._weigh(day, kept)

    def use_pan(self, day: str, code: str, amount: float) -> None:
        """Use from a pan of the travelling box, which is weighed when it is home again."""
        pan = self._kept[code]
        pan.left = max(0.0, pan.left - amount)
        self._weigh(day, pan)

    def fill(self, day: str, code: str) -> None:
        """Fill a pan up from the oldest tube that has enough."""
        pan = self._kept[code]
        amount = floor((pan.planned.holds - max(pan.left, pan.book.left)) * 10) / 10
        tube = next(each for each in self._usual() if min(each.left, each.book.left) >= amount)
        self.open(day, tube.planned.code)
        poured = StockEvent(
            StockKind.POURED, date.fromisoformat(day), amount, estimated=tube.book.estimated
        )
        self._accepts(tube, poured)
        tube.left -= amount
        pan.left += amount
        self._write(pan, replace(poured, kind=StockKind.REFILLED), other=tube.planned.code)

    def single(self, day: str, code: str, kind: str, amount: str, note: str) -> None:
        """Book one planned entry; the amount of a correction is the difference from the book."""
        kept = self._kept[code]
        number = float(amount) if amount else None
        if kind == "corrected" and number is not None:
            number = kept.left = round(kept.book.left + number, 6)
        elif kind == "discarded":
            kept.left -= kept.left if number is None else number
        kept.away = kind in {"lent", "discarded"} and number is None
        self._write(
            kept, StockEvent(StockKind(kind), date.fromisoformat(day), number, note=note or None)
        )

    def _in_use(self) -> Kept | None:
        """The container that is painted from: the oldest of the usual kind that is not away."""
        return next(iter(self._usual()), None)

    def _usual(self) -> list[Kept]:
        """The containers that are not away, without the pans of the travelling box."""
        every = list(self._kept.values())
        boxed = {"pan", "half pan"} - {every[0].planned.kind}
        return [kept for kept in every if not kept.away and kept.planned.kind not in boxed]

    def _finish(self, day: str, kept: Kept) -> None:
        """Weigh an empty tube, if it is one that is weighed, and throw it away."""
        kept.left, kept.away = 0.0, True
        when = date.fromisoformat(day)
        if self._by_weight:
            event = StockEvent(
                StockKind.WEIGHED, when, 0.0, round(kept.planned.empty_g, 1), WeighedAs.EMPTY
            )
            self._write(kept, event)
        note = "empty" if kept.planned.density else "used up"
        self._write(kept, StockEvent(StockKind.DISCARDED, when, note=note))

    def _weigh(self, day: str, kept: Kept) -> None:
        weight = kept.planned.weight(kept.left)
        try:
            found = left_by_weight(kept.book, weight, self._learnt())
        except BadInput:
            return
        event = StockEvent(
            StockKind.WEIGHED,
            date.fromisoformat(day),
            found.left,
            weight,
            estimated=found.assumed,
        )
        self._write(kept, event)

    def _learnt(self) -> float | None:
        known = [kept.book.density for kept in self._kept.values() if kept.book.density]
        return sum(known) / len(known) if known else None

    def _accepts(self, kept: Kept, event: StockEvent) -> bool:
        """Whether the program takes an entry; if so, the book has it."""
        changed = replace(kept.book, events=(*kept.book.events, event))
        try:
            _ = changed.lines
        except BadInput:
            return False
        kept.book = changed
        return True

    def _write(self, kept: Kept, event: StockEvent, **cells: str) -> None:
        if not self._accepts(kept, event):
            return
        weighed = event.kind is StockKind.WEIGHED
        row = {
            "item": kept.planned.item,
            "container": kept.planned.code,
            "kind": event.kind.value,
            "amount": "" if event.amount is None or weighed else f"{event.amount:g}",
            "unit": kept.planned.unit,
            "weight_g": "" if event.weight_g is None else f"{event.weight_g:.1f}",
            "weighed_as": event.weighed_as or "",
            "estimated": "yes" if event.estimated and event.kind is StockKind.USED else "",
            "happened_on": event.happened_on.isoformat(),
            "note": event.note or "",
        }
        self.rows.append(row | cells)

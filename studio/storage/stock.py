"""The stock ledger of paints and papers; entries are only ever added."""

from functools import cached_property

from sqlalchemy import Connection, RowMapping, insert, select

from studio.catalogue.paint import Paint
from studio.catalogue.paper import Paper
from studio.catalogue.stock import Stock, StockEvent, StockKind, Unit, fold
from studio.storage import tables as t
from studio.storage.money import from_hundredths, to_hundredths

_UNITS = {"paint_id": Unit.ML, "paper_id": Unit.SHEETS}


class StockEvents:
    """The ledger of one database, read whole, once."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def of_paint(self, key: int) -> tuple[StockEvent, ...]:
        """The events of a paint in the order they happened."""
        return tuple(self._events.get(("paint_id", key), ()))

    def of_paper(self, key: int) -> tuple[StockEvent, ...]:
        """The events of a paper in the order they happened."""
        return tuple(self._events.get(("paper_id", key), ()))

    def of(self, item: Paint | Paper) -> tuple[StockEvent, ...]:
        """The events of a paint or a paper in the order they happened."""
        return self.of_paint(item.id) if isinstance(item, Paint) else self.of_paper(item.id)

    def left_of_paint(self, key: int) -> Stock:
        """What is left of a paint, ml."""
        return fold(self.of_paint(key), Unit.ML)

    def left_of_paper(self, key: int) -> Stock:
        """What is left of a paper, sheets."""
        return fold(self.of_paper(key), Unit.SHEETS)

    def add_to_paint(self, key: int, event: StockEvent) -> None:
        """Add an event to a paint.

        Raises:
            BadInput: more would be used or discarded than is there.
        """
        self._add("paint_id", key, event)

    def add_to_paper(self, key: int, event: StockEvent) -> None:
        """Add an event to a paper.

        Raises:
            BadInput: more would be used or discarded than is there.
        """
        self._add("paper_id", key, event)

    def _add(self, column: str, key: int, event: StockEvent) -> None:
        events = self._events.setdefault((column, key), [])
        with_it = sorted([*events, event], key=lambda e: e.happened_on)
        fold(with_it, _UNITS[column])
        self._connection.execute(
            insert(t.stock_event).values(
                **{column: key},
                kind=event.kind,
                amount=event.amount,
                happened_on=event.happened_on,
                price_hundredths=to_hundredths(event.price),
                currency=event.currency,
                lot=event.lot,
                note=event.note,
            )
        )
        events[:] = with_it

    @cached_property
    def _events(self) -> dict[tuple[str, int], list[StockEvent]]:
        rows = self._connection.execute(
            select(t.stock_event).order_by(t.stock_event.c.happened_on, t.stock_event.c.id)
        ).mappings()
        grouped: dict[tuple[str, int], list[StockEvent]] = {}
        for row in rows:
            column = "paint_id" if row["paint_id"] is not None else "paper_id"
            grouped.setdefault((column, row[column]), []).append(_event(row, _UNITS[column]))
        return grouped


def _event(row: RowMapping, unit: Unit) -> StockEvent:
    return StockEvent(
        kind=StockKind(row["kind"]),
        amount=row["amount"],
        unit=unit,
        happened_on=row["happened_on"],
        price=from_hundredths(row["price_hundredths"]),
        currency=row["currency"],
        lot=row["lot"],
        note=row["note"],
    )

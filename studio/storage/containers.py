"""Containers with their ledgers; entries are only ever added."""

from dataclasses import replace
from functools import cached_property

from sqlalchemy import Connection, RowMapping, insert, select

from studio.catalogue.container import Container, ContainerKind
from studio.catalogue.stock import StockEvent, StockKind, Unit, WeighedAs
from studio.storage import tables as t
from studio.storage.keys import inserted_key
from studio.storage.money import from_hundredths, to_hundredths


class Containers:
    """The containers of one database, read whole, once."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def all(self) -> tuple[Container, ...]:
        """Every container, in the order they were recorded."""
        return tuple(self._by_id.values())

    def of_paint(self, key: int) -> tuple[Container, ...]:
        """The containers of a paint, oldest first."""
        return tuple(each for each in self._by_id.values() if each.paint_id == key)

    def of_paper(self, key: int) -> tuple[Container, ...]:
        """The containers of a paper, oldest first."""
        return tuple(each for each in self._by_id.values() if each.paper_id == key)

    def by_id(self, key: int) -> Container:
        """The container of an id."""
        return self._by_id[key]

    def with_code(self, code: str) -> Container | None:
        """The container of a code such as FU-1, in any case."""
        wanted = code.strip().upper()
        return next((each for each in self._by_id.values() if each.code == wanted), None)

    def next_code(self, item_code: str) -> str:
        """The code of the next container of an item, such as FU-3 after FU-2."""
        prefix = f"{item_code}-"
        codes = (each.code for each in self._by_id.values())
        numbers = [code.removeprefix(prefix) for code in codes if code.startswith(prefix)]
        return f"{prefix}{max((int(n) for n in numbers if n.isdigit()), default=0) + 1}"

    def add(self, container: Container) -> Container:
        """Record a container without its entries; its own id is ignored."""
        key = inserted_key(
            self._connection.execute(
                insert(t.container).values(
                    code=container.code,
                    paint_id=container.paint_id,
                    paper_id=container.paper_id,
                    kind=container.kind,
                    unit=container.unit,
                    capacity=container.capacity,
                    lot=container.lot,
                )
            )
        )
        self._by_id[key] = replace(container, id=key, events=())
        return self._by_id[key]

    def add_event(self, container: Container, event: StockEvent) -> Container:
        """Add an entry to a container; returns the container with it.

        Raises:
            BadInput: it cannot have happened after the entries before it.
        """
        known = self._by_id[container.id]
        changed = replace(known, events=(*known.events, event))
        _ = changed.lines
        other = self.with_code(event.other) if event.other else None
        self._connection.execute(
            insert(t.stock_event).values(
                container_id=container.id,
                kind=event.kind,
                happened_on=event.happened_on,
                amount=event.amount,
                weight_g=event.weight_g,
                weighed_as=event.weighed_as,
                estimated=int(event.estimated),
                other_id=other.id if other else None,
                price_hundredths=to_hundredths(event.price),
                currency=event.currency,
                note=event.note,
            )
        )
        self._by_id[container.id] = changed
        return changed

    @cached_property
    def _by_id(self) -> dict[int, Container]:
        rows = self._connection.execute(select(t.container).order_by(t.container.c.id)).mappings()
        bare = {row["id"]: _container(row) for row in rows}
        events: dict[int, list[StockEvent]] = {}
        for row in self._connection.execute(
            select(t.stock_event).order_by(t.stock_event.c.id)
        ).mappings():
            other = bare[row["other_id"]].code if row["other_id"] is not None else None
            events.setdefault(row["container_id"], []).append(_event(row, other))
        return {
            key: replace(container, events=tuple(events.get(key, ())))
            for key, container in bare.items()
        }


def _container(row: RowMapping) -> Container:
    return Container(
        id=row["id"],
        code=row["code"],
        paint_id=row["paint_id"],
        paper_id=row["paper_id"],
        kind=ContainerKind(row["kind"]),
        unit=Unit(row["unit"]),
        capacity=row["capacity"],
        lot=row["lot"],
    )


def _event(row: RowMapping, other: str | None) -> StockEvent:
    return StockEvent(
        kind=StockKind(row["kind"]),
        happened_on=row["happened_on"],
        amount=row["amount"],
        weight_g=row["weight_g"],
        weighed_as=WeighedAs(row["weighed_as"]) if row["weighed_as"] else None,
        estimated=bool(row["estimated"]),
        other=other,
        price=from_hundredths(row["price_hundredths"]),
        currency=row["currency"],
        note=row["note"],
    )

"""What to buy: from what is left, what is used, and what is planned."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from studio.actions.find_stock import Item, containers_of
from studio.catalogue import checks
from studio.catalogue.container import Container
from studio.catalogue.forecast import Forecast, forecast
from studio.catalogue.paint import Paint, Status
from studio.catalogue.stock import amount_text
from studio.storage.unit_of_work import UnitOfWork


@dataclass(frozen=True, slots=True)
class Order:
    """A line of a shopping list.

    Args:
        item: what to buy.
        reason: why, for people.
        needed: what is short, in the item's unit; None where no amount is known.
        size: what one container holds, in the item's unit; None where unknown.
        quantity: how many containers.
        price: of one, as last paid; None where unknown.
        currency: ISO 4217 code of the price.
    """

    item: Item
    reason: str
    needed: float | None
    size: float | None
    quantity: int
    price: Decimal | None
    currency: str | None

    @property
    def cost(self) -> Decimal | None:
        """Price of all of them."""
        return None if self.price is None else self.price * self.quantity


@dataclass(frozen=True, slots=True)
class ShoppingList:
    """What to buy, and what it costs by currency; lines without a price are counted apart."""

    orders: tuple[Order, ...]
    weeks: float

    @property
    def costs(self) -> dict[str, Decimal]:
        """Known cost by currency."""
        sums: dict[str, Decimal] = {}
        for order in self.orders:
            if order.cost is not None and order.currency is not None:
                sums[order.currency] = sums.get(order.currency, Decimal(0)) + order.cost
        return sums

    @property
    def unpriced(self) -> int:
        """How many lines have no known price."""
        return sum(order.price is None for order in self.orders)


def forecast_item(work: UnitOfWork, item: Item, today: date) -> Forecast | None:
    """How long an item lasts at the studio's own rate; None where too little is known."""
    return forecast(containers_of(work, item), item.stock, today)


def reorder_stock(
    work: UnitOfWork,
    today: date,
    *,
    weeks: float = 8.0,
    planned: Mapping[str, float] | None = None,
) -> ShoppingList:
    """What to buy so that nothing falls to its low mark within some weeks.

    Args:
        work: the studio.
        today: the day.
        weeks: how far ahead.
        planned: code of a paint or paper -> what a planned painting or class needs, in its unit.

    Raises:
        BadInput: the weeks or an amount are out of range.
    """
    checks.number(weeks, "the number of weeks", 0, 520)
    wanted = planned or {}
    items: list[Item] = [
        paint
        for paint in work.paints.all()
        if paint.facts.status is Status.IN_USE or paint.facts.code in wanted
    ]
    items += work.papers.all()
    orders = []
    for item in items:
        extra = checks.number(
            wanted.get(item.facts.code, 0.0), f"what is planned of {item.facts.code}", 0, 1_000_000
        )
        order = _order(
            item, containers_of(work, item), forecast_item(work, item, today), weeks, extra
        )
        if order is not None:
            orders.append(order)
    return ShoppingList(tuple(orders), weeks)


def _order(
    item: Item,
    containers: tuple[Container, ...],
    expected: Forecast | None,
    weeks: float,
    extra: float,
) -> Order | None:
    left, unit = item.stock.left, item.stock.unit
    if left is None and not extra:
        return None
    on_shelf = left or 0.0
    use = expected.per_week * weeks if expected else 0.0
    mark = item.low_at or 0.0
    needed = use + extra + mark - on_shelf
    if not item.is_low and needed <= 0:
        return None
    reasons = []
    shown = amount_text(on_shelf, unit)
    if item.is_low:
        reasons.append(f"low: {shown} left")
    elif expected and use + mark > on_shelf:
        reasons.append(f"{shown} left, about {expected.weeks:.0f} weeks")
    if extra:
        reasons.append(f"{amount_text(extra, unit)} planned")
    size, price, currency = _usual(item, containers)
    quantity = max(1, math.ceil(needed / size - 1e-9)) if size else 1
    return Order(
        item=item,
        reason=", ".join(reasons) or f"{shown} left",
        needed=round(max(needed, 0.0), 3),
        size=size,
        quantity=quantity,
        price=price,
        currency=currency,
    )


def _usual(
    item: Item, containers: tuple[Container, ...]
) -> tuple[float | None, Decimal | None, str | None]:
    """Size, price and currency of one container, as last bought or as on the label."""
    sizes = []
    for container in reversed(containers):
        bought = container.bought
        if bought is not None:
            size = container.capacity or bought.amount
            if bought.price is not None:
                return size, bought.price, bought.currency
            sizes.append(size)
    if isinstance(item, Paint) and item.facts.volume_ml is not None:
        return item.facts.volume_ml, item.facts.price, item.facts.currency
    return (sizes[0] if sizes else None), None, None

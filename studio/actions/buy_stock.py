"""Book a purchase: each container gets a code and a ledger of its own."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from studio.actions.find_stock import Item, book_entry, containers_of
from studio.actions.prices import checked_currency, checked_price
from studio.catalogue import checks
from studio.catalogue.container import PAPER_KINDS, Container, ContainerKind
from studio.catalogue.paint import Paint
from studio.catalogue.stock import StockEvent, StockKind, Unit, WeighedAs
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork


@dataclass(frozen=True, slots=True)
class Purchase:
    """What was bought; what is None is taken from the paint or paper.

    Args:
        bought_on: the day.
        count: how many containers alike.
        capacity: what one holds when full: ml, sheets, or mm of a roll.
        left: what is in it now; None for full, 0 for an empty pan.
        kind: tube, pan, pad, …
        weight_g: weight of one as it was bought, full or empty, g.
        price: price of one.
        currency: ISO 4217 code of the price.
        lot: batch number.
        note: remarks.
        code: code of the container; only for a single one.
    """

    bought_on: date
    count: int = 1
    capacity: float | None = None
    left: float | None = None
    kind: ContainerKind | None = None
    weight_g: float | None = None
    price: Decimal | None = None
    currency: str | None = None
    lot: str | None = None
    note: str | None = None
    code: str | None = None


def buy_stock(
    work: UnitOfWork, item: Item, purchase: Purchase, today: date
) -> tuple[Container, ...]:
    """Book the containers of a purchase.

    Raises:
        BadInput: the capacity is unknown, a value is impossible, or the kind is for another thing.
    """
    checks.past(purchase.bought_on, today, "the day of the purchase")
    count = int(checks.number(purchase.count, "the number bought", 1, 1000))
    if purchase.code is not None and count > 1:
        msg = "one code cannot name several containers; book them one by one"
        raise BadInput(msg)
    kind = _kind(item, purchase.kind)
    unit = _unit(work, item, kind)
    capacity = _capacity(item, kind, unit, purchase)
    left = capacity if purchase.left is None else purchase.left
    if left is None:
        msg = f"say how much was bought, in {unit}"
        raise BadInput(msg)
    checks.number(left, f"what is in it, in {unit},", 0, 1_000_000)
    price = checked_price(purchase.price)
    event = StockEvent(
        kind=StockKind.BOUGHT,
        happened_on=purchase.bought_on,
        amount=left,
        weight_g=_weight(purchase.weight_g),
        weighed_as=_mark(purchase.weight_g, left, capacity),
        price=price,
        currency=checked_currency(price, purchase.currency),
        note=checks.optional_text(purchase.note, "the note"),
    )
    bought = []
    for _ in range(count):
        container = Container(
            id=0,
            code=_code(work, item, purchase.code),
            paint_id=item.id if isinstance(item, Paint) else None,
            paper_id=None if isinstance(item, Paint) else item.id,
            kind=kind,
            unit=unit,
            capacity=capacity,
            lot=checks.optional_text(purchase.lot, "the lot"),
        )
        bought.append(book_entry(work, work.containers.add(container), event))
    return tuple(bought)


def _weight(weight_g: float | None) -> float | None:
    if weight_g is None:
        return None
    return checks.number(weight_g, "the weight in g", 0, 100_000, above=True)


def _mark(weight_g: float | None, left: float, capacity: float | None) -> WeighedAs | None:
    """What its weight is one of; a container that was begun before teaches neither weight."""
    if weight_g is None or (left and capacity is not None and left < capacity):
        return None
    return WeighedAs.FULL if left else WeighedAs.EMPTY


def _code(work: UnitOfWork, item: Item, wanted: str | None) -> str:
    if wanted is None:
        return work.containers.next_code(item.facts.code)
    code = wanted.strip().upper()
    head, _, number = code.rpartition("-")
    if head != item.facts.code or not (number.isascii() and number.isdigit()):
        msg = f"container code {wanted!r} must be the item's code and a number: {item.facts.code}-1"
        raise BadInput(msg)
    if work.containers.with_code(code) is not None:
        msg = f"container code {code} is taken; choose another"
        raise BadInput(msg)
    return code


def _kind(item: Item, kind: ContainerKind | None) -> ContainerKind:
    if kind is None:
        if isinstance(item, Paint):
            return ContainerKind(item.facts.form.value)
        return ContainerKind.LOOSE_SHEETS
    if (kind in PAPER_KINDS) == isinstance(item, Paint) and kind is not ContainerKind.ASSORTED:
        msg = f"{item.facts.full_name} does not come as a {kind}"
        raise BadInput(msg)
    return kind


def _unit(work: UnitOfWork, item: Item, kind: ContainerKind) -> Unit:
    if isinstance(item, Paint):
        return Unit.ML
    unit = Unit.MM if kind is ContainerKind.ROLL else Unit.SHEETS
    others = {container.unit for container in containers_of(work, item)}
    if others - {unit}:
        msg = (
            f"{item.facts.full_name} is counted in {others.pop()}; record rolls and sheets as two "
            "papers"
        )
        raise BadInput(msg)
    return unit


def _capacity(item: Item, kind: ContainerKind, unit: Unit, purchase: Purchase) -> float | None:
    if kind is ContainerKind.ASSORTED:
        return None
    capacity = purchase.capacity
    if capacity is None and isinstance(item, Paint):
        capacity = item.facts.volume_ml
    if capacity is None:
        msg = (
            f"how much a full {kind} of {item.facts.full_name} holds is not known; say it in {unit}"
        )
        raise BadInput(msg)
    return checks.number(capacity, f"what it holds, in {unit},", 0, 1_000_000, above=True)

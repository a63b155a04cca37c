"""Rows of the stock ledger: purchases, uses, weighings, counts and moves of containers."""

import math
from collections.abc import Sequence
from datetime import date
from typing import Final

from studio.actions.buy_stock import Purchase, buy_stock
from studio.actions.find_stock import (
    Item,
    containers_of,
    find_container,
    find_item,
    item_of,
    unit_of,
)
from studio.actions.importing.row import Row
from studio.actions.prices import checked_currency, checked_price
from studio.actions.use_stock import correct_stock, move_container, refill_container, use_stock
from studio.actions.weigh_stock import weigh_stock
from studio.catalogue import checks
from studio.catalogue.container import ROUNDING, Container, ContainerKind
from studio.catalogue.stock import StockEvent, StockKind, Unit, WeighedAs
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork

COUNTED: Final = "counted"
"""What a correction was called in tables of the first release."""

YES: Final = frozenset({"yes", "true", "1"})
NO: Final = frozenset({"no", "false", "0"})


def import_stock(work: UnitOfWork, row: Row, today: date) -> bool:
    """Add an entry to the ledger; False when the same entry stands there already."""
    spelled = row.needed("kind").lower()
    kind = checks.word("corrected" if spelled == COUNTED else spelled, StockKind, "kind")
    code = row.text("container")
    container = work.containers.with_code(code) if code else None
    item = _item(work, row, container)
    if code and container is None and kind is not StockKind.BOUGHT:
        msg = f"no container has the code {code!r}; book its purchase first"
        raise BadInput(msg)
    unit = row.word("unit", Unit)
    if unit is not None and containers_of(work, item) and unit is not unit_of(work, item):
        msg = f"{item.facts.full_name} is counted in {unit_of(work, item)}, not in {unit}"
        raise BadInput(msg)
    event = _event(row, kind)
    is_new = code is not None and container is None
    if not is_new and _is_present(work, item, event, container, row.nth):
        return False
    if kind is StockKind.BOUGHT:
        _buy(work, item, row, event, today)
    elif kind in {StockKind.USED, StockKind.DISCARDED} and event.amount is not None:
        use_stock(work, item, event, today, container)
    elif kind is StockKind.CORRECTED:
        _correct(work, item, event, today, container)
    elif kind is StockKind.WEIGHED:
        weigh_stock(work, container or find_container(work, item.facts.code), event, today)
    elif kind in {StockKind.REFILLED, StockKind.POURED}:
        _pour(work, row, event, today)
    else:
        found = container or find_container(work, item.facts.code)
        move_container(work, found, event, today)
    return True


def _item(work: UnitOfWork, row: Row, container: Container | None) -> Item:
    """The paint or paper of a row; a container named beside it must hold it."""
    if container is None:
        return find_item(work, row.needed("item"))
    item, named = item_of(work, container), row.text("item")
    if named and named.upper() != item.facts.code and find_item(work, named) != item:
        msg = f"container {container.code} holds {item.facts.full_name}, not {named!r}"
        raise BadInput(msg)
    return item


def _is_estimate(row: Row) -> bool:
    spelled = (row.text("estimated") or "no").lower()
    if spelled not in {*YES, *NO}:
        msg = f"estimated {spelled!r} is not clear; write yes or no"
        raise BadInput(msg)
    return spelled in YES


def _event(row: Row, kind: StockKind) -> StockEvent:
    price = checked_price(row.price("price"))
    weight = row.number("weight_g")
    if kind is StockKind.WEIGHED and weight is None:
        msg = "a weighing needs weight_g"
        raise BadInput(msg)
    moves = {StockKind.OPENED, StockKind.LENT, StockKind.RETURNED}
    free = {*moves, StockKind.WEIGHED, StockKind.DISCARDED}
    return StockEvent(
        kind=kind,
        happened_on=row.needed_day("happened_on"),
        amount=row.number("amount") if kind in free else row.needed_number("amount"),
        weight_g=weight,
        weighed_as=row.word("weighed_as", WeighedAs),
        estimated=_is_estimate(row),
        other=row.text("other"),
        price=price,
        currency=checked_currency(price, row.text("currency")),
        note=row.text("note"),
    )


def _is_present(
    work: UnitOfWork, item: Item, event: StockEvent, container: Container | None, nth: int
) -> bool:
    """Whether the ledger holds the entry so many times; a use may be split over containers."""
    where = [container] if container else list(containers_of(work, item))
    alike = [
        [
            known
            for known in each.events
            if (known.kind, known.happened_on, known.note)
            == (event.kind, event.happened_on, event.note)
        ]
        for each in where
    ]
    entries = [known for found in alike for known in found]
    if event.kind is StockKind.WEIGHED:
        return sum(known.weight_g == event.weight_g for known in entries) >= nth
    if event.amount is None:
        return len(entries) >= nth
    if sum(known.amount == event.amount for known in entries) >= nth:
        return True
    parts = [found[0].amount or 0.0 for found in alike if len(found) == 1]
    return nth == 1 and 1 < len(parts) == len(entries) and _sums_to(parts, event.amount)


def _sums_to(parts: Sequence[float], amount: float) -> bool:
    return math.isclose(math.fsum(parts), amount, abs_tol=ROUNDING)


def _buy(work: UnitOfWork, item: Item, row: Row, event: StockEvent, today: date) -> None:
    kind = row.word("container_kind", ContainerKind)
    capacity = row.number("capacity")
    amount = event.amount
    volume = getattr(item.facts, "volume_ml", None)
    if capacity is None and (volume is None or (amount is not None and amount > volume)):
        capacity = amount
    buy_stock(
        work,
        item,
        Purchase(
            bought_on=event.happened_on,
            capacity=capacity,
            left=amount,
            kind=kind,
            weight_g=event.weight_g,
            price=event.price,
            currency=event.currency,
            lot=row.text("lot"),
            note=event.note,
            code=row.text("container"),
        ),
        today,
    )


def _correct(
    work: UnitOfWork, item: Item, event: StockEvent, today: date, container: Container | None
) -> None:
    if container is None and containers_of(work, item):
        container = find_container(work, item.facts.code)
    correct_stock(work, item, event, today, container)


def _pour(work: UnitOfWork, row: Row, event: StockEvent, today: date) -> None:
    """One row for both ends: `refilled` names the source as other, `poured` the target."""
    here = find_container(work, row.text("container") or row.needed("item"))
    there = find_container(work, row.needed("other"))
    target, source = (here, there) if event.kind is StockKind.REFILLED else (there, here)
    refill_container(work, target, source, event, today)

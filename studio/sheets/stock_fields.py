"""Stock as JSON and CSV; the names are documented in README.md and stay as they are."""

import csv
import io
import math
from typing import Final

from studio.actions.find_stock import Item
from studio.actions.reorder_stock import Order, ShoppingList
from studio.catalogue.container import Container, Line
from studio.catalogue.forecast import Forecast
from studio.sheets.fields import Fields, day_field, price_field

_ORDER_NAMES: Final = (
    "item",
    "name",
    "quantity",
    "size",
    "unit",
    "needed",
    "price",
    "cost",
    "currency",
    "reason",
)


def stock_fields(item: Item, expected: Forecast | None) -> Fields:
    """What is left of a paint or a paper, and for how long."""
    return {
        "item": item.facts.code,
        "name": item.facts.full_name,
        "left": item.stock.left,
        "unit": item.stock.unit,
        "estimated": item.stock.estimated,
        "as_of": day_field(item.stock.as_of),
        "low_at": item.low_at,
        "low": item.is_low,
        "forecast": None if expected is None else _forecast(expected),
    }


def _forecast(expected: Forecast) -> Fields:
    high = expected.weeks_high
    return {
        "per_week": round(expected.per_week, 6),
        "weeks": round(expected.weeks, 2),
        "weeks_low": round(expected.weeks_low, 2),
        "weeks_high": None if math.isinf(high) else round(high, 2),
        "confidence": expected.confidence,
        "entries": expected.entries,
        "days": expected.days,
    }


def container_fields(container: Container) -> Fields:
    """A container with its ledger."""
    return {
        "container": container.code,
        "kind": container.kind,
        "capacity": container.capacity,
        "unit": container.unit,
        "lot": container.lot,
        "left": container.left,
        "on_shelf": container.on_shelf,
        "estimated": container.estimated,
        "full_g": container.full_g,
        "empty_g": container.empty_g,
        "density_g_per_ml": container.density,
        "events": [_line(line) for line in container.lines],
    }


def _line(line: Line) -> Fields:
    event = line.event
    return {
        "kind": event.kind,
        "happened_on": day_field(event.happened_on),
        "amount": event.amount,
        "change": round(line.change, 6),
        "left": line.left,
        "weight_g": event.weight_g,
        "weighed_as": event.weighed_as,
        "estimated": event.estimated,
        "other": event.other,
        "price": price_field(event.price),
        "currency": event.currency,
        "note": event.note,
    }


def shopping_fields(shopping: ShoppingList) -> Fields:
    """A shopping list."""
    return {
        "weeks": shopping.weeks,
        "orders": [_order(order) for order in shopping.orders],
        "costs": {currency: float(cost) for currency, cost in shopping.costs.items()},
        "unpriced": shopping.unpriced,
    }


def _order(order: Order) -> Fields:
    return {
        "item": order.item.facts.code,
        "name": order.item.facts.full_name,
        "quantity": order.quantity,
        "size": order.size,
        "unit": order.item.stock.unit,
        "needed": order.needed,
        "price": price_field(order.price),
        "cost": price_field(order.cost),
        "currency": order.currency,
        "reason": order.reason,
    }


def shopping_csv(shopping: ShoppingList) -> str:
    """A shopping list as CSV, one line an order, with the names of the JSON."""
    text = io.StringIO()
    writer = csv.DictWriter(text, _ORDER_NAMES, lineterminator="\n")
    writer.writeheader()
    writer.writerows(_order(order) for order in shopping.orders)
    return text.getvalue()

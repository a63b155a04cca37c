"""Stock in the terminal: what is left, each ledger line by line, what to buy."""

import math
from collections.abc import Iterable, Sequence

from rich.console import Console

from studio.actions.find_stock import Item
from studio.actions.reorder_stock import ShoppingList
from studio.actions.weigh_stock import Weighing
from studio.catalogue.container import Container, Line
from studio.catalogue.forecast import Forecast
from studio.catalogue.stock import Stock, amount_text
from studio.sheets.screen import indented, print_table
from studio.sheets.shopping_page import total_text
from studio.sheets.tables import plain_table


def left_text(stock: Stock) -> str:
    """What is left with its unit; `about` where it rests on an estimate."""
    if stock.left is None:
        return "not counted"
    about = "about " if stock.estimated else ""
    return f"{about}{amount_text(stock.left, stock.unit)}"


def forecast_text(expected: Forecast | None) -> str:
    """How long it lasts, and how sure that is."""
    if expected is None:
        return ""
    many = "week" if round(expected.weeks) == 1 else "weeks"
    sure = f"{range_text(expected)}{expected.confidence}"
    return f"lasts about {expected.weeks:.0f} {many} at this rate ({sure})"


def range_text(expected: Forecast) -> str:
    """The weeks within a standard error of use to either side; empty where that is no bound."""
    if math.isinf(expected.weeks_high):
        return ""
    return f"{expected.weeks_low:.0f}\N{EN DASH}{expected.weeks_high:.0f}, "


def print_stock(console: Console, rows: Iterable[tuple[Item, Forecast | None]]) -> None:
    """What is left of paints and papers, and for how long."""
    table = plain_table(
        "code", "item", "left", "low at", "weeks", "how sure", right={2, 3, 4}, whole={5}
    )
    for item, expected in rows:
        low_at = item.low_at
        table.add_row(
            item.facts.code,
            item.facts.name,
            left_text(item.stock),
            ("low " if item.is_low else "")
            + ("" if low_at is None else amount_text(low_at, item.stock.unit)),
            "" if expected is None else f"{expected.weeks:.0f}",
            "" if expected is None else f"{range_text(expected)}{expected.confidence}",
        )
    if not table.row_count:
        console.print("Nothing on record to list.")
        return
    print_table(console, table)
    how = "weeks until nothing is left, at the rate of the last year"
    indented(console, f"{how}; line by line: studio stock show", 0, "dim")


def print_left(console: Console, changed: Iterable[tuple[Container, Item]]) -> None:
    """What is left in some containers, and of their paints or papers together."""
    items: dict[str, Item] = {}
    for container, item in changed:
        left = amount_text(container.left, container.unit)
        away = "" if container.on_shelf else ", not on the shelf"
        indented(console, f"{container.code} {container.kind}: {left} left{away}", 0)
        items[item.facts.code] = item
    for code, item in items.items():
        low = ""
        if item.is_low and item.low_at:
            low = f", low at {amount_text(item.low_at, item.stock.unit)}"
        said = f"{code} {item.facts.full_name}: {left_text(item.stock)} left in all"
        indented(console, said + low, 0)


def print_weighing(console: Console, found: Weighing, item: Item) -> None:
    """What a weighing found, what it rests on, and what is then left."""
    change = amount_text(found.change, found.container.unit)
    plus = "+" if found.change > 0 else ""
    indented(console, f"{found.basis}; {plus}{change} since the last entry", 0)
    print_left(console, [(found.container, item)])


def print_ledger(
    console: Console, item: Item, containers: Sequence[Container], expected: Forecast | None
) -> None:
    """Every entry of an item's containers, what it changed and what was left after it."""
    console.print(f"{item.facts.code}  {item.facts.full_name}", style="bold")
    for container in containers:
        print_container(console, container)
    if not containers:
        indented(console, "nothing booked yet: studio stock buy")
        return
    low = "" if item.low_at is None else f", low at {amount_text(item.low_at, item.stock.unit)}"
    console.print(f"{left_text(item.stock)} left{low}")
    if expected is not None:
        indented(
            console,
            f"{forecast_text(expected)}; {expected.per_week:.2g} {item.stock.unit} a week, from "
            f"{expected.entries} entries of use over {expected.days} days",
            0,
        )


def print_container(console: Console, container: Container) -> None:
    """The ledger of one container."""
    unit = container.unit
    holds = "" if container.capacity is None else f" of {amount_text(container.capacity, unit)}"
    facts = [f"{container.kind}{holds}"]
    facts += [f"lot {container.lot}"] if container.lot else []
    facts += [f"{container.full_g:g} g full"] if container.full_g else []
    facts += [f"{container.empty_g:g} g empty"] if container.empty_g else []
    facts += [f"{container.density:.2f} g/ml"] if container.density else []
    facts += [] if container.on_shelf else ["not on the shelf"]
    indented(console, f"{container.code}  {', '.join(facts)}", 0)
    table = plain_table("day", "", "change", "left", "", right={2, 3})
    for line in container.lines:
        plus = "+" if line.change > 0 else ""
        change = amount_text(line.change, container.unit)
        table.add_row(
            line.event.happened_on.isoformat(),
            line.event.kind,
            f"{plus}{change}" if line.change else "",
            amount_text(line.left, container.unit),
            _remark(line),
        )
    print_table(console, table)


def _remark(line: Line) -> str:
    event = line.event
    weight = None
    if event.weight_g is not None:
        mark = f" {event.weighed_as}" if event.weighed_as else ""
        weight = f"{event.weight_g:g} g{mark}"
    direction = "into" if event.kind == "poured" else "from"
    parts = (
        weight,
        "estimate" if event.estimated else None,
        f"{direction} {event.other}" if event.other else None,
        None if event.price is None else f"{event.price} {event.currency}",
        event.note,
    )
    return ", ".join(part for part in parts if part)


def print_shopping(console: Console, shopping: ShoppingList) -> None:
    """A shopping list with quantities and cost."""
    if not shopping.orders:
        console.print(f"Nothing to buy for the next {shopping.weeks:g} weeks.")
        return
    console.print(f"To buy for the next {shopping.weeks:g} weeks", style="bold")
    table = plain_table("code", "item", "buy", "each", "cost", "why", right={2, 3, 4})
    for order in shopping.orders:
        unit = order.item.stock.unit
        table.add_row(
            order.item.facts.code,
            order.item.facts.full_name,
            str(order.quantity),
            "" if order.size is None else amount_text(order.size, unit),
            "no price" if order.cost is None else f"{order.cost} {order.currency}",
            order.reason,
        )
    print_table(console, table)
    indented(console, total_text(shopping), 0)

"""Stock in the terminal: what is left, each ledger line by line, what to buy."""

from collections.abc import Iterable, Sequence

from rich.console import Console

from studio.actions.find_stock import Item
from studio.actions.reorder_stock import ShoppingList
from studio.catalogue.container import Container, Line
from studio.catalogue.forecast import Forecast
from studio.catalogue.stock import Stock
from studio.sheets.screen import indented
from studio.sheets.shopping_page import total_text
from studio.sheets.tables import plain_table


def left_text(stock: Stock) -> str:
    """What is left with its unit; `about` where it rests on an estimate."""
    if stock.left is None:
        return "not counted"
    about = "about " if stock.estimated else ""
    return f"{about}{stock.left:g} {stock.unit}"


def forecast_text(expected: Forecast | None) -> str:
    """How long it lasts, and how sure that is."""
    if expected is None:
        return ""
    if expected.weeks_high == float("inf"):
        return f"about {expected.weeks:.0f} weeks (a guess)"
    return (
        f"about {expected.weeks:.0f} weeks ({expected.weeks_low:.0f} to "
        f"{expected.weeks_high:.0f}, {expected.confidence})"
    )


def print_stock(console: Console, rows: Iterable[tuple[Item, Forecast | None]]) -> None:
    """What is left of paints and papers, and for how long."""
    table = plain_table("code", "item", "left", "low at", "at this rate", right={2, 3})
    for item, expected in rows:
        low_at = item.low_at
        table.add_row(
            item.facts.code,
            item.facts.full_name,
            left_text(item.stock) + (" low" if item.is_low else ""),
            "" if low_at is None else f"{low_at:g} {item.stock.unit}",
            forecast_text(expected),
        )
    console.print(table)


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
    low = "" if item.low_at is None else f", low at {item.low_at:g} {item.stock.unit}"
    console.print(f"{left_text(item.stock)} left{low}")
    if expected is not None:
        indented(
            console,
            f"{forecast_text(expected)}; {expected.per_week:.2g} {item.stock.unit} a week, from "
            f"{expected.entries} entries over {expected.days} days",
            0,
        )


def print_container(console: Console, container: Container) -> None:
    """The ledger of one container."""
    holds = "" if container.capacity is None else f" of {container.capacity:g} {container.unit}"
    facts = [f"{container.kind}{holds}"]
    facts += [f"lot {container.lot}"] if container.lot else []
    facts += [f"{container.full_g:g} g full"] if container.full_g else []
    facts += [f"{container.empty_g:g} g empty"] if container.empty_g else []
    facts += [f"{container.density:.2f} g/ml"] if container.density else []
    facts += [] if container.on_shelf else ["not on the shelf"]
    console.print(f"{container.code}  {', '.join(facts)}")
    table = plain_table("day", "", "change", "left", "", right={2, 3})
    for line in container.lines:
        change = "" if line.change == 0 else f"{line.change:+g} {container.unit}"
        table.add_row(
            line.event.happened_on.isoformat(),
            line.event.kind,
            change.replace("-", "\N{MINUS SIGN}"),
            f"{line.left:g} {container.unit}",
            _remark(line),
        )
    console.print(table)


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
            "" if order.size is None else f"{order.size:g} {unit}",
            "no price" if order.cost is None else f"{order.cost} {order.currency}",
            order.reason,
        )
    console.print(table)
    indented(console, total_text(shopping), 0)

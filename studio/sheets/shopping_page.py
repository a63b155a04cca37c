"""A shopping list as a page to print."""

from datetime import date

from studio.actions.reorder_stock import ShoppingList
from studio.catalogue.stock import amount_text
from studio.sheets.blocks import Block, Grid, Page, Paragraph
from studio.sheets.screen import day_text


def shopping_page(shopping: ShoppingList, today: date) -> Page:
    """The shopping list of a day."""
    rows = tuple(
        (
            "\N{BALLOT BOX}",
            order.item.facts.code,
            order.item.facts.full_name,
            str(order.quantity),
            "" if order.size is None else amount_text(order.size, order.item.stock.unit),
            "no price" if order.cost is None else f"{order.cost} {order.currency}",
            order.reason,
        )
        for order in shopping.orders
    )
    blocks: tuple[Block, ...] = (
        Grid(
            ("got", "code", "item", "buy", "each", "cost", "why"),
            rows,
            widths=(1, 1.2, 5, 1, 1.8, 2.2, 4),
            numbers=frozenset({3, 4, 5}),
        ),
        Paragraph(total_text(shopping), strong=True),
    )
    return Page(
        "To buy",
        f"{day_text(today)}, for the next {shopping.weeks:g} weeks",
        blocks,
        "Quantities follow from what is left, the studio's own use and what is planned.",
        day=today,
    )


def total_text(shopping: ShoppingList) -> str:
    """What it costs together, as far as prices are known."""
    sums = ", ".join(f"{cost} {currency}" for currency, cost in shopping.costs.items())
    more = f" and {shopping.unpriced} without a known price" if shopping.unpriced else ""
    return f"Together {sums or 'no known price'}{more}, at the prices last paid"

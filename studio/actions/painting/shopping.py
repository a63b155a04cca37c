"""What to buy before a planned painting is begun."""

from collections.abc import Mapping
from datetime import date

from studio.actions.painting.plan import Plan
from studio.actions.reorder_stock import ShoppingList, reorder_stock
from studio.storage.unit_of_work import UnitOfWork


def shopping_for(
    work: UnitOfWork, plan: Plan, today: date, *, more: Mapping[str, float] | None = None
) -> ShoppingList:
    """What to buy so that a plan leaves no paint at its low mark; where stock is known.

    Args:
        work: the studio.
        plan: what is painted.
        today: the day.
        more: code of a paint or paper -> what is needed in all, in its unit, instead of the plan's;
            then what the stock is not known of is bought as well.
    """
    planned = {need.paint.facts.code: need.ml for need in plan.palette} if more is None else more
    every = reorder_stock(work, today, weeks=0.0, planned=planned)
    orders = (
        order
        for order in every.orders
        if order.item.facts.code in planned
        and (more is not None or order.item.stock.left is not None)
    )
    return ShoppingList(tuple(orders), 0.0)

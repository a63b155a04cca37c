"""Add an entry to the stock ledger of a paint or a paper."""

from datetime import date

from studio.catalogue import checks, naming
from studio.catalogue.paint import Paint, Status
from studio.catalogue.paper import Paper
from studio.catalogue.stock import StockEvent, StockKind, Unit
from studio.errors import BadInput, NotFound
from studio.storage.unit_of_work import UnitOfWork

Item = Paint | Paper


def find_item(work: UnitOfWork, name: str) -> Item:
    """The paint or paper of a code, a name or a part of its name; a retired paint gives way.

    Raises:
        NotFound: none fits, or several do.
    """
    items: tuple[Item, ...] = (*work.paints.all(), *work.papers.all())
    try:
        return naming.find(
            name,
            items,
            what="item",
            code_of=lambda item: item.facts.code,
            name_of=lambda item: item.facts.full_name,
            preferred=lambda item: isinstance(item, Paper) or item.facts.status is Status.IN_USE,
        )
    except NotFound as error:
        if error.candidates:
            raise
        msg = f"no paint or paper is called {name!r}; see: studio stock list"
        raise NotFound(msg) from None


def unit_of(item: Item) -> Unit:
    """The unit an item is counted in: ml for a paint, sheets for a paper."""
    return Unit.ML if isinstance(item, Paint) else Unit.SHEETS


def record_stock(work: UnitOfWork, item: Item, event: StockEvent, today: date) -> None:
    """Add an entry; what is left is folded anew and never falls below zero.

    Raises:
        BadInput: the amount is impossible, the day lies ahead, or more is used than is there.
    """
    if event.unit is not unit_of(item):
        msg = f"{item.facts.full_name} is counted in {unit_of(item)}, not in {event.unit}"
        raise BadInput(msg)
    checks.past(event.happened_on, today, "the day")
    checks.number(
        event.amount, "the amount", 0, 1_000_000, above=event.kind is not StockKind.COUNTED
    )
    if isinstance(item, Paint):
        work.stock.add_to_paint(item.id, event)
        work.paints.renew_stock(item.id)
    else:
        work.stock.add_to_paper(item.id, event)
        work.papers.renew_stock(item.id)

"""Add an entry to the stock ledger of a paint or a paper."""

from datetime import date

from studio.actions.find import find_paint, find_paper
from studio.catalogue import checks
from studio.catalogue.paint import Paint
from studio.catalogue.paper import Paper
from studio.catalogue.stock import StockEvent, StockKind, Unit
from studio.errors import BadInput, NotFound
from studio.storage.unit_of_work import UnitOfWork

Item = Paint | Paper


def find_item(work: UnitOfWork, name: str) -> Item:
    """The paint or paper of a code or a part of its name.

    Raises:
        NotFound: none fits, or several do.
    """
    missing: list[NotFound] = []
    found: list[Item] = []
    for find in (find_paint, find_paper):
        try:
            found.append(find(work, name))
        except NotFound as error:
            missing.append(error)
    if len(found) == 1:
        return found[0]
    candidates = tuple(f"{item.facts.code} ({item.facts.full_name})" for item in found)
    candidates += tuple(label for error in missing for label in error.candidates)
    listed = ": " + ", ".join(candidates) if candidates else "; see: studio stock list"
    msg = (
        f"{name!r} is the name of a paint and of a paper; say which by its code{listed}"
        if found
        else f"no paint or paper is clearly meant by {name!r}{listed}"
    )
    raise NotFound(msg, candidates)


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
    else:
        work.stock.add_to_paper(item.id, event)

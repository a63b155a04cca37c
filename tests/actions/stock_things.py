"""A small shelf to book stock on, and entries of it."""

from datetime import date
from decimal import Decimal
from typing import Final

from studio.actions.add_paint import add_paint
from studio.actions.add_paper import add_paper
from studio.actions.buy_stock import Purchase, buy_stock
from studio.actions.find_stock import Item
from studio.catalogue.container import Container, ContainerKind
from studio.catalogue.paint import Form, Paint, PaintFacts, Status
from studio.catalogue.paper import Paper, PaperFacts
from studio.catalogue.stock import StockEvent, StockKind, WeighedAs
from studio.storage.unit_of_work import UnitOfWork
from tests.conftest import TODAY

BEFORE: Final = date(2026, 5, 4)


def a_paint(
    work: UnitOfWork,
    code: str = "SG",
    *,
    volume: float | None = 14.0,
    price: str | None = None,
    form: Form = Form.TUBE,
    status: Status = Status.IN_USE,
    low_at: float | None = None,
) -> Paint:
    """A recorded paint without any container."""
    facts = PaintFacts(
        code, "Saltings Colour", f"Sea {code}", volume_ml=volume, form=form, status=status,
        price=None if price is None else Decimal(price), low_at_ml=low_at,
    )  # fmt: skip
    return work.paints.by_id(add_paint(work, facts, TODAY, stock=False))


def a_paper(work: UnitOfWork, code: str = "MR") -> Paper:
    """A recorded paper without any container."""
    facts = PaperFacts(code, "Tidewrack Mill", f"Mud Rag {code}")
    return work.papers.by_id(add_paper(work, facts, TODAY))


def bought(
    work: UnitOfWork,
    item: Item,
    capacity: float | None = None,
    *,
    kind: ContainerKind | None = None,
    left: float | None = None,
    weight: float | None = None,
    price: str | None = None,
    currency: str | None = None,
    on: date = BEFORE,
) -> Container:
    """A container of an item, bought some months ago."""
    purchase = Purchase(
        on, capacity=capacity, kind=kind, left=left, weight_g=weight, currency=currency,
        price=None if price is None else Decimal(price),
    )  # fmt: skip
    (container,) = buy_stock(work, item, purchase, TODAY)
    return container


def entry(
    kind: StockKind, amount: float | None = None, on: date = TODAY, *, estimated: bool = False
) -> StockEvent:
    """An entry of today."""
    return StockEvent(kind, on, amount, estimated=estimated)


def weighing(grams: float, mark: WeighedAs | None = None, on: date = TODAY) -> StockEvent:
    """A weighing of today."""
    return StockEvent(StockKind.WEIGHED, on, weight_g=grams, weighed_as=mark)


def left(work: UnitOfWork, item: Item) -> float | None:
    """What is left of an item, read anew."""
    every: tuple[Item, ...] = (*work.paints.all(), *work.papers.all())
    return next(each for each in every if each.facts.code == item.facts.code).stock.left

"""Find what a typed name means on the shelf: a paint, a paper, or one container of it."""

from collections.abc import Callable, Sequence
from typing import Final

from studio.catalogue import naming
from studio.catalogue.container import Container
from studio.catalogue.paint import Paint, Status
from studio.catalogue.paper import Paper
from studio.catalogue.stock import StockEvent, Unit, amount_text
from studio.errors import Ambiguous, NotFound
from studio.storage.unit_of_work import UnitOfWork

Item = Paint | Paper

SEE: Final = "see: studio stock list"


def find_item(work: UnitOfWork, name: str) -> Item:
    """The paint or paper of a code or a part of its name, or of one of its containers' codes.

    A retired paint gives way.

    Raises:
        NotFound: none fits, or several do.
    """
    container = work.containers.with_code(name)
    if container is not None:
        return item_of(work, container)
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
    except Ambiguous:
        raise
    except NotFound as error:
        near = f"near it: {', '.join(error.candidates)}" if error.candidates else SEE
        msg = f"no paint or paper is called {name!r}; {near}"
        raise NotFound(msg, error.candidates) from None


def item_of(work: UnitOfWork, container: Container) -> Item:
    """The paint or paper that a container holds."""
    if container.paint_id is not None:
        return work.paints.by_id(container.paint_id)
    assert container.paper_id is not None  # noqa: S101 - the database allows no other
    return work.papers.by_id(container.paper_id)


def book_entry(work: UnitOfWork, container: Container, event: StockEvent) -> Container:
    """Add an entry to a container; what is left of its paint or paper follows.

    Raises:
        BadInput: it cannot have happened after the entries before it.
    """
    changed = work.containers.add_event(container, event)
    if changed.paint_id is not None:
        work.paints.renew_stock(changed.paint_id)
    elif changed.paper_id is not None:
        work.papers.renew_stock(changed.paper_id)
    return changed


def containers_of(work: UnitOfWork, item: Item) -> tuple[Container, ...]:
    """The containers of an item, oldest first."""
    if isinstance(item, Paint):
        return work.containers.of_paint(item.id)
    return work.containers.of_paper(item.id)


def unit_of(work: UnitOfWork, item: Item) -> Unit:
    """The unit an item is counted in: that of its containers, else ml or sheets."""
    containers = containers_of(work, item)
    if containers:
        return containers[0].unit
    return Unit.ML if isinstance(item, Paint) else Unit.SHEETS


def find_container(
    work: UnitOfWork, name: str, fits: Callable[[Container], bool] = lambda _: True
) -> Container:
    """The container of a code, or the one meant by the name of its paint or paper.

    That is the only one on the shelf, else the only open one.

    Args:
        work: the studio.
        name: a code, or the name of a paint or paper.
        fits: where several could be meant, leaves out those that cannot be.

    Raises:
        NotFound: nothing fits, or several could be meant; the sentence lists them.
    """
    container = work.containers.with_code(name)
    if container is not None:
        return container
    item = find_item(work, name)
    every = containers_of(work, item)
    shelf = [each for each in every if each.on_shelf]
    begun = [each for each in shelf if each.is_open and each.left > 0]
    for choice in (shelf, begun, [each for each in begun if fits(each)]):
        if len(choice) == 1:
            return choice[0]
    if not every:
        msg = (
            f"no container of {item.facts.full_name} is on record; book one with: studio stock "
            f"buy {item.facts.code}"
        )
        raise NotFound(msg)
    labels = tuple(container_label(each) for each in (shelf or every))
    msg = f"{item.facts.full_name} has {len(labels)} containers; say which: {_listed(labels)}"
    raise NotFound(msg, labels)


def container_label(container: Container) -> str:
    """A container in a list of candidates, with what is left in it."""
    state = "" if container.on_shelf else ", not on the shelf"
    return (
        f"{container.code} ({container.kind}, {amount_text(container.left, container.unit)}{state})"
    )


def _listed(labels: Sequence[str]) -> str:
    return ", ".join(labels)

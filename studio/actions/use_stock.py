"""Book what was used, from the open container first; or correct what is left."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from studio.actions.find_stock import Item, book_entry, containers_of, find_item, unit_of
from studio.actions.find_subject import find_subject
from studio.actions.match_colour import Ingredient
from studio.catalogue import checks
from studio.catalogue.container import Container, ContainerKind
from studio.catalogue.paint import Paint
from studio.catalogue.stock import StockEvent, StockKind
from studio.catalogue.swatch import Swatch
from studio.errors import Ambiguous, BadInput, NotFound
from studio.storage.unit_of_work import UnitOfWork


def use_stock(
    work: UnitOfWork,
    item: Item,
    event: StockEvent,
    today: date,
    container: Container | None = None,
) -> tuple[Container, ...]:
    """Book a use (`used`) or a loss of part (`discarded` with an amount).

    Without a container it is taken from the open one, then from the others, oldest first.

    Args:
        work: the studio.
        item: the paint or paper.
        event: the entry; it is split over as many containers as it takes.
        today: no entry may lie after it.
        container: take all of it from this one.

    Returns:
        The containers it was taken from.

    Raises:
        BadInput: more is used than there is, or the entry is impossible.
    """
    checks.past(event.happened_on, today, "the day")
    amount = checks.number(event.amount or 0.0, "the amount", 0, 1_000_000, above=True)
    if container is not None:
        return (book_entry(work, container, event),)
    shelf = [each for each in containers_of(work, item) if each.on_shelf and each.left > 0]
    shelf.sort(key=lambda each: not each.is_open)
    left = sum(each.left for each in shelf)
    if amount > left + 1e-6:
        unit = unit_of(work, item)
        msg = (
            f"{amount:g} {unit} {event.kind} on {event.happened_on.isoformat()}, but only "
            f"{left:g} {unit} of {item.facts.full_name} are on record; book a purchase, or correct "
            "what is left: studio stock correct"
        )
        raise BadInput(msg)
    changed = []
    for each in shelf:
        part = min(amount, each.left)
        if part > 0:
            changed.append(book_entry(work, each, replace(event, amount=round(part, 6))))
            amount = round(amount - part, 6)
    return tuple(changed)


def use_named(work: UnitOfWork, name: str, event: StockEvent, today: date) -> tuple[Container, ...]:
    """Book what was used of a container, a paint, a paper, or of a mix by its parts.

    Args:
        work: the studio.
        name: a code, a name or a recipe; a paint or paper comes before a mix.
        event: the entry, `used`.
        today: no entry may lie after it.

    Returns:
        The containers it was taken from.

    Raises:
        BadInput: more is used than there is, or the entry is impossible.
        NotFound: nothing fits, or several do.
    """
    try:
        item = find_item(work, name)
    except Ambiguous:
        raise
    except NotFound as no_item:
        try:
            recipe = find_subject(work, name).recipe
        except NotFound:
            raise no_item from None
        return use_mix(work, recipe, event, today)
    return use_stock(work, item, event, today, work.containers.with_code(name))


def use_mix(
    work: UnitOfWork, recipe: Sequence[Ingredient], event: StockEvent, today: date
) -> tuple[Container, ...]:
    """Book what was used of a mix: each paint gives its parts of the amount.

    Args:
        work: the studio.
        recipe: the paints with their parts.
        event: the entry, `used`, with ml of paint in all, water left out.
        today: no entry may lie after it.

    Returns:
        The containers it was taken from.

    Raises:
        BadInput: more is used of a paint than there is, or the entry is impossible.
    """
    amount = checks.number(event.amount or 0.0, "the amount in ml", 0, 1_000_000, above=True)
    parts = sum(each.parts for each in recipe)
    return tuple(
        container
        for each in recipe
        for container in use_stock(
            work, each.paint, replace(event, amount=round(amount * each.parts / parts, 6)), today
        )
    )


def use_for_swatch(
    work: UnitOfWork, swatch: Swatch, recipe: Sequence[Ingredient], amount: float, today: date
) -> tuple[Container, ...]:
    """Book by estimate the paint that a swatch took, until the next weighing settles it.

    Args:
        work: the studio.
        swatch: the swatch.
        recipe: the paints of its mix with their parts.
        amount: ml of paint in all, water left out.
        today: no entry may lie after it.

    Raises:
        BadInput: more is used of a paint than there is, or the entry is impossible.
    """
    note = f"swatch {swatch.facts.code}"
    event = StockEvent(StockKind.USED, swatch.facts.made_on, amount, estimated=True, note=note)
    return use_mix(work, recipe, event, today)


def correct_stock(
    work: UnitOfWork, item: Item, event: StockEvent, today: date, container: Container | None
) -> Container:
    """Set what is left after a count; an item without containers gets an assortment.

    Args:
        work: the studio.
        item: the paint or paper.
        event: the entry, `corrected`.
        today: no entry may lie after it.
        container: the one that was counted; None for an item that has none.

    Raises:
        BadInput: the entry is impossible.
    """
    checks.past(event.happened_on, today, "the day")
    checks.number(event.amount or 0.0, "the amount", 0, 1_000_000)
    if container is None:
        container = work.containers.add(
            Container(
                id=0,
                code=work.containers.next_code(item.facts.code),
                paint_id=item.id if isinstance(item, Paint) else None,
                paper_id=None if isinstance(item, Paint) else item.id,
                kind=ContainerKind.ASSORTED,
                unit=unit_of(work, item),
                capacity=None,
                lot=None,
            )
        )
    if container.capacity is not None and (event.amount or 0.0) > container.capacity + 1e-6:
        msg = (
            f"{container.code} holds {container.capacity:g} {container.unit}; it cannot have "
            f"{event.amount:g}"
        )
        raise BadInput(msg)
    return book_entry(work, container, event)


def move_container(
    work: UnitOfWork, container: Container, event: StockEvent, today: date
) -> Container:
    """Open, lend, return or discard a container.

    Raises:
        BadInput: it cannot happen now, or the day lies ahead.
    """
    checks.past(event.happened_on, today, "the day")
    if event.kind is StockKind.OPENED and container.opened_on is not None:
        msg = f"{container.code} is open since {container.opened_on.isoformat()}"
        raise BadInput(msg)
    return book_entry(work, container, event)


def refill_container(
    work: UnitOfWork, target: Container, source: Container, event: StockEvent, today: date
) -> tuple[Container, Container]:
    """Pour paint from one container into another of the same paint.

    Args:
        work: the studio.
        target: the container that is filled.
        source: the container it comes from.
        event: the entry of the target, `refilled`; the source gets its counterpart.
        today: no entry may lie after it.

    Returns:
        The filled and the poured container.

    Raises:
        BadInput: it is the same container, another paint, too much, or the day lies ahead.
    """
    checks.past(event.happened_on, today, "the day")
    checks.number(event.amount or 0.0, "the amount in ml", 0, 1_000_000, above=True)
    if target.id == source.id:
        msg = f"{target.code} cannot be refilled from itself; say from which: --from CODE"
        raise BadInput(msg)
    if target.paint_id is None or target.paint_id != source.paint_id:
        msg = f"{target.code} and {source.code} do not hold the same paint"
        raise BadInput(msg)
    filling = replace(
        event,
        kind=StockKind.REFILLED,
        estimated=event.estimated or source.estimated,
        other=source.code,
    )
    pouring = replace(filling, kind=StockKind.POURED, other=target.code)
    poured = book_entry(work, source, pouring)
    return book_entry(work, target, filling), poured

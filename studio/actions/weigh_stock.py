"""Weigh a container of paint: the two-second way to know what is left."""

from dataclasses import dataclass, replace
from datetime import date
from statistics import fmean

from studio.actions.find_stock import book_entry, find_container
from studio.catalogue import checks
from studio.catalogue.container import Container
from studio.catalogue.stock import StockEvent, Unit, WeighedAs
from studio.catalogue.weighing import left_by_weight
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork


@dataclass(frozen=True, slots=True)
class Weighing:
    """What a weighing found.

    Args:
        container: with the new entry.
        change: ml since the entry before.
        basis: what it was computed from.
    """

    container: Container
    change: float
    basis: str


def find_weighed(work: UnitOfWork, name: str, grams: float) -> Container:
    """The container on the scale: of several, the one that can weigh so much.

    A tube of 25 g and a half pan of 4 g are told apart by the scale.

    Args:
        work: the studio.
        name: a code, or the name of a paint.
        grams: what the scale shows.

    Raises:
        NotFound: nothing fits, or several do.
    """

    def fits(container: Container) -> bool:
        try:
            left_by_weight(container, grams, learnt_density(work, container))
        except BadInput:
            return False
        return True

    return find_container(work, name, fits)


def weigh_stock(work: UnitOfWork, container: Container, event: StockEvent, today: date) -> Weighing:
    """Book a weighing; what is left follows from the full and empty weight and the density.

    Args:
        work: the studio.
        container: a container of paint.
        event: the entry, `weighed`, with what the scale shows (g) and, where it is full or empty,
            that mark; its amount is worked out here.
        today: no entry may lie after it.

    Raises:
        BadInput: it holds no paint, weighs more than full or less than empty, or nothing is known
            to compare with.
    """
    checks.past(event.happened_on, today, "the day")
    grams = checks.number(event.weight_g or 0.0, "the weight in g", 0, 100_000, above=True)
    if container.unit is not Unit.ML:
        msg = f"{container.code} holds paper, which is counted: studio stock correct"
        raise BadInput(msg)
    estimated = False
    match event.weighed_as:
        case WeighedAs.FULL:
            left, basis = _full(container, grams), "weighed as full"
        case WeighedAs.EMPTY:
            left, basis = _empty(container, grams), "weighed as empty"
        case None:
            found = left_by_weight(container, grams, learnt_density(work, container))
            left, basis, estimated = found.left, found.basis, found.assumed
    changed = book_entry(work, container, replace(event, amount=left, estimated=estimated))
    return Weighing(changed, changed.lines[-1].change, basis)


def learnt_density(work: UnitOfWork, container: Container) -> float | None:
    """Density of a paint, g/ml, from its containers that were weighed full and empty."""
    if container.paint_id is None:
        return None
    known = [each.density for each in work.containers.of_paint(container.paint_id)]
    densities = [density for density in known if density is not None]
    return fmean(densities) if densities else None


def _full(container: Container, grams: float) -> float:
    if container.capacity is None:
        msg = f"{container.code} is an assortment; what a full one holds is not known"
        raise BadInput(msg)
    if container.empty_g is not None and grams <= container.empty_g:
        msg = f"{container.code} weighs {container.empty_g:g} g empty, so {grams:g} g is not full"
        raise BadInput(msg)
    return container.capacity


def _empty(container: Container, grams: float) -> float:
    if container.full_g is not None and grams >= container.full_g:
        msg = f"{container.code} weighs {container.full_g:g} g full, so {grams:g} g is not empty"
        raise BadInput(msg)
    return 0.0

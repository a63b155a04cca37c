"""Whether the passages of each painting keep their rules, and finished ones have their record."""

from collections.abc import Iterator

from studio.actions.fault import Fault
from studio.catalogue.painting import Painting
from studio.catalogue.painting_rules import order_faults, share_faults
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork


def painting_faults(work: UnitOfWork) -> Iterator[Fault]:
    """What is wrong with the paintings, one fault each."""
    for painting in (*work.paintings.all(), *work.paintings.removed()):
        for fault in (*order_faults(painting.passages), *share_faults(painting.passages)):
            yield Fault(f"{painting.code}: {fault}")
        places = work.paintings.places(painting.id)
        if places != tuple(range(1, len(places) + 1)):
            yield Fault(
                f"the passages of {painting.code} have no clear order",
                f'studio painting passage move {painting.code} "a passage" --first',
            )
        yield from _record_faults(work, painting)


def _record_faults(work: UnitOfWork, painting: Painting) -> Iterator[Fault]:
    try:
        record = work.painting_records.of_painting(painting.id)
    except BadInput as error:
        yield Fault(f"{painting.code}: {error}")
        return
    if (record is None) != (painting.finished_on is None):
        yield Fault(
            f"{painting.code} is finished and has no record"
            if record is None
            else f"{painting.code} has a record and is not finished"
        )
    elif record is not None and record.finished_on != painting.finished_on:
        yield Fault(f"{painting.code} was finished on another day than its record says")

"""Change what is recorded of a paint."""

from dataclasses import replace

from studio.actions.add_paint import checked_paint, record_unknown_pigments, refuse_double
from studio.catalogue import naming
from studio.catalogue.paint import Paint, PaintFacts, Status
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork


def edit_paint(work: UnitOfWork, paint: Paint, facts: PaintFacts) -> None:
    """Replace the facts of a paint.

    Raises:
        BadInput: a value is impossible, or another paint has that code or name.
    """
    facts = replace(checked_paint(facts, paint.facts.pigments), code=naming.code(facts.code))
    refuse_double(work, facts, paint.id)
    record_unknown_pigments(work, facts)
    work.paints.change(paint.id, facts)


def retire_paint(work: UnitOfWork, paint: Paint) -> None:
    """Take a paint off the shelf; its mixes and swatches stay.

    Raises:
        BadInput: it is retired already.
    """
    if paint.facts.status is Status.RETIRED:
        msg = f"{paint.facts.full_name} is retired already"
        raise BadInput(msg)
    edit_paint(work, paint, replace(paint.facts, status=Status.RETIRED))

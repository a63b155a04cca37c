"""Begin a painting; correct, remove or restore one."""

from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Final

from studio.catalogue import checks, naming
from studio.catalogue.painting import Painting
from studio.catalogue.painting_rules import short_text
from studio.catalogue.removal import Removal
from studio.errors import BadInput, NotFound
from studio.storage.unit_of_work import UnitOfWork

_SIDES: Final = (10.0, 10_000.0)
"""mm; a postage stamp and a wall."""


def start_painting(
    work: UnitOfWork, painting: Painting, today: date, reference: Path | None = None
) -> Painting:
    """Record a painting without passages.

    Args:
        work: the studio.
        painting: what is known of it; an empty code takes the next of the series P1, P2, …
        today: no day may lie after it.
        reference: the picture it is painted from.

    Raises:
        BadInput: a value is impossible, the code is taken, or the picture cannot be read.
    """
    checked = checked_painting(painting, today)
    if not checked.code:
        checked = replace(checked, code=work.paintings.next_code())
    elif work.paintings.with_code(checked.code) is not None:
        msg = f"code {checked.code} is taken by another painting; choose another"
        raise BadInput(msg)
    if reference is not None:
        from studio.actions.painting.reference import with_reference  # noqa: PLC0415 - numpy

        checked = with_reference(work, checked, reference, today)
    return work.paintings.by_id(work.paintings.add(checked))


def edit_painting(  # noqa: PLR0913 - what changes, the picture, and whether it may be another
    work: UnitOfWork,
    painting: Painting,
    changed: Painting,
    today: date,
    *,
    reference: Path | None = None,
    another: bool = False,
) -> Painting:
    """Correct what is known of a painting, or say where its reference picture lies now.

    Args:
        work: the studio.
        painting: as it is.
        changed: as it is to be.
        today: no day may lie after it.
        reference: where the picture is.
        another: it may be another picture than before; colours stay as they were picked.

    Raises:
        BadInput: a value is impossible, or the picture is another one.
    """
    checked = checked_painting(changed, today)
    if painting.finished_on is not None and painting.finished_on < checked.started_on:
        msg = (
            f"{painting.code} was finished on {painting.finished_on.isoformat()}, so it was begun "
            "by then"
        )
        raise BadInput(msg)
    if reference is not None:
        from studio.actions.painting.reference import (  # noqa: PLC0415 - numpy
            same_reference,
            with_reference,
        )

        known = painting.reference
        if known is not None and not another and not same_reference(painting, reference):
            msg = (
                f"{reference} is another picture than {known.name}, which {painting.code} was "
                "begun from; if it is to be painted from this one, add --another: colours picked "
                "before stay as they are"
            )
            raise BadInput(msg)
        checked = with_reference(work, checked, reference, today)
    work.paintings.change(checked)
    return work.paintings.by_id(painting.id)


def checked_painting(painting: Painting, today: date) -> Painting:
    """A painting with texts folded and numbers checked; an empty code stays empty.

    Raises:
        BadInput: a value is impossible.
    """
    return replace(
        painting,
        code=naming.code(painting.code) if painting.code else "",
        title=short_text(painting.title, "the title"),
        width_mm=checks.number(painting.width_mm, "each side of the painting in mm", *_SIDES),
        height_mm=checks.number(painting.height_mm, "each side of the painting in mm", *_SIDES),
        tolerance=checks.number(
            painting.tolerance, "the ΔE00 that a mix may be off by", 0, 100, above=True
        ),
        started_on=checks.past(painting.started_on, today, "the day"),
        note=checks.optional_text(painting.note, "the note"),
    )


def remove_painting(
    work: UnitOfWork, painting: Painting, because: str | None, today: date
) -> Painting:
    """Mark a painting as removed; it stays on record with its passages.

    Raises:
        BadInput: it was removed before.
    """
    if painting.removed is not None:
        msg = f"{painting.code} was removed on {painting.removed.on.isoformat()} already"
        raise BadInput(msg)
    mark = Removal(today, checks.optional_text(because, "the reason"))
    work.paintings.mark(painting.id, mark)
    return work.paintings.by_id(painting.id)


def restore_painting(work: UnitOfWork, code: str) -> Painting:
    """Take the mark of a removed painting away.

    Raises:
        NotFound: there is no painting of that code.
        BadInput: it was not removed.
    """
    painting = work.paintings.with_code(code)
    if painting is None:
        msg = f"no painting has the code {code!r}; see: studio painting list --removed"
        raise NotFound(msg)
    if painting.removed is None:
        msg = f"{painting.code} was not removed"
        raise BadInput(msg)
    work.paintings.mark(painting.id, None)
    return work.paintings.by_id(painting.id)

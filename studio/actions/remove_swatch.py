"""Remove a swatch, or set one of its readings aside: both stay on record, marked."""

from dataclasses import replace
from datetime import date

from studio.catalogue import checks
from studio.catalogue.removal import Removal
from studio.catalogue.swatch import Swatch
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork


def remove_swatch(work: UnitOfWork, swatch: Swatch, because: str | None, today: date) -> Swatch:
    """Mark a swatch as removed: it keeps its code, and no search, list or average counts it.

    Args:
        work: the studio.
        swatch: the swatch.
        because: why, in the owner's words.
        today: the day.

    Raises:
        BadInput: it was removed already.
    """
    if swatch.removed is not None:
        msg = f"{swatch.facts.code} was removed already, on {swatch.removed.on.isoformat()}"
        raise BadInput(msg)
    mark = _mark(because, today)
    work.swatches.mark(swatch.id, mark)
    return replace(swatch, removed=mark)


def restore_swatch(work: UnitOfWork, swatch: Swatch) -> Swatch:
    """Take the mark of a removed swatch away.

    Raises:
        BadInput: it was not removed.
    """
    if swatch.removed is None:
        msg = f"{swatch.facts.code} was not removed; removed swatches: studio swatch list --removed"
        raise BadInput(msg)
    work.swatches.mark(swatch.id, None)
    return replace(swatch, removed=None)


def set_reading_aside(
    work: UnitOfWork, swatch: Swatch, number: int, because: str | None, today: date
) -> Swatch:
    """Set a reading of a swatch aside; its colour follows from the other readings.

    Args:
        work: the studio.
        swatch: the swatch.
        number: of the reading, as `swatch show` tells it.
        because: why, in the owner's words.
        today: the day.

    Raises:
        BadInput: there is no such reading, it was set aside already, or it is the last that counts.
    """
    code = swatch.facts.code
    _check_number(swatch, number)
    if number not in swatch.numbers:
        msg = f"reading {number} of {code} was set aside already"
        raise BadInput(msg)
    if len(swatch.readings) == 1:
        msg = (
            f"reading {number} is the last of {code} that counts; remove the swatch instead: "
            f"studio swatch remove {code}"
        )
        raise BadInput(msg)
    work.swatches.mark_reading(swatch.id, number, _mark(because, today))
    return work.swatches.by_ids([swatch.id])[swatch.id]


def count_reading_again(work: UnitOfWork, swatch: Swatch, number: int) -> Swatch:
    """Count a reading again that was set aside.

    Raises:
        BadInput: there is no such reading, or it was not set aside.
    """
    _check_number(swatch, number)
    if number in swatch.numbers:
        msg = f"reading {number} of {swatch.facts.code} was not set aside"
        raise BadInput(msg)
    work.swatches.mark_reading(swatch.id, number, None)
    return work.swatches.by_ids([swatch.id])[swatch.id]


def _check_number(swatch: Swatch, number: int) -> None:
    count = len(swatch.every_reading)
    if not 1 <= number <= count:
        has = "one reading" if count == 1 else f"{count} readings"
        code = swatch.facts.code
        msg = f"{code} has {has}, no reading {number}; see: studio swatch show {code}"
        raise BadInput(msg)


def _mark(because: str | None, today: date) -> Removal:
    return Removal(today, checks.optional_text(because, "the reason"))

"""Check a studio's database: SQLite's own checks, and that what is derived follows its source."""

from collections.abc import Callable
from contextlib import closing
from pathlib import Path

from studio.catalogue.reading import representative
from studio.errors import BadInput
from studio.storage.schema import connect
from studio.storage.sqlite_copy import problems
from studio.storage.trouble import in_plain_words
from studio.storage.unit_of_work import UnitOfWork

TOLERANCE = 1e-9


def check_database(path: Path) -> list[str]:
    """What is wrong with a database, a sentence each; empty when nothing is.

    Raises:
        DatabaseTrouble: it cannot be read at all.
    """
    with in_plain_words(path), closing(connect(path)) as connection:
        faults = problems(connection)
    if faults:
        return faults
    with UnitOfWork(path) as work:
        return [
            *_unless_unreadable("pigments", lambda: _pigment_faults(work)),
            *_unless_unreadable("swatches", lambda: _swatch_faults(work)),
            *_unless_unreadable("mixes", lambda: _mix_faults(work)),
            *_unless_unreadable("stock ledger", lambda: _stock_faults(work)),
        ]


def _unless_unreadable(what: str, look: Callable[[], list[str]]) -> list[str]:
    """The faults found, or the one that kept rows from becoming values at all."""
    try:
        return look()
    except (BadInput, ValueError, TypeError) as error:
        return [f"the {what} cannot be read: {error}"]


def _pigment_faults(work: UnitOfWork) -> list[str]:
    work.pigments.all()
    return []


def _swatch_faults(work: UnitOfWork) -> list[str]:
    faults = []
    for swatch in work.swatches.all():
        if not swatch.readings:
            faults.append(f"swatch {swatch.facts.code} has no reading")
            continue
        state, lab = representative(swatch.readings)
        pairs = zip(lab.coordinates, swatch.lab.coordinates, strict=True)
        if state is not swatch.state or any(abs(a - b) > TOLERANCE for a, b in pairs):
            faults.append(
                f"swatch {swatch.facts.code} is searched by another colour than its readings give"
            )
    return faults


def _mix_faults(work: UnitOfWork) -> list[str]:
    return [
        f"mix {mix.code} is filed under another recipe than its own"
        for mix in work.mixes.all()
        if work.mixes.with_recipe(mix.recipe) != mix
    ]


def _stock_faults(work: UnitOfWork) -> list[str]:
    """Of every container, those that are lent or discarded too."""
    faults = []
    for container in work.containers.all():
        try:
            _ = container.lines
        except BadInput as error:
            faults.append(f"the stock ledger does not add up: {error}")
    return faults

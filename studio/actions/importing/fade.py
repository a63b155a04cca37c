"""Rows of fade tests: each starts a test, adds a reading to it, or both."""

from datetime import date

from studio.actions.end_fade import end_fade
from studio.actions.find import find_paint_or_mix, find_paper
from studio.actions.find_fade import subject_of
from studio.actions.importing.row import Row
from studio.actions.read_fade import HalvesRead, checked_reading, read_fade
from studio.actions.start_fade import start_fade
from studio.catalogue import naming
from studio.catalogue.fade import FadeTest
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork


def import_fade(work: UnitOfWork, row: Row, today: date) -> bool:
    """Record a test, one more reading of it or its end; False when all of that stands there.

    A row without `read_on` only starts, or ends, its test.
    """
    known = work.fade_tests.with_code(naming.code(row.needed("code")))
    test = _started(work, row, today) if known is None else _checked(work, known, row)
    new = known is None
    read = _halves(row)
    if read is not None and checked_reading(test, read, today) not in test.readings:
        test, new = read_fade(work, test, read, today), True
    ended_on = row.day("ended_on")
    if ended_on is not None and test.ended_on != ended_on:
        end_fade(work, test, ended_on, today)
        new = True
    return new


def _started(work: UnitOfWork, row: Row, today: date) -> FadeTest:
    paper = row.text("paper")
    return start_fade(
        work,
        find_paint_or_mix(work, row.needed("item")),
        place=row.needed("place"),
        started_on=row.needed_day("started_on"),
        today=today,
        paper=None if paper is None else find_paper(work, paper),
        note=row.text("note"),
        code=row.needed("code"),
    )


def _checked(work: UnitOfWork, known: FadeTest, row: Row) -> FadeTest:
    """The recorded test of a row's code; a cell that is not empty must say the same of it."""
    paper, note = row.text("paper"), row.text("note")
    same = (
        find_paint_or_mix(work, row.needed("item")) == subject_of(work, known)
        and row.needed("place") == known.place
        and row.needed_day("started_on") == known.started_on
        and (paper is None or find_paper(work, paper).id == known.paper_id)
        and (note is None or note == known.note)
    )
    if not same:
        msg = f"{known.code} is recorded already as another test; choose another code"
        raise BadInput(msg)
    return known


def _halves(row: Row) -> HalvesRead | None:
    """What a row read, None without a day.

    Raises:
        BadInput: something was read on no day.
    """
    read_on = row.day("read_on")
    covered = row.lab("covered_", "illuminant", "observer")
    exposed = row.lab("exposed_", "illuminant", "observer")
    step, note = row.whole("blue_wool"), row.text("reading_note")
    if read_on is None:
        if any(value is not None for value in (covered, exposed, step, note)):
            msg = "read_on is empty, and a reading needs its day"
            raise BadInput(msg)
        return None
    return HalvesRead(read_on, covered, exposed, step, note)

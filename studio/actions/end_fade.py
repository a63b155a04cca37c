"""End a fade test: the strip was taken down. Its readings stay; nothing is deleted."""

from dataclasses import replace
from datetime import date

from studio.actions.find_fade import renewed_test
from studio.catalogue import checks
from studio.catalogue.fade import FadeTest
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork


def end_fade(work: UnitOfWork, test: FadeTest, ended_on: date, today: date) -> FadeTest:
    """Record the day a strip was taken down.

    Raises:
        BadInput: it is down already, or the day is in the future, before the start or before a
            reading.
    """
    if test.ended_on is not None:
        msg = f"{test.code} ended on {test.ended_on.isoformat()} already"
        raise BadInput(msg)
    checks.past(ended_on, today, "the day")
    if ended_on < test.started_on:
        msg = (
            f"{test.code} was started on {test.started_on.isoformat()}; end it on that day or later"
        )
        raise BadInput(msg)
    last = test.readings[-1].read_on if test.readings else test.started_on
    if ended_on < last:
        msg = f"{test.code} was read on {last.isoformat()}; end it on that day or later"
        raise BadInput(msg)
    work.fade_tests.change(replace(test, ended_on=ended_on))
    return renewed_test(work, test.code)

"""Add a reading to a fade test: the covered and the exposed half, read on one day."""

from dataclasses import dataclass
from datetime import date

from studio.actions.find_fade import renewed_test
from studio.actions.make_reading import Circumstances, reading_of_lab
from studio.catalogue import checks
from studio.catalogue.fade import BLUE_WOOL_STEPS, FadeReading, FadeTest
from studio.catalogue.reading import Method, Origin
from studio.colour.lab import Lab
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork


@dataclass(frozen=True, slots=True)
class HalvesRead:
    """What was read of a strip on one day, as it was given.

    Args:
        read_on: the day.
        covered: the covered half under its own white; None when it was not read.
        exposed: the exposed half under its own white; None when it was not read.
        blue_wool: highest step of a blue wool card that has visibly faded, 0 for none.
        note: remarks.
    """

    read_on: date
    covered: Lab | None
    exposed: Lab | None
    blue_wool: int | None = None
    note: str | None = None


def read_fade(work: UnitOfWork, test: FadeTest, read: HalvesRead, today: date) -> FadeTest:
    """Add a reading to a test.

    Raises:
        BadInput: a half is missing, a value is impossible, or the day is before the start, after
            the end, in the future or read already.
    """
    reading = checked_reading(test, read, today)
    day = reading.read_on.isoformat()
    if any(known.read_on == reading.read_on for known in test.readings):
        msg = f"{test.code} was read on {day} already; one reading a day is kept"
        raise BadInput(msg)
    work.fade_tests.add_reading(test.id, reading)
    return renewed_test(work, test.code)


def checked_reading(test: FadeTest, read: HalvesRead, today: date) -> FadeReading:
    """Both halves under D50/2°, read while the strip hung.

    Of halves given under another white, the note says from which they were adapted.

    Raises:
        BadInput: a half is missing, a value is impossible, or the day lies outside the test.
    """
    day = checks.past(read.read_on, today, "the day of the reading")
    if day < test.started_on:
        msg = (
            f"the reading of {day.isoformat()} is older than the test {test.code} "
            f"({test.started_on.isoformat()}); correct the day"
        )
        raise BadInput(msg)
    if test.ended_on is not None and day > test.ended_on:
        msg = (
            f"{test.code} ended on {test.ended_on.isoformat()}; a later reading would count days "
            "it did not hang, so date it to the last"
        )
        raise BadInput(msg)
    step = read.blue_wool
    if step is not None:
        step = int(checks.number(step, "the blue wool step", 0, BLUE_WOOL_STEPS))
    halves = [reading_of_lab(half, Circumstances(day, Method.COLORIMETER)) for half in _both(read)]
    whites = {
        f"adapted from {half.given.illuminant}/{half.given.observer}°": None
        for half in halves
        if half.origin is Origin.ADAPTED
    }
    note = checks.optional_text(read.note, "the note")
    return FadeReading(
        read_on=day,
        covered=halves[0].lab,
        exposed=halves[1].lab,
        blue_wool=step,
        note=checks.optional_text("; ".join((*whites, *([note] if note else ()))), "the note"),
    )


def _both(read: HalvesRead) -> tuple[Lab, Lab]:
    if read.covered is None:
        msg = (
            "the covered half is missing; the change is measured from it, so read both halves on "
            "the same day"
        )
        raise BadInput(msg)
    if read.exposed is None:
        msg = "the exposed half is missing; read both halves on the same day"
        raise BadInput(msg)
    return read.covered, read.exposed

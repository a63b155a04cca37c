"""Start a fade test: hang up a strip of a paint or a mix, half covered, half in the light."""

from datetime import date

from studio.actions.find_fade import Subject, renewed_test
from studio.catalogue import checks, naming
from studio.catalogue.fade import FadeTest
from studio.catalogue.paint import Paint
from studio.catalogue.paper import Paper
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork


def start_fade(  # noqa: PLR0913 - what a strip is of, where, since when, on what
    work: UnitOfWork,
    subject: Subject,
    *,
    place: str,
    started_on: date,
    today: date,
    paper: Paper | None = None,
    note: str | None = None,
    code: str | None = None,
) -> FadeTest:
    """Record a new test, without readings.

    Args:
        work: the studio.
        subject: the paint or mix of the strip.
        place: where it hangs.
        started_on: the day it was hung up.
        today: no day may lie after it.
        paper: what it is painted on, where known.
        note: remarks.
        code: a code of its own; None takes the next of the series.

    Raises:
        BadInput: a value is impossible, or the code is taken.
    """
    spelled = work.fade_tests.next_code() if code is None else naming.code(code)
    if work.fade_tests.with_code(spelled) is not None:
        msg = f"code {spelled} is taken by another fade test; choose another"
        raise BadInput(msg)
    work.fade_tests.add(
        FadeTest(
            id=0,
            code=spelled,
            paint_id=subject.id if isinstance(subject, Paint) else None,
            mix_id=None if isinstance(subject, Paint) else subject.id,
            paper_id=paper.id if paper else None,
            place=checks.text(place, "the place"),
            started_on=checks.past(started_on, today, "the day"),
            note=checks.optional_text(note, "the note"),
        )
    )
    return renewed_test(work, spelled)

"""Find a fade test by its code, and what it is of."""

from studio.catalogue.fade import FadeTest
from studio.catalogue.mix import Mix
from studio.catalogue.paint import Paint
from studio.errors import NotFound
from studio.storage.unit_of_work import UnitOfWork

Subject = Paint | Mix
"""What a strip is painted with."""


def find_test(work: UnitOfWork, code: str) -> FadeTest:
    """The fade test of a code.

    Raises:
        NotFound: there is none.
    """
    test = work.fade_tests.with_code(code)
    if test is None:
        msg = f"no fade test has the code {code!r}; see: studio fade list"
        raise NotFound(msg)
    return test


def renewed_test(work: UnitOfWork, code: str) -> FadeTest:
    """A test as it stands after a change; its paint knows of it too."""
    test = find_test(work, code)
    if test.paint_id is not None:
        work.paints.renew_fade_tests(test.paint_id)
    return test


def subject_of(work: UnitOfWork, test: FadeTest) -> Subject:
    """The paint or mix that a test is of."""
    if test.paint_id is not None:
        return work.paints.by_id(test.paint_id)
    assert test.mix_id is not None  # noqa: S101 - the database allows no other
    return work.mixes.by_ids([test.mix_id])[test.mix_id]

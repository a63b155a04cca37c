"""Find what a fade test is of, and a fade test by its code."""

from studio.actions.find import find_mix, find_paint
from studio.catalogue.fade import FadeTest
from studio.catalogue.mix import Mix
from studio.catalogue.paint import Paint
from studio.errors import NotFound
from studio.storage.unit_of_work import UnitOfWork

Subject = Paint | Mix
"""What a strip is painted with."""


def find_subject(work: UnitOfWork, name: str) -> Subject:
    """The paint of a code or name, else the mix of a code, a name or a recipe.

    A whole code or name goes before a part of one, and a paint before a mix.

    Raises:
        BadInput: it is written as a recipe but is none.
        NotFound: nothing fits, or several things do.
    """
    spelled = " ".join(name.casefold().split())
    for paint in work.paints.all():
        if paint.facts.code.casefold() == spelled:
            return paint
    if "+" in name or spelled[:1].isdigit() or work.mixes.with_code(spelled.upper()):
        return find_mix(work, name)
    try:
        paint = find_paint(work, name)
    except NotFound as no_paint:
        return _mix(work, name, no_paint)
    if spelled not in {paint.facts.name.casefold(), paint.facts.full_name.casefold()}:
        named = [mix for mix in work.mixes.all() if (mix.name or "").casefold() == spelled]
        if named:
            return find_mix(work, name)
    return paint


def _mix(work: UnitOfWork, name: str, no_paint: NotFound) -> Mix:
    try:
        return find_mix(work, name)
    except NotFound as no_mix:
        candidates = (*no_paint.candidates, *no_mix.candidates)
        listed = f": {', '.join(candidates)}" if candidates else "; see: studio paint list"
        msg = f"no paint or mix is clearly meant by {name!r}{listed}"
        raise NotFound(msg, candidates) from None


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

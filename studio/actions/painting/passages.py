"""Add a passage to a painting, correct it, move it in the working order, remove or restore it."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from studio.actions.painting.find_painting import find_passage, passage_among
from studio.actions.painting.passage_colours import add_colours
from studio.catalogue import checks
from studio.catalogue.painting import Painting, Passage, PassageColour
from studio.catalogue.painting_rules import checked_passages, short_text
from studio.catalogue.removal import Removal
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork


def add_passage(
    work: UnitOfWork,
    painting: Painting,
    passage: Passage,
    colours: Sequence[PassageColour] = (),
    place: int | None = None,
) -> Painting:
    """Record a passage with its colours.

    Args:
        work: the studio.
        painting: of which it is a part.
        passage: what is known of it.
        colours: what it is to have.
        place: its place in the working order, from 0; None for the last.

    Raises:
        BadInput: a value is impossible, the name is taken, it would come before what it lies over,
            or the passages would take more than the whole.
    """
    checked = _checked(painting, passage)
    order = list(painting.passages)
    order.insert(len(order) if place is None else place, checked)
    checked_passages(order)
    key = work.paintings.add_passage(painting.id, checked)
    work.paintings.set_order([each.id or key for each in order])
    add_colours(work, replace(checked, id=key), colours)
    return work.paintings.by_id(painting.id)


def edit_passage(
    work: UnitOfWork, painting: Painting, passage: Passage, changed: Passage
) -> Painting:
    """Correct what is known of a passage; its colours and its place stay.

    Raises:
        BadInput: a value is impossible, the name is taken, it would come before what it lies over,
            or the passages would take more than the whole.
    """
    checked = _checked(painting, changed)
    checked_passages([checked if each.id == passage.id else each for each in painting.passages])
    work.paintings.change_passage(checked)
    return work.paintings.by_id(painting.id)


def move_passage(work: UnitOfWork, painting: Painting, passage: Passage, place: int) -> Painting:
    """Give a passage another place in the working order.

    Args:
        work: the studio.
        painting: of which it is a part.
        passage: what is moved.
        place: where it is to be among the others, from 0.

    Raises:
        BadInput: a passage would come before what it lies over.
    """
    order = [each for each in painting.passages if each.id != passage.id]
    order.insert(place, passage)
    checked_passages(order)
    work.paintings.set_order([each.id for each in order])
    return work.paintings.by_id(painting.id)


def place_of(  # noqa: PLR0913 - four ways of saying where
    painting: Painting,
    *,
    before: str | None,
    after: str | None,
    first: bool,
    last: bool = False,
    moved: Passage | None = None,
) -> int | None:
    """Where a passage is to be among the others, from 0; None where nothing is said.

    Raises:
        BadInput: it is said in two ways, or beside itself.
        NotFound: the other passage is not there.
    """
    said = [before is not None, after is not None, first, last]
    if sum(said) > 1:
        msg = "say where in one way: --before, --after, --first or --last"
        raise BadInput(msg)
    others = [each for each in painting.passages if moved is None or each.id != moved.id]
    if first:
        return 0
    if last:
        return len(others)
    named = after if before is None else before
    if named is None:
        return None
    beside = find_passage(painting, named)
    if moved is not None and beside.id == moved.id:
        msg = f"{moved.name!r} cannot be placed beside itself; name another passage"
        raise BadInput(msg)
    return others.index(beside) + (before is None)


def remove_passage(
    work: UnitOfWork, painting: Painting, passage: Passage, because: str | None, today: date
) -> Painting:
    """Mark a passage as removed; it stays on record with its colours and what was tested.

    Raises:
        BadInput: another passage lies over it.
    """
    others = [each for each in painting.passages if each.id != passage.id]
    upon = next((each for each in others if each.over == passage.id), None)
    if upon is not None:
        msg = (
            f"{upon.name!r} lies over {passage.name!r}; remove that one first, or say what else it "
            f'lies over: studio painting passage edit {painting.code} "{upon.name}" --over ""'
        )
        raise BadInput(msg)
    mark = Removal(today, checks.optional_text(because, "the reason"))
    work.paintings.mark_passage(passage.id, mark)
    work.paintings.set_order([each.id for each in others])
    return work.paintings.by_id(painting.id)


def restore_passage(work: UnitOfWork, painting: Painting, name: str) -> Painting:
    """Bring back a removed passage, of several of a name the last, at the end of the order.

    Raises:
        NotFound: none of that name was removed.
        BadInput: another has its name by now, what it lies over is removed, or the passages would
            take more than the whole.
    """
    removed = tuple(reversed(work.paintings.removed_passages(painting.id)))
    latest = {each.name.casefold(): each for each in reversed(removed)}
    passage = passage_among(painting, tuple(latest.values()), name, "removed passage")
    _checked(painting, passage)
    order = [*painting.passages, passage]
    checked_passages(order)
    work.paintings.mark_passage(passage.id, None)
    work.paintings.set_order([each.id for each in order])
    return work.paintings.by_id(painting.id)


def _checked(painting: Painting, passage: Passage) -> Passage:
    """A passage with texts folded and numbers checked.

    Raises:
        BadInput: a value is impossible, or another passage has its name.
    """
    name = short_text(passage.name, "the name of the passage")
    same = name.casefold()
    if any(each.id != passage.id and each.name.casefold() == same for each in painting.passages):
        msg = f"{painting.code} has a passage {name!r} already; choose another name"
        raise BadInput(msg)
    if passage.over is not None and passage.over == passage.id:
        msg = f"{name!r} cannot lie over itself; name another passage"
        raise BadInput(msg)
    if passage.share is not None:
        checks.number(100 * passage.share, "the share in percent", 0, 100, above=True)
    return replace(
        passage,
        name=name,
        layers=int(checks.number(passage.layers, "the number of layers", 1, 100)),
        note=checks.optional_text(passage.note, "the note"),
    )

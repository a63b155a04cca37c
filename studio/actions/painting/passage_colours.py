"""Record the colours that a passage is to have, take one out, or bring it back."""

from collections.abc import Sequence
from datetime import date

from studio.actions.painting.find_painting import find_colour
from studio.catalogue.painting import Passage, PassageColour
from studio.catalogue.removal import Removal
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork


def add_colours(work: UnitOfWork, passage: Passage, colours: Sequence[PassageColour]) -> None:
    """Record colours of a passage after those that it has.

    Raises:
        BadInput: it has the same colour already.
    """
    known = {each.lab for each in passage.colours}
    for colour in colours:
        if colour.lab in known:
            msg = f"{passage.name!r} has the colour {colour.given or colour.place} already"
            raise BadInput(msg)
        known.add(colour.lab)
        work.paintings.add_colour(passage.id, colour)


def drop_colour(work: UnitOfWork, passage: Passage, number: int, today: date) -> None:
    """Take a colour out of a passage; it stays on record with what was tested for it.

    Raises:
        BadInput: there is no colour of that number.
    """
    work.paintings.mark_colour(find_colour(passage, number).id, Removal(today))


def restore_colour(work: UnitOfWork, passage: Passage, number: int) -> None:
    """Bring back a colour that was dropped, by its number among those.

    Raises:
        BadInput: no colour of that number was dropped.
    """
    dropped = work.paintings.removed_colours(passage.id)
    if not 1 <= number <= len(dropped):
        count = len(dropped)
        if not count:
            msg = f"{passage.name!r} has no dropped colour to bring back"
        elif count == 1:
            msg = f"{passage.name!r} has one dropped colour, number 1, and not {number}"
        else:
            msg = f"{passage.name!r} has the dropped colours 1 to {count}, and not {number}"
        raise BadInput(msg)
    colour = dropped[number - 1]
    if any(each.lab == colour.lab for each in passage.colours):
        msg = f"{passage.name!r} has the colour {colour.given or colour.place} again already"
        raise BadInput(msg)
    work.paintings.mark_colour(colour.id, None)

"""Find what a typed name means: a painting, a passage of it, a colour of that."""

from studio.catalogue import naming
from studio.catalogue.painting import Painting, Passage, PassageColour
from studio.errors import BadInput, NotFound
from studio.storage.unit_of_work import UnitOfWork


def find_painting(work: UnitOfWork, name: str, *, removed_too: bool = False) -> Painting:
    """The painting of a code, a title or a part of its title; one in the making wins.

    Raises:
        NotFound: none fits, several do, or it was removed.
    """
    coded = work.paintings.with_code(name)
    if coded is not None:
        if coded.removed is None or removed_too:
            return coded
        msg = (
            f"painting {coded.code} was removed on {coded.removed.on.isoformat()}; restore it "
            f"first: studio painting restore {coded.code}"
        )
        raise NotFound(msg)
    return naming.find(
        name,
        work.paintings.all(),
        what="painting",
        code_of=lambda painting: painting.code,
        name_of=lambda painting: painting.title,
        preferred=lambda painting: painting.finished_on is None,
    )


def painting_in_the_making(work: UnitOfWork, name: str) -> Painting:
    """A painting whose passages may still change.

    Raises:
        NotFound: none fits, or several do.
        BadInput: it is finished.
    """
    painting = find_painting(work, name)
    if painting.finished_on is not None:
        msg = (
            f"{painting.code} was finished on {painting.finished_on.isoformat()}, and its record "
            "stays as it is; begin another painting with: studio painting start"
        )
        raise BadInput(msg)
    return painting


def find_passage(painting: Painting, name: str) -> Passage:
    """The passage of a whole name, else of a part of a name that fits only one.

    Raises:
        NotFound: none fits, or several do.
    """
    return passage_among(painting, painting.passages, name, "passage")


def passage_among(
    painting: Painting, passages: tuple[Passage, ...], name: str, what: str
) -> Passage:
    """The passage among some of a painting's that a name means.

    Args:
        painting: whose they are.
        passages: those that could be meant.
        name: what was typed, in any case.
        what: the noun for messages.

    Raises:
        NotFound: none fits, or several do.
    """
    wanted = " ".join(name.casefold().split())
    whole = [each for each in passages if each.name.casefold() == wanted]
    words = wanted.split()
    found = whole or [
        each for each in passages if words and all(word in each.name.casefold() for word in words)
    ]
    if len(found) == 1:
        return found[0]
    names = tuple(each.name for each in found or passages)
    listed = ", ".join(repr(each) for each in names)
    if found:
        msg = f"{name!r} fits {len(found)} {what}s of {painting.code}: {listed}; give a whole name"
    elif names:
        msg = f"{painting.code} has no {what} {name!r}; it has {listed}"
    elif what == "passage":
        msg = (
            f"{painting.code} has no passage yet; add one with: studio painting passage add "
            f"{painting.code} {name!r} --technique 'flat wash'"
        )
    else:
        msg = f"{painting.code} has no {what}"
    raise NotFound(msg, names)


def find_colour(passage: Passage, number: int) -> PassageColour:
    """A colour of a passage by its number, from 1.

    Raises:
        BadInput: it has no colour of that number.
    """
    if 1 <= number <= len(passage.colours):
        return passage.colours[number - 1]
    count = len(passage.colours)
    if not count:
        msg = f"no colour was chosen for {passage.name!r} yet; give it one with --at or --colour"
    elif count == 1:
        msg = f"{passage.name!r} has one colour, number 1, and not {number}"
    else:
        msg = f"{passage.name!r} has the colours 1 to {count}, and not {number}"
    raise BadInput(msg)


def whole_name(painting: Painting, passage: Passage, colour: PassageColour) -> str:
    """A colour of a passage as it is told elsewhere: `P1 far bank`, `P1 far bank, colour 2`."""
    number = passage.colours.index(colour) + 1
    more = f", colour {number}" if number > 1 else ""
    return f"{painting.code} {passage.name}{more}"

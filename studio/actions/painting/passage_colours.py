"""The colours that a passage is to have: typed, or picked from the reference picture."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from studio.actions.painting.find_painting import find_colour
from studio.actions.painting.reference import open_reference
from studio.actions.pick_target import Picked, choose_spot, pick_target
from studio.actions.read_target import read_target
from studio.actions.target_grid import grid_of
from studio.catalogue import checks
from studio.catalogue.painting import Painting, Passage, PassageColour
from studio.catalogue.removal import Removal
from studio.errors import BadInput
from studio.picture.grid import CELLS
from studio.storage.unit_of_work import UnitOfWork


@dataclass(frozen=True, slots=True)
class TypedColours:
    """Colours as they were typed.

    Args:
        at: points of the reference picture, such as `40%,62%`.
        areas: rectangles of it.
        cells: cells of its grid, or parts of them.
        size: side of the square around each point; None for the usual one.
        columns: how many columns the grid has.
        colours: CSS colours, Munsell notations, swatches or targets.
    """

    at: Sequence[str] = ()
    areas: Sequence[str] = ()
    cells: Sequence[str] = ()
    size: str | None = None
    columns: int = CELLS
    colours: Sequence[str] = ()

    @property
    def picks(self) -> bool:
        """Whether the reference picture is needed."""
        return bool(self.at or self.areas or self.cells)


@dataclass(frozen=True, slots=True)
class ReadColours:
    """Colours that can be recorded, and what the owner should know of them, a sentence each."""

    colours: tuple[PassageColour, ...]
    remarks: tuple[str, ...] = ()


def read_colours(work: UnitOfWork, painting: Painting, typed: TypedColours) -> ReadColours:
    """The colours that a painter typed for a passage: picked ones first, in the order of each kind.

    Raises:
        BadInput: one cannot be read, or the reference picture is not there.
        NotFound: a swatch or a target is not there.
    """
    if typed.size is not None and not typed.at:
        msg = "--size is the square around a point; it goes with --at alone"
        raise BadInput(msg)
    picked = _picked(work, painting, typed) if typed.picks else ReadColours(())
    given = []
    for text in typed.colours:
        target = read_target(work, checks.text(text, "the colour"))
        given.append(PassageColour(0, target.lab, given=target.given))
    return ReadColours((*picked.colours, *given), picked.remarks)


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
        has = "none" if not count else "one" if count == 1 else f"{count}"
        msg = (
            f"{passage.name!r} has {has} dropped colour{'s' if count > 1 else ''}, not a {number}."
        )
        raise BadInput(msg)
    colour = dropped[number - 1]
    if any(each.lab == colour.lab for each in passage.colours):
        msg = f"{passage.name!r} has the colour {colour.given or colour.place} again already"
        raise BadInput(msg)
    work.paintings.mark_colour(colour.id, None)


def _picked(work: UnitOfWork, painting: Painting, typed: TypedColours) -> ReadColours:
    opened, remark = open_reference(work, painting)
    picture = opened.picture
    grid = grid_of(picture, (painting.width_mm, painting.height_mm), typed.columns)
    spots = [
        *(
            choose_spot(picture, grid, at=each, area=None, cell=None, size=typed.size)
            for each in typed.at
        ),
        *(
            choose_spot(picture, grid, at=None, area=each, cell=None, size=None)
            for each in typed.areas
        ),
        *(
            choose_spot(picture, grid, at=None, area=None, cell=each, size=None)
            for each in typed.cells
        ),
    ]
    picks = [pick_target(work, opened, spot, grid) for spot in spots]
    colours = tuple(
        PassageColour(
            0,
            each.lab,
            place=each.place,
            at=(each.spot.middle[0] / picture.width, each.spot.middle[1] / picture.height),
            spread=each.spread,
            picture=painting.reference,
        )
        for each in picks
    )
    remarks = tuple(_varied(each) for each in picks if each.is_varied)
    return ReadColours(colours, (*([remark] if remark else []), *remarks))


def _varied(picked: Picked) -> str:
    return (
        f"what was picked {picked.place} varies by ΔE00 {picked.spread:.1f} (mean): pick a "
        "smaller or more even spot"
    )

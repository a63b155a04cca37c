"""Read the colours that a passage is to have: typed, or picked from the reference picture."""

from collections.abc import Sequence
from dataclasses import dataclass

from studio.actions.read_target import read_target
from studio.catalogue import checks
from studio.catalogue.painting import Painting, PassageColour
from studio.errors import BadInput
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
    columns: int = 4
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
    picked = ReadColours(())
    if typed.picks:
        # Pictures load numpy, and typed colours need none.
        from studio.actions.painting.pick_colours import pick_colours  # noqa: PLC0415

        picked = ReadColours(*pick_colours(work, painting, typed))
    given = []
    for text in typed.colours:
        target = read_target(work, checks.text(text, "the colour"))
        given.append(PassageColour(0, target.lab, given=target.given))
    return ReadColours((*picked.colours, *given), picked.remarks)

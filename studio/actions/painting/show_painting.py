"""A painting with all that is shown of it: its paper, and what was tried for each colour."""

from dataclasses import dataclass

from studio.actions.painting.tries import Try, nearest_try, tries_of
from studio.catalogue.painting import Painting, Passage, PassageColour
from studio.catalogue.paper import Paper
from studio.storage.unit_of_work import UnitOfWork


@dataclass(frozen=True, slots=True)
class ShownColour:
    """A colour of a passage with what was held against it.

    Args:
        number: its number within the passage, from 1.
        colour: the colour.
        tries: the swatches that were held against it, in order.
        from_earlier: it was picked from another picture than the painting has now.
    """

    number: int
    colour: PassageColour
    tries: tuple[Try, ...]
    from_earlier: bool

    @property
    def nearest(self) -> Try | None:
        """The dry try that is nearest."""
        return nearest_try(self.tries)

    @property
    def is_matched(self) -> bool:
        """Whether a try passes for it."""
        return any(each.passes for each in self.tries)


@dataclass(frozen=True, slots=True)
class ShownPassage:
    """A passage with its place in the working order, from 1, and its colours."""

    number: int
    passage: Passage
    over: str | None
    colours: tuple[ShownColour, ...]


@dataclass(frozen=True, slots=True)
class ShownPainting:
    """A painting with its paper and its passages in working order."""

    painting: Painting
    paper: Paper
    passages: tuple[ShownPassage, ...]

    @property
    def colours(self) -> tuple[ShownColour, ...]:
        """The colours of all passages."""
        return tuple(colour for each in self.passages for colour in each.colours)

    @property
    def matched(self) -> int:
        """How many of its colours a try passes for."""
        return sum(each.is_matched for each in self.colours)


def shown_painting(work: UnitOfWork, painting: Painting) -> ShownPainting:
    """A painting with all that is shown of it."""
    names = {each.id: each.name for each in painting.passages}
    return ShownPainting(
        painting,
        work.papers.by_id(painting.paper_id),
        tuple(
            ShownPassage(
                number,
                passage,
                None if passage.over is None else names.get(passage.over),
                tuple(
                    shown_colour(work, painting, place, colour)
                    for place, colour in enumerate(passage.colours, start=1)
                ),
            )
            for number, passage in enumerate(painting.passages, start=1)
        ),
    )


def shown_colour(
    work: UnitOfWork, painting: Painting, number: int, colour: PassageColour
) -> ShownColour:
    """A colour of a passage with what was held against it."""
    return ShownColour(
        number,
        colour,
        tries_of(work, painting, colour),
        colour.picture is not None and colour.picture != painting.reference,
    )

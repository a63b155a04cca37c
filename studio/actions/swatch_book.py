"""What stands in a swatch book: every dry swatch, and the mixes that have none."""

from dataclasses import dataclass

from studio.actions.swatch_rows import SwatchRow, swatch_rows
from studio.catalogue.mix import Mix
from studio.catalogue.paper import Paper
from studio.catalogue.reading import State
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork


@dataclass(frozen=True, slots=True)
class Book:
    """What stands in a swatch book.

    Args:
        rows: the swatches that were read dry, in the order they were recorded; never empty.
        without: the mixes that have none of them.
        paper: the only paper it shows, None for all.
    """

    rows: tuple[SwatchRow, ...]
    without: tuple[Mix, ...]
    paper: Paper | None = None

    @property
    def mixes(self) -> int:
        """How many mixes it shows."""
        return len({swatch.mix_id for swatch, *_ in self.rows})


def swatch_book(work: UnitOfWork, paper: Paper | None = None) -> Book:
    """The swatches that `match` may answer with, removed ones and those only read wet left out.

    Raises:
        BadInput: there is none.
    """
    dry = [
        swatch
        for swatch in work.swatches.all()
        if swatch.state is State.DRY and (paper is None or swatch.paper_id == paper.id)
    ]
    if not dry:
        where = "" if paper is None else f" on {paper.facts.full_name}"
        msg = (
            f"there is no dry swatch{where} to put into a book; record one with: studio swatch log"
        )
        raise BadInput(msg)
    shown = {swatch.mix_id for swatch in dry}
    without = tuple(mix for mix in work.mixes.all() if mix.id not in shown)
    return Book(tuple(swatch_rows(work, dry)), without, paper)

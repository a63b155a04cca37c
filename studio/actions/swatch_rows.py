"""Swatches with what they refer to: mix, recipe and paper."""

from collections.abc import Sequence

from studio.actions.match_colour import Ingredient, ingredients
from studio.catalogue.mix import Mix
from studio.catalogue.paper import Paper
from studio.catalogue.swatch import Swatch
from studio.storage.unit_of_work import UnitOfWork

SwatchRow = tuple[Swatch, Mix, tuple[Ingredient, ...], Paper]


def swatch_rows(work: UnitOfWork, swatches: Sequence[Swatch]) -> list[SwatchRow]:
    """Each swatch with its mix, the paints of it with their parts, and its paper."""
    mixes = work.mixes.by_ids({swatch.mix_id for swatch in swatches})
    return [
        (
            swatch,
            mixes[swatch.mix_id],
            ingredients(work, mixes[swatch.mix_id]),
            work.papers.by_id(swatch.paper_id),
        )
        for swatch in swatches
    ]

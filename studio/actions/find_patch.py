"""Find the colour that stands for a paint: its most intense swatch without other paints."""

from studio.catalogue.paint import Paint
from studio.catalogue.reading import State
from studio.catalogue.recipe import Recipe
from studio.colour.lab import Lab
from studio.storage.unit_of_work import UnitOfWork


def find_patch(work: UnitOfWork, paint: Paint) -> Lab | None:
    """The colour of the most intense dry swatch (highest C*ab) of a paint alone, D50/2°.

    None where no such swatch is on record.
    """
    mix = work.mixes.with_recipe(Recipe(((paint.id, 1),)))
    if mix is None:
        return None
    dry = (swatch.lab for swatch in work.swatches.of_mix(mix.id) if swatch.state is State.DRY)
    return max(dry, key=lambda lab: lab.chroma, default=None)

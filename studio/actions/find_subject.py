"""Find what advice on care is asked about: a paint, a mix or a recipe."""

from dataclasses import dataclass

from studio.actions.find import find_paint_or_mix, find_recipe
from studio.actions.match_colour import Ingredient
from studio.catalogue.mix import Mix
from studio.catalogue.paint import Paint
from studio.catalogue.recipe import Recipe
from studio.storage.unit_of_work import UnitOfWork


@dataclass(frozen=True, slots=True)
class Subject:
    """What advice is asked about: a paint, a mix, or a recipe that was never recorded.

    Args:
        recipe: the paints with their parts.
        mix: the recorded mix of that recipe; of a paint, the mix of it alone.
        is_paint: whether a paint was named.
    """

    recipe: tuple[Ingredient, ...]
    mix: Mix | None
    is_paint: bool

    @property
    def paints(self) -> tuple[Paint, ...]:
        """The paints of the recipe."""
        return tuple(part.paint for part in self.recipe)


def find_subject(work: UnitOfWork, name: str) -> Subject:
    """The paint, the mix or the recipe of a name; a recipe need not have been recorded.

    Raises:
        BadInput: it is written as a recipe but is none.
        NotFound: nothing fits, or several things do.
    """
    text = name.strip()
    if "+" in text or text[:1].isdigit():
        return _subject(work, find_recipe(work, text), is_paint=False)
    found = find_paint_or_mix(work, text)
    if isinstance(found, Mix):
        return _subject(work, found.recipe, is_paint=False)
    return _subject(work, Recipe(((found.id, 1),)), is_paint=True)


def _subject(work: UnitOfWork, recipe: Recipe, *, is_paint: bool) -> Subject:
    parts = tuple(Ingredient(work.paints.by_id(key), parts) for key, parts in recipe.parts)
    return Subject(parts, work.mixes.with_recipe(recipe), is_paint)

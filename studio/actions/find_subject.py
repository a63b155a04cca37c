"""Find what advice on care is asked about: a paint, a mix or a recipe."""

from collections.abc import Iterable
from dataclasses import dataclass

from studio.actions.find import find_mix, find_paint, find_recipe
from studio.actions.match_colour import Ingredient
from studio.catalogue.mix import Mix
from studio.catalogue.paint import Paint
from studio.catalogue.recipe import Recipe
from studio.errors import NotFound
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
    """The paint, the mix or the recipe of a name; a paint comes before a mix.

    Raises:
        BadInput: it is written as a recipe but is none.
        NotFound: nothing fits, or several things do.
    """
    text = name.strip()
    if "+" in text or text[:1].isdigit():
        recipe = find_recipe(work, text)
        return _subject(work, recipe, is_paint=False)
    try:
        paint = find_paint(work, text)
    except NotFound as no_paint:
        if _fits(text, (paint.facts.full_name for paint in work.paints.all())):
            raise
        try:
            mix = find_mix(work, text)
        except NotFound as no_mix:
            if _fits(text, (mix.name or mix.code for mix in work.mixes.all())):
                raise
            near = (*no_paint.candidates, *no_mix.candidates)
            hint = f"near it: {', '.join(near)}" if near else "see: studio paint list"
            msg = f"no paint or mix is called {name!r}; {hint}"
            raise NotFound(msg, near) from None
        return _subject(work, mix.recipe, is_paint=False)
    return _subject(work, Recipe(((paint.id, 1),)), is_paint=True)


def _fits(text: str, names: Iterable[str]) -> bool:
    """Whether every word of a text stands in one of some names."""
    words = text.casefold().split()
    return any(all(word in name.casefold() for word in words) for name in names)


def _subject(work: UnitOfWork, recipe: Recipe, *, is_paint: bool) -> Subject:
    parts = tuple(Ingredient(work.paints.by_id(key), parts) for key, parts in recipe.parts)
    return Subject(parts, work.mixes.with_recipe(recipe), is_paint)

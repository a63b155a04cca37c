"""A mix: a recipe the studio knows by a code."""

from dataclasses import dataclass
from datetime import date

from studio.catalogue.recipe import Recipe


@dataclass(frozen=True, slots=True)
class Mix:
    """A recorded mix.

    Args:
        id: database id.
        code: short code, such as M12.
        recipe: paints and parts.
        name: a name of the painter's own, where given.
        note: remarks.
        created_on: the day it was first recorded.
    """

    id: int
    code: str
    recipe: Recipe
    name: str | None
    note: str | None
    created_on: date

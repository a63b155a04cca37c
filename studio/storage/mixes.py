"""Mixes with their recipes."""

from collections.abc import Iterable, Mapping
from datetime import date

from sqlalchemy import ColumnElement, Connection, func, insert, select, true, update

from studio.catalogue.mix import Mix
from studio.catalogue.recipe import Recipe
from studio.storage import tables as t
from studio.storage.keys import inserted_key, keys_of, next_code
from studio.storage.many_rows import insert_many
from studio.storage.removals import kept


class Mixes:
    """The mixes of one database; there may be many, so only those asked for are read."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def all(self) -> tuple[Mix, ...]:
        """Every mix, oldest first."""
        return self._where(true())

    def by_ids(self, keys: Iterable[int]) -> dict[int, Mix]:
        """Some mixes by their ids."""
        return {mix.id: mix for mix in self._where(t.mix.c.id.in_(tuple(keys)))}

    def with_recipe(self, recipe: Recipe) -> Mix | None:
        """The mix of a recipe, in whatever order and scale it was recorded."""
        return next(iter(self._where(t.mix.c.recipe_key == recipe.key)), None)

    def with_code(self, code: str) -> Mix | None:
        """The mix of a code."""
        return next(iter(self._where(t.mix.c.code == code)), None)

    def keys_of_codes(self, codes: Iterable[str]) -> dict[str, int]:
        """The ids of those mixes that have one of some codes, by code."""
        return keys_of(self._connection, t.mix, "code", codes)

    def keys_of_recipes(self, keys: Iterable[str]) -> dict[str, int]:
        """The ids of those mixes that have one of some recipes, by the recipe's key."""
        return keys_of(self._connection, t.mix, "recipe_key", keys)

    def with_any(self, paint_ids: Iterable[int]) -> tuple[Mix, ...]:
        """Every mix that holds at least one of some paints, oldest first."""
        holding = select(t.mix_component.c.mix_id).where(
            t.mix_component.c.paint_id.in_(tuple(paint_ids))
        )
        return self._where(t.mix.c.id.in_(holding))

    def next_code(self) -> str:
        """The next free code of the series M1, M2 and so on."""
        return next_code(self._connection, t.mix, "M")

    def swatch_counts(self) -> dict[int, int]:
        """How many swatches each mix has, by mix id; mixes without one are left out."""
        rows = self._connection.execute(
            select(t.swatch.c.mix_id, func.count().label("swatches"))
            .where(kept(t.swatch))
            .group_by(t.swatch.c.mix_id)
        )
        return {row.mix_id: row.swatches for row in rows}

    def add(self, mix: Mix) -> int:
        """Record a mix; its own id is ignored and the new one returned."""
        key = inserted_key(self._connection.execute(insert(t.mix).values(**_values(mix))))
        self._connection.execute(insert(t.mix_component), _components(key, mix.recipe))
        return key

    def add_many(
        self, recipes: Mapping[str, Recipe], created_on: date, first: int
    ) -> dict[str, int]:
        """Record mixes of recipes that were never mixed.

        Args:
            recipes: by their keys.
            created_on: when they were.
            first: the number of the first one's code; the others take those after it.

        Returns:
            Their ids by the recipe's key.
        """
        mixes = [
            Mix(0, f"M{number}", recipe, None, None, created_on)
            for number, recipe in enumerate(recipes.values(), start=first)
        ]
        keys = insert_many(self._connection, t.mix, [_values(mix) for mix in mixes])
        components = [
            row
            for key, recipe in zip(keys, recipes.values(), strict=True)
            for row in _components(key, recipe)
        ]
        insert_many(self._connection, t.mix_component, components)
        return dict(zip(recipes, keys, strict=True))

    def file_anew(self, mix: Mix) -> None:
        """File a mix under the recipe that its parts make."""
        self._connection.execute(
            update(t.mix).where(t.mix.c.id == mix.id).values(recipe_key=mix.recipe.key)
        )

    def describe(self, key: int, name: str | None, note: str | None) -> None:
        """Replace name and note of a mix."""
        self._connection.execute(
            update(t.mix).where(t.mix.c.id == key).values(name=name, note=note)
        )

    def _where(self, condition: ColumnElement[bool]) -> tuple[Mix, ...]:
        wanted = select(t.mix.c.id).where(condition)
        parts: dict[int, list[tuple[int, int]]] = {}
        for mix_id, paint_id, amount in self._connection.execute(
            select(t.mix_component.c.mix_id, t.mix_component.c.paint_id, t.mix_component.c.parts)
            .where(t.mix_component.c.mix_id.in_(wanted))
            .order_by(t.mix_component.c.mix_id, t.mix_component.c.position)
        ):
            parts.setdefault(mix_id, []).append((paint_id, amount))
        rows = self._connection.execute(
            select(t.mix).where(condition).order_by(t.mix.c.id)
        ).mappings()
        return tuple(
            Mix(
                id=row["id"],
                code=row["code"],
                recipe=Recipe(tuple(parts.get(row["id"], ()))),
                name=row["name"],
                note=row["note"],
                created_on=row["created_on"],
            )
            for row in rows
        )


def _values(mix: Mix) -> dict[str, object]:
    return {
        "code": mix.code,
        "recipe_key": mix.recipe.key,
        "name": mix.name,
        "note": mix.note,
        "created_on": mix.created_on,
    }


def _components(key: int, recipe: Recipe) -> list[dict[str, object]]:
    return [
        {"mix_id": key, "paint_id": paint, "position": place, "parts": parts}
        for place, (paint, parts) in enumerate(recipe.parts, start=1)
    ]

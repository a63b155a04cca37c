"""Targets that were given a name."""

from sqlalchemy import ColumnElement, Connection, RowMapping, and_, insert, select, update

from studio.catalogue.named_target import NamedTarget
from studio.catalogue.removal import Removal
from studio.colour.lab import Lab
from studio.storage import tables as t
from studio.storage.keys import inserted_key
from studio.storage.measurement_files import file_columns, file_of
from studio.storage.removals import kept, marked, removal_of

_KEPT = kept(t.target)


class Targets:
    """The named targets of one database."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def all(self) -> tuple[NamedTarget, ...]:
        """Every target, oldest first, without removed ones."""
        return self._where(_KEPT)

    def removed(self) -> tuple[NamedTarget, ...]:
        """Every removed target, oldest first."""
        return self._where(t.target.c.removed_on.is_not(None))

    def named(self, name: str) -> NamedTarget | None:
        """The target of a name, in any case; the name of a removed one is free again."""
        found = self._where(and_(t.target.c.name == " ".join(name.lower().split()), _KEPT))
        return found[0] if found else None

    def mark(self, key: int, removal: Removal | None) -> None:
        """Mark a target as removed, or with None restore it."""
        self._connection.execute(
            update(t.target).where(t.target.c.id == key).values(**marked(removal))
        )

    def add(self, target: NamedTarget) -> NamedTarget:
        """Record a target; its own id is ignored and the recorded one returned."""
        key = inserted_key(
            self._connection.execute(
                insert(t.target).values(
                    name=target.name,
                    lightness=target.lab.lightness,
                    a=target.lab.a,
                    b=target.lab.b,
                    spread_delta_e=target.spread,
                    place=target.place,
                    file_id=target.picture.id if target.picture else None,
                    created_on=target.created_on,
                    note=target.note,
                )
            )
        )
        (added,) = self._where(t.target.c.id == key)
        return added

    def _where(self, condition: ColumnElement[bool]) -> tuple[NamedTarget, ...]:
        statement = (
            select(
                t.target,
                *file_columns(),
            )
            .join_from(t.target, t.measurement_file, isouter=True)
            .where(condition)
            .order_by(t.target.c.id)
        )
        return tuple(_target(row) for row in self._connection.execute(statement).mappings())


def _target(row: RowMapping) -> NamedTarget:
    return NamedTarget(
        id=row["id"],
        name=row["name"],
        lab=Lab(row["lightness"], row["a"], row["b"]),
        spread=row["spread_delta_e"],
        place=row["place"],
        picture=file_of(row),
        created_on=row["created_on"],
        note=row["note"],
        removed=removal_of(row),
    )

"""Paintings with their passages, the colours of each, and what was tested against them."""

from collections.abc import Sequence

from sqlalchemy import ColumnElement, Connection, Table, and_, func, insert, select, update

from studio.catalogue.naming import CODE
from studio.catalogue.painting import Painting, Passage, PassageColour
from studio.catalogue.removal import Removal
from studio.storage import tables as t
from studio.storage.keys import inserted_key, next_code
from studio.storage.measurement_files import file_columns
from studio.storage.painting_rows import (
    colour_of,
    painting_of,
    painting_values,
    passage_of,
    passage_values,
)
from studio.storage.removals import kept, marked

_KEPT = kept(t.painting)


class Paintings:
    """The paintings of one database, each read whole: there are few."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def all(self) -> tuple[Painting, ...]:
        """Every painting, oldest first, without removed ones."""
        return self._where(_KEPT)

    def removed(self) -> tuple[Painting, ...]:
        """Every removed painting, oldest first."""
        return self._where(t.painting.c.removed_on.is_not(None))

    def with_code(self, code: str) -> Painting | None:
        """The painting of a code such as P3, in any case, removed or not: a code stays taken."""
        if CODE.fullmatch(code.strip().upper()) is None:
            return None  # any text may be asked for, and not every one can be put to a database
        return next(iter(self._where(t.painting.c.code == code.strip().upper())), None)

    def by_id(self, key: int) -> Painting:
        """The painting of an id, removed or not."""
        (painting,) = self._where(t.painting.c.id == key)
        return painting

    def next_code(self) -> str:
        """The next free code of the series P1, P2 and so on."""
        return next_code(self._connection, t.painting, "P")

    def add(self, painting: Painting) -> int:
        """Record a painting without its passages; its own id is ignored, the new one returned."""
        return inserted_key(
            self._connection.execute(insert(t.painting).values(**painting_values(painting)))
        )

    def change(self, painting: Painting) -> None:
        """Replace all of a painting but its passages and its mark."""
        self._connection.execute(
            update(t.painting)
            .where(t.painting.c.id == painting.id)
            .values(**painting_values(painting))
        )

    def mark(self, key: int, removal: Removal | None) -> None:
        """Mark a painting as removed, or with None restore it."""
        self._mark(t.painting, key, removal)

    def add_passage(self, painting_id: int, passage: Passage) -> int:
        """Record a passage without its colours, after all others; its own id is ignored."""
        c = t.passage.c
        last = self._connection.execute(
            select(func.coalesce(func.max(c.position), 0)).where(
                c.painting_id == painting_id, kept(t.passage)
            )
        ).scalar_one()
        return inserted_key(
            self._connection.execute(
                insert(t.passage).values(
                    painting_id=painting_id, position=last + 1, **passage_values(passage)
                )
            )
        )

    def change_passage(self, passage: Passage) -> None:
        """Replace all of a passage but its place, its colours and its mark."""
        self._connection.execute(
            update(t.passage).where(t.passage.c.id == passage.id).values(**passage_values(passage))
        )

    def set_order(self, keys: Sequence[int]) -> None:
        """Give passages of one painting their places, from 1; only those that move are written."""
        c = t.passage.c
        rows = self._connection.execute(select(c.id, c.position).where(c.id.in_(keys)))
        places = {row.id: row.position for row in rows}
        for place, key in enumerate(keys, start=1):
            if places[key] != place:
                self._connection.execute(
                    update(t.passage).where(c.id == key).values(position=place)
                )

    def places(self, painting_id: int) -> tuple[int, ...]:
        """The places of a painting's passages in their order, without removed ones."""
        c = t.passage.c
        return tuple(
            self._connection.execute(
                select(c.position)
                .where(c.painting_id == painting_id, kept(t.passage))
                .order_by(c.position, c.id)
            ).scalars()
        )

    def mark_passage(self, key: int, removal: Removal | None) -> None:
        """Mark a passage as removed, or with None restore it."""
        self._mark(t.passage, key, removal)

    def removed_passages(self, painting_id: int) -> tuple[Passage, ...]:
        """The removed passages of a painting, oldest first."""
        c = t.passage.c
        return tuple(
            passage
            for passages in self._passages(
                and_(c.painting_id == painting_id, c.removed_on.is_not(None))
            ).values()
            for passage in sorted(passages, key=lambda passage: passage.id)
        )

    def add_colour(self, passage_id: int, colour: PassageColour) -> int:
        """Record a colour of a passage, after its others; its own id and tries are ignored."""
        c = t.passage_colour.c
        last = self._connection.execute(
            select(func.coalesce(func.max(c.position), 0)).where(c.passage_id == passage_id)
        ).scalar_one()
        across, down = colour.at or (None, None)
        return inserted_key(
            self._connection.execute(
                insert(t.passage_colour).values(
                    passage_id=passage_id,
                    position=last + 1,
                    lightness=colour.lab.lightness,
                    a=colour.lab.a,
                    b=colour.lab.b,
                    given=colour.given,
                    place=colour.place,
                    at_x=across,
                    at_y=down,
                    spread_delta_e=colour.spread,
                    file_id=colour.picture.id if colour.picture else None,
                )
            )
        )

    def mark_colour(self, key: int, removal: Removal | None) -> None:
        """Mark a colour as removed, or with None restore it."""
        self._mark(t.passage_colour, key, removal)

    def removed_colours(self, passage_id: int) -> tuple[PassageColour, ...]:
        """The removed colours of a passage, in their order."""
        c = t.passage_colour.c
        gone = and_(c.passage_id == passage_id, c.removed_on.is_not(None))
        return tuple(self._colours(gone).get(passage_id, ()))

    def add_try(self, colour_id: int, swatch_id: int) -> None:
        """Record that a swatch was held against a colour, after those before it."""
        self._connection.execute(
            insert(t.colour_try).values(colour_id=colour_id, swatch_id=swatch_id)
        )

    def keys_of_parts(self, key: int) -> tuple[tuple[int, ...], tuple[int, ...]]:
        """The ids of all passages of a painting and of all their colours, removed or not."""
        passages = select(t.passage.c.id).where(t.passage.c.painting_id == key)
        colours = select(t.passage_colour.c.id).where(t.passage_colour.c.passage_id.in_(passages))
        return (
            tuple(self._connection.execute(passages.order_by(t.passage.c.id)).scalars()),
            tuple(self._connection.execute(colours.order_by(t.passage_colour.c.id)).scalars()),
        )

    def _mark(self, table: Table, key: int, removal: Removal | None) -> None:
        self._connection.execute(update(table).where(table.c.id == key).values(**marked(removal)))

    def _where(self, condition: ColumnElement[bool]) -> tuple[Painting, ...]:
        statement = (
            select(t.painting, *file_columns())
            .join_from(t.painting, t.measurement_file, isouter=True)
            .where(condition)
            .order_by(t.painting.c.id)
        )
        rows = self._connection.execute(statement).mappings().all()
        c = t.passage.c
        keys = [row["id"] for row in rows]
        passages = self._passages(and_(c.painting_id.in_(keys), kept(t.passage))) if keys else {}
        return tuple(painting_of(row, passages.get(row["id"], ())) for row in rows)

    def _passages(self, condition: ColumnElement[bool]) -> dict[int, list[Passage]]:
        c = t.passage.c
        rows = self._connection.execute(
            select(t.passage).where(condition).order_by(c.painting_id, c.position, c.id)
        ).mappings()
        among = select(c.id).where(condition)
        colours = self._colours(
            and_(t.passage_colour.c.passage_id.in_(among), kept(t.passage_colour))
        )
        grouped: dict[int, list[Passage]] = {}
        for row in rows:
            passage = passage_of(row, colours.get(row["id"], ()))
            grouped.setdefault(row["painting_id"], []).append(passage)
        return grouped

    def _colours(self, condition: ColumnElement[bool]) -> dict[int, list[PassageColour]]:
        c = t.passage_colour.c
        tries = self._tries(select(c.id).where(condition).scalar_subquery())
        statement = (
            select(t.passage_colour, *file_columns())
            .join_from(t.passage_colour, t.measurement_file, isouter=True)
            .where(condition)
            .order_by(c.passage_id, c.position, c.id)
        )
        grouped: dict[int, list[PassageColour]] = {}
        for row in self._connection.execute(statement).mappings():
            colour = colour_of(row, tries.get(row["id"], ()))
            grouped.setdefault(row["passage_id"], []).append(colour)
        return grouped

    def _tries(self, colours: ColumnElement[int]) -> dict[int, list[int]]:
        c = t.colour_try.c
        grouped: dict[int, list[int]] = {}
        for colour_id, swatch_id in self._connection.execute(
            select(c.colour_id, c.swatch_id)
            .join_from(t.colour_try, t.swatch)
            .where(c.colour_id.in_(colours), kept(t.swatch))
            .order_by(c.id)
        ):
            grouped.setdefault(colour_id, []).append(swatch_id)
        return grouped

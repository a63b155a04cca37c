"""Swatches with their readings, and the stream that the search reads."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from sqlalchemy import (
    ColumnElement,
    Connection,
    RowMapping,
    and_,
    func,
    insert,
    select,
    true,
    update,
)

from studio.catalogue.reading import Reading, State, representative
from studio.catalogue.removal import Removal
from studio.catalogue.swatch import Application, SetAside, Swatch, SwatchFacts
from studio.colour.lab import Lab
from studio.storage import tables as t
from studio.storage.keys import inserted_key, keys_of, next_code
from studio.storage.many_rows import insert_many
from studio.storage.paint_marks import cells_of_mixes
from studio.storage.readings import (
    MarkedReading,
    add_reading,
    add_readings,
    mark_reading,
    readings_of_swatches,
)
from studio.storage.removals import kept, marked, removal_of
from studio.storage.search import KEPT, SearchedSwatches, SwatchFilter


class NewSwatch(NamedTuple):
    """A swatch to record with its first reading; the code of the facts does not count."""

    code: str
    facts: SwatchFacts
    mix_id: int
    paper_id: int
    reading: Reading


class Label(NamedTuple):
    """What names a swatch on a chart."""

    code: str
    paper_id: int


class Swatches:
    """The swatches of one database; there may be many, so only those asked for are read."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def all(self) -> tuple[Swatch, ...]:
        """Every swatch, in the order they were recorded; like all below without removed ones."""
        return self._where(KEPT)

    def every(self) -> tuple[Swatch, ...]:
        """Every swatch, removed or not, in the order they were recorded."""
        return self._where(true())

    def removed(self) -> tuple[Swatch, ...]:
        """Every removed swatch, in the order they were recorded."""
        return self._where(t.swatch.c.removed_on.is_not(None))

    def by_ids(self, keys: Iterable[int]) -> dict[int, Swatch]:
        """Some swatches by their ids, removed or not."""
        return {swatch.id: swatch for swatch in self._where(t.swatch.c.id.in_(tuple(keys)))}

    def of_mixes(self, keys: Iterable[int]) -> tuple[Swatch, ...]:
        """Every swatch of some mixes, removed or not, in the order they were recorded."""
        return self._where(t.swatch.c.mix_id.in_(tuple(keys)))

    def of_mix(self, mix_id: int, *, with_removed: bool = False) -> tuple[Swatch, ...]:
        """Every swatch of a mix, in the order they were recorded."""
        of = t.swatch.c.mix_id == mix_id
        return self._where(of if with_removed else and_(of, KEPT))

    def read_wet(self) -> tuple[Swatch, ...]:
        """Every swatch with a reading that was made while it was wet."""
        r = t.reading.c
        wet = select(r.swatch_id).where(r.state == State.WET, kept(t.reading))
        return self._where(and_(t.swatch.c.id.in_(wet.where(r.swatch_id.is_not(None))), KEPT))

    def with_code(self, code: str) -> Swatch | None:
        """The swatch of a code, removed or not: a code is not given twice."""
        return next(iter(self._where(t.swatch.c.code == code)), None)

    def next_code(self) -> str:
        """The next free code of the series S1, S2 and so on."""
        return next_code(self._connection, t.swatch, "S")

    def last_paper(self) -> int | None:
        """The id of the paper of the swatch recorded last."""
        return self._connection.execute(
            select(t.swatch.c.paper_id).where(KEPT).order_by(t.swatch.c.id.desc()).limit(1)
        ).scalar()

    def labels(self) -> dict[int, Label]:
        """Code and paper of every swatch by its id, without reading what was measured."""
        s = t.swatch.c
        rows = self._connection.execute(select(s.id, s.code, s.paper_id).where(KEPT))
        return {key: Label(code, paper_id) for key, code, paper_id in rows}

    def count(self) -> int:
        """How many swatches there are."""
        counted = select(func.count()).select_from(t.swatch).where(KEPT)
        return self._connection.execute(counted).scalar_one()

    def colours_of_mixes(self) -> dict[int, Lab]:
        """The colour of the most intense dry swatch of each mix (highest C*ab), by mix id."""
        s = t.swatch.c
        chroma = s.a * s.a + s.b * s.b
        place = func.row_number().over(partition_by=s.mix_id, order_by=(chroma.desc(), s.id))
        placed = (
            select(s.mix_id, s.lightness, s.a, s.b, place.label("place"))
            .where(s.state == State.DRY, KEPT)
            .subquery()
        )
        rows = self._connection.execute(
            select(placed.c.mix_id, placed.c.lightness, placed.c.a, placed.c.b)
            .where(placed.c.place == 1)
            .order_by(placed.c.mix_id)
        )
        return {mix_id: Lab(lightness, a, b) for mix_id, lightness, a, b in rows}

    def add(
        self, facts: SwatchFacts, mix_id: int, paper_id: int, readings: tuple[Reading, ...]
    ) -> int:
        """Record a swatch with at least one reading; returns its id.

        Raises:
            BadInput: there is no reading.
        """
        key = inserted_key(
            self._connection.execute(
                insert(t.swatch).values(
                    mix_id=mix_id,
                    paper_id=paper_id,
                    **_values(facts),
                    **_colour(readings),
                    **cells_of_mixes(self._connection, [mix_id])[mix_id],
                )
            )
        )
        for reading in readings:
            add_reading(self._connection, reading, swatch_id=key)
        return key

    def keys_of_codes(self, codes: Iterable[str]) -> dict[str, int]:
        """The ids of those swatches that have one of some codes, by code."""
        return keys_of(self._connection, t.swatch, "code", codes)

    def add_many(self, entries: Sequence[NewSwatch]) -> None:
        """Record swatches with one reading each; no code may be taken."""
        marks = cells_of_mixes(self._connection, (each.mix_id for each in entries))
        # Many swatches were made in the same way, and have one value that tells it.
        ways = {id(each.facts): each.facts for each in entries}
        facts = {key: _values(way) for key, way in ways.items()}
        rows = [
            {
                **facts[id(each.facts)],
                "code": each.code,
                "mix_id": each.mix_id,
                "paper_id": each.paper_id,
                **_colour((each.reading,)),
                **marks[each.mix_id],
            }
            for each in entries
        ]
        keys = insert_many(self._connection, t.swatch, rows)
        readings = (each.reading for each in entries)
        add_readings(self._connection, list(zip(keys, readings, strict=True)))

    def add_reading(self, swatch: Swatch, reading: Reading) -> None:
        """Record one more reading; the colour the swatch is searched by follows."""
        add_reading(self._connection, reading, swatch_id=swatch.id)
        self.derive_colour(swatch.id)

    def derive_colour(self, key: int) -> None:
        """Set the colour that a swatch is searched by from its readings."""
        self._connection.execute(
            update(t.swatch)
            .where(t.swatch.c.id == key)
            .values(**_colour(self.by_ids([key])[key].readings))
        )

    def mark(self, key: int, removal: Removal | None) -> None:
        """Mark a swatch as removed, or with None restore it."""
        self._connection.execute(
            update(t.swatch).where(t.swatch.c.id == key).values(**marked(removal))
        )

    def mark_reading(self, key: int, number: int, removal: Removal | None) -> None:
        """Set a reading aside, or with None count it again; the colour of the swatch follows.

        Raises:
            BadInput: no reading would be left.
        """
        mark_reading(self._connection, key, number, removal)
        self.derive_colour(key)

    def change(self, key: int, facts: SwatchFacts, paper_id: int) -> None:
        """Replace the facts and the paper of a swatch; its readings stay."""
        self._connection.execute(
            update(t.swatch).where(t.swatch.c.id == key).values(paper_id=paper_id, **_values(facts))
        )

    def searched(self, wanted: SwatchFilter, *, each_its_own: bool = False) -> SearchedSwatches:
        """The allowed swatches as a search reads them, grouped by mix or each for itself."""
        return SearchedSwatches(self._connection, wanted, each_its_own=each_its_own)

    def darkest(self) -> tuple[int, float] | None:
        """Id and L* of the darkest dry swatch, the first recorded of several."""
        s = t.swatch.c
        statement = select(s.id, s.lightness).where(s.state == State.DRY, KEPT)
        # Steps of L* come in order from the index, and only the first is looked through.
        step = select(t.LIGHTNESS_STEP).where(s.state == State.DRY, KEPT).order_by(t.LIGHTNESS_STEP)
        row = self._connection.execute(
            statement.where(step.limit(1).scalar_subquery() == t.LIGHTNESS_STEP)
            .order_by(s.lightness, s.id)
            .limit(1)
        ).first()
        return None if row is None else (row.id, row.lightness)

    def count_dry(self) -> int:
        """How many swatches were read dry."""
        return self._connection.execute(
            select(func.count()).select_from(t.swatch).where(t.swatch.c.state == State.DRY, KEPT)
        ).scalar_one()

    def _where(self, condition: ColumnElement[bool]) -> tuple[Swatch, ...]:
        rows = (
            self._connection.execute(select(t.swatch).where(condition).order_by(t.swatch.c.id))
            .mappings()
            .all()
        )
        readings = readings_of_swatches(self._connection, condition)
        return tuple(_swatch(row, readings.get(row["id"], ())) for row in rows)


def _colour(readings: tuple[Reading, ...]) -> dict[str, object]:
    state, lab = representative(readings)
    return {"state": state, "lightness": lab.lightness, "a": lab.a, "b": lab.b}


def _values(facts: SwatchFacts) -> dict[str, object]:
    target = facts.target_lab
    return {
        "code": facts.code,
        "water": facts.water,
        "layers": facts.layers,
        "application": facts.application,
        "made_on": facts.made_on,
        "kept_at": facts.kept_at,
        "note": facts.note,
        "target": facts.target,
        "target_lightness": target.lightness if target else None,
        "target_a": target.a if target else None,
        "target_b": target.b if target else None,
    }


def _swatch(row: RowMapping, readings: tuple[MarkedReading, ...]) -> Swatch:
    target = None
    if row["target_lightness"] is not None:
        target = Lab(row["target_lightness"], row["target_a"], row["target_b"])
    facts = SwatchFacts(
        code=row["code"],
        water=row["water"],
        layers=row["layers"],
        application=Application(row["application"]),
        made_on=row["made_on"],
        kept_at=row["kept_at"],
        note=row["note"],
        target=row["target"],
        target_lab=target,
    )
    return Swatch(
        id=row["id"],
        facts=facts,
        mix_id=row["mix_id"],
        paper_id=row["paper_id"],
        state=State(row["state"]),
        lab=Lab(row["lightness"], row["a"], row["b"]),
        readings=tuple(reading for reading, removal in readings if removal is None),
        set_aside=tuple(
            SetAside(number, reading, removal)
            for number, (reading, removal) in enumerate(readings, start=1)
            if removal is not None
        ),
        removed=removal_of(row),
    )

"""Fade tests with their readings."""

from functools import cached_property

from sqlalchemy import Connection, insert, select, update

from studio.catalogue.fade import FadeReading, FadeTest
from studio.colour.lab import Lab
from studio.storage import tables as t
from studio.storage.keys import inserted_key, next_code


class FadeTests:
    """The fade tests of one database, read whole, once."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def all(self) -> tuple[FadeTest, ...]:
        """Every test, oldest first."""
        return self._all

    def of_paint(self, key: int) -> tuple[FadeTest, ...]:
        """The tests of a paint, oldest first."""
        return tuple(test for test in self._all if test.paint_id == key)

    def of_mix(self, key: int) -> tuple[FadeTest, ...]:
        """The tests of a mix, oldest first."""
        return tuple(test for test in self._all if test.mix_id == key)

    def with_code(self, code: str) -> FadeTest | None:
        """The test of a code such as F1, in any case."""
        wanted = code.strip().upper()
        return next((test for test in self._all if test.code == wanted), None)

    def next_code(self) -> str:
        """The next free code of the series F1, F2 and so on."""
        return next_code(self._connection, t.fade_test, "F")

    def add(self, test: FadeTest) -> int:
        """Record a test without its readings; its own id is ignored and the new one returned."""
        key = inserted_key(
            self._connection.execute(
                insert(t.fade_test).values(
                    code=test.code,
                    paint_id=test.paint_id,
                    mix_id=test.mix_id,
                    paper_id=test.paper_id,
                    place=test.place,
                    started_on=test.started_on,
                    ended_on=test.ended_on,
                    note=test.note,
                )
            )
        )
        self._forget()
        return key

    def change(self, test: FadeTest) -> None:
        """Replace place, end and note of a recorded test."""
        self._connection.execute(
            update(t.fade_test)
            .where(t.fade_test.c.id == test.id)
            .values(place=test.place, ended_on=test.ended_on, note=test.note)
        )
        self._forget()

    def add_reading(self, key: int, reading: FadeReading) -> None:
        """Record a reading of a test."""
        covered, exposed = reading.covered, reading.exposed
        self._connection.execute(
            insert(t.fade_reading).values(
                fade_test_id=key,
                read_on=reading.read_on,
                covered_lightness=covered.lightness,
                covered_a=covered.a,
                covered_b=covered.b,
                exposed_lightness=exposed.lightness,
                exposed_a=exposed.a,
                exposed_b=exposed.b,
                blue_wool=reading.blue_wool,
                note=reading.note,
            )
        )
        self._forget()

    def _forget(self) -> None:
        self.__dict__.pop("_all", None)

    @cached_property
    def _all(self) -> tuple[FadeTest, ...]:
        rows = self._connection.execute(select(t.fade_test).order_by(t.fade_test.c.id)).mappings()
        tests = rows.all()
        readings = self._readings() if tests else {}
        return tuple(
            FadeTest(
                id=row["id"],
                code=row["code"],
                paint_id=row["paint_id"],
                mix_id=row["mix_id"],
                paper_id=row["paper_id"],
                place=row["place"],
                started_on=row["started_on"],
                ended_on=row["ended_on"],
                note=row["note"],
                readings=tuple(readings.get(row["id"], ())),
            )
            for row in tests
        )

    def _readings(self) -> dict[int, list[FadeReading]]:
        grouped: dict[int, list[FadeReading]] = {}
        for row in self._connection.execute(
            select(t.fade_reading).order_by(t.fade_reading.c.read_on)
        ).mappings():
            grouped.setdefault(row["fade_test_id"], []).append(
                FadeReading(
                    read_on=row["read_on"],
                    covered=Lab(row["covered_lightness"], row["covered_a"], row["covered_b"]),
                    exposed=Lab(row["exposed_lightness"], row["exposed_a"], row["exposed_b"]),
                    blue_wool=row["blue_wool"],
                    note=row["note"],
                )
            )
        return grouped

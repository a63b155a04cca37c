"""Paints with their pigments and stock."""

from dataclasses import replace
from functools import cached_property

from sqlalchemy import Connection, RowMapping, delete, insert, select, update

from studio.catalogue.container import total
from studio.catalogue.data_sheet import DataSheet
from studio.catalogue.paint import Degree, Form, Paint, PaintFacts, Status, Transparency
from studio.catalogue.stock import Unit
from studio.storage import tables as t
from studio.storage.containers import Containers
from studio.storage.fade_tests import FadeTests
from studio.storage.keys import inserted_key
from studio.storage.money import from_hundredths, to_hundredths
from studio.storage.pigments import Pigments


class Paints:
    """The paints of one database. A few hundred at most, so they are read whole, once."""

    def __init__(
        self,
        connection: Connection,
        pigments: Pigments,
        containers: Containers,
        fade_tests: FadeTests,
    ) -> None:
        self._connection = connection
        self._pigments = pigments
        self._containers = containers
        self._fade_tests = fade_tests

    def all(self) -> tuple[Paint, ...]:
        """Every paint, by code."""
        return tuple(self._by_id.values())

    def by_id(self, key: int) -> Paint:
        """The paint of an id."""
        return self._by_id[key]

    def add(self, facts: PaintFacts) -> int:
        """Record a paint whose pigments are on record; returns its id."""
        key = inserted_key(self._connection.execute(insert(t.paint).values(**_values(facts))))
        self._set_pigments(key, facts)
        return key

    def change(self, key: int, facts: PaintFacts) -> None:
        """Replace the facts of a paint."""
        self._connection.execute(
            update(t.paint).where(t.paint.c.id == key).values(**_values(facts))
        )
        self._connection.execute(delete(t.paint_pigment).where(t.paint_pigment.c.paint_id == key))
        self._set_pigments(key, facts)

    def renew_stock(self, key: int) -> None:
        """Take what is left of a paint from the ledger anew, after an entry was added."""
        stock = total(self._containers.of_paint(key), Unit.ML)
        self._by_id[key] = replace(self._by_id[key], stock=stock)

    def renew_fade_tests(self, key: int) -> None:
        """Take the fade tests of a paint anew, after one was started, read or ended."""
        tests = self._fade_tests.of_paint(key)
        self._by_id[key] = replace(self._by_id[key], fade_tests=tests)

    def set_data_sheet(self, key: int, sheet: DataSheet) -> None:
        """Record the data sheet of a paint, in place of an earlier one."""
        self._connection.execute(delete(t.data_sheet).where(t.data_sheet.c.paint_id == key))
        self._connection.execute(
            insert(t.data_sheet).values(
                paint_id=key,
                location=sheet.location,
                dated_on=sheet.dated_on,
                label_marks=sheet.label_marks,
                recorded_on=sheet.recorded_on,
            )
        )
        for remembered in ("_by_id", "_data_sheets"):
            self.__dict__.pop(remembered, None)

    def _set_pigments(self, key: int, facts: PaintFacts) -> None:
        rows = [
            {"paint_id": key, "position": place, "pigment_id": self._pigments.id_of(name)}
            for place, name in enumerate(facts.pigments, start=1)
        ]
        if rows:
            self._connection.execute(insert(t.paint_pigment), rows)
        self.__dict__.pop("_by_id", None)

    @cached_property
    def _by_id(self) -> dict[int, Paint]:
        pigment_ids: dict[int, list[int]] = {}
        for row in self._connection.execute(
            select(t.paint_pigment).order_by(t.paint_pigment.c.position)
        ).mappings():
            pigment_ids.setdefault(row["paint_id"], []).append(row["pigment_id"])
        rows = self._connection.execute(select(t.paint).order_by(t.paint.c.code)).mappings()
        return {row["id"]: self._paint(row, pigment_ids.get(row["id"], [])) for row in rows}

    def _paint(self, row: RowMapping, pigment_ids: list[int]) -> Paint:
        pigments = tuple(self._pigments.by_id(key) for key in pigment_ids)
        facts = PaintFacts(
            code=row["code"],
            maker=row["maker"],
            name=row["name"],
            pigments=tuple(pigment.ci_name for pigment in pigments),
            form=Form(row["form"]),
            volume_ml=row["volume_ml"],
            price=from_hundredths(row["price_hundredths"]),
            currency=row["currency"],
            transparency=Transparency(row["transparency"]) if row["transparency"] else None,
            staining=Degree(row["staining"]) if row["staining"] else None,
            granulation=Degree(row["granulation"]) if row["granulation"] else None,
            lot=row["lot"],
            status=Status(row["status"]),
            low_at_ml=row["low_at_ml"],
            note=row["note"],
        )
        key = row["id"]
        return Paint(
            id=key,
            facts=facts,
            pigments=pigments,
            stock=total(self._containers.of_paint(key), Unit.ML),
            data_sheet=self._data_sheets.get(key),
            fade_tests=self._fade_tests.of_paint(key),
        )

    @cached_property
    def _data_sheets(self) -> dict[int, DataSheet]:
        rows = self._connection.execute(select(t.data_sheet)).mappings()
        return {
            row["paint_id"]: DataSheet(
                row["location"], row["dated_on"], row["label_marks"], row["recorded_on"]
            )
            for row in rows
        }


def _values(facts: PaintFacts) -> dict[str, object]:
    return {
        "code": facts.code,
        "maker": facts.maker,
        "name": facts.name,
        "form": facts.form,
        "volume_ml": facts.volume_ml,
        "price_hundredths": to_hundredths(facts.price),
        "currency": facts.currency,
        "transparency": facts.transparency,
        "staining": facts.staining,
        "granulation": facts.granulation,
        "lot": facts.lot,
        "status": facts.status,
        "low_at_ml": facts.low_at_ml,
        "note": facts.note,
    }

"""Papers with their stock and measured white."""

from dataclasses import replace
from functools import cached_property

from sqlalchemy import Connection, RowMapping, insert, select, update

from studio.catalogue.container import total
from studio.catalogue.paper import Fibre, Paper, PaperFacts, Surface
from studio.catalogue.reading import Reading
from studio.catalogue.stock import Unit
from studio.storage import tables as t
from studio.storage.containers import Containers
from studio.storage.keys import inserted_key
from studio.storage.readings import add_reading, readings_of_papers


class Papers:
    """The papers of one database, read whole, once."""

    def __init__(self, connection: Connection, containers: Containers) -> None:
        self._connection = connection
        self._containers = containers

    def all(self) -> tuple[Paper, ...]:
        """Every paper, by code."""
        return tuple(self._by_id.values())

    def by_id(self, key: int) -> Paper:
        """The paper of an id."""
        return self._by_id[key]

    def add(self, facts: PaperFacts) -> int:
        """Record a paper; returns its id."""
        key = inserted_key(self._connection.execute(insert(t.paper).values(**_values(facts))))
        self._forget()
        return key

    def change(self, key: int, facts: PaperFacts) -> None:
        """Replace the facts of a paper."""
        self._connection.execute(
            update(t.paper).where(t.paper.c.id == key).values(**_values(facts))
        )
        self._forget()

    def add_white(self, key: int, reading: Reading) -> None:
        """Record a reading of a paper's white."""
        add_reading(self._connection, reading, paper_id=key)
        self._forget()

    def renew_stock(self, key: int) -> None:
        """Take what is left of a paper from the ledger anew, after an entry was added."""
        stock = total(self._containers.of_paper(key), Unit.SHEETS)
        self._by_id[key] = replace(self._by_id[key], stock=stock)

    def _forget(self) -> None:
        self.__dict__.pop("_by_id", None)

    @cached_property
    def _by_id(self) -> dict[int, Paper]:
        white = readings_of_papers(self._connection)
        rows = self._connection.execute(select(t.paper).order_by(t.paper.c.code)).mappings()
        return {
            row["id"]: Paper(
                row["id"],
                _facts(row),
                total(self._containers.of_paper(row["id"]), Unit.SHEETS),
                white.get(row["id"], ()),
            )
            for row in rows
        }


def _facts(row: RowMapping) -> PaperFacts:
    return PaperFacts(
        code=row["code"],
        maker=row["maker"],
        name=row["name"],
        fibre=Fibre(row["fibre"]) if row["fibre"] else None,
        weight_gsm=row["weight_gsm"],
        surface=Surface(row["surface"]) if row["surface"] else None,
        sheet_width_mm=row["sheet_width_mm"],
        sheet_height_mm=row["sheet_height_mm"],
        low_at_sheets=row["low_at_sheets"],
        low_at_mm=row["low_at_mm"],
        note=row["note"],
    )


def _values(facts: PaperFacts) -> dict[str, object]:
    return {
        "code": facts.code,
        "maker": facts.maker,
        "name": facts.name,
        "fibre": facts.fibre,
        "weight_gsm": facts.weight_gsm,
        "surface": facts.surface,
        "sheet_width_mm": facts.sheet_width_mm,
        "sheet_height_mm": facts.sheet_height_mm,
        "low_at_sheets": facts.low_at_sheets,
        "low_at_mm": facts.low_at_mm,
        "note": facts.note,
    }

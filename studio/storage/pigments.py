"""Pigments with their lightfastness ratings and hazards."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from functools import cached_property
from typing import Final

from sqlalchemy import Connection, RowMapping, Table, insert, select, update

from studio.catalogue.evidence import Evidence
from studio.catalogue.hazard import Basis, Hazard, HazardCode
from studio.catalogue.lightfastness import LightfastnessRating, Scale
from studio.catalogue.pigment import CI_NAME, Pigment
from studio.storage import tables as t
from studio.storage.keys import inserted_key

ROUTE_SEPARATOR: Final = "; "
_FAMILIES: Final = ("Y", "O", "R", "V", "B", "G", "BR", "BK", "W", "M")


class Pigments:
    """The pigments of one database. A few hundred at most, so they are read whole, once."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def all(self) -> tuple[Pigment, ...]:
        """Every pigment, by hue family and number."""
        return tuple(sorted(self._by_id.values(), key=lambda pigment: _order(pigment.ci_name)))

    def by_id(self, key: int) -> Pigment:
        """The pigment of an id."""
        return self._by_id[key]

    def get(self, ci_name: str) -> Pigment | None:
        """The pigment of a Colour Index name, None when there is none."""
        key = self._ids.get(ci_name)
        return None if key is None else self._by_id[key]

    def id_of(self, ci_name: str) -> int:
        """The id of a recorded Colour Index name."""
        return self._ids[ci_name]

    def hazard_classes(self) -> frozenset[str]:
        """Every hazard class of the GHS statements on record."""
        return frozenset(hazard_class for hazard_class, _ in self._statements.values())

    def statements(self) -> dict[str, tuple[str, str]]:
        """(hazard class, wording) of every GHS statement on record, by code."""
        return self._statements

    def add(self, pigment: Pigment) -> None:
        """Record a pigment without its ratings and hazards."""
        key = inserted_key(
            self._connection.execute(
                insert(t.pigment).values(
                    ci_name=pigment.ci_name,
                    ci_number=pigment.ci_number,
                    common_name=pigment.common_name,
                    chemical_class=pigment.chemical_class,
                    evidence=pigment.evidence,
                    source=pigment.source,
                    note=pigment.note,
                )
            )
        )
        self._ids[pigment.ci_name] = key
        self._by_id[key] = replace(pigment, ratings=(), hazards=())

    def add_rating(self, rating: LightfastnessRating) -> None:
        """Record a lightfastness rating of a recorded pigment."""
        key = self.id_of(rating.pigment)
        self._connection.execute(
            insert(t.lightfastness_rating).values(
                pigment_id=key,
                scale=rating.scale,
                rating=rating.rating,
                medium=rating.medium,
                year=rating.year,
                source=rating.source,
                evidence=rating.evidence,
                note=rating.note,
                verified_on=rating.verified_on,
                verified_from=rating.verified_from,
            )
        )
        pigment = self._by_id[key]
        self._by_id[key] = replace(pigment, ratings=(*pigment.ratings, rating))

    def add_statement(self, code: str, hazard_class: str, wording: str, source: str) -> None:
        """Record a GHS hazard statement."""
        self._connection.execute(
            insert(t.h_statement).values(
                code=code, hazard_class=hazard_class, wording=wording, source=source
            )
        )
        self._statements[code] = (hazard_class, wording)

    def add_hazard(self, hazard: Hazard) -> None:
        """Record a hazard of a recorded pigment; its statements must be on record."""
        pigment_key = self.id_of(hazard.pigment)
        key = inserted_key(
            self._connection.execute(
                insert(t.hazard).values(
                    pigment_id=pigment_key,
                    agent=hazard.agent,
                    cas=hazard.cas,
                    summary=hazard.summary,
                    basis=hazard.basis,
                    basis_detail=hazard.basis_detail,
                    routes=ROUTE_SEPARATOR.join(hazard.routes) or None,
                    evidence=hazard.evidence,
                    source=hazard.source,
                    verified_on=hazard.verified_on,
                    verified_from=hazard.verified_from,
                )
            )
        )
        self._insert_all(
            t.hazard_code,
            ({"hazard_id": key, "code": c.code, "hedged": int(c.hedged)} for c in hazard.codes),
        )
        self._insert_all(
            t.hazard_metal, ({"hazard_id": key, "metal": metal} for metal in hazard.metals)
        )
        pigment = self._by_id[pigment_key]
        self._by_id[pigment_key] = replace(pigment, hazards=(*pigment.hazards, hazard))

    def verify(  # noqa: PLR0913 - which rows, and by what
        self,
        ci_name: str,
        source: str,
        day: date,
        verified_from: str,
        *,
        ratings: bool,
        hazards: bool,
    ) -> int:
        """Mark the unverified ratings or hazards of a pigment that are from one source.

        Args:
            ci_name: a recorded pigment.
            source: the source the rows name.
            day: the day that is recorded.
            verified_from: what the owner confirmed them from.
            ratings: mark lightfastness ratings.
            hazards: mark hazards.

        Returns:
            How many rows were marked.
        """
        marked = 0
        for table, wanted in ((t.lightfastness_rating, ratings), (t.hazard, hazards)):
            if wanted:
                marked += self._connection.execute(
                    update(table)
                    .where(
                        table.c.pigment_id == self.id_of(ci_name),
                        table.c.source == source,
                        table.c.verified_on.is_(None),
                    )
                    .values(verified_on=day, verified_from=verified_from)
                ).rowcount
        self.__dict__.pop("_by_id", None)
        return marked

    def _insert_all(self, table: Table, rows: Iterable[dict[str, object]]) -> None:
        listed = list(rows)
        if listed:
            self._connection.execute(insert(table), listed)

    @cached_property
    def _statements(self) -> dict[str, tuple[str, str]]:
        s = t.h_statement.c
        statement = select(s.code, s.hazard_class, s.wording).order_by(s.code)
        rows = self._connection.execute(statement)
        return {code: (hazard_class, wording) for code, hazard_class, wording in rows}

    @cached_property
    def _ids(self) -> dict[str, int]:
        return {pigment.ci_name: key for key, pigment in self._by_id.items()}

    @cached_property
    def _by_id(self) -> dict[int, Pigment]:
        ratings = self._ratings()
        hazards = self._hazards()
        statement = select(t.pigment).order_by(t.pigment.c.id)
        rows = self._connection.execute(statement).mappings().all()
        return {row["id"]: _pigment(row, ratings, hazards) for row in rows}

    def _ratings(self) -> dict[str, list[LightfastnessRating]]:
        rows = self._connection.execute(
            select(t.lightfastness_rating, t.pigment.c.ci_name)
            .join_from(t.lightfastness_rating, t.pigment)
            .order_by(t.lightfastness_rating.c.id)
        ).mappings()
        grouped: dict[str, list[LightfastnessRating]] = {}
        for row in rows:
            grouped.setdefault(row["ci_name"], []).append(_rating(row))
        return grouped

    def _hazards(self) -> dict[str, list[Hazard]]:
        codes: dict[int, list[HazardCode]] = {}
        for row in self._connection.execute(
            select(t.hazard_code, t.h_statement.c.hazard_class, t.h_statement.c.wording)
            .join_from(t.hazard_code, t.h_statement)
            .order_by(t.hazard_code.c.code)
        ).mappings():
            codes.setdefault(row["hazard_id"], []).append(
                HazardCode(row["code"], row["hazard_class"], row["wording"], bool(row["hedged"]))
            )
        metals: dict[int, list[str]] = {}
        for row in self._connection.execute(
            select(t.hazard_metal).order_by(t.hazard_metal.c.metal)
        ).mappings():
            metals.setdefault(row["hazard_id"], []).append(row["metal"])
        grouped: dict[str, list[Hazard]] = {}
        for row in self._connection.execute(
            select(t.hazard, t.pigment.c.ci_name)
            .join_from(t.hazard, t.pigment)
            .order_by(t.hazard.c.id)
        ).mappings():
            grouped.setdefault(row["ci_name"], []).append(
                _hazard(row, codes.get(row["id"], []), metals.get(row["id"], []))
            )
        return grouped


def _order(ci_name: str) -> tuple[int, int, str]:
    """By hue family in the order of the Colour Index, then by number."""
    found = CI_NAME.fullmatch(ci_name.upper())
    if found is None:
        return len(_FAMILIES), 0, ci_name
    family = _FAMILIES.index(found["hue"])
    return family, int(found["number"].split(":")[0]), ci_name


def _pigment(
    row: RowMapping,
    ratings: dict[str, list[LightfastnessRating]],
    hazards: dict[str, list[Hazard]],
) -> Pigment:
    name = row["ci_name"]
    return Pigment(
        ci_name=name,
        ci_number=row["ci_number"],
        common_name=row["common_name"],
        chemical_class=row["chemical_class"],
        evidence=Evidence(row["evidence"]) if row["evidence"] else None,
        source=row["source"],
        note=row["note"],
        ratings=tuple(ratings.get(name, ())),
        hazards=tuple(hazards.get(name, ())),
    )


def _rating(row: RowMapping) -> LightfastnessRating:
    return LightfastnessRating(
        pigment=row["ci_name"],
        scale=Scale(row["scale"]),
        rating=row["rating"],
        medium=row["medium"],
        year=row["year"],
        source=row["source"],
        evidence=Evidence(row["evidence"]),
        note=row["note"],
        verified_on=row["verified_on"],
        verified_from=row["verified_from"],
    )


def _hazard(row: RowMapping, codes: list[HazardCode], metals: list[str]) -> Hazard:
    return Hazard(
        pigment=row["ci_name"],
        agent=row["agent"],
        cas=row["cas"],
        summary=row["summary"],
        codes=tuple(codes),
        basis=Basis(row["basis"]),
        basis_detail=row["basis_detail"],
        routes=tuple(row["routes"].split(ROUTE_SEPARATOR)) if row["routes"] else (),
        metals=tuple(metals),
        evidence=Evidence(row["evidence"]),
        source=row["source"],
        verified_on=row["verified_on"],
        verified_from=row["verified_from"],
    )

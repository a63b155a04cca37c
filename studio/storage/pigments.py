"""Pigments with their lightfastness ratings and hazards."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from functools import cached_property
from typing import Final

from sqlalchemy import Connection, RowMapping, Table, delete, insert, select, update

from studio.catalogue.evidence import Evidence
from studio.catalogue.hazard import (
    Basis,
    Hazard,
    HazardCode,
    Listing,
    ListName,
    Scope,
    Use,
    in_order,
    read_listing,
)
from studio.catalogue.lightfastness import LightfastnessRating, Scale
from studio.catalogue.pigment import Pigment, base_names, is_sub_grade, order_of
from studio.storage import tables as t
from studio.storage.keys import inserted_key

ROUTE_SEPARATOR: Final = "; "


class Pigments:
    """The pigments of one database. A few hundred at most, so they are read whole, once."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def all(self) -> tuple[Pigment, ...]:
        """Every pigment, by class of colorant, hue and number."""
        pigments = map(self._with_base, self._by_id.values())
        return tuple(sorted(pigments, key=lambda pigment: order_of(pigment.ci_name)))

    def by_id(self, key: int) -> Pigment:
        """The pigment of an id."""
        return self._with_base(self._by_id[key])

    def get(self, ci_name: str) -> Pigment | None:
        """The pigment of a Colour Index name, None when there is none."""
        key = self._ids.get(ci_name)
        return None if key is None else self._with_base(self._by_id[key])

    def own(self, ci_name: str) -> Pigment | None:
        """The pigment of a name with its own rows alone, not those of one it is a variant of."""
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
                insert(t.pigment).values(ci_name=pigment.ci_name, **_facts_of(pigment))
            )
        )
        self._ids[pigment.ci_name] = key
        self._by_id[key] = replace(pigment, ratings=(), hazards=(), as_base=None)

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
                    use=hazard.use,
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
        self._add_listings(key, hazard)
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

    def change(self, pigment: Pigment) -> None:
        """Replace the facts of a recorded pigment; its ratings and hazards stay."""
        self._connection.execute(
            update(t.pigment)
            .where(t.pigment.c.id == self.id_of(pigment.ci_name))
            .values(**_facts_of(pigment))
        )
        self.__dict__.pop("_by_id", None)

    def change_statement(self, code: str, hazard_class: str, wording: str, source: str) -> None:
        """Replace what a recorded statement says."""
        self._connection.execute(
            update(t.h_statement)
            .where(t.h_statement.c.code == code)
            .values(hazard_class=hazard_class, wording=wording, source=source)
        )
        for remembered in ("_statements", "_by_id"):
            self.__dict__.pop(remembered, None)

    def statement_sources(self) -> dict[str, str]:
        """Where each statement on record is from, by code."""
        s = t.h_statement.c
        return {row.code: row.source for row in self._connection.execute(select(s.code, s.source))}

    def take_out_rating(self, rating: LightfastnessRating) -> None:
        """Take out a rating that is wrong; one from another source stays."""
        r = t.lightfastness_rating
        self._connection.execute(
            delete(r).where(
                r.c.pigment_id == self.id_of(rating.pigment),
                r.c.scale == rating.scale,
                r.c.medium == rating.medium,
                r.c.source == rating.source,
            )
        )
        self.__dict__.pop("_by_id", None)

    def take_out_hazard(self, hazard: Hazard) -> None:
        """Take out a hazard that is wrong, with its codes, metals and listings."""
        key = self._hazard_id(hazard)
        for table in (t.hazard_code, t.hazard_metal, t.hazard_listing):
            self._connection.execute(delete(table).where(table.c.hazard_id == key))
        self._connection.execute(delete(t.hazard).where(t.hazard.c.id == key))
        self.__dict__.pop("_by_id", None)

    def complete_hazard(self, hazard: Hazard, use: Use | None, listings: Iterable[Listing]) -> None:
        """Give a recorded hazard what it does not speak of: use and listings."""
        key = self._hazard_id(hazard)
        self._connection.execute(update(t.hazard).where(t.hazard.c.id == key).values(use=use))
        known = {(each.name, each.entry) for each in hazard.listings}
        new = tuple(each for each in listings if (each.name, each.entry) not in known)
        self._add_listings(key, replace(hazard, listings=new))
        self.__dict__.pop("_by_id", None)

    def _hazard_id(self, hazard: Hazard) -> int:
        h = t.hazard.c
        key: int = self._connection.execute(
            select(h.id).where(
                h.pigment_id == self.id_of(hazard.pigment),
                h.agent == hazard.agent,
                h.source == hazard.source,
            )
        ).scalar_one()
        return key

    def _add_listings(self, key: int, hazard: Hazard) -> None:
        self._insert_all(
            t.hazard_listing,
            (
                {"hazard_id": key, "list": each.name, "entry": each.entry, "scope": each.scope}
                for each in hazard.listings
            ),
        )

    def _with_base(self, pigment: Pigment) -> Pigment:
        """A pigment; one without data of its own has those of the pigment it is a variant of."""
        if pigment.evidence is not None:
            return pigment
        for name in base_names(pigment.ci_name):
            base = self._by_id.get(self._ids.get(name, 0))
            if base is not None and base.evidence is not None:
                break
        else:
            return pigment
        other_substance = is_sub_grade(pigment.ci_name) and not is_sub_grade(base.ci_name)
        return replace(
            pigment,
            ratings=(
                *pigment.ratings,
                *(
                    replace(each, pigment=pigment.ci_name, as_base=base.ci_name)
                    for each in base.ratings
                ),
            ),
            hazards=(
                *pigment.hazards,
                *(
                    replace(each, pigment=pigment.ci_name, as_base=base.ci_name)
                    for each in base.hazards
                ),
            ),
            looked_up=pigment.looked_up or (None if other_substance else base.looked_up),
            as_base=base.ci_name,
        )

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
        listings: dict[int, list[Listing]] = {}
        for row in self._connection.execute(select(t.hazard_listing)).mappings():
            listings.setdefault(row["hazard_id"], []).append(_listing(row, self._statements))
        grouped: dict[str, list[Hazard]] = {}
        for row in self._connection.execute(
            select(t.hazard, t.pigment.c.ci_name)
            .join_from(t.hazard, t.pigment)
            .order_by(t.hazard.c.id)
        ).mappings():
            grouped.setdefault(row["ci_name"], []).append(
                _hazard(
                    row,
                    codes.get(row["id"], []),
                    metals.get(row["id"], []),
                    listings.get(row["id"], []),
                )
            )
        return grouped


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
        looked_up=row["looked_up"],
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


def _listing(row: RowMapping, statements: dict[str, tuple[str, str]]) -> Listing:
    listing = Listing(
        ListName(row["list"]), row["entry"], Scope(row["scope"]) if row["scope"] else None
    )
    return read_listing(listing.text, statements)


def _hazard(
    row: RowMapping, codes: list[HazardCode], metals: list[str], listings: list[Listing]
) -> Hazard:
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
        use=Use(row["use"]) if row["use"] else None,
        listings=in_order(listings),
    )


def _facts_of(pigment: Pigment) -> dict[str, str | None]:
    """The columns of a pigment beside its name."""
    return {
        "ci_number": pigment.ci_number,
        "common_name": pigment.common_name,
        "chemical_class": pigment.chemical_class,
        "evidence": pigment.evidence,
        "source": pigment.source,
        "note": pigment.note,
        "looked_up": pigment.looked_up,
    }

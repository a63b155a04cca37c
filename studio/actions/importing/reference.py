"""Rows of the pigment reference: pigments, lightfastness, GHS statements, hazards."""

from collections.abc import Mapping
from datetime import date

from studio.actions.importing.row import Row
from studio.catalogue import checks
from studio.catalogue.evidence import Evidence
from studio.catalogue.hazard import METALS, Basis, Hazard, HazardCode, Use, in_order, read_listing
from studio.catalogue.lightfastness import LightfastnessRating, Scale, spelled_rating
from studio.catalogue.pigment import Pigment, ci_name
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork

BINDER = "binder"
"""The hazards table has a row for paint binders, which is no pigment's and is left out here."""


Statements = Mapping[str, tuple[str, str]]
"""(Hazard class, wording) of each statement on record, by code."""


def import_pigment(work: UnitOfWork, row: Row, _today: date) -> bool:
    """Record a pigment; False when it is recorded already."""
    pigment = pigment_of(row)
    if work.pigments.get(pigment.ci_name) is not None:
        return False
    work.pigments.add(pigment)
    return True


def import_lightfastness(work: UnitOfWork, row: Row, _today: date) -> bool:
    """Record a rating, unverified; False when there is one from that source already."""
    rating = rating_of(row)
    if any(map(rating.is_of_same_source, _known(work, rating.pigment).ratings)):
        return False
    work.pigments.add_rating(rating)
    return True


def import_statement(work: UnitOfWork, row: Row, _today: date) -> bool:
    """Record a GHS hazard statement; False when it is recorded already."""
    code, *said = statement_of(row)
    if code in work.pigments.statements():
        return False
    work.pigments.add_statement(code, *said)
    return True


def import_hazard(work: UnitOfWork, row: Row, _today: date) -> bool:
    """Record a hazard, unverified; False when that source's for that agent is there already."""
    if row.needed("ci_name") == BINDER:
        return False
    hazard = hazard_of(row, work.pigments.statements())
    if any(map(hazard.is_of_same_source, _known(work, hazard.pigment).hazards)):
        return False
    work.pigments.add_hazard(hazard)
    return True


def pigment_of(row: Row) -> Pigment:
    """The pigment that a row is about, without ratings and hazards."""
    return Pigment(
        ci_name=ci_name(row.needed("ci_name")),
        ci_number=row.text("ci_number"),
        common_name=row.needed("common_name"),
        chemical_class=row.text("chemical_class"),
        evidence=checks.word(row.needed("evidence"), Evidence, "evidence"),
        source=row.needed("source"),
        note=row.text("note"),
        looked_up=row.text("looked_up"),
    )


def rating_of(row: Row) -> LightfastnessRating:
    """The rating that a row gives, unverified."""
    year = row.whole("year")
    scale = checks.word(row.needed("scale"), Scale, "scale")
    return LightfastnessRating(
        pigment=ci_name(row.needed("ci_name")),
        scale=scale,
        rating=spelled_rating(scale, row.needed("rating")),
        medium=row.needed("medium").lower(),
        year=None if year is None else int(checks.number(year, "year", 1800, 2200)),
        source=row.needed("source"),
        evidence=checks.word(row.needed("evidence"), Evidence, "evidence"),
        note=row.text("note"),
    )


def statement_of(row: Row) -> tuple[str, str, str, str]:
    """Code, hazard class, wording and source of a GHS statement."""
    return (
        row.needed("code"),
        row.needed("hazard_class").lower(),
        row.needed("wording"),
        row.needed("source"),
    )


def hazard_of(row: Row, statements: Statements) -> Hazard:
    """The hazard that a row tells of, unverified.

    Args:
        row: the row.
        statements: those that its codes and listings may name.

    Raises:
        BadInput: a cell cannot be read.
    """
    metals = row.words("metals", " ")
    for metal in metals:
        if metal not in METALS:
            msg = f"metals {metal!r} is not known; choose of: {', '.join(METALS)}"
            raise BadInput(msg)
    listings = in_order(read_listing(item, statements) for item in row.words("listed", ";"))
    if len({(each.name, each.entry) for each in listings}) < len(listings):
        msg = "listed names the same entry of a list twice"
        raise BadInput(msg)
    return Hazard(
        pigment=ci_name(row.needed("ci_name")),
        agent=row.needed("agent"),
        cas=row.text("cas"),
        summary=row.needed("summary"),
        codes=tuple(_code(statements, word) for word in row.words("h_codes", " ")),
        basis=checks.word(row.needed("basis"), Basis, "basis"),
        basis_detail=row.text("basis_detail"),
        routes=row.words("routes", ";"),
        metals=metals,
        evidence=checks.word(row.needed("evidence"), Evidence, "evidence"),
        source=row.needed("source"),
        use=row.word("use", Use),
        listings=listings,
    )


def _known(work: UnitOfWork, name: str) -> Pigment:
    pigment = work.pigments.get(name)
    if pigment is None:
        msg = f"pigment {name} is not recorded; import it first"
        raise BadInput(msg)
    return pigment


def _code(statements: Statements, word: str) -> HazardCode:
    """A code such as H350, hedged when a question mark follows."""
    code = word.rstrip("?")
    statement = statements.get(code)
    if statement is None:
        msg = f"hazard statement {code} is not in the table of GHS statements"
        raise BadInput(msg)
    return HazardCode(code, *statement, hedged=word.endswith("?"))

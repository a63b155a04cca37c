"""Rows of the pigment reference: pigments, lightfastness, GHS statements, hazards."""

from datetime import date

from studio.actions.importing.row import Row
from studio.catalogue import checks
from studio.catalogue.evidence import Evidence
from studio.catalogue.hazard import METALS, Basis, Hazard, HazardCode
from studio.catalogue.lightfastness import LightfastnessRating, Scale
from studio.catalogue.pigment import Pigment, ci_name
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork

BINDER = "binder"
"""The hazards table has a row for paint binders, which is no pigment's and is left out here."""


def import_pigment(work: UnitOfWork, row: Row, _today: date) -> bool:
    """Record a pigment; False when it is recorded already."""
    pigment = Pigment(
        ci_name=ci_name(row.needed("ci_name")),
        ci_number=row.text("ci_number"),
        common_name=row.needed("common_name"),
        chemical_class=row.text("chemical_class"),
        evidence=checks.word(row.needed("evidence"), Evidence, "evidence"),
        source=row.needed("source"),
        note=row.text("note"),
    )
    if work.pigments.get(pigment.ci_name) is not None:
        return False
    work.pigments.add(pigment)
    return True


def import_lightfastness(work: UnitOfWork, row: Row, _today: date) -> bool:
    """Record a rating, unverified; False when there is one from that source already."""
    pigment = _known(work, row)
    year = row.whole("year")
    rating = LightfastnessRating(
        pigment=pigment.ci_name,
        scale=checks.word(row.needed("scale"), Scale, "scale"),
        rating=row.needed("rating").upper(),
        medium=row.needed("medium").lower(),
        year=None if year is None else int(checks.number(year, "year", 1800, 2200)),
        source=row.needed("source"),
        evidence=checks.word(row.needed("evidence"), Evidence, "evidence"),
        note=row.text("note"),
    )
    for known in pigment.ratings:
        if (known.scale, known.medium, known.source) == (
            rating.scale,
            rating.medium,
            rating.source,
        ):
            return False
    work.pigments.add_rating(rating)
    return True


def import_statement(work: UnitOfWork, row: Row, _today: date) -> bool:
    """Record a GHS hazard statement; False when it is recorded already."""
    code = row.needed("code")
    if code in work.pigments.statements():
        return False
    work.pigments.add_statement(
        code, row.needed("hazard_class").lower(), row.needed("wording"), row.needed("source")
    )
    return True


def import_hazard(work: UnitOfWork, row: Row, _today: date) -> bool:
    """Record a hazard, unverified; False when there is one for that agent already."""
    if row.needed("ci_name") == BINDER:
        return False
    pigment = _known(work, row)
    agent = row.needed("agent")
    if any(known.agent == agent for known in pigment.hazards):
        return False
    metals = row.words("metals", " ")
    for metal in metals:
        if metal not in METALS:
            msg = f"metals {metal!r} is not known; choose of: {', '.join(METALS)}"
            raise BadInput(msg)
    work.pigments.add_hazard(
        Hazard(
            pigment=pigment.ci_name,
            agent=agent,
            cas=row.text("cas"),
            summary=row.needed("summary"),
            codes=tuple(_code(work, word) for word in row.words("h_codes", " ")),
            basis=checks.word(row.needed("basis"), Basis, "basis"),
            basis_detail=row.text("basis_detail"),
            routes=row.words("routes", ";"),
            metals=metals,
            evidence=checks.word(row.needed("evidence"), Evidence, "evidence"),
            source=row.needed("source"),
        )
    )
    return True


def _known(work: UnitOfWork, row: Row) -> Pigment:
    name = ci_name(row.needed("ci_name"))
    pigment = work.pigments.get(name)
    if pigment is None:
        msg = f"pigment {name} is not recorded; import it first"
        raise BadInput(msg)
    return pigment


def _code(work: UnitOfWork, word: str) -> HazardCode:
    """A code such as H350, hedged when a question mark follows."""
    code = word.rstrip("?")
    statement = work.pigments.statements().get(code)
    if statement is None:
        msg = f"hazard statement {code} is not in the table of GHS statements"
        raise BadInput(msg)
    return HazardCode(code, *statement, hedged=word.endswith("?"))

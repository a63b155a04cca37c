"""Load the pigment reference that ships with the program into a database, and keep it right."""

from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Final

from studio.actions.importing import reference
from studio.actions.importing.row import Row
from studio.actions.importing.table_file import read_table
from studio.actions.importing.tables import import_tables, kind_named
from studio.catalogue.hazard import Hazard
from studio.catalogue.lightfastness import LightfastnessRating
from studio.catalogue.pigment import Pigment
from studio.errors import StudioError
from studio.storage.pigments import Pigments
from studio.storage.shipped import shipped_folder
from studio.storage.unit_of_work import UnitOfWork

TABLES: Final = ("pigments", "lightfastness", "h_statements", "hazards")
EARLIER: Final = "earlier"
"""The folder with the rows that earlier versions shipped, by which a studio knows them again."""


def load_reference(work: UnitOfWork) -> None:
    """Add what is missing of the pigment reference; nothing that is recorded is changed.

    Raises:
        StudioError: the shipped tables hold a row that cannot be recorded.
    """
    folder = shipped_folder("shared")
    tables = [(kind_named(name), folder / f"{name}.csv") for name in TABLES]
    result = import_tables(work, tables, date.min)
    if result.faults:
        fault = result.faults[0]
        msg = f"the program's own {fault.file}, line {fault.line}: {fault.reason}"
        raise StudioError(msg)


@dataclass(frozen=True, slots=True)
class _Reference:
    """The rows of the reference as one version ships them.

    Args:
        pigments: by Colour Index name, without ratings and hazards.
        ratings: of all pigments.
        statements: class, wording and source by code.
        hazards: of all pigments.
    """

    pigments: dict[str, Pigment]
    ratings: tuple[LightfastnessRating, ...]
    statements: dict[str, tuple[str, str, str]]
    hazards: tuple[Hazard, ...]


def refresh_reference(pigments: Pigments) -> None:
    """Bring the reference rows of an older studio in line with those that ship now.

    A row is the program's where it is, cell for cell, as an earlier version shipped it. Such a row
    is corrected, or taken out where it was withdrawn. What the owner verified, rated, imported or
    changed stays as it is; a corrected row is recorded beside it, unless it is of the same source.

    Raises:
        StudioError: the shipped tables hold a row that cannot be read.
    """
    folder = shipped_folder("shared")
    now, earlier = _reference(folder), _reference(folder / EARLIER)
    _refresh_pigments(pigments, now, earlier)
    _refresh_statements(pigments, now, earlier)
    _refresh_ratings(pigments, now, earlier)
    _refresh_hazards(pigments, now, earlier)


def _refresh_pigments(pigments: Pigments, now: _Reference, earlier: _Reference) -> None:
    for name, shipped in now.pigments.items():
        known = pigments.own(name)
        if known is None:
            pigments.add(shipped)
            continue
        facts = replace(known, ratings=(), hazards=())
        if facts.evidence is None or facts == earlier.pigments.get(name):
            if facts != shipped:
                pigments.change(shipped)
        elif facts.looked_up is None and shipped.looked_up is not None:
            pigments.change(replace(facts, looked_up=shipped.looked_up))


def _refresh_statements(pigments: Pigments, now: _Reference, earlier: _Reference) -> None:
    known, sources = dict(pigments.statements()), pigments.statement_sources()
    for code, shipped in now.statements.items():
        if code not in known:
            pigments.add_statement(code, *shipped)
        elif (*known[code], sources[code]) == earlier.statements.get(code) != shipped:
            pigments.change_statement(code, *shipped)


def _refresh_ratings(pigments: Pigments, now: _Reference, earlier: _Reference) -> None:
    shipped, before = set(now.ratings), set(earlier.ratings)
    for name in {rating.pigment for rating in before}:
        own = pigments.own(name)
        for rating in own.ratings if own else ():
            if rating in before and rating not in shipped:
                pigments.take_out_rating(rating)
    for rating in now.ratings:
        own = pigments.own(rating.pigment)
        if own and not any(map(rating.is_of_same_source, own.ratings)):
            pigments.add_rating(rating)


def _refresh_hazards(pigments: Pigments, now: _Reference, earlier: _Reference) -> None:
    shipped, before = {_bare(each) for each in now.hazards}, {_bare(h) for h in earlier.hazards}
    for name in {hazard.pigment for hazard in before}:
        own = pigments.own(name)
        for hazard in own.hazards if own else ():
            if _bare(hazard) in before and _bare(hazard) not in shipped:
                pigments.take_out_hazard(hazard)
    for hazard in now.hazards:
        own = pigments.own(hazard.pigment)
        same = [each for each in own.hazards if hazard.is_of_same_source(each)] if own else []
        if own and not same:
            pigments.add_hazard(hazard)
        for known in same:
            # The owner verified a row that could not yet speak of these.
            if known != hazard and (hazard.use or hazard.listings):
                pigments.complete_hazard(known, known.use or hazard.use, hazard.listings)


def _bare(hazard: Hazard) -> Hazard:
    """A hazard whose codes do not tell their wording, which is the statement's to correct."""
    codes = sorted(hazard.codes, key=lambda code: code.code)
    bare = (replace(code, hazard_class="", wording="") for code in codes)
    listings = sorted(hazard.listings, key=lambda each: each.text)
    return replace(
        hazard,
        codes=tuple(bare),
        metals=tuple(sorted(hazard.metals)),
        listings=tuple(replace(each, classes=()) for each in listings),
    )


def _reference(folder: Path) -> _Reference:
    rows = [reference.statement_of(row) for row in _rows(folder, TABLES[2])]
    statements = {code: (of, wording, source) for code, of, wording, source in rows}
    classes = {code: (of, wording) for code, of, wording, _ in rows}
    hazards = tuple(
        reference.hazard_of(row, classes)
        for row in _rows(folder, TABLES[3])
        if row.needed("ci_name") != reference.BINDER
    )
    pigments = map(reference.pigment_of, _rows(folder, TABLES[0]))
    ratings = tuple(map(reference.rating_of, _rows(folder, TABLES[1])))
    return _Reference({each.ci_name: each for each in pigments}, ratings, statements, hazards)


def _rows(folder: Path, name: str) -> list[Row]:
    kind = kind_named(name)
    header, lines = read_table(folder / f"{name}.csv", kind.name, kind.needed, kind.optional)
    return [Row(dict(zip(header, cells, strict=True))) for _, cells in lines]

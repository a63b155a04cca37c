"""An older studio gets the corrected reference; what its owner verified or added stays."""

import csv
import shutil
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Final

import pytest

from studio.actions import load_reference
from studio.actions.check_database import check_database
from studio.actions.load_reference import EARLIER, TABLES, refresh_reference
from studio.actions.open_studio import create_studio
from studio.actions.rate_pigment import rate_pigment
from studio.catalogue.evidence import Evidence
from studio.catalogue.hazard import Hazard
from studio.catalogue.pigment import Pigment
from studio.storage.shipped import shipped_folder
from studio.storage.unit_of_work import UnitOfWork
from tests.servers import fingerprint

DAY: Final = date(2026, 12, 1)
Cells = dict[str, str]
Change = Callable[[list[Cells]], None]


def _rows(path: Path) -> list[Cells]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.fixture
def shipped(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The tables that ship, in a folder where a test may correct them."""
    folder = tmp_path / "shared"
    shutil.copytree(shipped_folder("shared"), folder)
    for name in TABLES:  # so that the tests hold whatever is corrected in the real ones
        shutil.copy(folder / f"{name}.csv", folder / EARLIER / f"{name}.csv")
    monkeypatch.setattr(load_reference, "shipped_folder", lambda _name: folder)
    return folder


def _correct(folder: Path, table: str, change: Change, *added: str) -> None:
    rows = _rows(folder / f"{table}.csv")
    change(rows)
    with (folder / f"{table}.csv").open("w", encoding="utf-8", newline="") as file:
        columns = dict.fromkeys((*rows[0], *added))
        writer = csv.DictWriter(file, list(columns), restval="")
        writer.writeheader()
        writer.writerows(rows)


def _of(rows: list[Cells], name: str) -> list[Cells]:
    return [row for row in rows if row["ci_name"] == name]


def _pigment(work: UnitOfWork, name: str) -> Pigment:
    pigment = work.pigments.get(name)
    assert pigment is not None
    return pigment


def test_the_rows_of_the_first_version_are_kept_to_be_known_again() -> None:
    shared = shipped_folder("shared")
    counts = {name: len(_rows(shared / EARLIER / f"{name}.csv")) for name in TABLES}
    assert counts == {"pigments": 267, "lightfastness": 119, "h_statements": 98, "hazards": 125}


def test_a_studio_with_the_first_reference_comes_to_the_one_of_now(
    empty_db: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    now = shipped_folder("shared")
    with UnitOfWork(empty_db) as work:
        wanted = {pigment.ci_name: pigment for pigment in work.pigments.all()}
        statements = work.pigments.statements()
    older = tmp_path / "older"
    shutil.copytree(now / EARLIER, older)
    path = tmp_path / "old.sqlite3"
    with monkeypatch.context() as patch:
        patch.setattr(load_reference, "shipped_folder", lambda _name: older)
        create_studio(path)
    with UnitOfWork(path, write=True) as work:
        refresh_reference(work.pigments)
        work.commit()
    with UnitOfWork(path) as work:
        found = {pigment.ci_name: pigment for pigment in work.pigments.all()}
        assert work.pigments.statements() == statements
    assert wanted.keys() <= found.keys()
    assert {name: _unordered(found[name]) for name in wanted} == {
        name: _unordered(pigment) for name, pigment in wanted.items()
    }
    assert check_database(path) == []


def _unordered(pigment: Pigment) -> tuple[Pigment, frozenset[object], frozenset[object]]:
    bare = replace(pigment, ratings=(), hazards=())
    return bare, frozenset(pigment.ratings), frozenset(pigment.hazards)


def test_a_second_time_nothing_changes(empty_db: Path, shipped: Path) -> None:
    assert shipped.is_dir()
    before = fingerprint(empty_db)
    with UnitOfWork(empty_db, write=True) as work:
        refresh_reference(work.pigments)
        work.commit()
    assert fingerprint(empty_db) == before


def test_corrected_rows_replace_those_that_shipped(empty_db: Path, shipped: Path) -> None:
    def hazards(rows: list[Cells]) -> None:
        (row,) = _of(rows, "PG21")
        row.update(
            summary="Never use it.", h_codes="H300 H350", evidence="published", use="never",
            source="harbour gazette", listed="IARC 1; Proposition 65 cancer",
        )  # fmt: skip
        rows.remove(_of(rows, "PB28")[0])

    def ratings(rows: list[Cells]) -> None:
        _of(rows, "PB28")[0].update(rating="III", note="seen")

    def pigments(rows: list[Cells]) -> None:
        _of(rows, "PB28")[0].update(common_name="tide blue", looked_up="the gazette: nothing")

    def statements(rows: list[Cells]) -> None:
        next(row for row in rows if row["code"] == "H350")["wording"] = "It may cause cancer."

    _correct(shipped, "hazards", hazards, "listed", "use")
    _correct(shipped, "lightfastness", ratings)
    _correct(shipped, "pigments", pigments, "looked_up")
    _correct(shipped, "h_statements", statements)
    with UnitOfWork(empty_db, write=True) as work:
        (was,) = _pigment(work, "PG21").hazards
        refresh_reference(work.pigments)
        work.commit()
    with UnitOfWork(empty_db) as work:
        (found,) = _pigment(work, "PG21").hazards
        blue = _pigment(work, "PB28")
    assert (found.agent, found.source, found.evidence) == (
        was.agent, "harbour gazette", Evidence.PUBLISHED,
    )  # fmt: skip
    assert found.never_use
    assert {"carcinogen", "acute toxicity"} <= found.classes
    assert {each.text for each in found.listings} == {"IARC 1", "Proposition 65 cancer"}
    assert [code.wording for code in found.codes if code.code == "H350"] == ["It may cause cancer."]
    assert (blue.common_name, blue.looked_up, blue.hazards) == (
        "tide blue", "the gazette: nothing", (),
    )  # fmt: skip
    assert ("III", "seen") in {(rating.rating, rating.note) for rating in blue.ratings}
    assert check_database(empty_db) == []


def test_what_the_owner_verified_or_added_stays_beside_the_correction(
    empty_db: Path, shipped: Path
) -> None:
    with UnitOfWork(empty_db, write=True) as work:
        (row,) = _pigment(work, "PG21").hazards
        work.pigments.verify("PG21", row.source, DAY, "label", ratings=False, hazards=True)
        rate_pigment(work, _pigment(work, "PB28"), "II", "my south window", DAY)
        own = replace(row, pigment="PB28", agent="weed", source="my notes")
        work.pigments.add_hazard(own)
        work.pigments.change(replace(_pigment(work, "PB29"), common_name="quay blue"))
        work.pigments.add(Pigment("PO999", None, None, None, None, None, None))
        work.commit()
        verified = _pigment(work, "PG21").hazards[0]
        ratings = _pigment(work, "PB28").ratings

    def hazards(rows: list[Cells]) -> None:
        row = _of(rows, "PG21")[0]
        row.update(source="harbour gazette", h_codes="H350", use="never", listed="IARC 1")

    def pigments(rows: list[Cells]) -> None:
        _of(rows, "PB29")[0].update(common_name="tide blue", looked_up="the gazette: nothing")
        rows.append({**_of(rows, "PB29")[0], "ci_name": "PO999", "common_name": "tide orange"})

    _correct(shipped, "hazards", hazards, "listed", "use")
    _correct(shipped, "pigments", pigments, "looked_up")
    with UnitOfWork(empty_db, write=True) as work:
        refresh_reference(work.pigments)
        work.commit()
    with UnitOfWork(empty_db) as work:
        found = {hazard.source: hazard for hazard in _pigment(work, "PG21").hazards}
        assert found.pop(verified.source) == verified
        assert found.pop("harbour gazette").never_use
        assert found == {}
        assert _pigment(work, "PB28").ratings == ratings
        assert own in _pigment(work, "PB28").hazards
        blue, orange = _pigment(work, "PB29"), _pigment(work, "PO999")
    assert (blue.common_name, blue.looked_up) == ("quay blue", "the gazette: nothing")
    assert (orange.common_name, orange.has_data) == ("tide orange", True)


def test_a_verified_row_is_completed_with_what_it_could_not_speak_of(
    empty_db: Path, shipped: Path
) -> None:
    with UnitOfWork(empty_db, write=True) as work:
        (row,) = _pigment(work, "PB31").hazards
        work.pigments.verify("PB31", row.source, DAY, "label", ratings=False, hazards=True)
        work.commit()
        verified: Hazard = _pigment(work, "PB31").hazards[0]

    def hazards(rows: list[Cells]) -> None:
        _of(rows, "PB31")[0].update(summary="Never.", use="never", listed="IARC 1")

    _correct(shipped, "hazards", hazards, "listed", "use")
    for _ in range(2):
        with UnitOfWork(empty_db, write=True) as work:
            refresh_reference(work.pigments)
            work.commit()
    with UnitOfWork(empty_db) as work:
        (found,) = _pigment(work, "PB31").hazards
    assert replace(found, use=None, listings=()) == verified
    assert found.never_use
    assert [each.text for each in found.listings] == ["IARC 1"]

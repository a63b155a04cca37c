"""Every kind of table is imported once, row for row, and a second time it adds nothing."""

import csv
import shutil
from collections.abc import Callable
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from studio.actions.importing.tables import (
    KINDS,
    ImportResult,
    TableKind,
    import_tables,
    kind_named,
    tables_at,
)
from studio.catalogue.container import ContainerKind
from studio.catalogue.data_sheet import DataSheet
from studio.catalogue.evidence import Evidence
from studio.catalogue.fade import FadeReading, FadeTest
from studio.catalogue.lightfastness import Scale
from studio.catalogue.paint import Degree, Form, PaintFacts, Status, Transparency
from studio.catalogue.paper import Fibre, PaperFacts, Surface
from studio.catalogue.reading import Backing, Condition, Method, Origin, State
from studio.catalogue.stock import StockEvent, StockKind, Unit, WeighedAs
from studio.catalogue.swatch import Application
from studio.colour.lab import Lab
from studio.errors import BadInput
from studio.storage.shipped import shipped_folder
from studio.storage.unit_of_work import UnitOfWork
from tests.actions.conftest import Shelf, WriteTable
from tests.actions.csv_tables import TABLES
from tests.conftest import TODAY


def _import(work: UnitOfWork, *paths: Path, kind: TableKind | None = None) -> ImportResult:
    return import_tables(work, tables_at(paths, kind), TODAY)


def _everything(work: UnitOfWork) -> tuple[object, ...]:
    work.forget()
    return (
        work.pigments.all(), work.paints.all(), work.papers.all(), work.mixes.all(),
        work.swatches.all(), work.containers.all(), work.fade_tests.all(),
    )  # fmt: skip


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with a table of every kind."""
    inside = tmp_path / "tables"
    inside.mkdir()
    for name, lines in TABLES.items():
        (inside / f"{name}.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")
    return inside


def test_the_tables_of_these_tests_use_every_column_of_every_kind() -> None:
    assert set(TABLES) == {kind.name for kind in KINDS}
    for kind in KINDS:
        assert set(TABLES[kind.name][0].split(",")) == {*kind.needed, *kind.optional}


def test_a_folder_of_every_kind_is_imported_once_and_then_is_there(
    shelf: Shelf, folder: Path
) -> None:
    result = _import(shelf.work, folder)
    assert result.faults == ()
    assert result.present == {}
    assert result.added == {name: len(lines) - 1 for name, lines in TABLES.items()}
    before = _everything(shelf.work)
    again = _import(shelf.work, folder)
    assert (again.added, again.faults) == ({}, ())
    assert again.present == result.added
    assert _everything(shelf.work) == before


def test_the_reference_is_read_cell_for_cell(shelf: Shelf, folder: Path) -> None:
    _import(shelf.work, folder)
    pigment = shelf.work.pigments.get("PR998")
    assert pigment is not None
    assert (pigment.common_name, pigment.ci_number, pigment.chemical_class, pigment.note) == (
        "tide red", "12345", "an azo", "seen once",
    )  # fmt: skip
    assert (pigment.evidence, pigment.source) == (Evidence.OWNER, "harbour notes")
    astm, wool, word = pigment.ratings
    assert (word.scale, word.rating, word.rank) == (Scale.WORDS, "fugitive", 5)
    assert (astm.rating, astm.medium, astm.year, astm.note) == (
        "II", "watercolour", 2024, "south window",
    )  # fmt: skip
    assert (wool.rating, wool.rank, wool.year, wool.verified_on) == ("5-6", 3, None, None)
    (hazard,) = pigment.hazards
    assert {(code.code, code.hazard_class, code.hedged) for code in hazard.codes} == {
        ("H998", "slippery", False),
        ("EUH998", "other", True),
    }
    assert (hazard.routes, hazard.metals, hazard.cas) == (
        ("skin", "eyes"), ("copper", "zinc"), "1-1-1",
    )  # fmt: skip
    assert hazard.never_use
    assert [each.text for each in hazard.listings] == ["IARC 2B", "HCIS H998 (group)"]
    assert hazard.class_words == ("carcinogen", "other?", "slippery")
    green = shelf.work.pigments.get("PG999")
    assert green is not None
    assert green.looked_up == "the harbour's list: no entry found"
    assert not green.hazards[0].never_use


def test_the_shelf_is_read_cell_for_cell(shelf: Shelf, folder: Path) -> None:
    _import(shelf.work, folder)
    assert shelf.paint("WR").facts == PaintFacts(
        "WR", "Hard & Quay", "Weed Red", ("PR998", "PG999"), Form.HALF_PAN, 1.8, Decimal("5.60"),
        "GBP", Transparency.SEMI_TRANSPARENT, Degree.LOW, Degree.HIGH, "W1", Status.RETIRED, 0.4,
        "for buoys",
    )  # fmt: skip
    assert shelf.paint("EG").facts == PaintFacts("EG", "Hard & Quay", "Ebb Grey")
    rush = shelf.paper("RR")
    assert rush.facts == PaperFacts(
        "RR", "Tidewrack Mill", "Rush Rag", Fibre.COTTON, 300.0, Surface.COLD_PRESSED, 560.0,
        760.0, 3.0, 900.0, "from the mill",
    )  # fmt: skip
    (white,) = rush.white
    assert (white.lab, white.condition, white.method, white.read_on) == (
        Lab(95.0, -1.0, 3.0), Condition.M1, Method.SCANNER, date(2026, 5, 4),
    )  # fmt: skip
    (spectral,) = shelf.paper("RE").white
    assert (spectral.origin, spectral.read_on) == (Origin.SPECTRUM, TODAY)
    assert shelf.paper("SB").white == ()


def test_the_ledger_is_read_cell_for_cell(shelf: Shelf, folder: Path) -> None:
    _import(shelf.work, folder)
    assert shelf.paint("CR").stock.left == 8.0
    (counted,) = shelf.work.containers.of_paint(shelf.paint("CR").id)
    assert [event.kind for event in counted.events] == [StockKind.BOUGHT, StockKind.CORRECTED]
    (block,) = shelf.work.containers.of_paper(shelf.paper("SR").id)
    assert (block.code, block.kind, block.unit, block.capacity, block.lot) == (
        "SR-3", ContainerKind.BLOCK, Unit.SHEETS, 12.0, "R1",
    )  # fmt: skip
    assert block.events == (
        StockEvent(
            StockKind.BOUGHT, date(2026, 5, 4), 9.0, price=Decimal("31.50"), currency="GBP",
            note="by boat",
        ),
    )  # fmt: skip
    pan, tube = shelf.work.containers.of_paint(shelf.paint("TG").id)
    assert (pan.kind, pan.capacity, pan.lot) == (ContainerKind.HALF_PAN, 1.8, None)
    bought, refilled = pan.events
    assert (bought.amount, bought.weight_g, bought.weighed_as, bought.currency) == (
        1.5, 8.5, None, "EUR",
    )  # fmt: skip
    assert (refilled.amount, refilled.other, pan.left) == (0.2, "TG-2", 1.7)
    assert [(e.kind, e.amount, e.other, e.estimated, e.note) for e in tube.events[1:]] == [
        (StockKind.WEIGHED, 14.0, None, False, None),
        (StockKind.USED, 3.0, None, True, "the class"),
        (StockKind.POURED, 0.2, "TG-1", True, None),
    ]
    assert (tube.events[1].weight_g, tube.events[1].weighed_as) == (26.5, WeighedAs.FULL)


def test_strips_and_data_sheets_are_read_cell_for_cell(shelf: Shelf, folder: Path) -> None:
    _import(shelf.work, folder)
    strip, mixed = shelf.work.fade_tests.all()
    assert strip == FadeTest(
        strip.id, "F8", shelf.paint("AC").id, None, shelf.paper("SR").id, "boat shed",
        date(2026, 5, 4), date(2026, 7, 4), "class strip",
        (
            FadeReading(
                date(2026, 6, 4), Lab(40.0, 50.0, 10.0), Lab(44.0, 46.0, 10.0), 3, "clear edge"
            ),
        ),
    )  # fmt: skip
    mud = shelf.mix("2 UM + 1 BS")
    assert mixed == FadeTest(mixed.id, "F9", None, mud.id, None, "mast head", date(2026, 5, 4))
    assert shelf.paint("AC").data_sheet == DataSheet(
        "sheets/ac.pdf", date(2024, 3, 1), "AP seal", date(2026, 5, 4)
    )
    assert shelf.paint("UM").data_sheet == DataSheet(None, None, "CL", TODAY)
    assert shelf.paint("BS").data_sheet is None


def test_mixes_and_swatches_are_read_cell_for_cell(shelf: Shelf, folder: Path) -> None:
    _import(shelf.work, folder)
    mud = shelf.work.mixes.with_code("MUD")
    assert mud is not None
    assert (mud.name, mud.note, mud.created_on) == ("creek mud", "cold", date(2026, 5, 4))
    assert [mix.created_on for mix in shelf.work.mixes.all()][1] == TODAY
    swatch = shelf.work.swatches.with_code("S7")
    assert swatch is not None
    facts = swatch.facts
    assert (facts.water, facts.layers, facts.application) == (4.0, 2, Application.GLAZE)
    assert (facts.kept_at, facts.note, facts.target) == ("box 1", "thin", "#6b7a5e")
    wet, dry = swatch.readings
    assert (wet.given, wet.origin, wet.state) == (
        Lab(40.0, 5.0, -20.0, "D65", 10), Origin.ADAPTED, State.WET,
    )  # fmt: skip
    assert (wet.method, wet.instrument, wet.condition, wet.error, wet.note) == (
        Method.SCANNER, "flatbed", Condition.M0, 2.5, "in a hurry",
    )  # fmt: skip
    assert (wet.geometry, wet.backing, wet.sample) == ("45/0", Backing.BLACK, "patch 7")
    assert (dry.geometry, dry.backing, dry.sample) == (None, None, None)
    assert (wet.read_on, dry.read_on) == (date(2026, 5, 5), date(2026, 5, 6))
    assert (dry.method, swatch.state, swatch.lab) == (Method.BY_EYE, State.DRY, dry.lab)
    assert [s.facts.code for s in shelf.work.swatches.all()] == ["S7", "S8", "S9"]
    assert shelf.work.swatches.all()[1].readings[0].origin is Origin.SPECTRUM


def test_a_paint_paper_or_swatch_without_a_code_is_told_from_a_new_one(
    shelf: Shelf, table: WriteTable
) -> None:
    paints = table("paints", "maker,name", "Hard & Quay,Ebb Grey", "Hard & Quay,Flood Grey")
    assert _import(shelf.work, paints).added == {"paints": 2}
    more = table("paints", "maker,name,note", "Hard & Quay,Ebb Grey,", "Hard & Quay,Ebb Grey,cold")
    result = _import(shelf.work, more)
    assert result.present == {"paints": 1}
    assert "recorded already as EG" in result.faults[0].reason


def test_a_row_of_the_binder_is_no_pigment_s_and_is_passed_over(
    shelf: Shelf, table: WriteTable
) -> None:
    header = "ci_name,agent,summary,basis,evidence,source"
    hazards = table("hazards", header, "binder,preservative,Allergen.,notified,memory,from memory")
    assert _import(shelf.work, hazards).present == {"hazards": 1}


@pytest.mark.parametrize("name", ["paints", " Paints ", "PAINTS"])
def test_a_kind_is_named_in_any_case(name: str) -> None:
    assert kind_named(name).name == "paints"


def test_tables_come_in_the_order_they_build_on_each_other(folder: Path) -> None:
    paths = [folder / f"{name}.csv" for name in ("stock", "swatches", "Paints", "pigments")]
    (folder / "paints.csv").rename(folder / "Paints.csv")
    found = [kind.name for kind, _ in tables_at(paths)]
    assert found == ["pigments", "paints", "swatches", "stock"]
    assert tables_at([paths[0]], kind_named("mixes")) == [(kind_named("mixes"), paths[0])]


def test_what_is_no_table_is_refused_before_anything_is_read(tmp_path: Path) -> None:
    (tmp_path / "notes.csv").write_text("a,b\n", encoding="utf-8")
    (tmp_path / "bare").mkdir()
    cases: list[tuple[Callable[[], object], str]] = [
        (lambda: kind_named("brushes"), "'brushes' is not a kind of table; choose of: pigments, "),
        (lambda: tables_at([tmp_path / "gone.csv"]), "there is no file .*gone.csv"),
        (lambda: tables_at([tmp_path / "notes.csv"]), "the kind of notes.csv is not clear"),
        (lambda: tables_at([tmp_path / "bare"]), "bare holds no table; files are named like"),
    ]
    for attempt, said in cases:
        with pytest.raises(BadInput, match=said):
            attempt()


def _counts(folder: Path) -> dict[str, int]:
    counts = {}
    for kind in KINDS:
        path = folder / f"{kind.name}.csv"
        if path.is_file():
            with path.open(encoding="utf-8", newline="") as file:
                counts[kind.name] = len(list(csv.DictReader(file)))
    return counts


def test_the_demo_tables_give_what_their_files_count(work: UnitOfWork, tmp_path: Path) -> None:
    seed = shipped_folder("seed_demo")
    copied = tmp_path / "seed"
    copied.mkdir()
    for file in seed.glob("*.csv"):
        shutil.copy(file, copied)
    counts = _counts(copied)
    result = _import(work, copied)
    assert (result.added, result.present, result.faults) == (counts, {}, ())
    work.forget()
    assert len(work.paints.all()) == counts["paints"]
    assert len(work.papers.all()) == counts["papers"]
    assert len(work.mixes.all()) == counts["mixes"]
    swatches = work.swatches.all()
    assert sum(len(swatch.readings) for swatch in swatches) == counts["swatches"]
    with (copied / "swatches.csv").open(encoding="utf-8", newline="") as lines:
        assert len(swatches) == len({row["code"] for row in csv.DictReader(lines)})
    entries = [event for container in work.containers.all() for event in container.events]
    # A refill is one row, and an entry at both ends.
    poured = sum(event.kind is StockKind.POURED for event in entries)
    assert 0 < poured == sum(event.kind is StockKind.REFILLED for event in entries)
    assert len(entries) - poured == counts["stock"]
    tests = work.fade_tests.all()
    assert sum(len(test.readings) for test in tests) == counts["fade_tests"]
    with (copied / "fade_tests.csv").open(encoding="utf-8", newline="") as lines:
        assert len(tests) == len({row["code"] for row in csv.DictReader(lines)})
    documented = [paint for paint in work.paints.all() if paint.data_sheet is not None]
    assert len(documented) == counts["data_sheets"]
    again = _import(work, copied)
    assert (again.added, again.present, again.faults) == ({}, counts, ())


def test_the_reference_tables_give_what_their_files_count(work: UnitOfWork) -> None:
    counts = _counts(shipped_folder("shared"))
    assert set(counts) == {"pigments", "lightfastness", "h_statements", "hazards"}
    result = _import(work, shipped_folder("shared"))
    assert (result.added, result.present, result.faults) == ({}, counts, ())

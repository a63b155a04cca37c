"""The demo's stock book, fade tests and data sheets, as the program itself reads them."""

import csv
from collections import Counter
from datetime import date
from pathlib import Path
from typing import Final

import pytest

from seed_demo.plan_shelf import DENSITY
from studio.actions.find_stock import Item, item_of
from studio.actions.importing.tables import import_tables, tables_at
from studio.actions.reorder_stock import forecast_item, reorder_stock
from studio.catalogue.container import Container, ContainerKind
from studio.catalogue.paint import Paint, Status
from studio.catalogue.stock import StockKind, Unit, WeighedAs
from studio.storage.unit_of_work import UnitOfWork

SEED: Final = Path(__file__).resolve().parents[2] / "seed_demo"
TODAY: Final = date(2026, 11, 25)
WEIGHED: Final = {"FU", "BS", "RS", "CB", "CE", "PYR", "GG", "SG", "BT", "IB"}
LIGHT: Final = {"PBG", "PGB", "AC", "QM", "PYR", "HY", "GG", "DV", "IB", "SG"}


def _rows(name: str) -> list[dict[str, str]]:
    with (SEED / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _items(work: UnitOfWork) -> list[Item]:
    paints = [paint for paint in work.paints.all() if paint.facts.status is Status.IN_USE]
    return [*paints, *work.papers.all()]


def test_every_row_is_recorded_once(empty_db: Path) -> None:
    with UnitOfWork(empty_db, write=True) as work:
        tables = tables_at([SEED])
        first = import_tables(work, tables, TODAY)
        again = import_tables(work, tables, TODAY)
    rows = {kind.name: len(_rows(kind.name)) for kind, _ in tables}
    assert (first.added, first.present, first.faults) == (rows, {}, ())
    assert (again.added, again.present, again.faults) == ({}, rows, ())


def test_every_container_was_bought_full_at_a_price_and_paint_was_weighed() -> None:
    rows = _rows("stock")
    bought = [row for row in rows if row["kind"] == "bought"]
    items = {row["code"] for row in [*_rows("paints"), *_rows("papers")]}
    assert {row["item"] for row in bought} == {row["item"] for row in rows} == items
    assert {row["container"] for row in bought} == {row["container"] for row in rows}
    assert len({row["container"] for row in bought}) == len(bought)
    assert all(float(row["price"]) > 0.0 and row["currency"] == "GBP" for row in bought)
    assert all(row["amount"] == row["capacity"] for row in bought)
    for row in bought:
        weighed = (row["weighed_as"] == "full", bool(row["weight_g"]))
        assert weighed == (row["unit"] == "ml", row["unit"] == "ml")
    lots = {row["item"]: row["lot"] for row in bought if row["container_kind"] != "half pan"}
    lots |= {row["item"]: row["lot"] for row in bought if row["item"] in {"DV", "PYG"}}
    assert all(lots[row["code"]] == row["lot"] for row in _rows("paints"))


def test_the_book_is_in_order_of_days() -> None:
    days = [row["happened_on"] for row in _rows("stock")]
    assert days == sorted(days)
    assert days[0] == "2024-11-02"
    assert days[-1] == "2026-10-25"


def test_weights_are_those_of_the_scale_and_fall_as_paint_goes(demo_work: UnitOfWork) -> None:
    for container in demo_work.containers.all():
        weights = [event.weight_g for event in container.events if event.weight_g is not None]
        assert [round(weight, 1) for weight in weights] == weights
        if ContainerKind.PAN.value not in container.kind:
            assert weights == sorted(weights, reverse=True)
    counts = Counter(row["item"] for row in _rows("stock") if row["kind"] == "weighed")
    assert all(counts[item] >= 9 for item in WEIGHED)
    assert set(counts) == WEIGHED


def test_densities_are_learnt_from_empties(demo_work: UnitOfWork) -> None:
    learnt = {
        container.code: (item_of(demo_work, container).facts.code, container.density)
        for container in demo_work.containers.all()
        if container.density is not None
    }
    assert {item for item, _ in learnt.values()} == WEIGHED - {"IB"}
    for item, density in learnt.values():
        # Two weights to 0.1 g of 14 ml.
        assert density == pytest.approx(DENSITY[item], abs=0.1 / 14)
    assert all((DENSITY[item] < 1.4) == (item in LIGHT) for item in DENSITY)
    assert all(1.3 <= density <= 1.8 for density in DENSITY.values())


def test_every_way_of_a_container_occurs(demo_work: UnitOfWork) -> None:
    every = demo_work.containers.all()
    kinds = {event.kind for container in every for event in container.events}
    assert kinds == set(StockKind)
    assert {container.kind for container in every} == {
        ContainerKind.TUBE, ContainerKind.JAR, ContainerKind.PAN, ContainerKind.HALF_PAN,
        ContainerKind.LOOSE_SHEETS, ContainerKind.BLOCK, ContainerKind.ROLL,
    }  # fmt: skip
    filled = {e.code for e in every if any(x.kind is StockKind.REFILLED for x in e.events)}
    assert filled == {"FU-2", "BS-2", "RS-2", "CB-2"}
    assert _moved(every, StockKind.LENT) == {"LR-2", "RU-2"}
    assert _moved(every, StockKind.RETURNED) == {"LR-2"}
    away = {e.code for e in every if not e.on_shelf}
    assert "RU-2" in away
    assert "LR-2" not in away
    emptied = [e for e in every if any(x.weighed_as is WeighedAs.EMPTY for x in e.events)]
    assert len(emptied) >= 10
    assert all(e.events[-1].kind is StockKind.DISCARDED and e.left == 0 for e in emptied)


def _moved(containers: tuple[Container, ...], kind: StockKind) -> set[str]:
    return {each.code for each in containers if any(event.kind is kind for event in each.events)}


def test_the_guesses_of_the_last_class_stand_until_they_are_settled(demo_work: UnitOfWork) -> None:
    guessed = [row for row in _rows("stock") if row["estimated"]]
    assert {row["happened_on"] for row in guessed} == {"2025-10-11", "2026-10-10"}
    assert {row["estimated"] for row in guessed} == {"yes"}
    estimated = {item.facts.code for item in _items(demo_work) if item.stock.estimated}
    # Weighed since: FU and BS. Never weighed empty, so by an assumed density: IB.
    assert estimated == {row["item"] for row in guessed} - {"FU", "BS"} | {"IB"}


def test_some_paints_and_one_paper_are_low(demo_work: UnitOfWork) -> None:
    left = {item.facts.code: item.stock.left for item in _items(demo_work)}
    low = {item.facts.code for item in _items(demo_work) if item.is_low}
    assert low == {"BS", "YO", "HY", "DV", "IB", "EHP"}
    assert 0.0 < (left["HY"] or 0.0) < 0.6
    assert left["EHP"] == 2.0


def test_a_roll_is_measured_along_its_length(demo_work: UnitOfWork) -> None:
    roll = next(paper for paper in demo_work.papers.all() if paper.facts.code == "HSR")
    assert roll.stock.unit is Unit.MM
    assert 2_000 < (roll.stock.left or 0.0) < 8_000
    assert roll.low_at == 1500
    assert roll.white[0].spectrum is not None


def test_forecasts_are_believable(demo_work: UnitOfWork) -> None:
    found = [forecast_item(demo_work, item, TODAY) for item in _items(demo_work)]
    known = [each for each in found if each is not None]
    assert len(known) == len(found)
    assert all(2.5 <= each.weeks <= 120 for each in known)
    words = Counter(each.confidence for each in known)
    assert words["a guess"] <= 1
    assert words["fairly sure"] >= 6
    assert words["rough"] >= 10


def test_the_shopping_list_is_what_is_low(demo_work: UnitOfWork) -> None:
    shopping = reorder_stock(demo_work, TODAY)
    assert {o.item.facts.code for o in shopping.orders} == {"BS", "YO", "HY", "DV", "IB", "EHP"}
    assert all(order.quantity == 1 and order.price for order in shopping.orders)
    assert list(shopping.costs) == ["GBP"]
    assert shopping.unpriced == 0


def test_one_strip_contradicts_its_rating(demo_work: UnitOfWork) -> None:
    tests = {test.code: test for test in demo_work.fade_tests.all()}
    worst = {code: test.worst for code, test in tests.items()}
    category = {code: reading.category for code, reading in worst.items() if reading}
    assert category == {"F1": "IV", "F2": "III", "F3": "I", "F4": "III"}
    paints = {paint.id: paint for paint in demo_work.paints.all()}
    against = {code: _contradicted(paints, test.paint_id) for code, test in tests.items()}
    assert against == {"F1": False, "F2": False, "F3": False, "F4": True}


def _contradicted(paints: dict[int, Paint], key: int | None) -> bool:
    return key is not None and paints[key].contradicting is not None


def test_strips_fade_steadily_under_a_card_that_stays(demo_work: UnitOfWork) -> None:
    for test in demo_work.fade_tests.all():
        changes = [reading.delta_e for reading in test.readings]
        steps = [reading.blue_wool or 0 for reading in test.readings]
        assert len(changes) == 5
        assert changes == sorted(changes)
        assert changes[0] > 0.0
        assert steps == [1, 2, 3, 4, 4]
        assert len({reading.covered for reading in test.readings}) == 1


@pytest.mark.parametrize(("strip", "swatch"), [("F1", "S32"), ("F2", "S49"), ("F3", "S2")])
def test_a_covered_half_is_the_swatch_of_its_paint(
    demo_work: UnitOfWork, strip: str, swatch: str
) -> None:
    test = demo_work.fade_tests.with_code(strip)
    card = demo_work.swatches.with_code(swatch)
    assert test is not None
    assert card is not None
    covered = test.readings[0].covered.coordinates
    # The swatch's spectrum is kept to four decimals, and its Lab may be a mean of two places.
    assert card.readings[-1].lab.coordinates == pytest.approx(covered, abs=0.1)
    assert [paint.id for paint in demo_work.paints.all() if paint.id == test.paint_id]


def test_data_sheets_are_mostly_recent_and_some_missing(demo_work: UnitOfWork) -> None:
    faults: dict[str, list[str]] = {}
    for paint in demo_work.paints.all():
        sheet = paint.data_sheet
        fault = "none" if sheet is None else sheet.fault(TODAY)
        faults.setdefault((fault or "fine").split(";")[0], []).append(paint.facts.code)
    assert len(faults.pop("fine")) >= 15
    assert faults.pop("none") == ["HY", "LR", "PYG"]
    assert faults.pop("no data sheet on record, only label marks") == ["COG"]
    assert faults.pop("the data sheet has no date on record") == ["DV"]
    assert sorted(code for codes in faults.values() for code in codes) == ["CR", "RU", "SG"]
    addresses = [row["location"] for row in _rows("data_sheets") if row["location"]]
    assert all(address.startswith("https://example.org/") for address in addresses)

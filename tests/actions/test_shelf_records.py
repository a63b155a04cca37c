"""Paints and papers are recorded once, checked, changed and retired."""

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

import pytest

from studio.actions.add_paint import add_paint
from studio.actions.add_paper import add_paper, edit_paper
from studio.actions.edit_paint import edit_paint, retire_paint
from studio.actions.prices import checked_currency, checked_price
from studio.catalogue.container import ContainerKind
from studio.catalogue.paint import Form, PaintFacts, Status
from studio.catalogue.paper import PaperFacts, Surface
from studio.catalogue.stock import StockKind, Unit
from studio.colour.lab import Lab
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork
from tests.actions.conftest import Shelf, read
from tests.conftest import TODAY

GREY = PaintFacts(
    "", "Hard & Quay", "Mudflat Grey", ("pbk 9", "PB29", "PBk9"), price=Decimal("9.5"),
    currency="gbp", lot=" T 7 ",
)  # fmt: skip


def test_a_paint_is_recorded_with_its_code_pigments_and_first_purchase(work: UnitOfWork) -> None:
    key = add_paint(work, GREY, TODAY, left=14)
    paint = work.paints.by_id(key)
    assert paint.facts == replace(
        GREY, code="MG", pigments=("PBk9", "PB29"), price=Decimal("9.50"), currency="GBP", lot="T 7"
    )
    assert [pigment.ci_name for pigment in paint.pigments] == ["PBk9", "PB29"]
    assert (paint.stock.left, paint.stock.unit, paint.stock.as_of) == (14.0, Unit.ML, TODAY)
    (tube,) = work.containers.of_paint(key)
    assert (tube.code, tube.kind, tube.capacity, tube.lot) == (
        "MG-1", ContainerKind.TUBE, 14.0, "T 7",
    )  # fmt: skip
    (event,) = tube.events
    assert (event.kind, event.price, event.currency) == (StockKind.BOUGHT, Decimal("9.50"), "GBP")


def test_the_first_container_is_full_unless_it_is_said_what_is_in_it(work: UnitOfWork) -> None:
    grey = replace(GREY, volume_ml=14.0)
    for lot, left, expected in (("A", None, 14.0), ("B", 3.5, 3.5), ("C", 0.0, 0.0)):
        key = add_paint(work, replace(grey, lot=lot), TODAY, left=left)
        (tube,) = work.containers.of_paint(key)
        assert (tube.capacity, tube.left, work.paints.by_id(key).stock.left) == (
            14.0, expected, expected,
        )  # fmt: skip


@pytest.mark.parametrize(("volume", "stock"), [(None, True), (14.0, False)])
def test_a_paint_booked_with_nothing_has_no_stock_on_record(
    work: UnitOfWork, volume: float | None, *, stock: bool
) -> None:
    key = add_paint(work, replace(GREY, volume_ml=volume), TODAY, stock=stock)
    assert work.paints.by_id(key).stock.left is None
    assert work.containers.of_paint(key) == ()


def test_a_pigment_nobody_knows_is_recorded_without_any_claim(work: UnitOfWork) -> None:
    key = add_paint(work, replace(GREY, pigments=("PR999",)), TODAY)
    (pigment,) = work.paints.by_id(key).pigments
    assert pigment.ci_name == "PR999"
    assert pigment.evidence is pigment.source is pigment.common_name is None
    assert not pigment.ratings
    assert not pigment.hazards


def test_a_code_made_from_initials_steps_aside_for_one_that_is_taken(work: UnitOfWork) -> None:
    codes = []
    for name in ("Marsh Green", "Mud Grey", "Mist Grey"):
        key = add_paint(work, replace(GREY, name=name, lot=None), TODAY)
        codes.append(work.paints.by_id(key).facts.code)
    assert codes == ["MG", "MG2", "MG3"]


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"name": "  "}, "the name is empty"),
        ({"maker": "\x07bell"}, "cannot be printed"),
        ({"note": "x" * 1001}, "longer than 1,000 characters"),
        ({"code": "2B"}, "must start with a letter"),
        ({"pigments": ("ultramarine",)}, "not a Colour Index name"),
        ({"volume_ml": 0.0}, "the volume in ml must be above 0"),
        ({"volume_ml": float("nan")}, "the volume in ml"),
        ({"low_at_ml": -1.0}, "the low mark in ml must be at least 0"),
        ({"price": Decimal(-1)}, "between 0 and 999,999.99"),
        ({"price": Decimal("NaN")}, "between 0 and 999,999.99"),
        ({"price": Decimal("9.999")}, "at most two decimals"),
        ({"currency": "POUND"}, "not three letters"),
        ({"currency": "€€€"}, "not three letters"),
        ({"code": "UM"}, "code UM is taken by Saltings Colour Ultramarine"),
        (
            {"maker": "SALTINGS colour", "name": "ultramarine", "lot": None},
            r"SALTINGS colour ultramarine \(tube\) is recorded already as UM",
        ),
    ],
)
def test_an_impossible_paint_is_refused_and_changes_nothing(
    shelf: Shelf, change: dict[str, object], said: str
) -> None:
    before = shelf.work.paints.all()
    with pytest.raises(BadInput, match=said):
        add_paint(shelf.work, replace(GREY, **change), TODAY)  # type: ignore[arg-type]
    assert shelf.work.paints.all() == before


def test_a_purchase_that_cannot_be_is_refused(work: UnitOfWork) -> None:
    with pytest.raises(BadInput, match="what it holds, in ml, must be above 0"):
        add_paint(work, GREY, TODAY, left=0)
    with pytest.raises(BadInput, match="what is in it, in ml, must be at least 0"):
        add_paint(work, replace(GREY, name="Ebb Grey", volume_ml=14.0), TODAY, left=-1)
    with pytest.raises(BadInput, match=r"holds 14 ml and has 0; 14\.5 more do not go in"):
        add_paint(work, replace(GREY, name="Flood Grey", volume_ml=14.0), TODAY, left=14.5)


def test_the_same_paint_in_another_form_or_lot_is_another_paint(shelf: Shelf) -> None:
    facts = shelf.paint("UM").facts
    for changed in (replace(facts, code="", form=Form.PAN), replace(facts, code="", lot="T8")):
        add_paint(shelf.work, changed, TODAY)
    found = [p for p in shelf.work.paints.all() if p.facts.name == "Ultramarine"]
    assert len(found) == 3


def test_a_price_without_currency_is_in_euro_and_without_price_there_is_none() -> None:
    assert checked_price(Decimal(3)) == Decimal("3.00")
    assert checked_price(None) is None
    assert checked_currency(Decimal(3), None) == "EUR"
    assert checked_currency(None, None) is None
    with pytest.raises(BadInput, match="says nothing without a price"):
        checked_currency(None, "GBP")


def test_a_paint_is_changed_fact_for_fact(shelf: Shelf) -> None:
    paint = shelf.paint("UM")
    wanted = replace(paint.facts, code="FU", name="French Ultramarine", pigments=("PB29", "PV999"))
    edit_paint(shelf.work, paint, wanted)
    changed = shelf.work.paints.by_id(paint.id)
    assert changed.facts == wanted
    assert changed.stock == paint.stock
    edit_paint(shelf.work, changed, wanted)  # its own code and name do not stand in its way
    assert shelf.work.paints.by_id(paint.id) == changed


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"code": "BS"}, "code BS is taken by Saltings Colour Burnt Sienna"),
        ({"name": "Burnt Sienna"}, "recorded already as BS"),
        ({"code": ""}, "must start with a letter"),
        ({"volume_ml": -1.0}, "the volume in ml"),
    ],
)
def test_an_impossible_change_of_a_paint_is_refused(
    shelf: Shelf, change: dict[str, object], said: str
) -> None:
    paint = shelf.paint("UM")
    with pytest.raises(BadInput, match=said):
        edit_paint(shelf.work, paint, replace(paint.facts, **change))  # type: ignore[arg-type]
    assert shelf.work.paints.by_id(paint.id) == paint


def test_a_retired_paint_leaves_the_shelf_and_keeps_its_mixes(shelf: Shelf) -> None:
    swatch = shelf.swatch("2 UM + 1 BS", Lab(40.0, 2.0, -9.0))
    retire_paint(shelf.work, shelf.paint("UM"))
    retired = shelf.paint("UM")
    assert retired.facts.status is Status.RETIRED
    assert not retired.in_stock
    assert retired.stock.left == 14.0
    assert shelf.work.swatches.by_ids([swatch.id]) == {swatch.id: swatch}
    with pytest.raises(BadInput, match="Saltings Colour Ultramarine is retired already"):
        retire_paint(shelf.work, retired)


def test_a_paper_is_recorded_with_its_white_and_its_sheets(work: UnitOfWork) -> None:
    white = read(Lab(95.0, -0.5, 3.0))
    facts = PaperFacts(
        "", "Tidewrack Mill", " Sedge  Rag ", None, 300, Surface.ROUGH, 559, 762, 2, None, " "
    )
    key = add_paper(work, facts, TODAY, bought=10, white=white)
    paper = work.papers.by_id(key)
    assert paper.facts == replace(facts, code="SR", name="Sedge Rag", note=None)
    assert paper.white == (white,)
    assert (paper.stock.left, paper.stock.unit) == (10.0, Unit.SHEETS)
    assert not paper.is_low


def test_a_paper_may_be_recorded_as_a_roll(work: UnitOfWork) -> None:
    facts = PaperFacts("", "Tidewrack Mill", "Rush Roll", low_at_mm=2000)
    key = add_paper(work, facts, TODAY, bought=10_000, kind=ContainerKind.ROLL)
    paper = work.papers.by_id(key)
    assert (paper.stock.left, paper.stock.unit, paper.low_at) == (10_000, Unit.MM, 2000)
    (roll,) = work.containers.of_paper(key)
    assert (roll.code, roll.kind, roll.capacity) == ("RR-1", ContainerKind.ROLL, 10_000)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"sheet_width_mm": 560.0}, "a sheet has two sides"),
        ({"sheet_width_mm": 560.0, "sheet_height_mm": 5.0}, "a side of the sheet in mm"),
        ({"weight_gsm": 3.0}, "the weight in g/m²"),
        ({"low_at_sheets": -2.0}, "the low mark in sheets"),
        ({"low_at_mm": -2.0}, "the low mark in mm"),
        ({"code": "é"}, "must start with a letter"),
        ({"maker": ""}, "the maker is empty"),
        ({"code": "SM"}, "code SM is taken by Tidewrack Mill Sedge Smooth"),
        ({"name": "sedge smooth"}, "recorded already as SM"),
    ],
)
def test_an_impossible_paper_is_refused_new_or_changed(
    shelf: Shelf, change: dict[str, object], said: str
) -> None:
    before = shelf.work.papers.all()
    new = PaperFacts("", "Tidewrack Mill", "Rush Rag")
    with pytest.raises(BadInput, match=said):
        add_paper(shelf.work, replace(new, **change), TODAY)  # type: ignore[arg-type]
    paper = shelf.paper("SR")
    facts = replace(paper.facts, weight_gsm=None)
    with pytest.raises(BadInput, match=said):
        edit_paper(shelf.work, paper, replace(facts, **change))  # type: ignore[arg-type]
    assert shelf.work.papers.all() == before


def test_a_paper_is_changed_fact_for_fact_and_needs_a_code(shelf: Shelf) -> None:
    paper = shelf.paper("SM")
    wanted = replace(paper.facts, code="SH", surface=Surface.HOT_PRESSED, note="for rigging")
    edit_paper(shelf.work, paper, wanted)
    changed = shelf.work.papers.by_id(paper.id)
    assert changed.facts == wanted
    assert changed.stock == paper.stock
    with pytest.raises(BadInput, match="must start with a letter"):
        edit_paper(shelf.work, changed, replace(wanted, code=""))


def test_papers_that_differ_in_surface_or_weight_are_two(shelf: Shelf) -> None:
    for change in ({"surface": Surface.ROUGH}, {"weight_gsm": 425.0}):
        facts = replace(shelf.paper("SR").facts, code="", **change)
        add_paper(shelf.work, facts, TODAY)
    assert len(shelf.work.papers.all()) == 4


def test_the_first_purchase_is_booked_on_the_day_that_is_passed_in(work: UnitOfWork) -> None:
    day = TODAY - timedelta(days=400)
    key = add_paint(work, GREY, day, left=3.5)
    assert work.paints.by_id(key).stock.as_of == day == date(2025, 10, 21)

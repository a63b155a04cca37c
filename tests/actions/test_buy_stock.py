"""A purchase gives each container a code and a ledger of its own."""

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

import pytest

from studio.actions.buy_stock import Purchase, buy_stock
from studio.catalogue.container import PAPER_KINDS, ContainerKind
from studio.catalogue.paint import Form
from studio.catalogue.stock import StockEvent, StockKind, Unit, WeighedAs
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork
from tests.actions.stock_things import BEFORE, a_paint, a_paper, bought, left
from tests.conftest import TODAY

PURCHASE = Purchase(BEFORE)


def test_several_alike_are_containers_of_their_own(work: UnitOfWork) -> None:
    paint = a_paint(work)
    purchase = Purchase(
        BEFORE, count=3, price=Decimal("11.8"), currency="gbp", lot="  P 26 ", note=" quay  shop "
    )
    tubes = buy_stock(work, paint, purchase, TODAY)
    assert [tube.code for tube in tubes] == ["SG-1", "SG-2", "SG-3"]
    assert left(work, paint) == 42.0
    for tube in tubes:
        assert (tube.kind, tube.unit, tube.capacity) == (ContainerKind.TUBE, Unit.ML, 14.0)
        assert (tube.lot, tube.paint_id, tube.paper_id) == ("P 26", paint.id, None)
        assert tube.events == (
            StockEvent(
                StockKind.BOUGHT,
                BEFORE,
                14.0,
                price=Decimal("11.80"),
                currency="GBP",
                note="quay shop",
            ),
        )


def test_what_one_holds_is_taken_from_the_paint_unless_it_is_said(work: UnitOfWork) -> None:
    paint = a_paint(work)
    assert bought(work, paint).capacity == 14.0
    small = bought(work, paint, 5.0)
    assert (small.capacity, small.left) == (5.0, 5.0)
    half = bought(work, paint, left=6.5)
    assert (half.capacity, half.left) == (14.0, 6.5)


@pytest.mark.parametrize("form", Form)
def test_a_paint_comes_in_what_it_is_sold_in(work: UnitOfWork, form: Form) -> None:
    assert bought(work, a_paint(work, form=form)).kind.value == form.value


def test_a_full_one_that_was_weighed_can_be_weighed_later(work: UnitOfWork) -> None:
    tube = bought(work, a_paint(work), weight=25.2)
    assert (tube.full_g, tube.empty_g) == (25.2, None)
    assert tube.events[0].weighed_as is WeighedAs.FULL


def test_without_a_known_volume_it_has_to_be_said(work: UnitOfWork) -> None:
    with pytest.raises(BadInput, match=r"how much a full tube of .* Sea SG holds is not known"):
        bought(work, a_paint(work, volume=None))
    with pytest.raises(BadInput, match=r"a full loose sheets of .* is not known; say it in sheets"):
        bought(work, a_paper(work))
    with pytest.raises(BadInput, match="say how much was bought, in ml"):
        bought(work, a_paint(work, "AZ"), kind=ContainerKind.ASSORTED)


def test_an_assortment_holds_whatever_it_holds(work: UnitOfWork) -> None:
    box = bought(work, a_paint(work), 40.0, left=37.5, kind=ContainerKind.ASSORTED)
    assert (box.capacity, box.left) == (None, 37.5)
    sheets = bought(work, a_paper(work), 9.0, left=9.0, kind=ContainerKind.ASSORTED)
    assert (sheets.unit, sheets.left) == (Unit.SHEETS, 9.0)


@pytest.mark.parametrize("kind", ContainerKind)
def test_paint_does_not_come_in_pads_nor_paper_in_tubes(
    work: UnitOfWork, kind: ContainerKind
) -> None:
    paint, paper = a_paint(work), a_paper(work)
    if kind in PAPER_KINDS:
        with pytest.raises(BadInput, match=f"Sea SG does not come as a {kind}"):
            bought(work, paint, 5.0, kind=kind)
    else:
        assert bought(work, paint, 5.0, left=5.0, kind=kind).kind is kind
    if kind in PAPER_KINDS or kind is ContainerKind.ASSORTED:
        assert bought(work, paper, 5.0, left=5.0, kind=kind).kind is kind
    else:
        with pytest.raises(BadInput, match=f"Mud Rag MR does not come as a {kind}"):
            bought(work, paper, 5.0, kind=kind)


def test_a_roll_is_counted_in_mm_and_never_beside_sheets(work: UnitOfWork) -> None:
    roll = bought(work, a_paper(work), 10_000, kind=ContainerKind.ROLL)
    assert (roll.unit, roll.capacity) == (Unit.MM, 10_000)
    paper = next(paper for paper in work.papers.all())
    with pytest.raises(BadInput, match="is counted in mm; record rolls and sheets as two papers"):
        bought(work, paper, 20.0, kind=ContainerKind.BLOCK)
    assert bought(work, paper, 5_000, kind=ContainerKind.ROLL).code == "MR-2"
    sheets = a_paper(work, "WR")
    bought(work, sheets, 10.0)
    with pytest.raises(BadInput, match="is counted in sheets"):
        bought(work, sheets, 10_000, kind=ContainerKind.ROLL)


def test_a_code_may_be_given_once(work: UnitOfWork) -> None:
    paint = a_paint(work)
    (tube,) = buy_stock(work, paint, Purchase(BEFORE, code=" sg-7 "), TODAY)
    assert tube.code == "SG-7"
    with pytest.raises(BadInput, match="container code SG-7 is taken; choose another"):
        buy_stock(work, paint, Purchase(BEFORE, code="SG-7"), TODAY)
    assert bought(work, paint).code == "SG-8"


@pytest.mark.parametrize(
    "code", ["SG", "SG-", "SG-x", "AZ-1", "SG-1-2", "-1", "SG-\N{SUPERSCRIPT TWO}"]
)
def test_a_code_is_that_of_the_item_and_a_number(work: UnitOfWork, code: str) -> None:
    paint = a_paint(work)
    with pytest.raises(BadInput, match="must be the item's code and a number: SG-1"):
        buy_stock(work, paint, Purchase(BEFORE, code=code), TODAY)
    assert bought(work, paint).code == "SG-1"


def test_one_code_cannot_name_two(work: UnitOfWork) -> None:
    with pytest.raises(BadInput, match="one code cannot name several containers"):
        buy_stock(work, a_paint(work), Purchase(BEFORE, count=2, code="SG-1"), TODAY)


@pytest.mark.parametrize(
    ("changes", "refusal"),
    [
        ({"bought_on": TODAY + timedelta(days=1)}, "lies in the future; today is 2026-11-25"),
        ({"count": 0}, "the number bought must be at least 1"),
        ({"count": 1001}, "the number bought must be .* at most 1000"),
        ({"capacity": 0.0}, "what it holds, in ml, must be above 0"),
        ({"capacity": -3.0}, "what it holds, in ml, must be above 0"),
        ({"capacity": 1e6 + 1}, "what it holds, in ml, .* at most 1000000"),
        ({"capacity": float("nan")}, "what it holds, in ml, must be above 0"),
        ({"left": -0.1}, "what is in it, in ml, must be at least 0"),
        ({"left": 14.5}, r"SG-1 holds 14 ml and has 0; 14\.5 more do not go in"),
        ({"weight_g": 0.0}, "the weight in g must be above 0"),
        ({"weight_g": float("inf")}, "the weight in g must be above 0"),
        ({"price": Decimal(-1)}, "a price is between 0 and"),
        ({"price": Decimal("1.005")}, "at most two decimals"),
        ({"price": Decimal(1), "currency": "pounds"}, "is not three letters"),
    ],
)
def test_what_cannot_have_been_bought_is_refused(
    work: UnitOfWork, changes: dict[str, object], refusal: str
) -> None:
    paint = a_paint(work)
    with pytest.raises(BadInput, match=refusal):
        buy_stock(work, paint, replace(PURCHASE, **changes), TODAY)  # type: ignore[arg-type]


def test_a_purchase_before_an_older_one_is_a_container_of_its_own(work: UnitOfWork) -> None:
    paint = a_paint(work)
    bought(work, paint)
    assert bought(work, paint, on=date(2025, 1, 1)).left == 14.0


@pytest.mark.parametrize(
    ("left", "mark"), [(0.0, WeighedAs.EMPTY), (0.4, None), (1.8, WeighedAs.FULL)]
)
def test_a_weight_teaches_what_a_full_or_an_empty_one_weighs(
    work: UnitOfWork, left: float, mark: WeighedAs | None
) -> None:
    pan = bought(work, a_paint(work), 1.8, kind=ContainerKind.HALF_PAN, left=left, weight=3.0)
    assert pan.events[0].weighed_as is mark
    assert (pan.full_g, pan.empty_g) == (
        3.0 if mark is WeighedAs.FULL else None,
        3.0 if mark is WeighedAs.EMPTY else None,
    )

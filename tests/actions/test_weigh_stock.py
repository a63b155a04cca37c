"""Weighing a container books what is left, and learns densities from full and empty ones."""

from datetime import timedelta

import pytest

from studio.actions.find_stock import containers_of
from studio.actions.use_stock import correct_stock, use_stock
from studio.actions.weigh_stock import learnt_density, weigh_stock
from studio.catalogue.container import ContainerKind
from studio.catalogue.stock import StockKind, WeighedAs
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork
from tests.actions.stock_things import a_paint, a_paper, bought, entry, left, weighing
from tests.conftest import TODAY


def test_a_tube_weighed_when_bought_is_known_by_its_weight(work: UnitOfWork) -> None:
    """(25.2 - 20.7) g at the assumed 1.5 g/ml are 3 ml."""
    paint = a_paint(work)
    tube = bought(work, paint, weight=25.2)
    found = weigh_stock(work, tube, weighing(20.7), TODAY)
    assert found.container.left == pytest.approx(11.0)
    assert found.change == pytest.approx(-3.0)
    assert found.basis == "25.2 g full, assumed density 1.50 g/ml"
    assert found.container.estimated
    assert left(work, paint) == pytest.approx(11.0)
    event = found.container.events[-1]
    assert (event.kind, event.weight_g, event.amount) == (StockKind.WEIGHED, 20.7, 11.0)


def test_an_empty_one_teaches_the_density_of_the_paint(work: UnitOfWork) -> None:
    """(25.2 - 4.9) / 14 is 1.45 g/ml; the second tube is then known by it."""
    paint = a_paint(work)
    first, second = bought(work, paint, weight=25.2), bought(work, paint, weight=25.4)
    assert learnt_density(work, second) is None
    emptied = weigh_stock(work, first, weighing(4.9, WeighedAs.EMPTY), TODAY)
    assert (emptied.basis, emptied.change, emptied.container.left) == ("weighed as empty", -14, 0)
    assert learnt_density(work, second) == pytest.approx(1.45)
    found = weigh_stock(work, second, weighing(25.4 - 1.45 * 4), TODAY)
    assert found.container.left == pytest.approx(10.0)
    assert found.basis == "25.4 g full, learnt density 1.45 g/ml"
    assert not found.container.estimated
    assert learnt_density(work, bought(work, a_paint(work, "AZ"))) is None


def test_several_densities_are_averaged(work: UnitOfWork) -> None:
    paint = a_paint(work)
    for full, empty in ((25.2, 4.9), (26.0, 5.0)):
        tube = bought(work, paint, weight=full)
        weigh_stock(work, tube, weighing(empty, WeighedAs.EMPTY), TODAY)
    assert learnt_density(work, containers_of(work, paint)[0]) == pytest.approx(1.475)


def test_between_full_and_empty_no_density_is_needed(work: UnitOfWork) -> None:
    tube = bought(work, a_paint(work), weight=25.0)
    weigh_stock(work, tube, weighing(5.0, WeighedAs.EMPTY), TODAY)
    tube = weigh_stock(work, tube, weighing(25.0, WeighedAs.FULL), TODAY).container
    found = weigh_stock(work, tube, weighing(15.0), TODAY)
    assert found.container.left == 7.0
    assert found.basis == "5 g empty, 25 g full"


def test_a_weighing_settles_an_estimate(work: UnitOfWork) -> None:
    paint = a_paint(work)
    tube = bought(work, paint, weight=25.0)
    weigh_stock(work, tube, weighing(5.0, WeighedAs.EMPTY), TODAY)
    correct_stock(work, paint, entry(StockKind.CORRECTED, 14.0), TODAY, tube)
    (tube,) = use_stock(work, paint, entry(StockKind.USED, 3.0, estimated=True), TODAY)
    assert tube.estimated
    assert not weigh_stock(work, tube, weighing(15.0), TODAY).container.estimated


@pytest.mark.parametrize(
    ("grams", "mark", "refusal"),
    [
        (25.3, None, r"SG-1 weighs 25\.2 g full, and 25\.3 g is more"),
        (25.2, WeighedAs.EMPTY, r"SG-1 weighs 25\.2 g full, so 25\.2 g is not empty"),
        (30.0, WeighedAs.EMPTY, r"SG-1 weighs 25\.2 g full, so 30 g is not empty"),
        (3.0, None, "would hold less than nothing by its assumed density"),
        (0.0, None, "the weight in g must be above 0"),
        (-4.0, WeighedAs.FULL, "the weight in g must be above 0"),
        (float("nan"), None, "the weight in g must be above 0"),
    ],
)
def test_a_weight_that_cannot_be_is_refused(
    work: UnitOfWork, grams: float, mark: WeighedAs | None, refusal: str
) -> None:
    tube = bought(work, a_paint(work), weight=25.2)
    with pytest.raises(BadInput, match=refusal):
        weigh_stock(work, tube, weighing(grams, mark), TODAY)
    assert work.containers.by_id(tube.id) == tube


def test_a_full_weight_under_the_empty_one_is_refused(work: UnitOfWork) -> None:
    tube = bought(work, a_paint(work))
    tube = weigh_stock(work, tube, weighing(5.0, WeighedAs.EMPTY), TODAY).container
    with pytest.raises(BadInput, match="SG-1 weighs 5 g empty, so 5 g is not full"):
        weigh_stock(work, tube, weighing(5.0, WeighedAs.FULL), TODAY)
    with pytest.raises(BadInput, match=r"SG-1 weighs 5 g empty, and 4\.9 g is less"):
        weigh_stock(work, tube, weighing(4.9), TODAY)


def test_without_any_weight_there_is_nothing_to_compare_with(work: UnitOfWork) -> None:
    tube = bought(work, a_paint(work))
    with pytest.raises(BadInput, match="neither the full nor the empty weight of SG-1 is known"):
        weigh_stock(work, tube, weighing(20.0), TODAY)


def test_paper_is_counted_and_an_assortment_has_no_full_weight(work: UnitOfWork) -> None:
    pad = bought(work, a_paper(work), 20.0, kind=ContainerKind.PAD)
    with pytest.raises(BadInput, match="MR-1 holds paper, which is counted"):
        weigh_stock(work, pad, weighing(400.0), TODAY)
    box = bought(work, a_paint(work), 30.0, left=30.0, kind=ContainerKind.ASSORTED)
    with pytest.raises(BadInput, match="SG-1 is an assortment; what a full one holds is not known"):
        weigh_stock(work, box, weighing(60.0, WeighedAs.FULL), TODAY)


def test_no_weighing_lies_ahead(work: UnitOfWork) -> None:
    tube = bought(work, a_paint(work), weight=25.2)
    ahead = TODAY + timedelta(days=1)
    with pytest.raises(BadInput, match="the day 2026-11-26 lies in the future"):
        weigh_stock(work, tube, weighing(20.0, on=ahead), TODAY)

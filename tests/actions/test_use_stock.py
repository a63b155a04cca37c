"""Use is taken from the open container first; counts, moves and refills are booked as they were."""

from datetime import date, timedelta

import pytest

from studio.actions.find_stock import book_entry, containers_of
from studio.actions.use_stock import correct_stock, move_container, refill_container, use_stock
from studio.catalogue.container import Container, ContainerKind
from studio.catalogue.stock import StockKind, Unit
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork
from tests.actions.stock_things import a_paint, a_paper, bought, entry, left
from tests.conftest import TODAY

USED, POURED, REFILLED = StockKind.USED, StockKind.POURED, StockKind.REFILLED
DISCARDED, CORRECTED = StockKind.DISCARDED, StockKind.CORRECTED
AHEAD = TODAY + timedelta(days=1)


def _left(work: UnitOfWork) -> dict[str, float]:
    return {container.code: container.left for container in work.containers.all()}


def _move(work: UnitOfWork, container: Container, kind: StockKind) -> Container:
    return move_container(work, container, entry(kind), TODAY)


def test_use_comes_out_of_the_open_one_and_then_the_oldest(work: UnitOfWork) -> None:
    paint = a_paint(work)
    tubes = [bought(work, paint) for _ in range(3)]
    _move(work, tubes[1], StockKind.OPENED)
    changed = use_stock(work, paint, entry(USED, 4.0), TODAY)
    assert [tube.code for tube in changed] == ["SG-2"]
    changed = use_stock(work, paint, entry(USED, 12.0), TODAY)
    assert [(tube.code, tube.left) for tube in changed] == [("SG-2", 0.0), ("SG-1", 12.0)]
    assert [tube.events[-1].amount for tube in changed] == [10.0, 2.0]
    assert _left(work) == {"SG-1": 12.0, "SG-2": 0.0, "SG-3": 14.0}
    assert left(work, paint) == 26.0


def test_all_of_it_can_be_used_and_no_more(work: UnitOfWork) -> None:
    paint = a_paint(work)
    for _ in range(3):
        bought(work, paint, 0.1)
    with pytest.raises(BadInput) as refused:
        use_stock(work, paint, entry(USED, 0.31), TODAY)
    assert str(refused.value).startswith("0.31 ml used on 2026-11-25, but only 0.3 ml of Saltings")
    use_stock(work, paint, entry(USED, 0.3), TODAY)
    assert left(work, paint) == 0.0


def test_what_is_lent_or_thrown_away_is_not_used(work: UnitOfWork) -> None:
    paint = a_paint(work)
    tubes = [bought(work, paint) for _ in range(3)]
    _move(work, tubes[0], StockKind.LENT)
    _move(work, tubes[1], DISCARDED)
    with pytest.raises(BadInput, match=r"15 ml used on .*, but only 14 ml of"):
        use_stock(work, paint, entry(USED, 15.0), TODAY)
    use_stock(work, paint, entry(USED, 13.0), TODAY)
    assert _left(work) == {"SG-1": 14.0, "SG-2": 0.0, "SG-3": 1.0}


def test_a_named_container_is_used_from_alone(work: UnitOfWork) -> None:
    paint = a_paint(work)
    first, second = bought(work, paint), bought(work, paint)
    use_stock(work, paint, entry(USED, 3.0), TODAY, second)
    assert _left(work) == {"SG-1": 14.0, "SG-2": 11.0}
    with pytest.raises(BadInput, match="SG-1 has only 14 ml"):
        use_stock(work, paint, entry(USED, 15.0), TODAY, first)


def test_a_part_thrown_away_is_taken_like_a_use(work: UnitOfWork) -> None:
    paper = a_paper(work)
    bought(work, paper, 10.0)
    (sheets,) = use_stock(work, paper, entry(DISCARDED, 2.0), TODAY)
    assert (sheets.left, sheets.on_shelf) == (8.0, True)
    with pytest.raises(BadInput, match=r"9 sheets discarded on .*, but only 8 sheets of"):
        use_stock(work, paper, entry(DISCARDED, 9.0), TODAY)


def test_an_estimate_stands_in_every_container_it_was_taken_from(work: UnitOfWork) -> None:
    paint = a_paint(work)
    for _ in range(3):
        bought(work, paint)
    use_stock(work, paint, entry(USED, 15.0, estimated=True), TODAY)
    assert [tube.estimated for tube in containers_of(work, paint)] == [True, True, False]
    for tube in containers_of(work, paint)[:2]:
        assert work.paints.by_id(paint.id).stock.estimated
        correct_stock(work, paint, entry(CORRECTED, tube.left), TODAY, tube)
    assert not work.paints.by_id(paint.id).stock.estimated


@pytest.mark.parametrize("amount", [0.0, -1.0, float("nan"), float("inf"), 1_000_001.0, None])
def test_an_amount_that_is_none_is_refused(work: UnitOfWork, amount: float | None) -> None:
    paint = a_paint(work)
    bought(work, paint)
    with pytest.raises(BadInput, match="the amount must be above 0"):
        use_stock(work, paint, entry(USED, amount), TODAY)


def test_no_entry_lies_ahead(work: UnitOfWork) -> None:
    paint = a_paint(work)
    tube, pan = bought(work, paint), bought(work, paint, 1.8, kind=ContainerKind.HALF_PAN)
    for refused in (
        lambda: use_stock(work, paint, entry(USED, 1.0, AHEAD), TODAY),
        lambda: correct_stock(work, paint, entry(CORRECTED, 1.0, AHEAD), TODAY, tube),
        lambda: move_container(work, tube, entry(StockKind.LENT, None, AHEAD), TODAY),
        lambda: refill_container(work, pan, tube, entry(REFILLED, 1.0, AHEAD), TODAY),
    ):
        with pytest.raises(BadInput, match="the day 2026-11-26 lies in the future"):
            refused()
    assert left(work, paint) == pytest.approx(15.8)


def test_a_count_sets_what_is_left_of_one_container(work: UnitOfWork) -> None:
    paint = a_paint(work)
    first, second = bought(work, paint), bought(work, paint)
    correct_stock(work, paint, entry(CORRECTED, 0.0), TODAY, first)
    correct_stock(work, paint, entry(CORRECTED, 14.0), TODAY, second)
    assert _left(work) == {"SG-1": 0.0, "SG-2": 14.0}
    with pytest.raises(BadInput, match=r"SG-2 holds 14 ml; it cannot have 14\.5"):
        correct_stock(work, paint, entry(CORRECTED, 14.5), TODAY, second)
    with pytest.raises(BadInput, match="the amount must be at least 0"):
        correct_stock(work, paint, entry(CORRECTED, -1.0), TODAY, second)


def test_counting_what_has_no_container_makes_an_assortment(work: UnitOfWork) -> None:
    paint, paper = a_paint(work), a_paper(work)
    box = correct_stock(work, paint, entry(CORRECTED, 33.5), TODAY, None)
    assert (box.code, box.kind, box.capacity) == ("SG-1", ContainerKind.ASSORTED, None)
    sheets = correct_stock(work, paper, entry(CORRECTED, 7.0), TODAY, None)
    assert (sheets.code, sheets.unit, left(work, paper)) == ("MR-1", Unit.SHEETS, 7.0)


def test_a_count_of_nothing_is_known(work: UnitOfWork) -> None:
    paint = a_paint(work)
    correct_stock(work, paint, entry(CORRECTED, 0.0), TODAY, None)
    assert left(work, paint) == 0.0


def test_a_container_is_opened_once(work: UnitOfWork) -> None:
    tube = _move(work, bought(work, a_paint(work)), StockKind.OPENED)
    assert tube.opened_on == TODAY
    with pytest.raises(BadInput, match="SG-1 is open since 2026-11-25"):
        _move(work, tube, StockKind.OPENED)


def test_what_is_lent_is_off_the_shelf_until_it_is_back(work: UnitOfWork) -> None:
    paint = a_paint(work)
    tube = _move(work, bought(work, paint), StockKind.LENT)
    assert (left(work, paint), tube.left, tube.on_shelf) == (0.0, 14.0, False)
    with pytest.raises(BadInput, match="SG-1 is lent; it cannot be lent"):
        _move(work, tube, StockKind.LENT)
    tube = _move(work, tube, StockKind.RETURNED)
    assert (left(work, paint), tube.on_shelf) == (14.0, True)
    with pytest.raises(BadInput, match="SG-1 was not lent"):
        _move(work, tube, StockKind.RETURNED)


def test_what_is_thrown_away_takes_nothing_more(work: UnitOfWork) -> None:
    paint = a_paint(work)
    tube = _move(work, bought(work, paint), DISCARDED)
    assert (left(work, paint), tube.left, tube.on_shelf) == (0.0, 0.0, False)
    for kind in (StockKind.OPENED, StockKind.LENT, StockKind.RETURNED, DISCARDED):
        with pytest.raises(BadInput, match=f"SG-1 is discarded; it cannot be {kind}"):
            _move(work, tube, kind)


def test_a_pan_is_filled_from_a_tube(work: UnitOfWork) -> None:
    paint = a_paint(work)
    tube, pan = bought(work, paint), bought(work, paint, 1.8, kind=ContainerKind.HALF_PAN)
    use_stock(work, paint, entry(USED, 1.5), TODAY, pan)
    filled, poured = refill_container(work, pan, tube, entry(REFILLED, 1.4), TODAY)
    assert (filled.left, poured.left) == (1.7, 12.6)
    assert (filled.events[-1].kind, filled.events[-1].other) == (REFILLED, "SG-1")
    assert (poured.events[-1].kind, poured.events[-1].other) == (POURED, "SG-2")
    assert poured.is_open
    assert left(work, paint) == pytest.approx(14.3)


def test_what_is_poured_from_an_estimate_is_an_estimate(work: UnitOfWork) -> None:
    paint = a_paint(work)
    tube = bought(work, paint)
    pan = bought(work, paint, 1.8, left=0.2, kind=ContainerKind.HALF_PAN)
    (tube,) = use_stock(work, paint, entry(USED, 5.0, estimated=True), TODAY, tube)
    filled, _ = refill_container(work, pan, tube, entry(REFILLED, 1.0), TODAY)
    assert filled.estimated


def test_a_refill_by_guess_is_an_estimate_at_both_ends(work: UnitOfWork) -> None:
    paint = a_paint(work)
    tube = bought(work, paint)
    pan = bought(work, paint, 1.8, left=0.2, kind=ContainerKind.HALF_PAN)
    guess = entry(REFILLED, 1.0, estimated=True)
    filled, poured = refill_container(work, pan, tube, guess, TODAY)
    assert (filled.estimated, poured.estimated) == (True, True)


def test_a_refill_that_cannot_be_is_refused(work: UnitOfWork) -> None:
    paint, other, paper = a_paint(work), a_paint(work, "AZ"), a_paper(work)
    tube, strange, pad = bought(work, paint), bought(work, other), bought(work, paper, 9.0)
    pan = bought(work, paint, 1.8, left=0.8, kind=ContainerKind.HALF_PAN)
    for target, source, amount, refusal in (
        (pan, pan, 0.5, "SG-2 cannot be refilled from itself"),
        (pan, strange, 0.5, "SG-2 and AZ-1 do not hold the same paint"),
        (pan, pad, 0.5, "SG-2 and MR-1 do not hold the same paint"),
        (pad, pad, 0.5, "MR-1 cannot be refilled from itself"),
        (tube, pan, 0.9, "0.9 ml poured on 2026-11-25, but SG-2 has only 0.8 ml"),
        (pan, tube, 1.1, "SG-2 holds 1.8 ml and has 0.8; 1.1 more do not go in"),
        (pan, tube, 0.0, "the amount in ml must be above 0"),
    ):
        with pytest.raises(BadInput) as refused:
            refill_container(work, target, source, entry(REFILLED, amount), TODAY)
        assert str(refused.value).startswith(refusal)


def test_paper_is_not_poured(work: UnitOfWork) -> None:
    paper = a_paper(work)
    first, second = bought(work, paper, 9.0), bought(work, paper, 9.0, left=2.0)
    with pytest.raises(BadInput, match="do not hold the same paint"):
        refill_container(work, second, first, entry(REFILLED, 1.0), TODAY)


def test_a_paint_has_a_new_ledger_at_once(work: UnitOfWork) -> None:
    paint = a_paint(work)
    assert left(work, paint) is None
    tube = bought(work, paint)
    assert left(work, paint) == 14.0
    book_entry(work, tube, entry(USED, 4.0))
    assert left(work, paint) == 10.0
    assert work.paints.by_id(paint.id).stock.as_of == date(2026, 11, 25)
    known = work.paints.by_id(paint.id)
    work.forget()
    assert work.paints.by_id(paint.id) == known


def test_a_paper_has_a_new_ledger_at_once(work: UnitOfWork) -> None:
    paper = a_paper(work)
    assert left(work, paper) is None
    bought(work, paper, 5.0)
    use_stock(work, paper, entry(USED, 1.5), TODAY)
    assert left(work, paper) == 3.5
    work.forget()
    assert left(work, paper) == 3.5


def test_entries_of_one_day_keep_the_order_they_were_written_in(work: UnitOfWork) -> None:
    paint = a_paint(work)
    tube = bought(work, paint, on=TODAY)
    for kind, amount in ((CORRECTED, 5.0), (USED, 1.0), (CORRECTED, 12.0), (USED, 2.0)):
        tube = book_entry(work, tube, entry(kind, amount))
    assert left(work, paint) == 10.0
    work.forget()
    assert left(work, paint) == 10.0

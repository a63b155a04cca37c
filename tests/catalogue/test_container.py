"""A container's ledger: what is left is the sum of its changes, whatever is tried."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.catalogue.container import PAPER_KINDS, Container, ContainerKind
from studio.catalogue.stock import StockEvent, StockKind, Unit, WeighedAs
from studio.errors import BadInput
from tests.catalogue.shelf import (
    MANY,
    MOVES,
    PAD,
    TAKING,
    TUBE,
    entries,
    entry,
    holding,
    hundredths,
    weighed,
    with_entry,
)

BOUGHT, OPENED, USED, WEIGHED, REFILLED = list(StockKind)[:5]
POURED, LENT, RETURNED, DISCARDED, CORRECTED = list(StockKind)[5:]
FULL: tuple[StockEvent, ...] = (entry(BOUGHT, 14.0),)


@given(st.sampled_from((TUBE, PAD, MANY)), st.lists(entries(), max_size=30))
def test_what_is_left_is_the_sum_of_the_changes_and_never_negative(
    container: Container, tried: list[StockEvent]
) -> None:
    for event in tried:
        before = container
        container = with_entry(before, event)
        if container is before:
            continue
        assert container.events == (*before.events, event)
        assert container.lines[:-1] == before.lines
        changes = [line.change for line in container.lines]
        assert container.left == pytest.approx(sum(changes), abs=1e-5)
        assert all(line.left >= 0.0 for line in container.lines)
        assert container.lines[-1].left - before.left == pytest.approx(changes[-1], abs=1e-9)
    days = [event.happened_on for event in container.events]
    assert days == sorted(days)


@given(st.sampled_from((TUBE, PAD)), st.lists(entries(), max_size=30))
def test_only_a_weighing_or_a_correction_sets_more_than_it_holds(
    container: Container, tried: list[StockEvent]
) -> None:
    """Both are checked where they are booked; a purchase or a refill is checked here."""
    for event in tried:
        container = with_entry(container, event)
    assert container.capacity is not None
    for line in container.lines:
        if line.event.kind in {BOUGHT, REFILLED}:
            assert line.left <= container.capacity + 1e-6


@given(st.lists(hundredths, min_size=1, max_size=20))
def test_using_up_what_was_bought_leaves_exactly_nothing(amounts: list[float]) -> None:
    ledger = [entry(BOUGHT, amount) for amount in amounts]
    ledger += [entry(USED, amount) for amount in reversed(amounts)]
    assert holding(MANY, *ledger).left == 0.0


def test_a_tenth_that_cannot_be_written_in_binary_leaves_nothing_behind() -> None:
    ledger = (entry(BOUGHT, 0.1), entry(BOUGHT, 0.2), entry(USED, 0.3))
    assert holding(MANY, *ledger).left == 0.0


def test_every_line_tells_its_change_and_what_was_left() -> None:
    container = holding(
        TUBE,
        *FULL,
        entry(OPENED, None, 1),
        entry(USED, 2.5, 2),
        entry(POURED, 1.5, 3),
        entry(CORRECTED, 9.0, 4),
        entry(WEIGHED, 9.25, 5),
        entry(REFILLED, 0.75, 6),
        entry(DISCARDED, 1.0, 7),
        entry(DISCARDED, None, 8),
    )
    assert [(line.change, line.left) for line in container.lines] == [
        (14.0, 14.0),
        (0.0, 14.0),
        (-2.5, 11.5),
        (-1.5, 10.0),
        (-1.0, 9.0),
        (0.25, 9.25),
        (0.75, 10.0),
        (-1.0, 9.0),
        (-9.0, 0.0),
    ]


@pytest.mark.parametrize("kind", [kind for kind in StockKind if kind is not RETURNED])
def test_an_entry_before_the_last_one_is_refused_with_both_days(kind: StockKind) -> None:
    container = holding(TUBE, entry(BOUGHT, 7.0, 5))
    late = entry(kind, None if kind in MOVES else 1.0, 4)
    with pytest.raises(BadInput, match=r"FU-1 has an entry of 2026-01-06; one of 2026-01-05 would"):
        _ = holding(container, *container.events, late).lines
    assert with_entry(container, late) is container


@given(st.sampled_from(TAKING), st.integers(0, 1400), st.integers(1, 1000))
def test_more_than_is_left_is_refused_with_the_numbers(
    kind: StockKind, there: int, more: int
) -> None:
    ledger = (entry(BOUGHT, 14.0), entry(CORRECTED, there / 100))
    wanted = (there + more) / 100
    with pytest.raises(BadInput) as refused:
        _ = holding(TUBE, *ledger, entry(kind, wanted)).lines
    assert f"{wanted:g} ml {kind} on 2026-01-01" in str(refused.value)
    assert f"FU-1 has only {there / 100:g} ml" in str(refused.value)
    assert holding(TUBE, *ledger, entry(kind, there / 100 or None)).left == 0.0


@pytest.mark.parametrize("kind", [BOUGHT, REFILLED])
def test_more_than_it_holds_does_not_go_in(kind: StockKind) -> None:
    ledger = (*FULL, entry(USED, 2.0))
    assert holding(TUBE, *ledger, entry(kind, 2.0)).left == 14.0
    with pytest.raises(BadInput, match=r"FU-1 holds 14 ml and has 12; 2\.5 more do not go in"):
        _ = holding(TUBE, *ledger, entry(kind, 2.5)).lines
    assert holding(MANY, *ledger, entry(kind, 200.0)).left == 212.0


HERE = {kind for kind in StockKind if kind is not RETURNED}


@pytest.mark.parametrize(
    ("before", "possible"),
    [
        ((), HERE),
        ((LENT,), {RETURNED, DISCARDED, CORRECTED}),
        ((LENT, RETURNED), HERE),
        ((LENT, CORRECTED), HERE),
        ((DISCARDED,), {CORRECTED}),
        ((LENT, DISCARDED), {CORRECTED}),
        ((DISCARDED, CORRECTED), HERE),
    ],
)
def test_what_is_away_takes_no_entry_until_it_is_back(
    before: tuple[StockKind, ...], possible: set[StockKind]
) -> None:
    ledger = [entry(CORRECTED, 3.0), *(_plain(kind) for kind in before)]
    container = holding(TUBE, *ledger)
    taken = {kind for kind in StockKind if with_entry(container, _plain(kind)) is not container}
    assert taken == possible
    assert container.on_shelf is (possible == HERE)


def _plain(kind: StockKind) -> StockEvent:
    return entry(kind, None if kind in {*MOVES, DISCARDED} else 1.0)


def test_what_was_not_lent_cannot_come_back() -> None:
    with pytest.raises(BadInput, match="FU-1 was not lent, so it cannot be returned"):
        _ = holding(TUBE, *FULL, entry(RETURNED)).lines


@pytest.mark.parametrize(("kind", "word"), [(LENT, "lent"), (DISCARDED, "discarded")])
def test_an_absent_container_says_where_it_is(kind: StockKind, word: str) -> None:
    with pytest.raises(BadInput, match=f"FU-1 is {word}; it cannot be used"):
        _ = holding(TUBE, *FULL, entry(kind), entry(USED, 1.0)).lines


def test_a_part_thrown_away_leaves_the_rest_on_the_shelf() -> None:
    container = holding(TUBE, *FULL, entry(DISCARDED, 4.0))
    assert (container.left, container.on_shelf) == (10.0, True)
    container = holding(TUBE, *FULL, entry(DISCARDED, 14.0))
    assert (container.left, container.on_shelf) == (0.0, True)
    container = holding(TUBE, *FULL, entry(DISCARDED))
    assert (container.left, container.on_shelf) == (0.0, False)


def test_a_part_of_what_is_lent_thrown_away_leaves_it_lent() -> None:
    container = holding(TUBE, *FULL, entry(LENT), entry(DISCARDED, 4.0))
    assert (container.left, container.on_shelf) == (10.0, False)


@pytest.mark.parametrize("kind", [OPENED, USED, POURED, REFILLED])
def test_it_is_open_once_something_came_out_or_went_in(kind: StockKind) -> None:
    shut = holding(TUBE, entry(BOUGHT, 10.0))
    assert not shut.is_open
    assert shut.opened_on is None
    touched = holding(shut, *shut.events, entry(kind, None if kind is OPENED else 1.0, 3))
    assert touched.is_open
    assert touched.opened_on == (date(2026, 1, 4) if kind is OPENED else None)


@pytest.mark.parametrize("kind", ContainerKind)
def test_pans_are_made_open(kind: ContainerKind) -> None:
    container = Container(1, "X-1", 1, None, kind, Unit.ML, 2.0, None)
    assert container.is_open is (kind.value.endswith("pan"))


def test_paper_comes_in_pads_blocks_sheets_and_rolls() -> None:
    assert {kind.value for kind in PAPER_KINDS} == {"pad", "block", "loose sheets", "roll"}


def test_weights_are_those_weighed_last() -> None:
    container = holding(
        TUBE,
        *FULL,
        weighed(25.0, WeighedAs.FULL, 14.0),
        weighed(25.2, WeighedAs.FULL, 14.0),
        weighed(5.0, WeighedAs.EMPTY, 0.0),
        entry(WEIGHED, 0.0),
    )
    assert (container.full_g, container.empty_g) == (25.2, 5.0)


def test_density_is_the_weight_of_the_paint_by_its_volume() -> None:
    """(25.2 - 4.9) g / 14 ml, computed by hand."""
    both = (weighed(25.2, WeighedAs.FULL, 14.0), weighed(4.9, WeighedAs.EMPTY, 0.0))
    assert holding(TUBE, *both).density == pytest.approx(1.45)
    for known in both:
        assert holding(TUBE, known).density is None
    assert holding(MANY, *both).density is None
    assert holding(PAD, *both).density is None


@pytest.mark.parametrize("settling", [WEIGHED, CORRECTED])
def test_an_estimate_stands_until_it_is_weighed_or_counted(settling: StockKind) -> None:
    guess = StockEvent(USED, date(2026, 1, 2), 3.0, estimated=True)
    assert not holding(TUBE, *FULL).estimated
    assert holding(TUBE, *FULL, guess).estimated
    assert holding(TUBE, *FULL, guess, entry(USED, 1.0, 3)).estimated
    assert not holding(TUBE, *FULL, guess, entry(settling, 9.0, 3)).estimated
    again = StockEvent(settling, date(2026, 1, 4), 9.0, estimated=True)
    assert holding(TUBE, *FULL, entry(settling, 9.0, 2), again).estimated


def test_the_last_purchase_is_known() -> None:
    assert TUBE.bought is None
    first, second = entry(BOUGHT, 2.0), entry(BOUGHT, 3.0, 4)
    assert holding(MANY, first, second, entry(USED, 1.0, 5)).bought == second


def test_without_entries_nothing_is_in_it() -> None:
    assert (TUBE.left, TUBE.lines, TUBE.on_shelf, TUBE.is_open) == (0.0, (), True, False)

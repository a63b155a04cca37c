"""How long it lasts: hand-computed, none with too little record, and how sure it is."""

import math
from datetime import date, timedelta

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from studio.catalogue.container import Container, total
from studio.catalogue.forecast import Forecast, forecast
from studio.catalogue.stock import StockEvent, StockKind, Unit
from tests.catalogue.shelf import MANY, START, TUBE, entry, holding

BOUGHT = entry(StockKind.BOUGHT, 100.0)


def _after(*events: StockEvent, days: int) -> Forecast | None:
    container = holding(MANY, BOUGHT, *events)
    return _of(container, days=days)


def _of(*containers: Container, days: int) -> Forecast | None:
    return forecast(containers, total(containers, Unit.ML), START + timedelta(days=days))


def _used(amount: float, day: int) -> StockEvent:
    return entry(StockKind.USED, amount, day)


def test_four_equal_uses() -> None:
    """8 ml in 56 days is 1 ml a week; 92 ml last 92 weeks; the error is 1 in sqrt(4)."""
    found = _after(*(_used(2.0, day) for day in (10, 20, 30, 40)), days=56)
    assert found is not None
    assert (found.per_week, found.weeks, found.entries, found.days) == (1.0, 92.0, 4, 56)
    assert found.weeks_low == pytest.approx(92 / 1.5)
    assert found.weeks_high == pytest.approx(184.0)
    assert found.confidence == "rough"


def test_unequal_uses_are_less_sure() -> None:
    """3 and 4 ml: 5 / 7 of the sum, as the root of 9 + 16; 7 ml in 70 days is 0.7 ml a week."""
    found = _after(_used(3.0, 5), _used(4.0, 60), days=70)
    assert found is not None
    assert found.per_week == pytest.approx(0.7)
    assert found.weeks == pytest.approx(93 / 0.7)
    assert found.weeks_low == pytest.approx(93 / 0.7 / (12 / 7))
    assert found.weeks_high == pytest.approx(93 / 0.7 / (2 / 7))
    assert found.confidence == "a guess"


@given(st.lists(st.integers(1, 500), min_size=1, max_size=15))
def test_the_error_is_that_of_a_compound_poisson_sum(hundredths: list[int]) -> None:
    """Relative standard error sqrt(sum x²) / sum x (any textbook of probability)."""
    amounts = [number / 100 for number in hundredths]
    found = _after(*(_used(amount, 20) for amount in amounts), days=30)
    assert found is not None
    error = math.sqrt(math.fsum(x * x for x in amounts)) / math.fsum(amounts)
    assert found.entries == len(amounts)
    assert found.weeks / found.weeks_low == pytest.approx(1 + error)
    if len(amounts) == 1:
        assert math.isinf(found.weeks_high)
    else:
        assume(error < 0.999)
        assert found.weeks / found.weeks_high == pytest.approx(1 - error, rel=1e-6)


@pytest.mark.parametrize(
    ("uses", "words"),
    [
        (1, "a guess"),
        (2, "a guess"),  # 0.707 / (1 - 0.5) = 1.41
        (3, "a guess"),  # 0.577 / (1 - 0.333) = 0.866
        (4, "rough"),  # 0.5 / (1 - 0.25) = 0.667
        (12, "rough"),  # 0.289 / (1 - 0.0833) = 0.315
        (13, "rough"),  # 0.277 / (1 - 0.0769) = 0.3005
        (14, "fairly sure"),  # 0.267 / (1 - 0.0714) = 0.288
        (30, "fairly sure"),  # 0.183 / (1 - 0.0333) = 0.189
    ],
)
def test_it_says_in_words_how_sure_it_is(uses: int, words: str) -> None:
    found = _after(*(_used(1.0, 20) for _ in range(uses)), days=30)
    assert found is not None
    spread = (found.weeks_high - found.weeks_low) / (2 * found.weeks)
    assert found.confidence == words, spread


def test_what_is_used_up_lasts_no_week() -> None:
    found = _after(_used(40.0, 3), _used(60.0, 9), days=30)
    assert found is not None
    assert (found.weeks, found.weeks_low, found.weeks_high) == (0.0, 0.0, 0.0)
    assert found.confidence == "fairly sure"


def test_too_little_record_tells_nothing() -> None:
    use = _used(2.0, 5)
    assert _after(use, days=13) is None
    assert _after(use, days=14) is not None
    assert forecast((), total((), Unit.ML), START) is None
    assert _of(TUBE, days=100) is None


def test_no_use_tells_nothing() -> None:
    assert _after(days=100) is None
    assert _after(entry(StockKind.OPENED, None, 3), days=100) is None


@pytest.mark.parametrize(
    "event",
    [
        entry(StockKind.POURED, 3.0, 5),
        entry(StockKind.DISCARDED, 3.0, 5),
        entry(StockKind.DISCARDED, None, 5),
        entry(StockKind.LENT, None, 5),
        entry(StockKind.REFILLED, 3.0, 5),
        entry(StockKind.BOUGHT, 3.0, 5),
        entry(StockKind.CORRECTED, 120.0, 5),
    ],
)
def test_what_is_poured_lent_or_thrown_away_is_not_painted_with(event: StockEvent) -> None:
    assert _after(event, days=50) is None
    with_use = _after(_used(7.0, 4), event, days=49)
    assert with_use is not None
    assert with_use.per_week == pytest.approx(1.0)


@pytest.mark.parametrize("kind", [StockKind.WEIGHED, StockKind.CORRECTED])
def test_what_the_scale_finds_more_was_not_used(kind: StockKind) -> None:
    """8 ml were booked and 2 ml of them are still there: each use was a quarter less."""
    before = (_used(9.0, 2), entry(kind, 91.0, 3))
    found = _after(*before, _used(2.0, 5), _used(6.0, 8), entry(kind, 85.0, 9), days=70)
    assert found is not None
    assert found.entries == 3
    assert found.per_week == pytest.approx((9.0 + 1.5 + 4.5) / 10)
    assert found.weeks / found.weeks_low == pytest.approx(
        1 + math.sqrt(9.0**2 + 1.5**2 + 4.5**2) / 15.0
    )
    none_used = _after(_used(8.0, 5), entry(kind, 100.0, 9), days=70)
    assert none_used is None


@pytest.mark.parametrize("kind", [StockKind.WEIGHED, StockKind.CORRECTED])
def test_what_the_scale_or_a_count_finds_gone_was_used(kind: StockKind) -> None:
    found = _after(entry(kind, 93.0, 5), entry(StockKind.OPENED, None, 6), days=49)
    assert found is not None
    assert found.per_week == pytest.approx(1.0)


def test_only_the_last_year_counts() -> None:
    last = _used(3.65, 500)
    found = _after(_used(50.0, 10), _used(1.0, 135), last, days=500)
    assert found is not None
    assert (found.days, found.entries) == (365, 1)
    assert found.per_week == pytest.approx(0.07)
    found = _after(_used(50.0, 10), _used(1.0, 136), last, days=500)
    assert found is not None
    assert found.entries == 2


def test_containers_add_up_and_what_is_lent_is_not_there_to_last() -> None:
    first = holding(TUBE, entry(StockKind.BOUGHT, 14.0), _used(3.5, 7))
    second = holding(TUBE, entry(StockKind.BOUGHT, 14.0, 2), _used(3.5, 9))
    found = _of(first, second, days=49)
    assert found is not None
    assert found.per_week == pytest.approx(1.0)
    assert found.entries == 2
    assert found.weeks == pytest.approx(21.0)
    lent = holding(TUBE, *second.events, entry(StockKind.LENT, None, 10))
    found = _of(first, lent, days=49)
    assert found is not None
    assert found.weeks == pytest.approx(10.5)


def test_the_window_is_a_year_of_days() -> None:
    today = date(2027, 1, 1)
    container = holding(MANY, BOUGHT, _used(36.5, 1))
    found = forecast((container,), total((container,), Unit.ML), today)
    assert found is not None
    assert found.days == 365

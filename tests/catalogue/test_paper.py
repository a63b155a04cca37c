"""When a paper is low, and what its pounds are in grams."""

from datetime import date

import pytest

from studio.catalogue.paper import GSM_PER_POUND, Paper, PaperFacts
from studio.catalogue.stock import Stock, Unit


def _paper(left: float | None, low_at_sheets: float | None = None) -> Paper:
    facts = PaperFacts("CP", "Mill Lane", "Cotton Rough", low_at_sheets=low_at_sheets)
    day = None if left is None else date(2026, 3, 14)
    return Paper(1, facts, Stock(left, Unit.SHEETS, day), ())


@pytest.mark.parametrize(
    ("pounds", "gsm"),
    [
        (90, 190),  # seen: sgvarts.blogspot.com
        (140, 300),  # seen, shop listings
        (200, 425),  # arithmetic and memory
        (260, 555),  # arithmetic and memory
        (300, 638),  # seen, shop listings
        (400, 850),  # arithmetic and memory
    ],
)
def test_pounds_are_the_grams_that_makers_print_within_one_percent(pounds: int, gsm: int) -> None:
    assert pounds * GSM_PER_POUND == pytest.approx(gsm, rel=0.01)


def test_a_pound_is_that_of_500_sheets_of_22_by_30_inches() -> None:
    # The basis size: seen at myartwanderings.com; an inch is 0.0254 m, a pound 453.59237 g.
    ream = 500 * (22 * 0.0254) * (30 * 0.0254)
    assert ream * GSM_PER_POUND == pytest.approx(453.59237)
    assert pytest.approx(2.1305, abs=5e-5) == GSM_PER_POUND


def test_its_full_name_is_maker_and_name() -> None:
    assert _paper(1.0).facts.full_name == "Mill Lane Cotton Rough"


def test_it_counts_as_low_at_two_sheets_unless_told_otherwise() -> None:
    assert _paper(None).low_at == 2.0
    assert _paper(None, 10).low_at == 10
    assert _paper(None, 0).low_at == 0


@pytest.mark.parametrize(
    ("left", "low_at", "low"),
    [
        (None, None, False),
        (0.0, None, True),
        (2.0, None, True),
        (2.25, None, False),
        (9.0, 10.0, True),
        (0.5, 0.0, False),
        (0.0, 0.0, True),
    ],
)
def test_it_is_low_at_its_threshold_and_below(
    left: float | None, low_at: float | None, low: object
) -> None:
    assert _paper(left, low_at).is_low is low

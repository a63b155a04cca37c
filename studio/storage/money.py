"""Prices, exact, as whole hundredths of a currency."""

from decimal import Decimal


def to_hundredths(price: Decimal | None) -> int | None:
    """12.50 as 1250."""
    return None if price is None else int(price * 100)


def from_hundredths(value: int | None) -> Decimal | None:
    """1250 as 12.50."""
    return None if value is None else Decimal(value).scaleb(-2)

"""Prices as people type them, checked."""

from decimal import Decimal
from typing import Final

from studio.errors import BadInput

LARGEST_PRICE: Final = Decimal(1_000_000)


def checked_price(price: Decimal | None) -> Decimal | None:
    """A price of at most two decimals.

    Raises:
        BadInput: it is negative, not a number, or too exact.
    """
    if price is None:
        return None
    if not price.is_finite() or not 0 <= price < LARGEST_PRICE:
        msg = f"a price is between 0 and 999,999.99, not {price}"
        raise BadInput(msg)
    if price != round(price, 2):
        msg = f"a price has at most two decimals, not {price}"
        raise BadInput(msg)
    return round(price, 2)


def checked_currency(price: Decimal | None, currency: str | None) -> str | None:
    """The ISO 4217 code of a price, EUR where none was given.

    Raises:
        BadInput: it is not three letters, or there is no price.
    """
    if price is None:
        if currency:
            msg = f"currency {currency!r} says nothing without a price; give both"
            raise BadInput(msg)
        return None
    code = (currency or "EUR").strip().upper()
    if len(code) != 3 or not (code.isascii() and code.isalpha()):  # noqa: PLR2004 - ISO 4217
        msg = f"currency {currency!r} is not three letters such as EUR, GBP or USD"
        raise BadInput(msg)
    return code

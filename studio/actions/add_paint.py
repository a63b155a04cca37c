"""Record a paint, with the purchase of the first one."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

from studio.actions.record_stock import record_stock
from studio.catalogue import checks, naming
from studio.catalogue.paint import PaintFacts
from studio.catalogue.pigment import Pigment, ci_name
from studio.catalogue.stock import StockEvent, StockKind, Unit
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork

LARGEST_PRICE = Decimal(1_000_000)


def add_paint(
    work: UnitOfWork, facts: PaintFacts, today: date, *, bought: float | None = None
) -> int:
    """Record a paint; returns its id.

    Args:
        work: the studio.
        facts: what the label says; an empty code is made from the initials of the name.
        today: the day of the purchase.
        bought: ml to book as bought today; None books nothing.

    Raises:
        BadInput: a fact is impossible, the code is taken, or the paint is recorded already.
    """
    checked = checked_paint(facts)
    taken = {paint.facts.code for paint in work.paints.all()}
    if not checked.code:
        checked = replace(checked, code=naming.initials(checked.name, taken))
    refuse_double(work, checked, None)
    record_unknown_pigments(work, checked)
    key = work.paints.add(checked)
    if bought is not None:
        event = StockEvent(
            StockKind.BOUGHT, bought, Unit.ML, today, checked.price, checked.currency, checked.lot
        )
        record_stock(work, work.paints.by_id(key), event, today)
    return key


def record_unknown_pigments(work: UnitOfWork, facts: PaintFacts) -> None:
    """Record those pigments of a paint that are not on record, as names without data."""
    for name in facts.pigments:
        if work.pigments.get(name) is None:
            work.pigments.add(Pigment(name, None, None, None, None, None, None))


def refuse_double(work: UnitOfWork, facts: PaintFacts, key: int | None) -> None:
    """Refuse a code or a maker, name, form and lot that another paint has.

    Raises:
        BadInput: another paint has them.
    """
    for other in work.paints.all():
        if other.id == key:
            continue
        if other.facts.code == facts.code:
            msg = f"code {facts.code} is taken by {other.facts.full_name}; choose another"
            raise BadInput(msg)
        if _identity(other.facts) == _identity(facts):
            msg = (
                f"{facts.full_name} ({facts.form}) is recorded already as {other.facts.code}; "
                "change it with: studio paint edit, or book a new one with: studio stock buy"
            )
            raise BadInput(msg)


def _identity(facts: PaintFacts) -> tuple[str, ...]:
    return (
        facts.maker.casefold(),
        facts.name.casefold(),
        facts.form,
        (facts.lot or "").casefold(),
    )


def checked_paint(facts: PaintFacts) -> PaintFacts:
    """The facts of a paint with texts folded and numbers checked.

    Raises:
        BadInput: one of them is impossible.
    """
    pigments = tuple(dict.fromkeys(ci_name(name) for name in facts.pigments))
    return replace(
        facts,
        code=naming.code(facts.code) if facts.code else "",
        maker=checks.text(facts.maker, "the maker"),
        name=checks.text(facts.name, "the name"),
        pigments=pigments,
        volume_ml=checks.optional_number(
            facts.volume_ml, "the volume in ml", 0, 100_000, above=True
        ),
        price=checked_price(facts.price),
        currency=checked_currency(facts.price, facts.currency),
        lot=checks.optional_text(facts.lot, "the lot"),
        low_at_ml=checks.optional_number(facts.low_at_ml, "the low mark in ml", 0, 100_000),
        note=checks.optional_text(facts.note, "the note"),
    )


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
        BadInput: it is not three letters.
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

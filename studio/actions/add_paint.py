"""Record a paint, with the purchase of the first one."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from studio.actions.buy_stock import Purchase, buy_stock
from studio.actions.prices import checked_currency, checked_price
from studio.catalogue import checks, naming
from studio.catalogue.paint import PaintFacts
from studio.catalogue.pigment import Pigment, ci_name
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork


def add_paint(
    work: UnitOfWork,
    facts: PaintFacts,
    today: date,
    *,
    left: float | None = None,
    stock: bool = True,
) -> int:
    """Record a paint; returns its id.

    Args:
        work: the studio.
        facts: what the label says; an empty code is made from the initials of the name.
        today: the day of the purchase.
        left: what is in it now, ml; None for a full one.
        stock: book a container of it as bought today, where its volume is known.

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
    if stock and (left is not None or checked.volume_ml is not None):
        purchase = Purchase(
            today,
            capacity=None if checked.volume_ml is not None else left,
            left=left,
            price=checked.price,
            currency=checked.currency,
            lot=checked.lot,
        )
        buy_stock(work, work.paints.by_id(key), purchase, today)
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


def checked_paint(facts: PaintFacts, recorded: Sequence[str] = ()) -> PaintFacts:
    """The facts of a paint with texts folded and numbers checked.

    Args:
        facts: what the label says.
        recorded: pigments that the paint is recorded with already, which an older version may have
            taken in a form that is no longer accepted.

    Raises:
        BadInput: one of them is impossible.
    """
    pigments = tuple(
        dict.fromkeys(name if name in recorded else ci_name(name) for name in facts.pigments)
    )
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

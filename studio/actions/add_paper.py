"""Record a paper, or change what is recorded of it."""

from dataclasses import replace
from datetime import date

from studio.actions.buy_stock import Purchase, buy_stock
from studio.catalogue import checks, naming
from studio.catalogue.container import ContainerKind
from studio.catalogue.paper import Paper, PaperFacts
from studio.catalogue.reading import Reading
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork


def add_paper(  # noqa: PLR0913 - a paper, its first stock and its white
    work: UnitOfWork,
    facts: PaperFacts,
    today: date,
    *,
    bought: float | None = None,
    kind: ContainerKind | None = None,
    white: Reading | None = None,
) -> int:
    """Record a paper; returns its id.

    Args:
        work: the studio.
        facts: what its maker says; an empty code is made from the initials of the name.
        today: the day of the purchase.
        bought: sheets (mm of a roll) to book as bought today; None books nothing.
        kind: pad, block, roll, …; None for loose sheets.
        white: a reading of its white.

    Raises:
        BadInput: a fact is impossible, the code is taken, or the paper is recorded already.
    """
    checked = checked_paper(facts)
    taken = {paper.facts.code for paper in work.papers.all()}
    if not checked.code:
        checked = replace(checked, code=naming.initials(checked.name, taken))
    _refuse_double(work, checked, None)
    key = work.papers.add(checked)
    if white is not None:
        work.papers.add_white(key, white)
    if bought is not None:
        purchase = Purchase(today, capacity=bought, kind=kind)
        buy_stock(work, work.papers.by_id(key), purchase, today)
    return key


def edit_paper(work: UnitOfWork, paper: Paper, facts: PaperFacts) -> None:
    """Replace the facts of a paper.

    Raises:
        BadInput: a value is impossible, or another paper has that code or name.
    """
    facts = replace(checked_paper(facts), code=naming.code(facts.code))
    _refuse_double(work, facts, paper.id)
    work.papers.change(paper.id, facts)


def _refuse_double(work: UnitOfWork, facts: PaperFacts, key: int | None) -> None:
    for other in work.papers.all():
        if other.id == key:
            continue
        if other.facts.code == facts.code:
            msg = f"code {facts.code} is taken by {other.facts.full_name}; choose another"
            raise BadInput(msg)
        if _identity(other.facts) == _identity(facts):
            msg = (
                f"{facts.full_name} is recorded already as {other.facts.code}; change it with: "
                "studio paper edit, or book more sheets with: studio stock buy"
            )
            raise BadInput(msg)


def _identity(facts: PaperFacts) -> tuple[object, ...]:
    return facts.maker.casefold(), facts.name.casefold(), facts.surface, facts.weight_gsm


def checked_paper(facts: PaperFacts) -> PaperFacts:
    """The facts of a paper with texts folded and numbers checked.

    Raises:
        BadInput: one of them is impossible.
    """
    sides = (facts.sheet_width_mm, facts.sheet_height_mm)
    if (sides[0] is None) != (sides[1] is None):
        msg = "a sheet has two sides; write its size like 560x760mm"
        raise BadInput(msg)
    width, height = (
        checks.optional_number(side, "a side of the sheet in mm", 10, 20_000) for side in sides
    )
    return replace(
        facts,
        code=naming.code(facts.code) if facts.code else "",
        maker=checks.text(facts.maker, "the maker"),
        name=checks.text(facts.name, "the name"),
        weight_gsm=checks.optional_number(facts.weight_gsm, "the weight in g/m²", 20, 2000),
        sheet_width_mm=width,
        sheet_height_mm=height,
        low_at_sheets=checks.optional_number(
            facts.low_at_sheets, "the low mark in sheets", 0, 100_000
        ),
        low_at_mm=checks.optional_number(facts.low_at_mm, "the low mark in mm", 0, 1_000_000),
        note=checks.optional_text(facts.note, "the note"),
    )

"""studio stock list|show|buy|use|count|discard."""

from typing import TYPE_CHECKING, Annotated

import typer

from studio.cli import values
from studio.cli.session import console, print_json, reading, today, writing

if TYPE_CHECKING:
    from studio.catalogue.paint import Paint
    from studio.catalogue.paper import Paper

app = typer.Typer(no_args_is_help=True)


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the commands to the top."""
    top.add_typer(app, name=name, help=line)


Item = Annotated[str, typer.Argument(help="Code, or any part of the name, of a paint or paper.")]
Amount = Annotated[float, typer.Argument(help="ml of paint or sheets of paper.")]
On = Annotated[str | None, typer.Option(help="The day: 2026-03-14; by default today.")]
Note = Annotated[str | None, typer.Option(help="Remarks.")]
Json = Annotated[bool, typer.Option("--json", help="Print JSON.")]


@app.command("list")
def list_(context: typer.Context, as_json: Json = False) -> None:
    """List what is left of every paint in use and every paper."""
    from studio.catalogue.paint import Status  # noqa: PLC0415

    with reading(context) as work:
        paints = [p for p in work.paints.all() if p.facts.status is Status.IN_USE]
        papers = work.papers.all()
    items: list[Paint | Paper] = [*paints, *papers]
    if as_json:
        from studio.sheets.fields import stock_fields  # noqa: PLC0415

        print_json([stock_fields(item) for item in items])
        return
    from studio.sheets.lists import print_stock  # noqa: PLC0415

    print_stock(console(), items)


@app.command()
def show(context: typer.Context, item: Item, as_json: Json = False) -> None:
    """Show the ledger of one paint or paper, line by line."""
    from studio.actions.record_stock import find_item  # noqa: PLC0415

    with reading(context) as work:
        found = find_item(work, item)
        events = work.stock.of(found)
    if as_json:
        from studio.sheets.fields import event_fields, stock_fields  # noqa: PLC0415

        print_json({**stock_fields(found), "events": [event_fields(e) for e in events]})
        return
    from studio.sheets.lists import print_ledger  # noqa: PLC0415

    print_ledger(console(), found, events)


@app.command()
def buy(
    context: typer.Context,
    item: Item,
    amount: Amount,
    price: Annotated[str | None, typer.Option(help="What was paid.")] = None,
    currency: Annotated[str | None, typer.Option(help="Its currency.")] = None,
    lot: Annotated[str | None, typer.Option(help="Batch number.")] = None,
    on: On = None,
    note: Note = None,
) -> None:
    """Book a purchase."""
    _book(context, "bought", item, amount, on, note, price, currency, lot)


@app.command()
def use(
    context: typer.Context, item: Item, amount: Amount, on: On = None, note: Note = None
) -> None:
    """Book what was used."""
    _book(context, "used", item, amount, on, note)


@app.command()
def count(
    context: typer.Context, item: Item, amount: Amount, on: On = None, note: Note = None
) -> None:
    """Set what is left, after looking or weighing."""
    _book(context, "counted", item, amount, on, note)


@app.command()
def discard(
    context: typer.Context, item: Item, amount: Amount, on: On = None, note: Note = None
) -> None:
    """Book what was thrown away."""
    _book(context, "discarded", item, amount, on, note)


def _book(
    context: typer.Context,
    kind: str,
    item: str,
    amount: float,
    on: str | None,
    note: str | None,
    price: str | None = None,
    currency: str | None = None,
    lot: str | None = None,
) -> None:
    from studio.actions.add_paint import checked_currency, checked_price  # noqa: PLC0415
    from studio.actions.record_stock import find_item, record_stock, unit_of  # noqa: PLC0415
    from studio.catalogue import checks  # noqa: PLC0415
    from studio.catalogue.stock import StockEvent, StockKind  # noqa: PLC0415
    from studio.sheets.lists import left_text  # noqa: PLC0415

    paid = checked_price(values.price(price))
    with writing(context) as work:
        found = find_item(work, item)
        event = StockEvent(
            kind=StockKind(kind),
            amount=amount,
            unit=unit_of(found),
            happened_on=values.day(on),
            price=paid,
            currency=checked_currency(paid, currency),
            lot=checks.optional_text(lot, "the lot"),
            note=checks.optional_text(note, "the note"),
        )
        record_stock(work, found, event, today())
        work.commit()
        now_left = find_item(work, found.facts.code).stock
    print(f"{found.facts.code} {found.facts.full_name}: {left_text(now_left)} left")

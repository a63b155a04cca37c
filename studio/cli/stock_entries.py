"""studio stock buy|use|weigh|refill|open|lend|return|discard|correct: entries of the ledger."""

from typing import TYPE_CHECKING, Annotated

import typer

from studio.cli import values
from studio.cli.session import console, today, writing

if TYPE_CHECKING:
    from studio.catalogue.container import Container
    from studio.storage.unit_of_work import UnitOfWork

app = typer.Typer()

Thing = Annotated[
    str, typer.Argument(help="A paint or paper by code or name, or one container: FU-2.")
]
Amount = Annotated[float, typer.Argument(help="ml of paint, sheets of paper, mm of a roll.")]
On = Annotated[str | None, typer.Option(help="The day: 2026-03-14; by default today.")]
Note = Annotated[str | None, typer.Option(help="Remarks.")]


@app.command()
def buy(
    context: typer.Context,
    item: Thing,
    amount: Annotated[
        float | None,
        typer.Argument(help="What one holds: ml, sheets or mm; by default the paint's volume."),
    ] = None,
    count: Annotated[int, typer.Option("--count", "-n", help="How many alike.")] = 1,
    kind: Annotated[
        str | None,
        typer.Option(
            help="tube, pan, half pan, quarter pan, jar, bottle, stick, pad, block, loose sheets, "
            "roll or assorted."
        ),
    ] = None,
    empty: Annotated[
        bool, typer.Option("--empty", help="Bought empty: a pan to fill from a tube.")
    ] = False,
    weight: Annotated[
        float | None, typer.Option(help="Weight of one as bought, g: lets you weigh it later.")
    ] = None,
    price: Annotated[str | None, typer.Option(help="What one cost.")] = None,
    currency: Annotated[str | None, typer.Option(help="Its currency.")] = None,
    lot: Annotated[str | None, typer.Option(help="Batch number.")] = None,
    on: On = None,
    note: Note = None,
) -> None:
    """Book a purchase; each container gets a code such as FU-2."""
    from studio.actions.buy_stock import Purchase, buy_stock  # noqa: PLC0415
    from studio.actions.find_stock import find_item  # noqa: PLC0415
    from studio.catalogue.checks import word  # noqa: PLC0415
    from studio.catalogue.container import ContainerKind  # noqa: PLC0415

    purchase = Purchase(
        bought_on=values.day(on),
        count=count,
        capacity=amount,
        left=0.0 if empty else amount,
        kind=word(kind, ContainerKind, "kind") if kind else None,
        weight_g=weight,
        price=values.price(price),
        currency=currency,
        lot=lot,
        note=note,
    )
    with writing(context) as work:
        bought = buy_stock(work, find_item(work, item), purchase, today())
        work.commit()
        _print_left(work, bought)


@app.command()
def use(
    context: typer.Context,
    item: Annotated[
        str,
        typer.Argument(help="A paint, paper or container; or a mix or recipe, by its parts."),
    ],
    amount: Amount,
    estimate: Annotated[
        bool, typer.Option("--estimate", help="A guess, until the next weighing settles it.")
    ] = False,
    on: On = None,
    note: Note = None,
) -> None:
    """Book what was used, from the open container first."""
    from studio.actions.use_stock import use_named  # noqa: PLC0415
    from studio.catalogue.checks import optional_text  # noqa: PLC0415
    from studio.catalogue.stock import StockEvent, StockKind  # noqa: PLC0415

    event = StockEvent(
        StockKind.USED,
        values.day(on),
        amount,
        estimated=estimate,
        note=optional_text(note, "the note"),
    )
    with writing(context) as work:
        changed = use_named(work, item, event, today())
        work.commit()
        _print_left(work, changed)


@app.command()
def weigh(
    context: typer.Context,
    item: Thing,
    grams: Annotated[float, typer.Argument(help="What the scale shows, g.")],
    mark: Annotated[
        str | None, typer.Option("--as", help="full or empty: learn the weight from this.")
    ] = None,
    on: On = None,
) -> None:
    """Weigh a container of paint; what is left follows."""
    from studio.actions.find_stock import find_container, item_of  # noqa: PLC0415
    from studio.actions.weigh_stock import find_weighed, weigh_stock  # noqa: PLC0415
    from studio.catalogue.checks import word  # noqa: PLC0415
    from studio.catalogue.stock import StockEvent, StockKind, WeighedAs  # noqa: PLC0415
    from studio.sheets.stock_view import print_weighing  # noqa: PLC0415

    with writing(context) as work:
        found = weigh_stock(
            work,
            find_container(work, item) if mark else find_weighed(work, item, grams),
            StockEvent(
                StockKind.WEIGHED,
                values.day(on),
                weight_g=grams,
                weighed_as=word(mark, WeighedAs, "the mark") if mark else None,
            ),
            today(),
        )
        work.commit()
        print_weighing(console(), found, item_of(work, found.container))


@app.command()
def refill(
    context: typer.Context,
    item: Thing,
    amount: Amount,
    source: Annotated[str, typer.Option("--from", help="The container it is poured from.")],
    on: On = None,
) -> None:
    """Fill a pan from a tube of the same paint."""
    from studio.actions.find_stock import find_container  # noqa: PLC0415
    from studio.actions.use_stock import refill_container  # noqa: PLC0415
    from studio.catalogue.stock import StockEvent, StockKind  # noqa: PLC0415

    with writing(context) as work:
        ends = refill_container(
            work,
            find_container(work, item),
            find_container(work, source),
            StockEvent(StockKind.REFILLED, values.day(on), amount),
            today(),
        )
        work.commit()
        _print_left(work, ends)


@app.command("open")
def open_(context: typer.Context, item: Thing, on: On = None, note: Note = None) -> None:
    """Book that a container was opened."""
    _move(context, item, "opened", on, note)


@app.command()
def lend(context: typer.Context, item: Thing, on: On = None, note: Note = None) -> None:
    """Book that a container was lent; it is off the shelf until it is returned."""
    _move(context, item, "lent", on, note)


@app.command("return")
def return_(context: typer.Context, item: Thing, on: On = None, note: Note = None) -> None:
    """Book that a lent container is back."""
    _move(context, item, "returned", on, note)


@app.command()
def discard(
    context: typer.Context,
    item: Thing,
    amount: Annotated[
        float | None, typer.Argument(help="Only so much of it; by default a whole container.")
    ] = None,
    on: On = None,
    note: Note = None,
) -> None:
    """Book that a container, or a part of it, was thrown away."""
    if amount is None:
        _move(context, item, "discarded", on, note)
        return
    from studio.actions.find_stock import find_item  # noqa: PLC0415
    from studio.actions.use_stock import use_stock  # noqa: PLC0415
    from studio.catalogue.checks import optional_text  # noqa: PLC0415
    from studio.catalogue.stock import StockEvent, StockKind  # noqa: PLC0415

    event = StockEvent(
        StockKind.DISCARDED, values.day(on), amount, note=optional_text(note, "the note")
    )
    with writing(context) as work:
        found = find_item(work, item)
        changed = use_stock(work, found, event, today(), work.containers.with_code(item))
        work.commit()
        _print_left(work, changed)


@app.command()
def correct(
    context: typer.Context, item: Thing, amount: Amount, on: On = None, note: Note = None
) -> None:
    """Set what is left after a count."""
    from studio.actions.find_stock import (  # noqa: PLC0415
        containers_of,
        find_container,
        find_item,
    )
    from studio.actions.use_stock import correct_stock  # noqa: PLC0415
    from studio.catalogue.checks import optional_text  # noqa: PLC0415
    from studio.catalogue.stock import StockEvent, StockKind  # noqa: PLC0415

    event = StockEvent(
        StockKind.CORRECTED, values.day(on), amount, note=optional_text(note, "the note")
    )
    with writing(context) as work:
        found = find_item(work, item)
        container = find_container(work, item) if containers_of(work, found) else None
        changed = correct_stock(work, found, event, today(), container)
        work.commit()
        _print_left(work, (changed,))


def _move(context: typer.Context, item: str, kind: str, on: str | None, note: str | None) -> None:
    from studio.actions.find_stock import find_container  # noqa: PLC0415
    from studio.actions.use_stock import move_container  # noqa: PLC0415
    from studio.catalogue.checks import optional_text  # noqa: PLC0415
    from studio.catalogue.stock import StockEvent, StockKind  # noqa: PLC0415

    event = StockEvent(StockKind(kind), values.day(on), note=optional_text(note, "the note"))
    with writing(context) as work:
        container = find_container(work, item)
        changed = move_container(work, container, event, today())
        work.commit()
        _print_left(work, (changed,))


def _print_left(work: "UnitOfWork", containers: "tuple[Container, ...]") -> None:
    from studio.actions.find_stock import item_of  # noqa: PLC0415
    from studio.sheets.stock_view import print_left  # noqa: PLC0415

    print_left(console(), [(each, item_of(work, each)) for each in containers])

"""studio stock list|show|buy|use|weigh|refill|open|lend|return|discard|correct|reorder."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from studio.cli import values
from studio.cli.session import console, print_json, reading, tell, today, writing

if TYPE_CHECKING:
    from studio.actions.find_stock import Item
    from studio.catalogue.container import Container
    from studio.storage.unit_of_work import UnitOfWork

app = typer.Typer(no_args_is_help=True)


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the commands to the top."""
    top.add_typer(app, name=name, help=line)


Thing = Annotated[
    str, typer.Argument(help="A paint or paper by code or name, or one container: FU-2.")
]
Amount = Annotated[float, typer.Argument(help="ml of paint, sheets of paper, mm of a roll.")]
On = Annotated[str | None, typer.Option(help="The day: 2026-03-14; by default today.")]
Note = Annotated[str | None, typer.Option(help="Remarks.")]
Json = Annotated[bool, typer.Option("--json", help="Print JSON.")]


@app.command("list")
def list_(context: typer.Context, as_json: Json = False) -> None:
    """List what is left of every paint in use and every paper, and for how long."""
    from studio.actions.reorder_stock import forecast_item  # noqa: PLC0415
    from studio.catalogue.paint import Status  # noqa: PLC0415

    with reading(context) as work:
        items: list[Item] = [p for p in work.paints.all() if p.facts.status is Status.IN_USE]
        items += work.papers.all()
        rows = [(item, forecast_item(work, item, today())) for item in items]
    if as_json:
        from studio.sheets.stock_fields import stock_fields  # noqa: PLC0415

        print_json([stock_fields(item, expected) for item, expected in rows])
        return
    from studio.sheets.stock_view import print_stock  # noqa: PLC0415

    print_stock(console(), rows)


@app.command()
def show(context: typer.Context, item: Thing, as_json: Json = False) -> None:
    """Explain what is left of one paint or paper, container by container and line by line."""
    from studio.actions.find_stock import containers_of, find_item  # noqa: PLC0415
    from studio.actions.reorder_stock import forecast_item  # noqa: PLC0415

    with reading(context) as work:
        found = find_item(work, item)
        containers = containers_of(work, found)
        one = work.containers.with_code(item)
        expected = forecast_item(work, found, today())
    if one is not None:
        containers = (one,)
    if as_json:
        from studio.sheets.stock_fields import container_fields, stock_fields  # noqa: PLC0415

        print_json(
            {
                **stock_fields(found, expected),
                "containers": [container_fields(each) for each in containers],
            }
        )
        return
    from studio.sheets.stock_view import print_ledger  # noqa: PLC0415

    print_ledger(console(), found, containers, expected)


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
    weight: Annotated[
        float | None, typer.Option(help="Weight of a full one, g: lets you weigh it later.")
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
        left=amount,
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
    item: Thing,
    amount: Amount,
    estimate: Annotated[
        bool, typer.Option("--estimate", help="A guess, until the next weighing settles it.")
    ] = False,
    on: On = None,
    note: Note = None,
) -> None:
    """Book what was used, from the open container first."""
    _take(context, item, amount, "used", on=on, note=note, estimate=estimate)


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
    from studio.actions.find_stock import find_container  # noqa: PLC0415
    from studio.actions.weigh_stock import weigh_stock  # noqa: PLC0415
    from studio.catalogue.checks import word  # noqa: PLC0415
    from studio.catalogue.stock import StockEvent, StockKind, WeighedAs  # noqa: PLC0415
    from studio.sheets.screen import signed  # noqa: PLC0415

    with writing(context) as work:
        found = weigh_stock(
            work,
            find_container(work, item),
            StockEvent(
                StockKind.WEIGHED,
                values.day(on),
                weight_g=grams,
                weighed_as=word(mark, WeighedAs, "the mark") if mark else None,
            ),
            today(),
        )
        work.commit()
        print(f"{found.basis}; {signed(found.change)} ml since the last entry")
        _print_left(work, (found.container,))


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
    else:
        _take(context, item, amount, "discarded", on=on, note=note)


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


@app.command()
def reorder(
    context: typer.Context,
    weeks: Annotated[float, typer.Option(help="How far ahead to look, weeks.")] = 8.0,
    need: Annotated[
        list[str] | None,
        typer.Option(help="What a planned painting or class needs in all: FU=6 (repeat)."),
    ] = None,
    students: Annotated[int, typer.Option(help="How many students a class has.")] = 0,
    each: Annotated[
        list[str] | None, typer.Option(help="What each student needs: FU=0.8 (repeat).")
    ] = None,
    csv: Annotated[Path | None, typer.Option(help="Write the list as CSV to this file.")] = None,
    html: Annotated[Path | None, typer.Option(help="Write a page to this HTML file.")] = None,
    pdf: Annotated[Path | None, typer.Option(help="Write a page to this PDF file.")] = None,
    as_json: Json = False,
) -> None:
    """Make a shopping list: what is low, what will run out, what is planned."""
    from studio.actions.reorder_stock import reorder_stock  # noqa: PLC0415

    with reading(context) as work:
        planned = _planned(work, need or [], 1.0)
        for code, amount in _planned(work, each or [], float(students)).items():
            planned[code] = planned.get(code, 0.0) + amount
        shopping = reorder_stock(work, today(), weeks=weeks, planned=planned)
    if csv is not None:
        from studio.sheets.stock_fields import shopping_csv  # noqa: PLC0415
        from studio.sheets.writing import write_text  # noqa: PLC0415

        write_text(csv, shopping_csv(shopping))
        tell(f"wrote {csv}")
    if html is not None or pdf is not None:
        from studio.sheets.shopping_page import shopping_page  # noqa: PLC0415
        from studio.sheets.writing import write_page  # noqa: PLC0415

        for written in write_page(shopping_page(shopping, today()), html=html, pdf=pdf):
            tell(f"wrote {written}")
    if as_json:
        from studio.sheets.stock_fields import shopping_fields  # noqa: PLC0415

        print_json(shopping_fields(shopping))
        return
    from studio.sheets.stock_view import print_shopping  # noqa: PLC0415

    print_shopping(console(), shopping)


def _planned(work: "UnitOfWork", texts: list[str], times: float) -> dict[str, float]:
    """Codes and amounts of options such as FU=6, an amount by default in the item's unit."""
    from studio.actions.find_stock import find_item  # noqa: PLC0415
    from studio.errors import BadInput  # noqa: PLC0415

    planned: dict[str, float] = {}
    for text in texts:
        name, sign, amount = text.rpartition("=")
        try:
            needed = float(amount) * times
        except ValueError:
            sign = ""
        if not sign:
            msg = f"{text!r} is not clear; write a paint or paper and an amount: FU=6"
            raise BadInput(msg)
        code = find_item(work, name).facts.code
        planned[code] = planned.get(code, 0.0) + needed
    return planned


def _take(
    context: typer.Context,
    item: str,
    amount: float,
    kind: str,
    *,
    on: str | None,
    note: str | None,
    estimate: bool = False,
) -> None:
    from studio.actions.find_stock import find_item  # noqa: PLC0415
    from studio.actions.use_stock import use_stock  # noqa: PLC0415
    from studio.catalogue.checks import optional_text  # noqa: PLC0415
    from studio.catalogue.stock import StockEvent, StockKind  # noqa: PLC0415

    event = StockEvent(
        StockKind(kind),
        values.day(on),
        amount,
        estimated=estimate,
        note=optional_text(note, "the note"),
    )
    with writing(context) as work:
        found = find_item(work, item)
        changed = use_stock(work, found, event, today(), work.containers.with_code(item))
        work.commit()
        _print_left(work, changed)


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
    """What is left in some containers, and of their paint or paper together."""
    from studio.actions.find_stock import item_of  # noqa: PLC0415
    from studio.sheets.stock_view import left_text  # noqa: PLC0415

    for container in containers:
        away = "" if container.on_shelf else ", not on the shelf"
        print(f"{container.code} {container.kind}: {container.left:g} {container.unit} left{away}")
    item = item_of(work, containers[0])
    print(f"{item.facts.code} {item.facts.full_name}: {left_text(item.stock)} left in all")

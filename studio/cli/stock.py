"""studio stock list|show|reorder; the commands that book an entry stand in stock_entries.py."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from studio.cli import stock_entries
from studio.cli.session import asked, console, print_json, reading, tell, today

if TYPE_CHECKING:
    from studio.actions.find_stock import Item
    from studio.storage.unit_of_work import UnitOfWork

app = typer.Typer(no_args_is_help=True)
app.add_typer(stock_entries.app)


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the commands to the top."""
    top.add_typer(app, name=name, help=line)


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
def show(context: typer.Context, item: stock_entries.Thing, as_json: Json = False) -> None:
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
def reorder(
    context: typer.Context,
    weeks: Annotated[float, typer.Option(help="How far ahead to look, weeks.")] = 8.0,
    need: Annotated[
        list[str] | None,
        typer.Option(help="What a planned painting or class needs in all: FU=6 (repeat)."),
    ] = None,
    students: Annotated[
        int | None, typer.Option(help="How many students a class has; goes with --each.")
    ] = None,
    each: Annotated[
        list[str] | None, typer.Option(help="What each student needs: FU=0.8 (repeat).")
    ] = None,
    csv: Annotated[Path | None, typer.Option(help="Write the list as CSV to this file.")] = None,
    html: Annotated[Path | None, typer.Option(help="Write a page to this HTML file.")] = None,
    pdf: Annotated[Path | None, typer.Option(help="Write a page to this PDF file.")] = None,
    png: Annotated[Path | None, typer.Option(help="Write a page to this PNG file.")] = None,
    as_json: Json = False,
) -> None:
    """Make a shopping list: what is low, what will run out, what is planned."""
    from studio.actions.reorder_stock import reorder_stock  # noqa: PLC0415

    times = _students(students, each or [])
    with reading(context) as work:
        planned = _planned(work, need or [], 1.0)
        for code, amount in _planned(work, each or [], times).items():
            planned[code] = planned.get(code, 0.0) + amount
        shopping = reorder_stock(work, today(), weeks=weeks, planned=planned)
    if csv is not None:
        from studio.sheets.stock_fields import shopping_csv  # noqa: PLC0415
        from studio.sheets.writing import write_text  # noqa: PLC0415

        write_text(csv, shopping_csv(shopping))
        tell(f"wrote {csv}")
    if html is not None or pdf is not None or png is not None:
        from studio.sheets.shopping_page import shopping_page  # noqa: PLC0415
        from studio.sheets.writing import write_page  # noqa: PLC0415

        page = shopping_page(shopping, today())
        for written in write_page(page, html=html, pdf=pdf, png=png):
            tell(f"wrote {written}")
    if as_json:
        from studio.sheets.stock_fields import shopping_fields  # noqa: PLC0415

        print_json(shopping_fields(shopping))
        return
    from studio.sheets.stock_view import print_shopping  # noqa: PLC0415

    print_shopping(console(), shopping)


def _students(students: int | None, each: list[str]) -> float:
    """How many students a class has, asked for where it is said what each of them needs.

    Raises:
        BadInput: --each came without --students and there is nobody to ask, --students came
            without --each, or the number is out of range.
    """
    from studio.catalogue.care import class_size  # noqa: PLC0415
    from studio.errors import BadInput  # noqa: PLC0415

    if students is None:
        if not each:
            return 0.0

        def check(text: str) -> None:
            class_size(_whole(text))

        students = _whole(asked(None, "the number of students", "it with --students 8", check))
    elif not each:
        class_size(students)
        msg = "--students goes with what each of them needs; give it with --each FU=0.8"
        raise BadInput(msg)
    return class_size(students)


def _whole(text: str) -> int:
    from studio.errors import BadInput  # noqa: PLC0415

    if not (text.strip().isdecimal() and len(text) < 10):  # noqa: PLR2004 - as long as it may be
        msg = f"{text!r} is not a whole number; write how many students there are, such as 8"
        raise BadInput(msg)
    return int(text)


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

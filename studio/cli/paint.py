"""studio paint add|list|show|card|document|edit|retire."""

from dataclasses import replace
from typing import Annotated, Any

import typer

from studio.cli import values
from studio.cli.paint_card import card
from studio.cli.paint_document import document
from studio.cli.session import asked, console, print_json, reading, today, writing
from studio.errors import BadInput

app = typer.Typer(no_args_is_help=True)


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the commands to the top."""
    top.add_typer(app, name=name, help=line)


Name = Annotated[str, typer.Argument(help="Code, or any part of maker and name.")]
Json = Annotated[bool, typer.Option("--json", help="Print JSON.")]
Pigments = Annotated[
    list[str] | None,
    typer.Option("--pigments", "-p", help='Colour Index names as on the label: "PB29 PV19".'),
]
Form = Annotated[
    str | None, typer.Option(help="tube, pan, half pan, quarter pan, jar, bottle or stick.")
]
Volume = Annotated[float | None, typer.Option(help="What a full one holds, ml.")]
Price = Annotated[str | None, typer.Option(help="Price of one, such as 12.50.")]
Currency = Annotated[str | None, typer.Option(help="Its currency, such as EUR or GBP.")]
Transparency = Annotated[
    str | None, typer.Option(help="transparent, semi-transparent, semi-opaque or opaque.")
]
Degree = Annotated[str | None, typer.Option(help="none, low, medium or high.")]
Lot = Annotated[str | None, typer.Option(help="Batch number.")]
LowAt = Annotated[
    float | None, typer.Option(help="Report it as low from this on, ml (a fifth of the volume).")
]
Note = Annotated[str | None, typer.Option(help="Remarks.")]
Code = Annotated[str | None, typer.Option(help="Short code; by default the initials.")]


@app.command()
def add(
    context: typer.Context,
    name: Annotated[str | None, typer.Argument(help="What its maker calls it.")] = None,
    maker: Annotated[str | None, typer.Option(help="Who makes it.")] = None,
    pigments: Pigments = None,
    form: Form = None,
    volume: Volume = None,
    price: Price = None,
    currency: Currency = None,
    transparency: Transparency = None,
    staining: Degree = None,
    granulation: Degree = None,
    lot: Lot = None,
    low_at: LowAt = None,
    left: Annotated[
        float | None, typer.Option(help="What is in it now, ml; by default it is full.")
    ] = None,
    code: Code = None,
    note: Note = None,
) -> None:
    """Record a paint."""
    from studio.actions.add_paint import add_paint  # noqa: PLC0415
    from studio.catalogue.paint import PaintFacts  # noqa: PLC0415

    facts = PaintFacts(
        code=code or "",
        name=asked(name, "the name of the paint", "its name as an argument"),
        maker=asked(maker, "the maker", "--maker"),
        **_given(
            pigments=values.pigment_names(pigments),
            form=form,
            volume_ml=volume,
            price=values.price(price),
            currency=currency,
            transparency=transparency,
            staining=staining,
            granulation=granulation,
            lot=lot,
            low_at_ml=low_at,
            note=note,
        ),
    )
    with writing(context, create=True) as work:
        key = add_paint(work, facts, today(), left=left)
        work.commit()
        paint = work.paints.by_id(key)
    from studio.sheets.shelf_view import print_paint_line  # noqa: PLC0415

    print_paint_line(console(), paint)


@app.command("list")
def list_(
    context: typer.Context,
    containing: Annotated[
        str, typer.Argument(metavar="[TEXT]", help="Only those with this in name or pigments.")
    ] = "",
    retired: Annotated[bool, typer.Option("--retired", help="The retired ones too.")] = False,
    as_json: Json = False,
) -> None:
    """List the paints on the shelf."""
    from studio.catalogue.paint import Status  # noqa: PLC0415

    wanted = containing.casefold()
    with reading(context) as work:
        paints = [
            paint
            for paint in work.paints.all()
            if (retired or paint.facts.status is Status.IN_USE)
            and wanted
            in " ".join((paint.facts.code, paint.facts.full_name, *paint.facts.pigments)).casefold()
        ]
    if as_json:
        from studio.sheets.fields import paint_fields  # noqa: PLC0415

        print_json([paint_fields(paint) for paint in paints])
        return
    from studio.sheets.lists import print_paints  # noqa: PLC0415

    print_paints(console(), paints)


@app.command()
def show(context: typer.Context, name: Name, as_json: Json = False) -> None:
    """Show everything on record for one paint, and how well its mixes can be predicted."""
    from studio.actions.find import find_paint  # noqa: PLC0415
    from studio.cli.model import known_paint_of  # noqa: PLC0415

    with reading(context) as work:
        paint = find_paint(work, name)
        containers = work.containers.of_paint(paint.id)
        mixes = work.mixes.with_any([paint.id])
        known = known_paint_of(work, paint)
    if as_json:
        from studio.sheets.fields import paint_fields  # noqa: PLC0415
        from studio.sheets.known_paint_view import known_paint_fields  # noqa: PLC0415
        from studio.sheets.stock_fields import container_fields  # noqa: PLC0415

        print_json(
            {
                **paint_fields(paint),
                "mixes": [mix.code for mix in mixes],
                "containers": [container_fields(each) for each in containers],
                "in_mixes": known_paint_fields(known),
            }
        )
        return
    from studio.sheets.shelf_view import show_paint  # noqa: PLC0415

    show_paint(console(), known, containers, mixes)


app.command()(card)
app.command()(document)


@app.command()
def edit(
    context: typer.Context,
    paint_name: Name,
    name: Annotated[str | None, typer.Option(help="What its maker calls it.")] = None,
    maker: Annotated[str | None, typer.Option(help="Who makes it.")] = None,
    pigments: Pigments = None,
    form: Form = None,
    volume: Volume = None,
    price: Price = None,
    currency: Currency = None,
    transparency: Transparency = None,
    staining: Degree = None,
    granulation: Degree = None,
    lot: Lot = None,
    low_at: LowAt = None,
    status: Annotated[str | None, typer.Option(help="in use or retired.")] = None,
    code: Annotated[str | None, typer.Option(help="Short code.")] = None,
    note: Note = None,
) -> None:
    """Change what is recorded of a paint; only what you name is changed, "" removes it."""
    from studio.actions.edit_paint import edit_paint  # noqa: PLC0415
    from studio.actions.find import find_paint  # noqa: PLC0415

    changes = _given(
        name=name,
        maker=maker,
        pigments=values.pigment_names(pigments),
        form=form,
        volume_ml=volume,
        price=values.price(price or None),
        currency=currency,
        transparency=transparency,
        staining=staining,
        granulation=granulation,
        lot=lot,
        low_at_ml=low_at,
        status=status,
        code=code,
        note=note,
    )
    if pigments == [""]:
        changes["pigments"] = ()
    if price == "":
        changes |= {"price": None, "currency": None}
    if not changes:
        msg = "say what to change: studio paint edit --help lists it"
        raise BadInput(msg)
    with writing(context) as work:
        paint = find_paint(work, paint_name)
        edit_paint(work, paint, replace(paint.facts, **changes))
        work.commit()
        paint = work.paints.by_id(paint.id)
    from studio.sheets.shelf_view import print_paint_line  # noqa: PLC0415

    print_paint_line(console(), paint)


@app.command()
def retire(context: typer.Context, name: Name) -> None:
    """Take a paint off the shelf; its mixes and swatches stay."""
    from studio.actions.edit_paint import retire_paint  # noqa: PLC0415
    from studio.actions.find import find_paint  # noqa: PLC0415

    with writing(context) as work:
        paint = find_paint(work, name)
        retire_paint(work, paint)
        work.commit()
    print(f"{paint.facts.code} {paint.facts.full_name} is retired; its mixes and swatches stay")


def _given(**facts: object) -> dict[str, Any]:
    """The facts that were given, words of a vocabulary as the catalogue knows them."""
    from studio.catalogue import paint as p  # noqa: PLC0415
    from studio.catalogue.checks import word  # noqa: PLC0415

    vocabularies = {
        "form": p.Form,
        "transparency": p.Transparency,
        "staining": p.Degree,
        "granulation": p.Degree,
        "status": p.Status,
    }
    return {
        field: word(str(value), vocabularies[field], field) if field in vocabularies else value
        for field, value in facts.items()
        if value is not None and value != ()
    }

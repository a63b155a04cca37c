"""studio pigment list|show|rate|verify."""

from typing import Annotated

import typer

from studio.cli.session import console, print_json, reading, today, writing

app = typer.Typer(no_args_is_help=True)


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the commands to the top."""
    top.add_typer(app, name=name, help=line)


@app.command("list")
def list_(
    context: typer.Context,
    containing: Annotated[
        str, typer.Argument(metavar="[TEXT]", help="Only those with this in a name.")
    ] = "",
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON.")] = False,
) -> None:
    """List pigments by hue."""
    wanted = containing.casefold()
    with reading(context) as work:
        pigments = [
            pigment
            for pigment in work.pigments.all()
            if wanted in f"{pigment.ci_name} {pigment.common_name or ''}".casefold()
        ]
    if as_json:
        from studio.sheets.fields import pigment_fields  # noqa: PLC0415

        print_json([pigment_fields(pigment) for pigment in pigments])
        return
    from studio.sheets.lists import print_pigments  # noqa: PLC0415

    print_pigments(console(), pigments)


@app.command()
def show(
    context: typer.Context,
    name: Annotated[str, typer.Argument(help="Colour Index name or part of the common name.")],
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON.")] = False,
) -> None:
    """Show everything on record for one pigment."""
    from studio.actions.find import find_pigment  # noqa: PLC0415

    with reading(context) as work:
        pigment = find_pigment(work, name)
    if as_json:
        from studio.sheets.fields import pigment_fields  # noqa: PLC0415

        print_json(pigment_fields(pigment))
        return
    from studio.sheets.shelf_view import show_pigment  # noqa: PLC0415

    show_pigment(console(), pigment)


@app.command()
def rate(
    context: typer.Context,
    name: Annotated[str, typer.Argument(help="Colour Index name.")],
    rating: Annotated[str, typer.Argument(help="I to V, or 1 to 8 on the blue wool scale.")],
    source: Annotated[str, typer.Option(help="Where you read it.")],
    scale: Annotated[str, typer.Option(help="ASTM D4303 or blue wool.")] = "ASTM D4303",
    medium: Annotated[str, typer.Option(help="The medium that was rated.")] = "watercolour",
    year: Annotated[int | None, typer.Option(help="Year of the source.")] = None,
    note: Annotated[str | None, typer.Option(help="Remarks.")] = None,
) -> None:
    """Add a lightfastness rating that you read in a source."""
    from studio.actions.find import find_pigment  # noqa: PLC0415
    from studio.actions.rate_pigment import rate_pigment  # noqa: PLC0415
    from studio.catalogue.checks import word  # noqa: PLC0415
    from studio.catalogue.lightfastness import Scale  # noqa: PLC0415

    with writing(context, create=True) as work:
        pigment = find_pigment(work, name)
        added = rate_pigment(
            work,
            pigment,
            rating,
            source,
            today(),
            scale=word(scale, Scale, "scale"),
            medium=medium,
            year=year,
            note=note,
        )
        work.commit()
    print(f"{added.pigment}: {added.scale} {added.rating} from {added.source}")


@app.command()
def verify(
    context: typer.Context,
    name: Annotated[str, typer.Argument(help="Colour Index name.")],
    seen_in: Annotated[
        str, typer.Option("--from", help="What you confirmed it from, such as the tube's label.")
    ],
    lightfastness: Annotated[
        bool, typer.Option("--lightfastness", help="Its lightfastness ratings.")
    ] = False,
    hazards: Annotated[bool, typer.Option("--hazards", help="Its cautions.")] = False,
    source: Annotated[
        str | None, typer.Option(help="Only what the reference has from this source.")
    ] = None,
) -> None:
    """Mark ratings or cautions of a pigment as confirmed by you."""
    from studio.actions.find import find_pigment  # noqa: PLC0415
    from studio.actions.rate_pigment import verify_pigment  # noqa: PLC0415

    with writing(context, create=True) as work:
        pigment = find_pigment(work, name)
        marked = verify_pigment(
            work,
            pigment,
            seen_in,
            today(),
            ratings=lightfastness,
            hazards=hazards,
            source=source,
        )
        work.commit()
    print(f"{pigment.ci_name}: {marked} marked as verified from {seen_in}")

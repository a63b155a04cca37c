"""studio target add|list|show|remove|restore; target_picture.py looks at pictures."""

from typing import TYPE_CHECKING, Annotated

import typer

from studio.cli import target_picture
from studio.cli.session import answer, console, print_json, reading, today, writing

if TYPE_CHECKING:
    from studio.catalogue.named_target import NamedTarget

app = typer.Typer(no_args_is_help=True)
app.add_typer(target_picture.app)


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the commands to the top."""
    top.add_typer(app, name=name, help=line)


Note = Annotated[str | None, typer.Option(help="Remarks.")]
Json = Annotated[bool, typer.Option("--json", help="Print JSON.")]


@app.command()
def add(
    context: typer.Context,
    name: Annotated[str, typer.Argument(help='What it is called: "mud under the hull".')],
    colour: Annotated[
        str, typer.Argument(help="#5b5f6e, another CSS colour, Munsell, a swatch or a target.")
    ],
    note: Note = None,
    as_json: Json = False,
) -> None:
    """Record a colour that you type, under a name."""
    from studio.actions.name_target import name_target  # noqa: PLC0415
    from studio.actions.read_target import read_target  # noqa: PLC0415

    with writing(context, create=True) as work:
        lab = read_target(work, colour).lab
        target = name_target(work, name, lab, today=today(), note=note)
        work.commit()
    _print_target(context, target, as_json=as_json)


@app.command("list")
def list_(
    context: typer.Context,
    removed: Annotated[bool, typer.Option("--removed", help="Removed ones instead.")] = False,
    as_json: Json = False,
) -> None:
    """List the named targets, oldest first."""
    with reading(context) as work:
        targets = work.targets.removed() if removed else work.targets.all()
    if as_json:
        from studio.sheets.target_fields import named_target_fields  # noqa: PLC0415

        print_json([named_target_fields(target) for target in targets])
        return
    from studio.sheets.target_view import print_targets  # noqa: PLC0415

    print_targets(console(), targets)


@app.command()
def show(
    context: typer.Context,
    name: Annotated[str, typer.Argument(help="Its name, or a part that fits only one.")],
    as_json: Json = False,
) -> None:
    """Show a target, and whether paint reaches it."""
    from studio.actions.find_target import find_target  # noqa: PLC0415

    with reading(context) as work:
        target = find_target(work, name)
    _print_target(context, target, as_json=as_json)


@app.command()
def remove(
    context: typer.Context,
    name: Annotated[str, typer.Argument(help="Its name, or a part that fits only one.")],
    because: Annotated[str | None, typer.Option(help="Why.")] = None,
) -> None:
    """Take a target out of every list; it stays on record, and its name is free again."""
    from studio.actions.find_target import find_target  # noqa: PLC0415
    from studio.actions.remove_target import remove_target  # noqa: PLC0415

    with writing(context, create=False) as work:
        target = find_target(work, name)
        remove_target(work, target, because, today())
        work.commit()
    answer(
        f'removed the target "{target.name}"; studio target restore "{target.name}" brings it back'
    )


@app.command()
def restore(
    context: typer.Context,
    name: Annotated[str, typer.Argument(help="Its whole name.")],
) -> None:
    """Bring back a removed target."""
    from studio.actions.remove_target import restore_target  # noqa: PLC0415

    with writing(context, create=False) as work:
        target = restore_target(work, name)
        work.commit()
    print(f'the target "{target.name}" is back')


def _print_target(context: typer.Context, target: "NamedTarget", *, as_json: bool) -> None:
    from studio.actions.reach import nearest_swatch, reach_of  # noqa: PLC0415

    with reading(context) as work:
        (reach,) = reach_of(work, [target.lab])
        nearest = nearest_swatch(work, target.lab)
    if as_json:
        from studio.sheets import target_fields as fields  # noqa: PLC0415

        print_json(
            {
                **fields.named_target_fields(target),
                "reach": fields.reach_fields(reach),
                "nearest": fields.nearest_fields(target.lab, nearest),
            }
        )
        return
    from studio.sheets.target_view import print_target  # noqa: PLC0415

    print_target(console(), target, reach, nearest)

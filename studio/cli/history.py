"""studio history."""

from typing import Annotated

import typer

from studio.cli.session import console, print_json, reading


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the command to the top."""
    top.command(name, short_help=line)(history)


def history(
    context: typer.Context,
    name: Annotated[
        str | None,
        typer.Argument(
            help="A swatch, mix, container or fade test by its code; a paint, paper or target by "
            "its name. None: the last commands."
        ),
    ] = None,
    last: Annotated[
        int | None, typer.Option("--last", "-n", help="Only the last so many; 20 without a name.")
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON.")] = False,
) -> None:
    """Show which commands recorded what, or what ever happened to one thing."""
    from studio.actions import tell_history  # noqa: PLC0415
    from studio.catalogue.checks import number  # noqa: PLC0415

    usual = 20 if name is None else 1_000_000
    most = int(number(usual if last is None else last, "how many", 1, 1_000_000))
    with reading(context) as work:
        if name is None:
            told = tell_history.last_commands(work, most)
        else:
            told = tell_history.commands_of(work, name, most)
    if as_json:
        from studio.sheets.history_fields import command_fields  # noqa: PLC0415

        print_json([command_fields(each) for each in told])
        return
    from studio.sheets.history_view import print_history  # noqa: PLC0415

    print_history(console(), told, name)

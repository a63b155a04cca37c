"""studio check."""

from typing import Annotated

import typer

from studio.cli.session import console, print_json, reading
from studio.errors import ExitStatus


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the command to the top."""
    top.command(name, short_help=line)(check)


def check(
    context: typer.Context,
    low: Annotated[bool, typer.Option("--low", help="Only what runs low.")] = False,
    fading: Annotated[bool, typer.Option("--fading", help="Only what would fade.")] = False,
    care: Annotated[bool, typer.Option("--care", help="Only what needs care.")] = False,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON.")] = False,
) -> None:
    """Tell what runs low, would fade or needs care, and which mixes depend on it.

    The exit status is 10 when anything needs attention.
    """
    from studio.actions.check_shelf import check_shelf  # noqa: PLC0415

    every = not (low or fading or care)
    with reading(context) as work:
        report = check_shelf(work, low=low or every, fading=fading or every, care=care or every)
    if as_json:
        from studio.sheets.result_fields import shelf_fields  # noqa: PLC0415

        print_json(shelf_fields(report))
    else:
        from studio.sheets.check_view import print_check  # noqa: PLC0415

        print_check(console(), report)
    if report.needs_attention:
        raise typer.Exit(ExitStatus.ATTENTION)

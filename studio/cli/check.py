"""studio check."""

from typing import Annotated

import typer

from studio.cli.session import console, print_json, reading, today
from studio.errors import ExitStatus


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the command to the top."""
    top.command(name, short_help=line)(check)


def check(
    context: typer.Context,
    low: Annotated[bool, typer.Option("--low", help="Only what runs low.")] = False,
    fading: Annotated[bool, typer.Option("--fading", help="Only what would fade.")] = False,
    care: Annotated[bool, typer.Option("--care", help="Only what needs care.")] = False,
    for_class: Annotated[
        str | None,
        typer.Option("--class", help="What a class needs, on one screen: adults or children."),
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON.")] = False,
) -> None:
    """Show what runs low, would fade or needs care, and which mixes depend on it.

    With --class, only what the class needs, unless other options ask for more. The exit status is
    10 when anything needs attention.
    """
    from studio.actions.advise_care import advise_class  # noqa: PLC0415
    from studio.actions.check_shelf import check_shelf  # noqa: PLC0415
    from studio.catalogue.care import read_class_kind  # noqa: PLC0415

    kind = None if for_class is None else read_class_kind(for_class)
    every = not (low or fading or care or kind)
    with reading(context) as work:
        report = check_shelf(
            work,
            low=low or every,
            fading=fading or every,
            care=care or every,
            today=today(),
        )
        needs = None if kind is None else advise_class(work, kind, today())
    if as_json:
        from studio.sheets.result_fields import shelf_fields  # noqa: PLC0415

        fields = shelf_fields(report)
        if needs is not None:
            from studio.sheets.care_fields import class_fields  # noqa: PLC0415

            fields["class"] = class_fields(needs)
        print_json(fields)
    else:
        from studio.sheets.check_view import print_check  # noqa: PLC0415

        if needs is None or low or fading or care:
            print_check(console(), report)
        if needs is not None:
            from studio.sheets.class_screen import print_class_screen  # noqa: PLC0415

            print_class_screen(console(), needs)
    if report.needs_attention or (needs is not None and needs.needs_attention):
        raise typer.Exit(ExitStatus.ATTENTION)

"""studio adjust."""

from typing import Annotated

import typer

from studio.cli.model import keep_for_next_time, model_of
from studio.cli.session import console, print_json, reading


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the command to the top."""
    top.command(name, short_help=line)(adjust)


def adjust(
    context: typer.Context,
    swatch: Annotated[str, typer.Argument(help="Code of the test patch, such as S12.")],
    target: Annotated[
        list[str] | None,
        typer.Argument(
            metavar="[TARGET]",
            help='What it should match: a colour such as "#5b5f6e", a swatch or a target; by '
            "default the colour it was logged for.",
        ),
    ] = None,
    count: Annotated[int, typer.Option("--count", "-n", help="How many ways to list.")] = 3,
    only: Annotated[
        list[str] | None, typer.Option(help="Add only these paints (repeat for each).")
    ] = None,
    using: Annotated[
        list[str] | None, typer.Option("--with", help="Only ways that add this paint.")
    ] = None,
    without: Annotated[list[str] | None, typer.Option(help="Do not add this paint.")] = None,
    paper: Annotated[
        str | None,
        typer.Option(help="The paper of the next patch; that of the swatch if left out."),
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON.")] = False,
) -> None:
    """Say what to add to a test patch that is not yet right."""
    from studio.actions.adjust_paints import MayAdd  # noqa: PLC0415
    from studio.actions.adjust_swatch import adjust_swatch  # noqa: PLC0415
    from studio.actions.find import find_paint, find_paper, find_swatch  # noqa: PLC0415
    from studio.actions.read_target import read_target  # noqa: PLC0415
    from studio.catalogue.checks import number  # noqa: PLC0415

    number(count, "the count", 1, 100)
    with reading(context) as work:
        patch = find_swatch(work, swatch)
        wanted = read_target(work, " ".join(target)) if target else None
        may_add = MayAdd(
            *([find_paint(work, name) for name in names or ()] for names in (only, using, without))
        )
        laid_on = None if paper is None else find_paper(work, paper)
        model = model_of(work)
        result = adjust_swatch(work, model, patch, wanted, may_add, paper=laid_on, count=count)
        keep_for_next_time(work, model)
    if as_json:
        from studio.sheets.adjust_fields import adjust_fields  # noqa: PLC0415

        print_json(adjust_fields(result))
        return
    from studio.sheets.adjust_view import print_adjustment  # noqa: PLC0415

    print_adjustment(console(), result)

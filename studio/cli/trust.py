"""studio trust."""

from pathlib import Path
from typing import Annotated

import typer

from studio.cli.model import keep_for_next_time, model_of
from studio.cli.session import console, print_json, reading, tell


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the command to the top."""
    top.command(name, short_help=line)(trust_)


def trust_(
    context: typer.Context,
    png: Annotated[
        Path | None,
        typer.Option(help="Draw predicted against measured into this PNG file."),
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON.")] = False,
) -> None:
    """Tell how far predictions can be trusted, from your own mixes predicted without themselves."""
    from studio.actions.trust import trust  # noqa: PLC0415
    from studio.sheets.waiting import waiting  # noqa: PLC0415

    with reading(context) as work:
        model = model_of(work)
        with waiting("predicting your mixes without themselves"):
            result = trust(model)
        if png is not None:
            from studio.sheets.trust_chart import trust_chart  # noqa: PLC0415
            from studio.sheets.writing import write_bytes  # noqa: PLC0415

            write_bytes(png, trust_chart(result))
            tell(f"wrote {png}")
        keep_for_next_time(work, model)
    if as_json:
        from studio.sheets.trust_fields import trust_fields  # noqa: PLC0415

        print_json(trust_fields(result))
        return
    from studio.sheets.trust_view import print_trust  # noqa: PLC0415

    print_trust(console(), result)

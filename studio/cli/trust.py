"""studio trust."""

from typing import TYPE_CHECKING, Annotated

import typer

from studio.cli.chart_files import Html, Pdf, Png, draw_files
from studio.cli.model import keep_for_next_time, model_of
from studio.cli.session import console, print_json, reading, today

if TYPE_CHECKING:
    from studio.actions.trust import Trust
    from studio.sheets.blocks import Page
    from studio.sheets.chart_sheet import Kind


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the command to the top."""
    top.command(name, short_help=line)(trust_)


def trust_(
    context: typer.Context,
    html: Html = None,
    png: Png = None,
    pdf: Pdf = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON.")] = False,
) -> None:
    """Show how far predictions can be trusted, from your own mixes predicted without themselves."""
    from studio.actions.trust import trust  # noqa: PLC0415
    from studio.sheets.waiting import waiting  # noqa: PLC0415

    with reading(context) as work:
        model = model_of(work)
        with waiting("predicting your mixes without themselves"):
            result = trust(model)
        draw_files(
            lambda kind: _drawn(result, kind),
            lambda drawn: _page(result, drawn),
            html=html,
            png=png,
            pdf=pdf,
        )
        keep_for_next_time(work, model)
    if as_json:
        from studio.sheets.trust_fields import trust_fields  # noqa: PLC0415

        print_json(trust_fields(result))
        return
    from studio.sheets.trust_view import print_trust  # noqa: PLC0415

    print_trust(console(), result)


def _drawn(result: "Trust", kind: "Kind") -> bytes:
    from studio.sheets.trust_chart import trust_chart  # noqa: PLC0415

    return trust_chart(result, kind)


def _page(result: "Trust", drawn: bytes) -> "Page":
    from studio.sheets.trust_page import trust_page  # noqa: PLC0415

    return trust_page(result, drawn, today())

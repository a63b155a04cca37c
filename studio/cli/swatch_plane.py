"""studio swatch plane."""

from typing import TYPE_CHECKING, Annotated

import typer

from studio.cli.chart_files import Html, Pdf, Png, draw_files
from studio.cli.search_options import Lightfast, WithoutHazard, wanted_of
from studio.cli.session import console, print_json, reading, today

if TYPE_CHECKING:
    from studio.actions.colour_plane import ColourPlane
    from studio.sheets.blocks import Page
    from studio.sheets.chart_sheet import Kind

app = typer.Typer()


@app.command()
def plane(
    context: typer.Context,
    target: Annotated[
        str | None, typer.Option(help="A colour to mark: anything that match takes.")
    ] = None,
    paper: Annotated[str | None, typer.Option(help="Only swatches on this paper.")] = None,
    in_stock: Annotated[
        bool, typer.Option("--in-stock", help="Only mixes of paints on the shelf.")
    ] = False,
    only: Annotated[list[str] | None, typer.Option(help="Only mixes of these paints.")] = None,
    using: Annotated[
        list[str] | None, typer.Option("--with", help="Only mixes that hold this paint.")
    ] = None,
    without: Annotated[list[str] | None, typer.Option(help="No mix that holds this paint.")] = None,
    lightfast: Lightfast = None,
    without_hazard: WithoutHazard = None,
    html: Html = None,
    png: Png = None,
    pdf: Pdf = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON.")] = False,
) -> None:
    """Show all dry swatches in their places: a* and b*, value and chroma, and their reach."""
    from studio.actions.colour_plane import colour_plane  # noqa: PLC0415
    from studio.actions.read_target import read_target  # noqa: PLC0415

    with reading(context) as work:
        wanted = wanted_of(
            work,
            paper=paper,
            in_stock=in_stock,
            only=only,
            using=using,
            without=without,
            lightfast=lightfast,
            without_hazard=without_hazard,
        )
        found = colour_plane(work, wanted, None if target is None else read_target(work, target))
    draw_files(
        lambda kind: _drawn(found, kind),
        lambda drawn: _page(found, drawn),
        html=html,
        png=png,
        pdf=pdf,
    )
    if as_json:
        from studio.sheets.plane_view import plane_fields  # noqa: PLC0415

        print_json(plane_fields(found))
        return
    from studio.sheets.plane_view import print_plane  # noqa: PLC0415

    print_plane(console(), found)


def _drawn(found: "ColourPlane", kind: "Kind") -> bytes:
    from studio.sheets.plane_chart import draw_plane  # noqa: PLC0415

    return draw_plane(found, kind)


def _page(found: "ColourPlane", drawn: bytes) -> "Page":
    from studio.sheets.plane_page import plane_page  # noqa: PLC0415

    return plane_page(found, drawn, today())

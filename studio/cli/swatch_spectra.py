"""studio swatch spectra."""

from typing import TYPE_CHECKING, Annotated

import typer

from studio.cli.chart_files import Html, Pdf, Png, draw_files
from studio.cli.session import console, print_json, reading, today
from studio.cli.swatch_cards import Codes, Json, Mix, OnPaper

if TYPE_CHECKING:
    from studio.actions.swatch_spectra import SwatchSpectra
    from studio.sheets.blocks import Page
    from studio.sheets.chart_sheet import Kind

app = typer.Typer()


@app.command()
def spectra(
    context: typer.Context,
    codes: Codes = None,
    mix: Mix = None,
    paper: OnPaper = None,
    last: Annotated[int | None, typer.Option("--last", "-n", help="The last so many.")] = None,
    html: Html = None,
    png: Png = None,
    pdf: Pdf = None,
    as_json: Json = False,
) -> None:
    """Show reflectance against wavelength, of swatches read by a spectrophotometer."""
    from studio.actions.chosen_swatches import chosen_swatches  # noqa: PLC0415
    from studio.actions.swatch_rows import swatch_rows  # noqa: PLC0415
    from studio.actions.swatch_spectra import swatch_spectra  # noqa: PLC0415

    with reading(context) as work:
        chosen = chosen_swatches(work, codes or (), mix=mix, paper=paper, last=last)
        found = swatch_spectra(swatch_rows(work, chosen))
    draw_files(
        lambda kind: _drawn(found, kind),
        lambda drawn: _page(found, drawn),
        html=html,
        png=png,
        pdf=pdf,
    )
    if as_json:
        from studio.sheets.spectra_view import spectra_fields  # noqa: PLC0415

        print_json(spectra_fields(found))
        return
    from studio.sheets.spectra_view import print_spectra  # noqa: PLC0415

    print_spectra(console(), found)


def _drawn(found: "SwatchSpectra", kind: "Kind") -> bytes:
    from studio.sheets.spectra_chart import draw_spectra  # noqa: PLC0415

    return draw_spectra(found, kind)


def _page(found: "SwatchSpectra", drawn: bytes) -> "Page":
    from studio.sheets.spectra_page import spectra_page  # noqa: PLC0415

    return spectra_page(found, drawn, today())

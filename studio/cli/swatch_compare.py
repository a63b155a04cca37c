"""studio swatch compare|drying: two swatches under several lights; how washes dry."""

from typing import Annotated

import typer

from studio.cli.search_options import lights_of
from studio.cli.session import console, print_json, reading
from studio.errors import BadInput

app = typer.Typer()

Json = Annotated[bool, typer.Option("--json", help="Print JSON.")]


@app.command()
def compare(
    context: typer.Context,
    first: Annotated[str, typer.Argument(metavar="A", help="Code of a swatch, such as S12.")],
    second: Annotated[
        str, typer.Argument(metavar="B", help="Code of the swatch to compare it with.")
    ],
    light: Annotated[
        str | None,
        typer.Option(
            help="CIE illuminants such as A,LED-B3,FL2 (the usual three), D65 or FL11; both "
            "swatches need a spectrum."
        ),
    ] = None,
    as_json: Json = False,
) -> None:
    """Compare two swatches under D50 and, with spectra, under other lights."""
    from studio.actions.compare_swatches import (  # noqa: PLC0415
        compare_swatches,
        no_spectrum_text,
    )
    from studio.actions.find import find_swatch  # noqa: PLC0415
    from studio.actions.swatch_rows import swatch_rows  # noqa: PLC0415
    from studio.colour.lights import USUAL  # noqa: PLC0415

    lights = lights_of(light, USUAL)
    with reading(context) as work:
        pair = find_swatch(work, first), find_swatch(work, second)
        comparison = compare_swatches(*pair, lights)
        if light is not None and comparison.without_spectrum:
            raise BadInput(no_spectrum_text(*comparison.without_spectrum))
        standard, sample = swatch_rows(work, pair)
    if as_json:
        from studio.sheets.light_fields import comparison_fields  # noqa: PLC0415

        print_json(comparison_fields(comparison, standard, sample))
        return
    from studio.sheets.light_view import print_comparison  # noqa: PLC0415

    print_comparison(console(), comparison, standard, sample)


@app.command()
def drying(context: typer.Context, as_json: Json = False) -> None:
    """Show how your washes change while they dry, from swatches read both wet and dry."""
    from studio.actions.drying_shift import drying_report  # noqa: PLC0415

    with reading(context) as work:
        report = drying_report(work)
    if as_json:
        from studio.sheets.drying_fields import drying_fields  # noqa: PLC0415

        print_json(drying_fields(report))
        return
    from studio.sheets.drying_view import print_drying_report  # noqa: PLC0415

    print_drying_report(console(), report)

"""studio formulate."""

import sys
from typing import Annotated

import typer

from studio.cli.model import keep_for_next_time, model_of
from studio.cli.search_options import Lightfast, Target, WithoutHazard, lights_of, wanted_of
from studio.cli.session import console, print_json, reading


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the command to the top."""
    top.command(name, short_help=line)(formulate)


def formulate(
    context: typer.Context,
    target: Target,
    count: Annotated[int, typer.Option("--count", "-n", help="How many recipes to list.")] = 5,
    paints: Annotated[int, typer.Option(help="Paints in one recipe at most, 1 to 4.")] = 3,
    paper: Annotated[
        str | None, typer.Option(help="The paper; by default that of the last swatch.")
    ] = None,
    layers: Annotated[int, typer.Option(help="Layers, each dry before the next.")] = 1,
    in_stock: Annotated[
        bool,
        typer.Option(
            "--in-stock/--any-stock",
            help="Only paints that are in stock, or every paint that is not retired.",
        ),
    ] = True,
    only: Annotated[
        list[str] | None,
        typer.Option(help="Only of these paints, in stock or not (repeat for each)."),
    ] = None,
    using: Annotated[
        list[str] | None, typer.Option("--with", help="Every recipe holds this paint.")
    ] = None,
    without: Annotated[list[str] | None, typer.Option(help="No recipe holds this paint.")] = None,
    lightfast: Lightfast = None,
    without_hazard: WithoutHazard = None,
    light: Annotated[
        str | None,
        typer.Option(
            help="Look at each recipe under these lights too: CIE illuminants such as A,LED-B3."
        ),
    ] = None,
    spectral: Annotated[
        bool,
        typer.Option(
            "--spectral",
            help="Come near the spectrum too, so that the match holds under other lights; the "
            "target is a swatch with a spectrum.",
        ),
    ] = False,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON.")] = False,
) -> None:
    """Predict recipes for a colour from your own swatches."""
    from studio.actions.formulate_colour import Laying, formulate_colour  # noqa: PLC0415
    from studio.actions.read_target import read_target  # noqa: PLC0415
    from studio.catalogue.checks import number  # noqa: PLC0415
    from studio.mixing.proposal import MOST_PAINTS  # noqa: PLC0415
    from studio.sheets.progress import progress_bar  # noqa: PLC0415

    number(count, "the count", 1, 100)
    number(paints, "the number of paints in a recipe", 1, MOST_PAINTS)
    number(layers, "the number of layers", 1, 20)
    lights = lights_of(light)
    with reading(context) as work:
        usual = work.swatches.last_paper()
        laid_on = None if usual is None else work.papers.by_id(usual)
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
        colour = read_target(work, " ".join(target))
        model = model_of(work)
        with progress_bar(sys.stderr, "searching recipes") as tell:
            result = formulate_colour(
                work,
                model,
                colour,
                wanted,
                Laying(paints, layers, wanted.paper or laid_on, spectral, lights),
                count=count,
                tell=tell,
            )
        keep_for_next_time(work, model)
    if as_json:
        from studio.sheets.formulate_fields import formulate_fields  # noqa: PLC0415

        print_json(formulate_fields(result))
        return
    from studio.sheets.formulate_view import print_formulate  # noqa: PLC0415

    print_formulate(console(), result)

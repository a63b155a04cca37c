"""studio painting plan|class: what to mix for a painting, alone or with a class."""

import sys
from typing import TYPE_CHECKING, Annotated

import typer

from studio.cli.model import keep_for_next_time, model_of
from studio.cli.search_options import Lightfast, WithoutHazard, wanted_of
from studio.cli.session import console, print_json, reading, today

if TYPE_CHECKING:
    from studio.catalogue.painting import Painting as PaintingValue
    from studio.storage.unit_of_work import UnitOfWork

app = typer.Typer()

Painting = Annotated[str, typer.Argument(help="Code such as P3, title, or a part of it.")]
Within = Annotated[
    float | None,
    typer.Option(help="ΔE00 that passes; by default what the painting says."),
]
InStock = Annotated[bool, typer.Option("--in-stock", help="Only paints that are on the shelf.")]
Only = Annotated[list[str] | None, typer.Option(help="Only these paints (repeat for each).")]
Without = Annotated[list[str] | None, typer.Option(help="Not this paint (repeat for each).")]
Json = Annotated[bool, typer.Option("--json", help="Print JSON.")]


@app.command()
def plan(
    context: typer.Context,
    painting: Painting,
    within: Within = None,
    in_stock: InStock = False,
    only: Only = None,
    without: Without = None,
    lightfast: Lightfast = None,
    without_hazard: WithoutHazard = None,
    as_json: Json = False,
) -> None:
    """Plan a painting: a mix for each colour, the fewest paints, amounts, drying and cautions.

    Past mixes within the tolerance come first, then tints between them, then predictions; where
    nothing comes near enough it says why and that a test swatch is needed. Nothing is recorded.
    """
    from studio.actions.painting.plan_painting import plan_painting  # noqa: PLC0415
    from studio.actions.painting.shopping import shopping_for  # noqa: PLC0415
    from studio.sheets.progress import progress_bar  # noqa: PLC0415

    with reading(context) as work:
        found = found_painting(work, painting, within)
        wanted = wanted_of(
            work,
            paper=None,
            in_stock=in_stock,
            only=only,
            using=None,
            without=without,
            lightfast=lightfast,
            without_hazard=without_hazard,
        )
        model = model_of(work)
        with progress_bar(sys.stderr, "weighing mixes") as tell:
            planned = plan_painting(work, model, found, wanted, tell=tell)
        shopping = shopping_for(work, planned, today())
        keep_for_next_time(work, model)
    if as_json:
        from studio.sheets.plan_fields import plan_fields  # noqa: PLC0415

        print_json(plan_fields(planned, shopping))
        return
    from studio.sheets.plan_view import print_plan  # noqa: PLC0415

    print_plan(console(), planned, shopping)


def found_painting(work: "UnitOfWork", name: str, within: float | None) -> "PaintingValue":
    """The painting of a name, with the tolerance that was asked for."""
    from dataclasses import replace  # noqa: PLC0415

    from studio.actions.painting.find_painting import find_painting  # noqa: PLC0415
    from studio.catalogue.checks import number  # noqa: PLC0415

    found = find_painting(work, name)
    if within is None:
        return found
    return replace(found, tolerance=number(within, "what passes", 0, 100))

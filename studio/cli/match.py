"""studio match."""

import math
from dataclasses import replace
from typing import TYPE_CHECKING, Annotated

import typer

from studio.cli.model import keep_for_next_time, model_of
from studio.cli.search_options import Lightfast, Target, WithoutHazard, lights_of, wanted_of
from studio.cli.session import console, print_json, reading
from studio.errors import BadInput

if TYPE_CHECKING:
    from studio.actions.between_tints import TintsBetween
    from studio.actions.match_colour import Wanted
    from studio.actions.read_target import Target as TargetColour
    from studio.storage.unit_of_work import UnitOfWork


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the command to the top."""
    top.command(name, short_help=line)(match)


def match(
    context: typer.Context,
    target: Target,
    count: Annotated[int, typer.Option("--count", "-n", help="How many mixes to list.")] = 5,
    paper: Annotated[str | None, typer.Option(help="Only swatches on this paper.")] = None,
    in_stock: Annotated[
        bool, typer.Option("--in-stock", help="Only mixes of paints that are in stock.")
    ] = False,
    only: Annotated[
        list[str] | None, typer.Option(help="Only mixes of these paints (repeat for each).")
    ] = None,
    using: Annotated[
        list[str] | None, typer.Option("--with", help="Only mixes that hold this paint.")
    ] = None,
    without: Annotated[list[str] | None, typer.Option(help="No mix that holds this paint.")] = None,
    lightfast: Lightfast = None,
    without_hazard: WithoutHazard = None,
    wet: Annotated[
        bool,
        typer.Option(
            "--wet",
            help="The target is a test patch that is still wet: match what it is expected to dry "
            "to, by your own drying shift (studio swatch drying).",
        ),
    ] = False,
    wet_swatches: Annotated[
        bool,
        typer.Option("--wet-swatches", help="Let swatches take part that were only read wet."),
    ] = False,
    light: Annotated[
        str | None,
        typer.Option(
            help="Look at each match under these lights too: CIE illuminants such as A,LED-B3; "
            "the target is a swatch with a spectrum."
        ),
    ] = None,
    within: Annotated[
        float | None, typer.Option(help="Leave out what differs by more than this.")
    ] = None,
    metric: Annotated[
        str, typer.Option(help="ciede2000, cie76, cmc, or cmc(l:c) such as cmc(1:1).")
    ] = "ciede2000",
    all_swatches: Annotated[
        bool, typer.Option("--all-swatches", help="List every swatch, not the best of each mix.")
    ] = False,
    between: Annotated[
        bool,
        typer.Option(
            "--between",
            help="Look along tint series too: waters between a mix's own swatches, predicted.",
        ),
    ] = False,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON.")] = False,
) -> None:
    """Find the past mixes nearest a colour, by CIEDE2000."""
    from studio.actions.match_colour import match_colour  # noqa: PLC0415
    from studio.actions.read_target import read_target  # noqa: PLC0415
    from studio.catalogue.checks import number  # noqa: PLC0415
    from studio.colour import difference  # noqa: PLC0415

    number(count, "the count", 1, 10_000)
    limit = math.inf if within is None else number(within, "the largest difference", 0, 1000)
    if wet and wet_swatches:
        msg = "--wet compares with dry swatches; leave --wet-swatches away"
        raise BadInput(msg)
    try:
        ranking = difference.metric(metric)
    except ValueError as error:
        raise BadInput(str(error)) from None
    lights = lights_of(light)
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
            dry_only=not wet_swatches,
        )
        result = match_colour(
            work,
            read_target(work, " ".join(target)),
            wanted,
            metric=ranking,
            count=count,
            within=limit,
            every_swatch=all_swatches,
            lights=lights,
            wet=wet,
        )
        if between:
            result = replace(result, between=_between(work, result.target, wanted, count))
    if as_json:
        from studio.sheets.result_fields import match_fields  # noqa: PLC0415

        print_json(match_fields(result))
        return
    from studio.sheets.match_view import print_match  # noqa: PLC0415

    print_match(console(), result)


def _between(
    work: "UnitOfWork", target: "TargetColour", wanted: "Wanted", count: int
) -> "TintsBetween":
    # Numpy and the model of the paints, for this option alone.
    from studio.actions.between_tints import between_tints  # noqa: PLC0415

    model = model_of(work)
    found = between_tints(work, model, target, wanted, count)
    keep_for_next_time(work, model)
    return found

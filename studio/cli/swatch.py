"""studio swatch list|show|edit; swatch_log.py makes swatches, swatch_remove.py removes them."""

from dataclasses import replace
from typing import Annotated, Any

import typer

from studio.cli import (
    swatch_book,
    swatch_cards,
    swatch_compare,
    swatch_log,
    swatch_plane,
    swatch_remove,
    swatch_spectra,
    values,
)
from studio.cli.session import console, print_json, reading, today, writing
from studio.errors import BadInput

app = typer.Typer(no_args_is_help=True)
app.add_typer(swatch_log.app)
app.add_typer(swatch_remove.app)
app.add_typer(swatch_compare.app)
app.add_typer(swatch_book.app)
app.add_typer(swatch_cards.app)
app.add_typer(swatch_plane.app)
app.add_typer(swatch_spectra.app)


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the commands to the top."""
    top.add_typer(app, name=name, help=line)


Json = Annotated[bool, typer.Option("--json", help="Print JSON.")]


@app.command("list")
def list_(
    context: typer.Context,
    of: Annotated[str | None, typer.Option(help="Only swatches of this mix.")] = None,
    paper: Annotated[str | None, typer.Option(help="Only swatches on this paper.")] = None,
    last: Annotated[int | None, typer.Option("--last", "-n", help="Only the last so many.")] = None,
    removed: Annotated[bool, typer.Option("--removed", help="Removed ones instead.")] = False,
    as_json: Json = False,
) -> None:
    """List swatches, the newest last."""
    from studio.actions.find import find_mix, find_paper  # noqa: PLC0415
    from studio.actions.swatch_rows import swatch_rows  # noqa: PLC0415
    from studio.catalogue.checks import number  # noqa: PLC0415

    with reading(context) as work:
        mix_id = None if of is None else find_mix(work, of).id
        if removed:
            swatches = tuple(
                each for each in work.swatches.removed() if mix_id in {None, each.mix_id}
            )
        else:
            swatches = work.swatches.all() if mix_id is None else work.swatches.of_mix(mix_id)
        if paper is not None:
            paper_id = find_paper(work, paper).id
            swatches = tuple(swatch for swatch in swatches if swatch.paper_id == paper_id)
        if last is not None:
            swatches = swatches[-int(number(last, "how many", 1, 1_000_000)) :]
        rows = swatch_rows(work, swatches)
    if as_json:
        from studio.sheets.fields import swatch_fields  # noqa: PLC0415

        print_json([swatch_fields(*row) for row in rows])
        return
    from studio.sheets.lists import print_swatches  # noqa: PLC0415

    print_swatches(console(), rows)


@app.command()
def show(context: typer.Context, code: swatch_log.Code, as_json: Json = False) -> None:
    """Show a swatch with all its readings."""
    from studio.actions.find import find_swatch  # noqa: PLC0415
    from studio.actions.swatch_rows import swatch_rows  # noqa: PLC0415

    with reading(context) as work:
        (row,) = swatch_rows(work, [find_swatch(work, code, removed_too=True)])
    if as_json:
        from studio.sheets.fields import swatch_fields  # noqa: PLC0415

        print_json(swatch_fields(*row))
        return
    from studio.sheets.swatch_view import show_swatch  # noqa: PLC0415

    show_swatch(console(), *row)


@app.command()
def edit(
    context: typer.Context,
    code: swatch_log.Code,
    paper: Annotated[str | None, typer.Option(help="The paper.")] = None,
    water: Annotated[str | None, typer.Option(help="Parts of water to paint: 3:1.")] = None,
    layers: Annotated[int | None, typer.Option(help="Layers.")] = None,
    applied: Annotated[str | None, typer.Option(help="How it was laid.")] = None,
    for_target: Annotated[
        str | None,
        typer.Option("--for", help='The colour or target it was made for; "" removes it.'),
    ] = None,
    on: Annotated[str | None, typer.Option(help="The day it was made.")] = None,
    kept: Annotated[str | None, typer.Option(help='Where the card is; "" removes it.')] = None,
    note: Annotated[str | None, typer.Option(help='Remarks; "" removes them.')] = None,
) -> None:
    """Correct how a swatch was made; its readings stay."""
    from studio.actions.find import find_paper, find_swatch  # noqa: PLC0415
    from studio.actions.log_swatch import edit_swatch  # noqa: PLC0415
    from studio.actions.swatch_rows import swatch_rows  # noqa: PLC0415
    from studio.catalogue.checks import word  # noqa: PLC0415
    from studio.catalogue.swatch import Application  # noqa: PLC0415
    from studio.sheets.swatch_view import show_swatch  # noqa: PLC0415

    changes: dict[str, Any] = {
        "water": values.water(water or None),
        "layers": layers,
        "application": None if applied is None else word(applied, Application, "applied"),
        "target": for_target,
        "made_on": None if on is None else values.day(on),
        "kept_at": kept,
        "note": note,
    }
    given = {field: value for field, value in changes.items() if value is not None}
    if water == "":
        given["water"] = None
    if not given and paper is None:
        msg = "say what to change: studio swatch edit --help lists it"
        raise BadInput(msg)
    with writing(context) as work:
        swatch = find_swatch(work, code)
        used = work.papers.by_id(swatch.paper_id) if paper is None else find_paper(work, paper)
        changed = edit_swatch(work, swatch, replace(swatch.facts, **given), used, today())
        work.commit()
        (row,) = swatch_rows(work, [changed])
    show_swatch(console(), *row)

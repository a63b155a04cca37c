"""studio swatch log|read|list|show|edit."""

from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Any

import typer

from studio.cli import values
from studio.cli.reading_options import (
    Colour,
    ConditionOption,
    Error,
    Illuminant,
    Instrument,
    LabOption,
    MethodOption,
    Observer,
    Spectrum,
    Wet,
    typed_reading,
)
from studio.cli.session import asked, console, print_json, reading, tell, today, writing
from studio.errors import BadInput

if TYPE_CHECKING:
    from studio.storage.unit_of_work import UnitOfWork

app = typer.Typer(no_args_is_help=True)


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the commands to the top."""
    top.add_typer(app, name=name, help=line)


Code = Annotated[str, typer.Argument(help="Code of the swatch, such as S12.")]
Json = Annotated[bool, typer.Option("--json", help="Print JSON.")]


@app.command()
def log(
    context: typer.Context,
    mix: Annotated[
        str | None,
        typer.Argument(help='Recipe such as "2 ultramarine + 1 burnt sienna", or a mix.'),
    ] = None,
    lab: LabOption = None,
    colour: Colour = None,
    spectrum: Spectrum = None,
    paper: Annotated[
        str | None, typer.Option(help="The paper; by default that of the last swatch.")
    ] = None,
    water: Annotated[str | None, typer.Option(help="Parts of water to paint: 3:1.")] = None,
    layers: Annotated[int, typer.Option(help="Layers, each dry before the next.")] = 1,
    applied: Annotated[
        str,
        typer.Option(
            help="flat wash, graded wash, wet in wet, dry brush, glaze, spatter or lifted."
        ),
    ] = "flat wash",
    wet: Wet = False,
    for_target: Annotated[
        str | None, typer.Option("--for", help="The colour it was made for.")
    ] = None,
    on: Annotated[str | None, typer.Option(help="The day: 2026-03-14; by default today.")] = None,
    kept: Annotated[str | None, typer.Option(help="Where the card is: box 2, row 3.")] = None,
    used: Annotated[
        float | None,
        typer.Option(help="ml of paint it took, without water: booked by its parts, as a guess."),
    ] = None,
    note: Annotated[str | None, typer.Option(help="Remarks.")] = None,
    illuminant: Illuminant = "D50",
    observer: Observer = 2,
    method: MethodOption = None,
    instrument: Instrument = None,
    condition: ConditionOption = None,
    error: Error = None,
) -> None:
    """Record a test swatch with its colour; a new recipe becomes a new mix."""
    from studio.actions.find import find_paper  # noqa: PLC0415
    from studio.actions.log_swatch import log_swatch, mix_to_log  # noqa: PLC0415
    from studio.actions.match_colour import ingredients  # noqa: PLC0415
    from studio.actions.use_stock import use_for_swatch  # noqa: PLC0415
    from studio.catalogue.checks import word  # noqa: PLC0415
    from studio.catalogue.swatch import Application, SwatchFacts  # noqa: PLC0415
    from studio.sheets.shows import show_swatch  # noqa: PLC0415

    text = asked(mix, "the recipe", "the recipe as an argument")
    read = typed_reading(
        lab, colour, spectrum, illuminant, observer, wet, on, method, instrument, condition, error
    )
    facts = SwatchFacts(
        code="",
        water=values.water(water),
        layers=layers,
        application=word(applied, Application, "applied"),
        made_on=values.day(on),
        kept_at=kept,
        note=note,
        target=for_target,
    )
    sheet, why = _paper(context, paper)
    with writing(context) as work:
        recorded = mix_to_log(work, text, today())
        laid_on = find_paper(work, sheet)
        swatch = log_swatch(
            work, mix=recorded, paper=laid_on, facts=facts, reading=read, today=today()
        )
        recipe = ingredients(work, recorded)
        if used is not None:
            use_for_swatch(work, swatch, recipe, used, today())
        work.commit()
    if why is not None:
        tell(f"{why}; --paper names another")
    show_swatch(console(), swatch, recorded, recipe, laid_on)


@app.command()
def read(
    context: typer.Context,
    code: Code,
    lab: LabOption = None,
    colour: Colour = None,
    spectrum: Spectrum = None,
    wet: Wet = False,
    on: Annotated[str | None, typer.Option(help="The day: 2026-03-14; by default today.")] = None,
    illuminant: Illuminant = "D50",
    observer: Observer = 2,
    method: MethodOption = None,
    instrument: Instrument = None,
    condition: ConditionOption = None,
    error: Error = None,
) -> None:
    """Add a reading to a swatch; its colour becomes the mean of its dry readings."""
    from studio.actions.find import find_swatch  # noqa: PLC0415
    from studio.actions.log_swatch import read_swatch  # noqa: PLC0415

    added = typed_reading(
        lab, colour, spectrum, illuminant, observer, wet, on, method, instrument, condition, error
    )
    with writing(context) as work:
        read_swatch(work, find_swatch(work, code), added, today())
        work.commit()
        _show(work, code)


@app.command("list")
def list_(
    context: typer.Context,
    of: Annotated[str | None, typer.Option(help="Only swatches of this mix.")] = None,
    paper: Annotated[str | None, typer.Option(help="Only swatches on this paper.")] = None,
    last: Annotated[int | None, typer.Option("--last", "-n", help="Only the last so many.")] = None,
    as_json: Json = False,
) -> None:
    """List swatches, the newest last."""
    from studio.actions.find import find_mix, find_paper  # noqa: PLC0415
    from studio.actions.match_colour import ingredients  # noqa: PLC0415
    from studio.catalogue.checks import number  # noqa: PLC0415

    with reading(context) as work:
        swatches = (
            work.swatches.all() if of is None else work.swatches.of_mix(find_mix(work, of).id)
        )
        if paper is not None:
            paper_id = find_paper(work, paper).id
            swatches = tuple(swatch for swatch in swatches if swatch.paper_id == paper_id)
        if last is not None:
            swatches = swatches[-int(number(last, "how many", 1, 1_000_000)) :]
        mixes = work.mixes.by_ids({swatch.mix_id for swatch in swatches})
        rows = [
            (
                swatch,
                mixes[swatch.mix_id],
                ingredients(work, mixes[swatch.mix_id]),
                work.papers.by_id(swatch.paper_id),
            )
            for swatch in swatches
        ]
    if as_json:
        from studio.sheets.fields import swatch_fields  # noqa: PLC0415

        print_json([swatch_fields(*row) for row in rows])
        return
    from studio.sheets.lists import print_swatches  # noqa: PLC0415

    print_swatches(console(), rows)


@app.command()
def show(context: typer.Context, code: Code, as_json: Json = False) -> None:
    """Show a swatch with all its readings."""
    with reading(context) as work:
        _show(work, code, as_json=as_json)


@app.command()
def edit(
    context: typer.Context,
    code: Code,
    paper: Annotated[str | None, typer.Option(help="The paper.")] = None,
    water: Annotated[str | None, typer.Option(help="Parts of water to paint: 3:1.")] = None,
    layers: Annotated[int | None, typer.Option(help="Layers.")] = None,
    applied: Annotated[str | None, typer.Option(help="How it was laid.")] = None,
    for_target: Annotated[
        str | None, typer.Option("--for", help='The colour it was made for; "" removes it.')
    ] = None,
    on: Annotated[str | None, typer.Option(help="The day it was made.")] = None,
    kept: Annotated[str | None, typer.Option(help='Where the card is; "" removes it.')] = None,
    note: Annotated[str | None, typer.Option(help='Remarks; "" removes them.')] = None,
) -> None:
    """Correct how a swatch was made; its readings stay."""
    from studio.actions.find import find_paper, find_swatch  # noqa: PLC0415
    from studio.actions.log_swatch import edit_swatch  # noqa: PLC0415
    from studio.catalogue.checks import word  # noqa: PLC0415
    from studio.catalogue.swatch import Application  # noqa: PLC0415

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
        edit_swatch(work, swatch, replace(swatch.facts, **given), used, today())
        work.commit()
        _show(work, code)


def _show(work: "UnitOfWork", code: str, *, as_json: bool = False) -> None:
    from studio.actions.find import find_swatch  # noqa: PLC0415
    from studio.actions.match_colour import ingredients  # noqa: PLC0415

    swatch = find_swatch(work, code)
    mix = work.mixes.by_ids([swatch.mix_id])[swatch.mix_id]
    paper = work.papers.by_id(swatch.paper_id)
    recipe = ingredients(work, mix)
    if as_json:
        from studio.sheets.fields import swatch_fields  # noqa: PLC0415

        print_json(swatch_fields(swatch, mix, recipe, paper))
        return
    from studio.sheets.shows import show_swatch  # noqa: PLC0415

    show_swatch(console(), swatch, mix, recipe, paper)


def _paper(context: typer.Context, name: str | None) -> tuple[str, str | None]:
    """The name of the paper: as given, that of the last swatch, or the only one; and why that one.

    It is asked for, where it must be, before anything is locked for writing.
    """
    if name is not None:
        return name, None
    with reading(context) as work:
        usual = work.swatches.last_paper()
        papers = work.papers.all()
        last = None if usual is None else work.papers.by_id(usual)
    if last is not None:
        return last.facts.code, f"on {last.facts.full_name}, as the last swatch"
    if len(papers) == 1:
        return papers[0].facts.code, f"on {papers[0].facts.full_name}, the only paper on record"
    if not papers:
        msg = "no paper is on record yet; record one first with: studio paper add"
        raise BadInput(msg)
    return asked(None, "the paper", "--paper"), None

"""studio swatch log|read: a swatch or a reading as it is made."""

from typing import Annotated

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
from studio.cli.session import asked, console, reading, tell, today, writing
from studio.errors import BadInput

app = typer.Typer()

Code = Annotated[str, typer.Argument(help="Code of the swatch, such as S12.")]


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
    from studio.actions.swatch_rows import swatch_rows  # noqa: PLC0415
    from studio.actions.use_stock import use_for_swatch  # noqa: PLC0415
    from studio.catalogue.checks import word  # noqa: PLC0415
    from studio.catalogue.swatch import Application, SwatchFacts  # noqa: PLC0415
    from studio.sheets.swatch_view import show_swatch  # noqa: PLC0415

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
        (row,) = swatch_rows(work, [swatch])
        if used is not None:
            use_for_swatch(work, swatch, row[2], used, today())
        work.commit()
    if why is not None:
        tell(f"{why}; --paper names another")
    show_swatch(console(), *row)


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
    from studio.actions.swatch_rows import swatch_rows  # noqa: PLC0415
    from studio.sheets.swatch_view import show_swatch  # noqa: PLC0415

    added = typed_reading(
        lab, colour, spectrum, illuminant, observer, wet, on, method, instrument, condition, error
    )
    with writing(context) as work:
        swatch = read_swatch(work, find_swatch(work, code), added, today())
        work.commit()
        (row,) = swatch_rows(work, [swatch])
    show_swatch(console(), *row)


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

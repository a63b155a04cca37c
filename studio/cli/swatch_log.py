"""studio swatch log|read: a swatch or a reading as it is made."""

from typing import Annotated

import typer

from studio.cli import picture_options as pictures
from studio.cli import read_all, values
from studio.cli.paper_choice import paper_to_use
from studio.cli.reading_options import (
    BackingOption,
    Colour,
    ConditionOption,
    Error,
    File,
    Geometry,
    Illuminant,
    Instrument,
    LabOption,
    MethodOption,
    Observer,
    On,
    ReadingOptions,
    SampleName,
    Spectrum,
    Wet,
    taking,
)
from studio.cli.session import asked, console, print_json, reading, tell, today, writing
from studio.cli.swatch_logging import Kept, Used, Water, logging, recipe_to_log

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
    file: File = None,
    sample: SampleName = None,
    paper: Annotated[
        str | None, typer.Option(help="The paper; by default that of the last swatch.")
    ] = None,
    water: Water = None,
    layers: Annotated[int, typer.Option(help="Layers, each dry before the next.")] = 1,
    applied: Annotated[
        str,
        typer.Option(
            help="flat wash, graded wash, wet in wet, dry brush, glaze, spatter or lifted."
        ),
    ] = "flat wash",
    wet: Wet = False,
    for_target: Annotated[
        str | None, typer.Option("--for", help="The colour or target it was made for.")
    ] = None,
    on: On = None,
    kept: Kept = None,
    used: Used = None,
    note: Annotated[str | None, typer.Option(help="Remarks.")] = None,
    illuminant: Illuminant = None,
    observer: Observer = None,
    method: MethodOption = None,
    instrument: Instrument = None,
    condition: ConditionOption = None,
    geometry: Geometry = None,
    backing: BackingOption = None,
    error: Error = None,
    picture: pictures.Picture = None,
    chart: pictures.Chart = None,
    corners: pictures.Corners = None,
    area: pictures.Area = None,
    grey: pictures.Grey = None,
    reflectance: pictures.Reflectance = None,
    white: pictures.White = None,
    annotate: pictures.Annotate = None,
) -> None:
    """Record a test swatch with its colour; a new recipe becomes a new mix."""
    from studio.actions.find import find_paper  # noqa: PLC0415
    from studio.catalogue.checks import word  # noqa: PLC0415
    from studio.catalogue.swatch import Application, SwatchFacts  # noqa: PLC0415
    from studio.sheets.swatch_view import show_swatch  # noqa: PLC0415

    options = ReadingOptions(
        lab, colour, spectrum, file, sample, illuminant, observer, wet, on, method,
        instrument, condition, geometry, backing, error,
    )  # fmt: skip
    seen = pictures.PictureOptions(
        picture, chart, corners, area, grey, reflectance, white, annotate
    )
    keep = logging(recipe_to_log(context, mix, options, seen), options, seen, used)
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
    sheet, why = paper_to_use(context, paper)
    with writing(context) as work:
        logged = keep(work, find_paper(work, sheet), facts)
        work.commit()
    if why is not None:
        tell(f"{why}; --paper names another")
    for remark in logged.remarks:
        tell(remark)
    show_swatch(console(), *logged.row)


@app.command()
def read(
    context: typer.Context,
    code: Annotated[
        str | None, typer.Argument(help="Code of the swatch, such as S12; none with --all.")
    ] = None,
    lab: LabOption = None,
    colour: Colour = None,
    spectrum: Spectrum = None,
    file: File = None,
    sample: SampleName = None,
    all_: read_all.All = False,
    dry_run: read_all.DryRun = False,
    mapped: read_all.Map = None,
    only_fitting: read_all.OnlyFitting = False,
    wet: Wet = False,
    on: On = None,
    illuminant: Illuminant = None,
    observer: Observer = None,
    method: MethodOption = None,
    instrument: Instrument = None,
    condition: ConditionOption = None,
    geometry: Geometry = None,
    backing: BackingOption = None,
    error: Error = None,
    picture: pictures.Picture = None,
    chart: pictures.Chart = None,
    corners: pictures.Corners = None,
    area: pictures.Area = None,
    grey: pictures.Grey = None,
    reflectance: pictures.Reflectance = None,
    white: pictures.White = None,
    annotate: pictures.Annotate = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON.")] = False,
) -> None:
    """Add a reading to a swatch; its colour becomes the mean of its dry readings."""
    from studio.actions.find import find_swatch  # noqa: PLC0415
    from studio.actions.swatch_rows import swatch_rows  # noqa: PLC0415
    from studio.actions.taken_readings import read_with  # noqa: PLC0415

    options = ReadingOptions(
        lab, colour, spectrum, file, sample, illuminant, observer, wet, on, method,
        instrument, condition, geometry, backing, error,
    )  # fmt: skip
    seen = pictures.PictureOptions(
        picture, chart, corners, area, grey, reflectance, white, annotate
    )
    if seen.is_given:
        read_all.check_all(dry_run=False, mapped=mapped, only_fitting=only_fitting)
        pictures.read_areas(context, seen, options, code=code, dry_run=dry_run, as_json=as_json)
        return
    if all_:
        read_all.read_all(
            context,
            options,
            code=code,
            dry_run=dry_run,
            mapped=mapped,
            only_fitting=only_fitting,
            as_json=as_json,
        )
        return
    read_all.check_all(dry_run=dry_run, mapped=mapped, only_fitting=only_fitting)

    def check(text: str) -> None:
        with reading(context) as work:
            find_swatch(work, text)

    named = asked(code, "the swatch", "its code as an argument, or --all", check)
    take = taking(options)
    with writing(context) as work:
        swatch = find_swatch(work, named)
        taken = take(work, swatch)
        swatch = read_with(work, taken, swatch, today())
        work.commit()
        (row,) = swatch_rows(work, [swatch])
    for remark in taken.remarks:
        tell(remark)
    if as_json:
        from studio.sheets.fields import swatch_fields  # noqa: PLC0415

        print_json(swatch_fields(*row))
        return
    from studio.sheets.swatch_view import show_swatch  # noqa: PLC0415

    show_swatch(console(), *row)

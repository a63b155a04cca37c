"""studio painting test: a swatch laid for a colour of a painting, held against it."""

from typing import TYPE_CHECKING, Annotated

import typer

from studio.cli import picture_options as pictures
from studio.cli import values
from studio.cli.painting_passage import Name, PaintingName
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
)
from studio.cli.session import console, print_json, tell, writing
from studio.cli.swatch_logging import Kept, Used, Water, logging, recipe_to_log
from studio.errors import BadInput

if TYPE_CHECKING:
    from studio.actions.painting.show_painting import ShownColour, ShownPainting

app = typer.Typer()


@app.command("test")
def hold(
    context: typer.Context,
    painting: PaintingName,
    passage: Name,
    mix: Annotated[
        str | None,
        typer.Argument(help='Recipe such as "2 ultramarine + 1 burnt sienna", or a mix.'),
    ] = None,
    swatch: Annotated[
        str | None, typer.Option(help="A swatch that is on record already, such as S12.")
    ] = None,
    which: Annotated[
        int, typer.Option(help="Which colour of the passage, by its number; 1 is the main one.")
    ] = 1,
    lab: LabOption = None,
    colour: Colour = None,
    spectrum: Spectrum = None,
    file: File = None,
    sample: SampleName = None,
    water: Water = None,
    layers: Annotated[
        int | None, typer.Option(help="Layers, each dry before the next; by default the passage's.")
    ] = None,
    applied: Annotated[
        str | None, typer.Option(help="How it was laid; by default as the passage is.")
    ] = None,
    wet: Wet = False,
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
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON.")] = False,
) -> None:
    """Record a test patch on the painting's paper, and compare it with the passage's colour."""
    from studio.actions.painting.find_painting import (  # noqa: PLC0415
        find_colour,
        find_painting,
        find_passage,
    )
    from studio.actions.painting.tries import keep_try, made_for  # noqa: PLC0415
    from studio.catalogue.checks import word  # noqa: PLC0415
    from studio.catalogue.swatch import Application, SwatchFacts  # noqa: PLC0415

    options = ReadingOptions(
        lab, colour, spectrum, file, sample, illuminant, observer, wet, on, method,
        instrument, condition, geometry, backing, error,
    )  # fmt: skip
    seen = pictures.PictureOptions(
        picture, chart, corners, area, grey, reflectance, white, annotate
    )
    laid = None if applied is None else word(applied, Application, "applied")
    water_parts = values.water(water)
    log = None
    if swatch is None:
        log = logging(recipe_to_log(context, mix, options, seen), options, seen, used)
    else:
        new = (mix, water, layers, applied, kept, used, note)
        if any(value is not None for value in new) or seen.is_given or options != ReadingOptions():
            msg = f"{swatch} is on record already: give --swatch without recipe and reading"
            raise BadInput(msg)
    remarks: list[str] = []
    with writing(context) as work:
        whole = find_painting(work, painting)
        found = find_passage(whole, passage)
        wanted = find_colour(found, which)
        if log is not None:
            facts = SwatchFacts(
                code="",
                water=water_parts,
                layers=found.layers if layers is None else layers,
                application=laid or found.technique,
                made_on=values.day(on),
                kept_at=kept,
                note=note,
            )
            logged = log(
                work, work.papers.by_id(whole.paper_id), made_for(facts, whole, found, wanted)
            )
            made, remarks = logged.row[0], list(logged.remarks)
        else:
            from studio.actions.find import find_swatch  # noqa: PLC0415

            made = find_swatch(work, swatch or "")
            if made.paper_id != whole.paper_id:
                other = work.papers.by_id(made.paper_id).facts.full_name
                remarks.append(f"{made.facts.code} lies on {other}, not on the painting's paper")
        keep_try(work, found, wanted, made)
        work.commit()
        from studio.actions.painting.show_painting import shown_painting  # noqa: PLC0415

        shown = shown_painting(work, work.paintings.by_id(whole.id))
    for remark in remarks:
        tell(remark)
    index = whole.passages.index(found)
    _print(shown, index, shown.passages[index].colours[which - 1], as_json=as_json)


def _print(shown: "ShownPainting", index: int, colour: "ShownColour", *, as_json: bool) -> None:
    from studio.sheets.painting_fields import try_fields  # noqa: PLC0415

    if as_json:
        passage = shown.passages[index].passage
        print_json(
            {
                "painting": shown.painting.code,
                "passage": passage.name,
                "number": colour.number,
                "tolerance_delta_e": shown.painting.tolerance,
                **try_fields(colour.tries[-1]),
            }
        )
        return
    from studio.sheets.painting_try_view import print_standing  # noqa: PLC0415

    print_standing(console(), shown, shown.passages[index], colour)

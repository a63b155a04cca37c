"""studio painting plan|class: what to mix for a painting, alone or with a class."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from studio.cli.model import keep_for_next_time, model_of
from studio.cli.search_options import Lightfast, WithoutHazard, wanted_of
from studio.cli.session import console, print_json, reading, tell, today
from studio.errors import BadInput

if TYPE_CHECKING:
    from studio.actions.painting.plan import Plan
    from studio.actions.reorder_stock import ShoppingList
    from studio.catalogue.painting import Painting as PaintingValue
    from studio.sheets.blocks import Page
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
    html: Annotated[
        Path | None, typer.Option(help="Write the plan sheet to this HTML file.")
    ] = None,
    pdf: Annotated[Path | None, typer.Option(help="Write the plan sheet to this PDF file.")] = None,
    png: Annotated[Path | None, typer.Option(help="Write the plan sheet to this PNG file.")] = None,
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
        with progress_bar(sys.stderr, "weighing mixes") as tell_share:
            planned = plan_painting(work, model, found, wanted, tell=tell_share)
        shopping = shopping_for(work, planned, today())
        written = []
        if html is not None or pdf is not None or png is not None:
            from studio.sheets.writing import write_page  # noqa: PLC0415

            page = _sheet(work, planned, shopping)
            written = write_page(page, html=html, pdf=pdf, png=png)
        keep_for_next_time(work, model)
    if as_json:
        from studio.sheets.plan_fields import plan_fields  # noqa: PLC0415

        print_json(plan_fields(planned, shopping))
    elif not written:
        from studio.sheets.plan_view import print_plan  # noqa: PLC0415

        print_plan(console(), planned, shopping)
    for path in written:
        tell(f"wrote {path}")


def _sheet(work: "UnitOfWork", planned: "Plan", shopping: "ShoppingList") -> "Page":
    """The plan sheet; a reference that is not to be had any more is said on it and told."""
    from studio.actions.painting.reference import open_reference  # noqa: PLC0415
    from studio.actions.target_grid import grid_of  # noqa: PLC0415
    from studio.sheets.picture_canvas import LONGEST  # noqa: PLC0415
    from studio.sheets.plan_page import marks_of, plan_page  # noqa: PLC0415
    from studio.sheets.plan_picture import plan_picture  # noqa: PLC0415

    painting = planned.painting
    drawn = said = None
    if painting.reference is not None:
        try:
            opened, said = open_reference(work, painting, 2 * LONGEST)
        except BadInput as error:
            said = str(error)
        else:
            grid = grid_of(opened.picture, (painting.width_mm, painting.height_mm))
            drawn = plan_picture(opened.picture, grid, marks_of(planned))
    if said is not None:
        tell(said)
    return plan_page(planned, shopping, drawn, said, today())


def found_painting(work: "UnitOfWork", name: str, within: float | None) -> "PaintingValue":
    """The painting of a name, with the tolerance that was asked for."""
    from dataclasses import replace  # noqa: PLC0415

    from studio.actions.painting.find_painting import find_painting  # noqa: PLC0415
    from studio.catalogue.checks import number  # noqa: PLC0415

    found = find_painting(work, name)
    if within is None:
        return found
    return replace(found, tolerance=number(within, "what passes", 0, 100))


@app.command("class")
def class_(
    context: typer.Context,
    painting: Painting,
    students: Annotated[int, typer.Option(help="How many paint it: 1 to 500.")],
    kind: Annotated[str, typer.Option(help="adults or children.")] = "adults",
    within: Within = None,
    in_stock: InStock = False,
    only: Only = None,
    without: Without = None,
    lightfast: Lightfast = None,
    without_hazard: WithoutHazard = None,
    html: Annotated[
        Path | None, typer.Option(help="Write the students' handout to this HTML file.")
    ] = None,
    pdf: Annotated[
        Path | None, typer.Option(help="Write the students' handout to this PDF file.")
    ] = None,
    png: Annotated[
        Path | None, typer.Option(help="Write the students' handout to this PNG file.")
    ] = None,
    as_json: Json = False,
) -> None:
    """Plan a painting for a class: supplies, substitutes, cautions, and a handout.

    What stays at home from such a class is planned around, or the passage is named. Children get
    wells of four parts at most; their handout bears no cautions, so those are printed here as well.
    Nothing is recorded.
    """
    from studio.actions.painting.plan_class import plan_class  # noqa: PLC0415
    from studio.catalogue.care import class_size, read_class_kind  # noqa: PLC0415
    from studio.sheets.progress import progress_bar  # noqa: PLC0415

    class_size(students)
    work_kind = read_class_kind(kind)
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
        with progress_bar(sys.stderr, "weighing mixes") as tell_share:
            planned = plan_class(
                work,
                model,
                found,
                wanted,
                students=students,
                kind=work_kind,
                today=today(),
                tell=tell_share,
            )
        keep_for_next_time(work, model)
    written = []
    if html is not None or pdf is not None or png is not None:
        from studio.sheets.class_handout import class_handout  # noqa: PLC0415
        from studio.sheets.writing import write_page  # noqa: PLC0415

        page = class_handout(planned, today())
        written = write_page(page, html=html, pdf=pdf, png=png)
    if as_json:
        from studio.sheets.class_plan_fields import class_plan_fields  # noqa: PLC0415

        print_json(class_plan_fields(planned))
    elif not written or planned.small is not None:
        from studio.sheets.class_plan_view import print_class_plan  # noqa: PLC0415

        print_class_plan(console(), planned)
    for path in written:
        tell(f"wrote {path}")

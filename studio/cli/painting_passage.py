"""studio painting passage add|edit|colour; painting_order.py moves and removes them."""

import re
from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Any

import typer

from studio.cli.session import console, tell, today, writing
from studio.errors import BadInput

if TYPE_CHECKING:
    from studio.catalogue.painting import Painting
    from studio.storage.unit_of_work import UnitOfWork

app = typer.Typer(no_args_is_help=True)

PaintingName = Annotated[
    str, typer.Argument(metavar="PAINTING", help="Code such as P3, title, or a part of it.")
]
Name = Annotated[
    str, typer.Argument(metavar="PASSAGE", help="Its name, or a part that fits only one.")
]
Technique = Annotated[
    str | None,
    typer.Option(help="flat wash, graded wash, wet in wet, dry brush, glaze, spatter or lifted."),
]
At = Annotated[
    list[str] | None,
    typer.Option(help="Pick from the reference picture: a point, 40%,62% or in pixels, 1200,850."),
]
Area = Annotated[
    list[str] | None,
    typer.Option(help="Pick: left, top, width, height in percent or pixels: 30%,55%,10%,5%."),
]
Cell = Annotated[
    list[str] | None, typer.Option(help='Pick: a cell of the grid or a part of it: "B3 top left".')
]
SpotSize = Annotated[
    str | None,
    typer.Option(
        "--size", help="Side of the square around --at: percent of the shorter side or pixels."
    ),
]
Cells = Annotated[int, typer.Option(help="Columns of the grid, and as many rows: 1 to 26.")]
Colour = Annotated[
    list[str] | None,
    typer.Option(
        help="#767d63, another CSS colour, Munsell, a swatch or a target; the main first."
    ),
]
Share = Annotated[
    str | None, typer.Option(help="How much of the painted area it covers, in percent: 12%.")
]
Layers = Annotated[int | None, typer.Option(help="Layers, each dry before the next; 1 by default.")]
Wait = Annotated[
    bool | None,
    typer.Option("--wait/--no-wait", help="Whether it has to dry before the next; it has to."),
]
Over = Annotated[str | None, typer.Option(help="The passage that it glazes or is lifted from.")]
Note = Annotated[str | None, typer.Option(help="Remarks.")]


@app.command()
def add(
    context: typer.Context,
    painting: PaintingName,
    name: Annotated[str, typer.Argument(metavar="PASSAGE", help='Its name: "far bank".')],
    technique: Technique = None,
    at: At = None,
    area: Area = None,
    cell: Cell = None,
    size: SpotSize = None,
    cells: Cells = 4,
    colour: Colour = None,
    share: Share = None,
    layers: Layers = None,
    wait: Wait = None,
    over: Over = None,
    before: Annotated[str | None, typer.Option(help="The passage it comes before.")] = None,
    after: Annotated[str | None, typer.Option(help="The passage it comes after.")] = None,
    first: Annotated[bool, typer.Option("--first", help="It comes first.")] = False,
    note: Note = None,
) -> None:
    """Add a passage, by default the last in the working order."""
    from studio.actions.painting.find_painting import (  # noqa: PLC0415
        find_passage,
        painting_in_the_making,
    )
    from studio.actions.painting.passages import add_passage, place_of  # noqa: PLC0415
    from studio.actions.painting.read_colours import TypedColours, read_colours  # noqa: PLC0415
    from studio.catalogue.checks import word  # noqa: PLC0415
    from studio.catalogue.painting import Passage  # noqa: PLC0415
    from studio.catalogue.swatch import Application  # noqa: PLC0415

    laid = word(technique or Application.FLAT_WASH, Application, "technique")
    covers = _share(share)
    typed = TypedColours(at or (), area or (), cell or (), size, cells, colour or ())
    with writing(context) as work:
        whole = painting_in_the_making(work, painting)
        place = place_of(whole, before=before, after=after, first=first)
        read = read_colours(work, whole, typed)
        passage = Passage(
            id=0,
            name=name,
            technique=laid,
            share=covers,
            layers=1 if layers is None else layers,
            dry_before_next=wait is not False,
            over=None if over is None else find_passage(whole, over).id,
            note=note,
        )
        changed = add_passage(work, whole, passage, read.colours, place)
        work.commit()
        for remark in read.remarks:
            tell(remark)
        show(work, changed)


@app.command()
def edit(
    context: typer.Context,
    painting: PaintingName,
    passage: Name,
    name: Annotated[str | None, typer.Option(help="What it is called.")] = None,
    technique: Technique = None,
    share: Annotated[
        str | None, typer.Option(help='How much of the painted area: 12%; "" for unknown.')
    ] = None,
    layers: Layers = None,
    wait: Wait = None,
    over: Annotated[
        str | None, typer.Option(help='The passage that it lies over; "" for bare paper.')
    ] = None,
    note: Annotated[str | None, typer.Option(help='Remarks; "" removes them.')] = None,
) -> None:
    """Correct a passage; its colours and its place stay."""
    from studio.actions.painting.find_painting import (  # noqa: PLC0415
        find_passage,
        painting_in_the_making,
    )
    from studio.actions.painting.passages import edit_passage  # noqa: PLC0415
    from studio.catalogue.checks import word  # noqa: PLC0415
    from studio.catalogue.swatch import Application  # noqa: PLC0415

    changes: dict[str, Any] = {
        "name": name,
        "technique": None if technique is None else word(technique, Application, "technique"),
        "layers": layers,
        "dry_before_next": wait,
        "note": note,
    }
    given = {field: value for field, value in changes.items() if value is not None}
    if share is not None:
        given["share"] = _share(share or None)
    if not given and over is None:
        msg = "say what to change: studio painting passage edit --help lists it"
        raise BadInput(msg)
    with writing(context) as work:
        whole = painting_in_the_making(work, painting)
        found = find_passage(whole, passage)
        if over is not None:
            given["over"] = find_passage(whole, over).id if over else None
        changed = edit_passage(work, whole, found, replace(found, **given))
        work.commit()
        show(work, changed)


@app.command()
def colour(
    context: typer.Context,
    painting: PaintingName,
    passage: Name,
    at: At = None,
    area: Area = None,
    cell: Cell = None,
    size: SpotSize = None,
    cells: Cells = 4,
    colour: Colour = None,
    drop: Annotated[
        int | None, typer.Option(help="Take the colour of this number out; it stays on record.")
    ] = None,
    restore: Annotated[
        int | None, typer.Option(help="Bring back a dropped colour, by its number among those.")
    ] = None,
) -> None:
    """Give a passage one more colour, or several; drop one, or bring it back."""
    from studio.actions.painting import passage_colours as colours  # noqa: PLC0415
    from studio.actions.painting.find_painting import (  # noqa: PLC0415
        find_passage,
        painting_in_the_making,
    )
    from studio.actions.painting.read_colours import TypedColours, read_colours  # noqa: PLC0415

    typed = TypedColours(at or (), area or (), cell or (), size, cells, colour or ())
    adds = typed.picks or bool(typed.colours) or size is not None
    if not adds and drop is None and restore is None:
        msg = "say which colour: --at 40%,62%, --area, --cell, --colour, or --drop NUMBER"
        raise BadInput(msg)
    if adds + (drop is not None) + (restore is not None) > 1:
        msg = "add colours, drop one or restore one; not two of these at once"
        raise BadInput(msg)
    remarks: tuple[str, ...] = ()
    with writing(context) as work:
        whole = painting_in_the_making(work, painting)
        found = find_passage(whole, passage)
        if drop is not None:
            colours.drop_colour(work, found, drop, today())
        elif restore is not None:
            colours.restore_colour(work, found, restore)
        else:
            read = read_colours(work, whole, typed)
            colours.add_colours(work, found, read.colours)
            remarks = read.remarks
        work.commit()
        for remark in remarks:
            tell(remark)
        show(work, work.paintings.by_id(whole.id))


def _share(text: str | None) -> float | None:
    """A share of the painted area typed in percent, as a fraction.

    Raises:
        BadInput: it is no number, or may have been meant as a fraction.
    """
    if text is None:
        return None
    found = re.fullmatch(r"\s*(\d+(?:[.,]\d+)?)\s*(%)?\s*", text)
    if found is None or (found[2] is None and float(found[1].replace(",", ".")) < 1):
        msg = f"the share {text!r} is not clear; write it in percent, such as 12%"
        raise BadInput(msg)
    return float(found[1].replace(",", ".")) / 100


def show(work: "UnitOfWork", painting: "Painting") -> None:
    """A painting as it stands after a change."""
    from studio.actions.painting.show_painting import shown_painting  # noqa: PLC0415
    from studio.sheets.painting_view import print_painting  # noqa: PLC0415

    print_painting(console(), shown_painting(work, painting))

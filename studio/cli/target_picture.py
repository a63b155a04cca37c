"""studio target pick|palette|grid: what looks at the reference picture."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from studio.cli import values
from studio.cli.session import console, print_json, reading, tell, today, writing
from studio.errors import BadInput

if TYPE_CHECKING:
    from studio.actions.open_picture import OpenPicture
    from studio.actions.target_palette import PaletteColour
    from studio.catalogue.named_target import NamedTarget

app = typer.Typer()

PictureFile = Annotated[
    Path, typer.Argument(metavar="PICTURE", help="The reference picture: JPEG, PNG, TIFF, …")
]
PaperOption = Annotated[
    str | None, typer.Option(help="The paper you paint on: the grid takes its proportions.")
]
Sheet = Annotated[str | None, typer.Option("--sheet", help="A sheet instead: 560x760mm, 22x30in.")]
Cells = Annotated[int, typer.Option(help="Columns of the grid, and as many rows: 1 to 26.")]
Note = Annotated[str | None, typer.Option(help="Remarks.")]
Json = Annotated[bool, typer.Option("--json", help="Print JSON.")]


@app.command()
def pick(
    context: typer.Context,
    picture: PictureFile,
    at: Annotated[
        str | None, typer.Option(help="A point in percent, 40%,62%, or in pixels, 1200,850.")
    ] = None,
    area: Annotated[
        str | None,
        typer.Option(help="Left, top, width, height in percent or pixels: 30%,55%,10%,5%."),
    ] = None,
    cell: Annotated[
        str | None,
        typer.Option(help='A cell of the grid or a part of it: B3, "B3 top left", "bottom half".'),
    ] = None,
    size: Annotated[
        str | None,
        typer.Option(
            help="Side of the square around --at: percent of the shorter side (2%) or pixels."
        ),
    ] = None,
    name: Annotated[
        str | None, typer.Option(help='Record it: "mud under the hull"; match takes the name.')
    ] = None,
    note: Note = None,
    paper: PaperOption = None,
    sheet: Sheet = None,
    cells: Cells = 4,
    as_json: Json = False,
) -> None:
    """Pick a colour from a spot of a reference picture, and tell whether paint reaches it."""
    from studio.actions.name_target import name_target  # noqa: PLC0415
    from studio.actions.open_picture import open_picture  # noqa: PLC0415
    from studio.actions.pick_target import choose_spot, pick_target  # noqa: PLC0415
    from studio.actions.target_grid import grid_of  # noqa: PLC0415

    if note is not None and name is None:
        msg = "a note is kept with a name; give --name as well"
        raise BadInput(msg)
    sides = _sides(context, paper, sheet)
    opened = open_picture(picture)
    grid = grid_of(opened.picture, sides, cells)
    spot = choose_spot(opened.picture, grid, at=at, area=area, cell=cell, size=size)
    named = None
    with reading(context) if name is None else writing(context, create=True) as work:
        picked = pick_target(work, opened, spot, grid)
        if name is not None:
            named = name_target(
                work,
                name,
                picked.lab,
                today=today(),
                spread=picked.spread,
                place=picked.place,
                picture=work.files.keep(opened.picture.name, opened.content, today()),
                note=note,
            )
            work.commit()
    if as_json:
        from studio.sheets.picked_fields import picked_fields  # noqa: PLC0415

        print_json(picked_fields(opened.picture, picked, named))
        return
    from studio.sheets.picked_view import print_picked  # noqa: PLC0415

    print_picked(console(), opened.picture, picked, named)


@app.command()
def palette(
    context: typer.Context,
    picture: PictureFile,
    count: Annotated[int, typer.Option("--count", "-n", help="How many colours: 1 to 40.")] = 8,
    seed: Annotated[
        int, typer.Option(help="Another start of the clustering; the same seed repeats itself.")
    ] = 0,
    name: Annotated[
        str | None, typer.Option(help='Record them all: "creek" makes creek 1, creek 2, …')
    ] = None,
    png: Annotated[
        Path | None, typer.Option(help="Draw picture, places and patches into this PNG file.")
    ] = None,
    paper: PaperOption = None,
    sheet: Sheet = None,
    cells: Cells = 4,
    as_json: Json = False,
) -> None:
    """List a picture's main colours, their share of it and where each lies."""
    from studio.actions.open_picture import open_picture  # noqa: PLC0415
    from studio.actions.target_grid import grid_of  # noqa: PLC0415
    from studio.actions.target_palette import name_palette, target_palette  # noqa: PLC0415
    from studio.catalogue.checks import number  # noqa: PLC0415

    start = int(number(seed, "the seed", 0, 2**32 - 1))
    sides = _sides(context, paper, sheet)
    opened = open_picture(picture)
    grid = grid_of(opened.picture, sides, cells)
    named: tuple[NamedTarget, ...] = ()
    with reading(context) if name is None else writing(context, create=True) as work:
        colours = target_palette(work, opened, grid, count, start)
        if name is not None:
            named = name_palette(work, opened, colours, name, today())
        if png is not None:
            _draw_palette(png, opened, colours)
        if name is not None:
            work.commit()
    if as_json:
        from studio.sheets.picked_fields import palette_fields  # noqa: PLC0415

        print_json(palette_fields(opened.picture, grid, start, colours, named))
        return
    from studio.sheets.picked_view import print_palette  # noqa: PLC0415

    print_palette(console(), opened.picture, colours, named)


@app.command()
def grid(
    context: typer.Context,
    picture: PictureFile,
    paper: PaperOption = None,
    sheet: Annotated[
        str | None,
        typer.Option("--sheet", "--size", help="A sheet instead: 560x760mm, 22x30in."),
    ] = None,
    cells: Cells = 4,
    png: Annotated[
        Path | None, typer.Option(help="Draw the picture with its grid into this PNG file.")
    ] = None,
    pdf: Annotated[
        Path | None, typer.Option(help="Write the blank grid of the sheet, at true size.")
    ] = None,
    as_json: Json = False,
) -> None:
    """Square up a picture for a paper: grid over the picture, and at true size for the sheet."""
    from studio.actions.open_picture import open_picture  # noqa: PLC0415
    from studio.actions.target_grid import grid_of  # noqa: PLC0415
    from studio.picture.grid import turned  # noqa: PLC0415

    sides = _sides(context, paper, sheet)
    if sides is None:
        msg = "name the paper you paint on with --paper, or give its size: --sheet 560x760mm"
        raise BadInput(msg)
    opened = open_picture(picture)
    squared = grid_of(opened.picture, sides, cells)
    said = _paper_name(context, paper) if sheet is None else "the sheet"
    across, down = turned(sides, landscape=opened.picture.width >= opened.picture.height)
    drawn: list[tuple[Path, bytes]] = []
    if png is not None:
        from studio.sheets.grid_picture import grid_picture  # noqa: PLC0415

        drawn.append((png, grid_picture(opened.picture, squared, sides, said)))
    if pdf is not None:
        from studio.sheets.grid_pdf import grid_pdf  # noqa: PLC0415

        drawn.append((pdf, grid_pdf(across, down, cells, said)))
    for path, content in drawn:
        from studio.sheets.writing import write_bytes  # noqa: PLC0415

        write_bytes(path, content)
        tell(f"wrote {path}")
    from studio.sheets.picked_fields import grid_fields  # noqa: PLC0415

    if as_json:
        print_json(grid_fields(opened.picture, squared, sides))
        return
    from studio.sheets.picked_view import print_grid  # noqa: PLC0415

    print_grid(console(), opened.picture, squared, (across, down), said)


def _sides(
    context: typer.Context, paper: str | None, sheet: str | None
) -> tuple[float, float] | None:
    """The sides (mm) of the sheet that --paper or --sheet names; None where neither is given."""
    from studio.actions.find import find_paper  # noqa: PLC0415
    from studio.actions.target_grid import checked_sheet, sheet_of  # noqa: PLC0415

    width, height = values.sheet_size(sheet)
    if width is not None and height is not None:
        return checked_sheet((width, height))
    if paper is None:
        return None
    with reading(context) as work:
        return sheet_of(find_paper(work, paper))


def _paper_name(context: typer.Context, paper: str | None) -> str:
    from studio.actions.find import find_paper  # noqa: PLC0415

    with reading(context) as work:
        return find_paper(work, paper or "").facts.full_name


def _draw_palette(png: Path, opened: "OpenPicture", colours: "tuple[PaletteColour, ...]") -> None:
    from studio.sheets.palette_picture import palette_picture  # noqa: PLC0415
    from studio.sheets.writing import write_bytes  # noqa: PLC0415

    write_bytes(png, palette_picture(opened.picture, colours))
    tell(f"wrote {png}")

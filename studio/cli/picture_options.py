"""studio swatch log|read --picture: swatches in a picture, by a chart, a grey card or the paper."""

from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from studio.cli.reading_options import ReadingOptions, told
from studio.cli.session import console, print_json, reading, tell, today, writing
from studio.errors import BadInput, ExitStatus

if TYPE_CHECKING:
    from studio.actions.make_reading import Circumstances
    from studio.actions.open_picture import OpenPicture
    from studio.actions.read_picture import KnownColours, PictureReading
    from studio.actions.taken_readings import TakenReadings
    from studio.catalogue.paper import Paper
    from studio.storage.unit_of_work import UnitOfWork

Picture = Annotated[
    Path | None, typer.Option("--picture", help="A photograph or scan that holds the swatches.")
]
Chart = Annotated[
    str | None,
    typer.Option(
        help="The colour chart in it: 24 (24-older: made before November 2014), or the CGATS file "
        "that came with the chart, such as an ISO 12641 target."
    ),
]
Corners = Annotated[
    str | None,
    typer.Option(
        help="Outer corners of the chart's corner patches, clockwise from its top left, in pixels "
        'or percent: "120,80 1480,95 1470,990 110,975"; looked for where left out.'
    ),
]
Area = Annotated[
    list[str] | None,
    typer.Option(
        help="Where a swatch lies: S12=60,500,70,80 (left, top, width, height; pixels or percent); "
        "once for each swatch."
    ),
]
Grey = Annotated[
    str | None,
    typer.Option(help="Without a chart: where a grey card lies, as in --area; a larger error."),
]
Reflectance = Annotated[
    float | None, typer.Option("--reflectance", help="Of the grey card, percent; 18 by default.")
]
White = Annotated[
    list[str] | None,
    typer.Option(
        help="Bare paper, as in --area. Three or more tell how the light falls off; without a "
        "chart the paper's recorded white is what the picture is read by, with a larger error."
    ),
]
Annotate = Annotated[
    Path | None, typer.Option(help="Write the picture with what was read drawn on it, as PNG.")
]


@dataclass(frozen=True, slots=True)
class PictureOptions:
    """The options of a picture as they were typed; the names are those of the options."""

    picture: Path | None = None
    chart: str | None = None
    corners: str | None = None
    area: list[str] | None = field(default=None)
    grey: str | None = None
    reflectance: float | None = None
    white: list[str] | None = field(default=None)
    annotate: Path | None = None

    @property
    def is_given(self) -> bool:
        """True with --picture.

        Raises:
            BadInput: there is an option of a picture, but no picture.
        """
        if self.picture is not None:
            return True
        given = [
            f"--{name}"
            for name in ("chart", "corners", "area", "grey", "reflectance", "white", "annotate")
            if getattr(self, name)
        ]
        if given:
            msg = f"{given[0]} belongs to a picture; give the picture with --picture"
            raise BadInput(msg)
        return False


def read_areas(
    context: typer.Context,
    typed: PictureOptions,
    options: ReadingOptions,
    *,
    code: str | None,
    dry_run: bool,
    as_json: bool,
) -> None:
    """Add a reading of each area to the swatch it is named for, or show what would be added.

    Raises:
        typer.Exit: status 6, after all else is done, where an area could not be read.
    """
    from studio.actions.find import find_swatch  # noqa: PLC0415
    from studio.actions.open_picture import open_picture  # noqa: PLC0415
    from studio.actions.picture_places import areas_of  # noqa: PLC0415
    from studio.actions.read_picture import read_picture, record_picture  # noqa: PLC0415
    from studio.sheets import picture_reading_view as view  # noqa: PLC0415

    how = _circumstances(options)
    opened = open_picture(_path(typed))
    areas = areas_of(typed.area or (), code, opened.picture)
    with reading(context) as work:
        swatches = [find_swatch(work, name) for name, _ in areas]
        papers = {swatch.paper_id: work.papers.by_id(swatch.paper_id) for swatch in swatches}
    known = _known(typed, opened, [paper for paper in papers.values() if paper is not None])
    read = read_picture(opened, areas, known)
    recorded: list[str] = []
    if dry_run:
        _annotate(typed, read)
    else:
        with writing(context) as work:
            changed, remarks = record_picture(work, read, how, today())
            _annotate(typed, read)
            work.commit()
        recorded = [swatch.facts.code for swatch in changed]
        for remark in remarks:
            tell(remark)
    if as_json:
        print_json(view.picture_reading_fields(read, recorded))
    else:
        view.show_picture_reading(console(), read)
    if dry_run:
        tell("nothing was recorded (--dry-run)")
    elif recorded:
        tell(f"recorded for {', '.join(recorded)}")
    if read.unread:
        names = ", ".join(dict.fromkeys(left.name for left in read.unread))
        tell(f"not read: {names}; the reasons stand beside the readings")
        raise typer.Exit(ExitStatus.PARTLY_IMPORTED)


def taken_from_picture(
    work: "UnitOfWork", typed: PictureOptions, options: ReadingOptions, paper: "Paper"
) -> "TakenReadings":
    """The reading of a new swatch from its one area; the picture is recorded with it.

    Raises:
        BadInput: there are several areas, or the picture cannot be read.
    """
    from studio.actions.open_picture import open_picture  # noqa: PLC0415
    from studio.actions.picture_places import areas_of  # noqa: PLC0415
    from studio.actions.read_picture import NEW, read_picture, take_area  # noqa: PLC0415
    from studio.sheets.picture_words import basis_lines  # noqa: PLC0415

    if len(typed.area or ()) > 1:
        msg = "one swatch is logged at a time; give one --area: 60,500,70,80"
        raise BadInput(msg)
    how = _circumstances(options)
    opened = open_picture(_path(typed))
    areas = areas_of(typed.area or (), NEW, opened.picture)
    read = read_picture(opened, areas, _known(typed, opened, [paper]))
    taken = take_area(work, read, how, today(), tuple(basis_lines(read)))
    _annotate(typed, read)
    return taken


def _path(typed: PictureOptions) -> Path:
    assert typed.picture is not None  # noqa: S101 - `is_given` was asked
    return typed.picture


def _circumstances(options: ReadingOptions) -> "Circumstances":
    """How a picture is read: by a camera, unless a scanner is named; the error is its own.

    Raises:
        BadInput: an option gives a colour, an error or a condition of its own.
    """
    from studio.actions.make_reading import Circumstances  # noqa: PLC0415
    from studio.catalogue.reading import Method  # noqa: PLC0415

    others = ("lab", "colour", "spectrum", "file", "sample", "illuminant", "observer", "condition")
    for name in (*others, "error"):
        if getattr(options, name) is not None:
            msg = f"a picture gives colour and error itself; leave out --{name}"
            raise BadInput(msg)
    say = told(options)
    if say.method not in {None, Method.CAMERA, Method.SCANNER}:
        msg = f"a picture is read by camera or scanner, not by {say.method}; give one as --method"
        raise BadInput(msg)
    return Circumstances(
        read_on=say.read_on or today(),
        method=say.method or Method.CAMERA,
        state=say.state,
        instrument=say.instrument,
        geometry=say.geometry,
        backing=say.backing,
    )


def _known(typed: PictureOptions, opened: "OpenPicture", papers: "list[Paper]") -> "KnownColours":
    """What has a known colour in the picture.

    Raises:
        BadInput: both a chart and a grey card are given, a place is not clear, or the swatches lie
            on papers of different white.
    """
    from studio.actions.chart_file import open_chart  # noqa: PLC0415
    from studio.actions.picture_places import corners_of  # noqa: PLC0415
    from studio.actions.read_picture import GREY, KnownColours, white_of  # noqa: PLC0415
    from studio.catalogue.checks import number  # noqa: PLC0415
    from studio.picture.spots import spot_of_area  # noqa: PLC0415

    picture = opened.picture
    size = picture.width, picture.height
    if typed.grey and (typed.chart or typed.white):
        msg = "give --grey alone; a chart or the paper's white says more"
        raise BadInput(msg)
    if not typed.chart and typed.corners:
        msg = "--corners are those of a chart; name it with --chart"
        raise BadInput(msg)
    if typed.reflectance is not None and not typed.grey:
        msg = "--reflectance is that of a grey card; say where it lies with --grey"
        raise BadInput(msg)
    white = None
    if typed.white and not typed.chart:
        if len(papers) > 1:
            msg = "the swatches lie on different papers; read those on each paper by themselves"
            raise BadInput(msg)
        white = white_of(papers[0])
    reflectance = GREY if typed.reflectance is None else typed.reflectance
    return KnownColours(
        chart=open_chart(typed.chart) if typed.chart else None,
        corners=corners_of(typed.corners, picture) if typed.corners else None,
        grey=spot_of_area(typed.grey, *size) if typed.grey else None,
        reflectance=number(reflectance, "the grey card's reflectance in percent", 1, 99),
        whites=tuple(spot_of_area(text, *size) for text in typed.white or ()),
        white=white,
    )


def _annotate(typed: PictureOptions, read: "PictureReading") -> None:
    if typed.annotate is None:
        return
    from studio.sheets.reading_picture import reading_picture  # noqa: PLC0415
    from studio.sheets.writing import write_bytes  # noqa: PLC0415

    write_bytes(typed.annotate, reading_picture(read))

"""The painter's grid over a reference picture and over the paper that it is painted on."""

from studio.catalogue.checks import number
from studio.catalogue.paper import Paper
from studio.errors import BadInput
from studio.picture.decoding import Picture
from studio.picture.grid import CELLS, Grid, kept_area


def grid_of(picture: Picture, sheet: tuple[float, float] | None = None, cells: int = CELLS) -> Grid:
    """The painter's grid over a picture, on the part that a sheet (sides in mm) has room for.

    Raises:
        BadInput: there are too few or too many cells.
    """
    return Grid(kept_area(picture.width, picture.height, sheet), cells)


def sheet_of(paper: Paper) -> tuple[float, float]:
    """The two sides of a paper's sheet, mm.

    Raises:
        BadInput: they are not on record.
    """
    facts = paper.facts
    if facts.sheet_width_mm is None or facts.sheet_height_mm is None:
        msg = (
            f"the sheet size of {facts.full_name} is not on record; set it with: studio paper edit "
            f"{facts.code} --size 560x760mm, or give --sheet 560x760mm"
        )
        raise BadInput(msg)
    return facts.sheet_width_mm, facts.sheet_height_mm


def checked_sheet(sheet: tuple[float, float]) -> tuple[float, float]:
    """The two sides of a typed sheet, mm.

    Raises:
        BadInput: one of them is no side of a sheet of paper.
    """
    for side in sheet:
        number(side, "each side of the sheet in mm", 10, 5000)
    return sheet

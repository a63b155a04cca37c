"""Pick a colour to be matched from a spot of the reference picture."""

from dataclasses import dataclass
from typing import Final

from studio.actions.match_colour import Match
from studio.actions.open_picture import OpenPicture
from studio.actions.reach import Reach, nearest_swatch, reach_of
from studio.colour.lab import Lab
from studio.errors import BadInput
from studio.picture.decoding import Picture
from studio.picture.grid import Grid
from studio.picture.lattice import lattice
from studio.picture.spots import (
    SIZE,
    Spot,
    colour_of_spot,
    spot_at,
    spot_of_area,
    spot_of_cell,
)
from studio.storage.unit_of_work import UnitOfWork

_MOST_PIXELS: Final = 20_000
"""Of a larger spot every second, third, … row and column is read."""


@dataclass(frozen=True, slots=True)
class Picked:
    """A colour that was picked.

    Args:
        lab: under D50 for 2 degrees.
        spot: the pixels it stands for.
        spread: mean ΔE00 of the pixels from it.
        is_varied: whether that is more than one colour should vary.
        cell: the quarter of the grid's cell that the middle of the spot lies in; None off the grid.
        reach: whether paint on paper has reached it.
        nearest: the recorded mix nearest to it; None without dry swatches.
    """

    lab: Lab
    spot: Spot
    spread: float
    is_varied: bool
    cell: str | None
    reach: Reach
    nearest: Match | None

    @property
    def place(self) -> str:
        """Where it was taken, as it is recorded."""
        return f"{self.spot.place}, {self.spot.width} x {self.spot.height} px"


def choose_spot(  # noqa: PLR0913 - three ways of pointing
    picture: Picture,
    grid: Grid,
    *,
    at: str | None,
    area: str | None,
    cell: str | None,
    size: str | None,
) -> Spot:
    """The spot that one of three ways of pointing names.

    Raises:
        BadInput: none or several are given, or the spot is not in the picture.
    """
    if [at, area, cell].count(None) != 2:  # noqa: PLR2004 - one of three is given
        msg = (
            "say where to pick, by one of: --at 40%,62% (or pixels), --area 30%,55%,10%,5%, "
            '--cell "B3 top left"'
        )
        raise BadInput(msg)
    if size is not None and at is None:
        msg = "--size is the square around a point; it goes with --at alone"
        raise BadInput(msg)
    if at is not None:
        return spot_at(at, size or SIZE, picture.width, picture.height)
    if area is not None:
        return spot_of_area(area, picture.width, picture.height)
    return spot_of_cell(cell or "", grid)


def pick_target(work: UnitOfWork, opened: OpenPicture, spot: Spot, grid: Grid) -> Picked:
    """The colour that stands for a spot, and whether paint reaches it."""
    labs = lattice(opened.picture, spot, _MOST_PIXELS)
    found = colour_of_spot(labs.reshape(-1, 3))
    lab = as_lab(found.lab)
    (reach,) = reach_of(work, [lab])
    cell = grid.quarter_at(*spot.middle)
    return Picked(
        lab=lab,
        spot=spot,
        spread=found.spread,
        is_varied=found.is_varied,
        cell=cell.name if cell else None,
        reach=reach,
        nearest=nearest_swatch(work, lab),
    )


def as_lab(coordinates: tuple[float, float, float]) -> Lab:
    """A colour of a picture; profiles may leave L* 0 to 100 by a hair."""
    lightness, a, b = coordinates
    return Lab(min(100.0, max(0.0, lightness)), a, b)

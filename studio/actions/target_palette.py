"""The main colours of a reference picture, each a target to be matched."""

from dataclasses import dataclass
from datetime import date
from typing import Final

from studio.actions.name_target import name_target
from studio.actions.open_picture import OpenPicture
from studio.actions.pick_target import as_lab
from studio.actions.reach import Reach, reach_of
from studio.catalogue.named_target import NamedTarget
from studio.colour.lab import Lab
from studio.picture.grid import Grid
from studio.picture.lattice import lattice
from studio.picture.palette import main_colours
from studio.picture.spots import Spot
from studio.storage.unit_of_work import UnitOfWork

_LATTICE: Final = 25_000
"""Pixels that are looked at, evenly spread; the shares are good to about a percent."""


@dataclass(frozen=True, slots=True)
class PaletteColour:
    """A main colour of a picture.

    Args:
        lab: under D50 for 2 degrees.
        spread: mean ΔE00 of its pixels from it.
        share: of the area, 0 to 1.
        x: of the place farthest inside its largest part, percent of the picture's width.
        y: the same, percent of its height.
        cell: the quarter of the grid's cell that this place lies in.
        reach: whether paint on paper has reached it.
    """

    lab: Lab
    spread: float
    share: float
    x: float
    y: float
    cell: str
    reach: Reach

    @property
    def place(self) -> str:
        """The place as `target pick --at` takes it."""
        return f"{self.x:.1f}%,{self.y:.1f}%"


def target_palette(
    work: UnitOfWork, opened: OpenPicture, grid: Grid, count: int, seed: int = 0
) -> tuple[PaletteColour, ...]:
    """The main colours of the part of a picture under the grid, the largest first.

    Args:
        work: the studio.
        opened: the picture.
        grid: what is looked at, and how its places are called.
        count: how many colours.
        seed: of the clustering's random starts; the same seed gives the same colours.

    Raises:
        BadInput: there are not so many different colours.
    """
    picture = opened.picture
    area = grid.area
    kept = Spot(*area.whole_pixels, "the part under the grid")
    colours = main_colours(lattice(picture, kept, _LATTICE), count, seed)
    labs = [as_lab(colour.lab) for colour in colours]
    found = []
    for colour, lab, reach in zip(colours, labs, reach_of(work, labs), strict=True):
        x, y = area.left + colour.x * area.width, area.top + colour.y * area.height
        cell = grid.quarter_at(x, y)
        found.append(
            PaletteColour(
                lab=lab,
                spread=colour.spread,
                share=colour.share,
                x=100 * x / picture.width,
                y=100 * y / picture.height,
                cell=cell.name if cell else "",
                reach=reach,
            )
        )
    return tuple(found)


def name_palette(
    work: UnitOfWork,
    opened: OpenPicture,
    colours: tuple[PaletteColour, ...],
    prefix: str,
    today: date,
) -> tuple[NamedTarget, ...]:
    """Record every colour as a target: `prefix 1` and so on.

    Raises:
        BadInput: one of the names is taken.
    """
    file = work.files.keep(opened.picture.name, opened.content, today)
    return tuple(
        name_target(
            work,
            f"{prefix} {number}",
            colour.lab,
            today=today,
            spread=colour.spread,
            place=f"at {colour.place}, {100 * colour.share:.0f} % of the picture",
            picture=file,
        )
        for number, colour in enumerate(colours, start=1)
    )

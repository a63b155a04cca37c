"""Pick the colours of a passage from the reference picture of its painting."""

from studio.actions.painting.read_colours import TypedColours
from studio.actions.painting.reference import open_reference
from studio.actions.pick_target import Picked, choose_spot, pick_target
from studio.actions.target_grid import grid_of
from studio.catalogue.painting import Painting, PassageColour
from studio.storage.unit_of_work import UnitOfWork


def pick_colours(
    work: UnitOfWork, painting: Painting, typed: TypedColours
) -> tuple[tuple[PassageColour, ...], tuple[str, ...]]:
    """The colours of some places of a reference picture, and what to know of them.

    Raises:
        BadInput: a place is not clear or not in the picture, or the picture is not there.
    """
    opened, remark = open_reference(work, painting)
    picture = opened.picture
    grid = grid_of(picture, (painting.width_mm, painting.height_mm), typed.columns)
    spots = [
        *(
            choose_spot(picture, grid, at=each, area=None, cell=None, size=typed.size)
            for each in typed.at
        ),
        *(
            choose_spot(picture, grid, at=None, area=each, cell=None, size=None)
            for each in typed.areas
        ),
        *(
            choose_spot(picture, grid, at=None, area=None, cell=each, size=None)
            for each in typed.cells
        ),
    ]
    picks = [pick_target(work, opened, spot, grid) for spot in spots]
    colours = tuple(
        PassageColour(
            0,
            each.lab,
            place=each.place,
            at=(each.spot.middle[0] / picture.width, each.spot.middle[1] / picture.height),
            spread=each.spread,
            picture=painting.reference,
        )
        for each in picks
    )
    remarks = tuple(_varied(each) for each in picks if each.is_varied)
    return colours, (*([remark] if remark else []), *remarks)


def _varied(picked: Picked) -> str:
    return (
        f"what was picked {picked.place} varies by ΔE00 {picked.spread:.1f} (mean): pick a "
        "smaller or more even spot"
    )

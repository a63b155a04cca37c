"""What was picked from a picture, its main colours and its grid, as JSON; see README.md."""

from collections.abc import Sequence

from studio.actions.pick_target import Picked
from studio.actions.target_palette import PaletteColour
from studio.catalogue.named_target import NamedTarget
from studio.picture.decoding import Picture
from studio.picture.grid import Grid, turned
from studio.sheets.fields import Fields
from studio.sheets.target_fields import colour_fields, nearest_fields, reach_fields


def picture_fields(picture: Picture) -> Fields:
    """A picture with its size in pixels and what had to be taken for granted."""
    return {
        "name": picture.name,
        "width": picture.width,
        "height": picture.height,
        "notes": list(picture.notes),
    }


def picked_fields(picture: Picture, picked: Picked, named: NamedTarget | None) -> Fields:
    """A picked colour; `target` is its name where it was recorded."""
    spot = picked.spot
    return {
        "target": named.name if named else None,
        "picture": picture_fields(picture),
        **colour_fields(picked.lab),
        "spread_delta_e": round(picked.spread, 4),
        "varied": picked.is_varied,
        "place": picked.place,
        "spot": _box((spot.left, spot.top, spot.width, spot.height)),
        "cell": picked.cell,
        "reach": reach_fields(picked.reach),
        "nearest": nearest_fields(picked.lab, picked.nearest),
    }


def palette_fields(
    picture: Picture,
    grid: Grid,
    seed: int,
    colours: Sequence[PaletteColour],
    named: Sequence[NamedTarget],
) -> Fields:
    """The main colours of a picture, the largest first."""
    names: list[str | None] = [target.name for target in named] or [None] * len(colours)
    return {
        "picture": picture_fields(picture),
        "kept": _box(grid.area.whole_pixels),
        "seed": seed,
        "colours": [
            {
                "target": name,
                **colour_fields(colour.lab),
                "share": round(colour.share, 6),
                "spread_delta_e": round(colour.spread, 4),
                "x_percent": round(colour.x, 2),
                "y_percent": round(colour.y, 2),
                "cell": colour.cell,
                "reach": reach_fields(colour.reach),
            }
            for name, colour in zip(names, colours, strict=True)
        ],
    }


def grid_fields(picture: Picture, grid: Grid, sheet: tuple[float, float]) -> Fields:
    """A grid over a picture and over a sheet that is turned as the picture lies."""
    across, down = turned(sheet, landscape=picture.width >= picture.height)
    return {
        "picture": picture_fields(picture),
        "kept": _box(grid.area.whole_pixels),
        "cells": grid.cells,
        "sheet_width_mm": across,
        "sheet_height_mm": down,
        "cell_width_mm": round(across / grid.cells, 2),
        "cell_height_mm": round(down / grid.cells, 2),
    }


def _box(box: tuple[int, int, int, int]) -> Fields:
    left, top, width, height = box
    return {"left": left, "top": top, "width": width, "height": height}

"""The colour plane in the terminal and as JSON."""

import math
from typing import Final

from rich.console import Console
from rich.text import Text

from studio.actions.colour_plane import ColourPlane, Point
from studio.colour.words import NEUTRAL_CHROMA
from studio.sheets.chart_words import counted, used_papers_text
from studio.sheets.fields import Fields
from studio.sheets.screen import indented, legend, patch, print_parts, print_table, signed
from studio.sheets.tables import plain_table
from studio.sheets.target_fields import colour_fields, nearest_fields, reach_fields
from studio.sheets.target_view import print_colour, print_reach

SECTOR: Final = 30
"""Degrees of hue in a row."""


def print_plane(console: Console, plane: ColourPlane) -> None:
    """How many swatches each hue has, and its most intense, darkest and lightest one."""
    count = counted(len(plane.points), "swatch", "swatches")
    indented(console, f"{count} by hue, measured under D50/2°", 0, "bold")
    indented(console, f"{used_papers_text(plane.papers.values())}.", 0, "dim")
    table = plain_table("hue h", "swatches", "most intense", "", "C*", "L*", "L* range", right={1})
    shown = []
    for name, points in _sectors(plane):
        best = max(points, key=lambda point: point.lab.chroma)
        shown.append(best.lab)
        lightness = [point.lab.lightness for point in points]
        table.add_row(
            name,
            str(len(points)),
            patch(console, best.lab),
            best.code,
            f"{best.lab.chroma:.0f}",
            f"{best.lab.lightness:.0f}",
            f"{min(lightness):.0f} to {max(lightness):.0f}",
        )
    print_table(console, table)
    by_value = sorted(plane.points, key=lambda point: point.lab.lightness)
    for word, point in (("darkest", by_value[0]), ("lightest", by_value[-1])):
        shown.append(point.lab)
        parts: list[Text | str] = [patch(console, point.lab), point.code, _numbers(point)]
        print_parts(console, f"{word:<9}", parts, 9)
    if plane.target is not None and plane.reach is not None:
        shown.append(plane.target.lab)
        print_colour(console, plane.target.given, plane.target.lab)
        print_reach(console, plane.target.lab, plane.reach, plane.nearest)
    note = legend(console, *shown)
    if note:
        indented(console, note, 0, "dim")


def plane_fields(plane: ColourPlane) -> Fields:
    """The same as JSON; README.md documents the names."""
    target = plane.target
    return {
        "papers": [paper.facts.code for paper, _ in plane.papers.values()],
        "target": None if target is None else {"given": target.given, **colour_fields(target.lab)},
        "nearest": None if target is None else nearest_fields(target.lab, plane.nearest),
        "reach": None if plane.reach is None else reach_fields(plane.reach),
        "chroma_by_hue": [round(chroma, 2) for chroma in plane.by_hue],
        "chroma_by_lightness": [round(chroma, 2) for chroma in plane.by_lightness],
        "swatches": [
            {"swatch": point.code, **colour_fields(point.lab), "chroma": round(point.lab.chroma, 4)}
            for point in plane.points
        ],
    }


def _sectors(plane: ColourPlane) -> list[tuple[str, list[Point]]]:
    rows: dict[str, list[Point]] = {
        f"{start} to {start + SECTOR}°": [] for start in range(0, 360, SECTOR)
    }
    rows[f"grey, C* below {NEUTRAL_CHROMA:g}"] = grey = []
    names = list(rows)
    for point in plane.points:
        if point.lab.chroma < NEUTRAL_CHROMA:
            grey.append(point)
        else:
            rows[names[math.floor(point.lab.hue / SECTOR)]].append(point)
    return [(name, points) for name, points in rows.items() if points]


def _numbers(point: Point) -> str:
    lab = point.lab
    return f"L* {lab.lightness:.1f}  a* {signed(lab.a)}  b* {signed(lab.b)}"

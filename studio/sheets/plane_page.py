"""The colour plane as a page for a browser."""

from datetime import date
from typing import Final

from studio.actions.colour_plane import ColourPlane
from studio.sheets.blocks import Block, Grid, Heading, Page, Paragraph
from studio.sheets.chart_page import chart_page
from studio.sheets.page_parts import starred
from studio.sheets.plane_chart import lead_of, notes_of, target_text, title_of
from studio.sheets.screen import signed

_COLUMNS: Final = ("swatch", "L*", "a*", "b*", "C*", "h")


def plane_page(plane: ColourPlane, png: bytes, day: date) -> Page:
    """The plane with a table of every swatch, in the order they were recorded."""
    blocks: list[Block] = [Paragraph(note, small=True) for note in notes_of(plane)]
    target = target_text(plane)
    if target:
        blocks.insert(0, Paragraph(target))
    rows = tuple(
        (
            starred(point.code, point.lab),
            f"{point.lab.lightness:.1f}",
            signed(point.lab.a),
            signed(point.lab.b),
            f"{point.lab.chroma:.1f}",
            f"{round(point.lab.hue) % 360}°",
        )
        for point in plane.points
    )
    chips = tuple((point.lab,) for point in plane.points)
    numbers = frozenset(range(1, len(_COLUMNS)))
    blocks += [Heading("Swatches"), Grid(_COLUMNS, rows, numbers=numbers, chips=chips)]
    return chart_page(
        title=title_of(plane),
        lead=lead_of(plane),
        png=png,
        instead=_instead(plane, target),
        values=blocks,
        day=day,
    )


def _instead(plane: ColourPlane, target: str) -> str:
    intense = max(plane.points, key=lambda point: point.lab.chroma)
    by_value = sorted(plane.points, key=lambda point: point.lab.lightness)
    darkest, lightest = by_value[0], by_value[-1]
    return (
        "Every swatch as a point at its a* and b*, and beside it at its value and chroma. The most "
        f"intense is {intense.code}, C* {intense.lab.chroma:.0f} at h {intense.lab.hue:.0f}°; the "
        f"darkest {darkest.code}, L* {darkest.lab.lightness:.0f}; the lightest {lightest.code}, "
        f"L* {lightest.lab.lightness:.0f}. {target}"
    ).strip()

"""A picture with what was read drawn on it, so that a person can check it with their eyes."""

from collections.abc import Sequence
from typing import Final

import numpy as np

from studio.actions.read_picture import PictureReading
from studio.colour.display import on_screen
from studio.colour.lab import Lab
from studio.colour.lab_arrays import Floats
from studio.picture.area_reading import AreaReading
from studio.picture.chart_reading import ChartReading
from studio.picture.spots import Spot
from studio.sheets.picture_canvas import QUIET, Canvas, font, wrapped
from studio.sheets.picture_words import basis_lines, error_words
from studio.sheets.screen import OUTSIDE

_MARGIN: Final = 60
_LINE: Final = 34
_TEXT: Final = 24
_LABEL: Final = 22
_REFUSED: Final = (200, 0, 0)
_SWATCH: Final = (90, 70)

Ink = tuple[int, int, int]


def reading_picture(read: PictureReading) -> bytes:
    """A PNG of the picture with the chart, its patches and the swatch areas as they were read.

    In the middle of each patch that counts stands what it should be (right) beside what it reads
    as (left); one that was left out is crossed. Each area bears its name and, below the picture,
    its colour as it was read.
    """
    picture = read.opened.picture
    canvas = Canvas(picture, _MARGIN)
    scale = canvas.width / picture.width
    right, bottom = _MARGIN + canvas.width, _MARGIN + canvas.height
    canvas.draw.rectangle((_MARGIN - 1, _MARGIN - 1, right, bottom), outline=QUIET)
    if isinstance(read.basis, ChartReading):
        _draw_chart(canvas, read.basis, scale)
    else:
        for spot in read.basis.spots:
            _draw_spot(canvas, spot, "known", scale)
    for area in read.areas:
        _draw_spot(canvas, area.spot, area.name, scale)
    for left in read.unread:
        _draw_spot(canvas, left.spot, f"{left.name}: not read", scale)
    _write_below(canvas, read)
    return canvas.png()


def _draw_chart(canvas: Canvas, chart: ChartReading, scale: float) -> None:
    _outline(canvas, chart.corners * scale + _MARGIN, 3)
    x, y = chart.corners[0] * scale + _MARGIN
    _label(canvas, float(x), float(y) - 20, "top left of the chart")
    places = np.array([patch.corners.mean(axis=0) for patch in chart.patches])
    for patch, reference, place in zip(chart.patches, chart.chart.lab, places, strict=True):
        corners = patch.corners * scale + _MARGIN
        if patch.refusal is not None:
            _cross(canvas, corners)
            continue
        _outline(canvas, corners, 2)
        _compare(canvas, corners, chart.lab(patch.sample.linear, place), reference)


def _compare(canvas: Canvas, corners: Floats, read: Floats, reference: Floats) -> None:
    """Two halves in the middle of a patch: as read, and as it should be."""
    middle = corners.mean(axis=0)
    half = 0.3 * min(np.ptp(corners[:, 0]), np.ptp(corners[:, 1]))
    for lab, sign in ((read, -1), (reference, 1)):
        edge = middle[0] + sign * half
        box = (
            *(min(edge, middle[0]), middle[1] - half),
            *(max(edge, middle[0]), middle[1] + half),
        )
        canvas.draw.rectangle(box, fill=_screen(lab))


def _cross(canvas: Canvas, corners: Floats) -> None:
    a, b, c, d = (tuple(corner) for corner in corners.tolist())
    canvas.draw.line((a, c), fill="white", width=7)
    canvas.draw.line((b, d), fill="white", width=7)
    canvas.draw.line((a, c), fill=_REFUSED, width=3)
    canvas.draw.line((b, d), fill=_REFUSED, width=3)


def _draw_spot(canvas: Canvas, spot: Spot, name: str, scale: float) -> None:
    left, top = spot.left * scale + _MARGIN, spot.top * scale + _MARGIN
    right, bottom = left + spot.width * scale, top + spot.height * scale
    _outline(canvas, np.array([[left, top], [right, top], [right, bottom], [left, bottom]]), 3)
    _label(canvas, left, top - 18, name)


def _outline(canvas: Canvas, corners: Floats, width: int) -> None:
    """A line that shows on any colour: black within white."""
    around = [tuple(corner) for corner in [*corners.tolist(), corners[0].tolist()]]
    canvas.draw.line(around, fill="white", width=width + 4, joint="curve")
    canvas.draw.line(around, fill="black", width=width, joint="curve")


def _label(canvas: Canvas, x: float, y: float, text: str) -> None:
    width = font(_LABEL, bold=True).getlength(text)
    canvas.draw.rectangle((x - 2, y - 15, x + width + 8, y + 15), fill="white")
    canvas.text(x + 3, y, text, _LABEL, anchor="lm", bold=True)


def _write_below(canvas: Canvas, read: PictureReading) -> None:
    room = canvas.width
    texts = basis_lines(read)
    texts += [f"Not read: {left.reason}." for left in read.unread]
    if isinstance(read.basis, ChartReading):
        texts.append(
            "In each patch: as it reads (left), as it should be (right); crossed: left out."
        )
    lines = [line for text in texts for line in wrapped(text, _TEXT, room)]
    rows = [_area_lines(area, room - _SWATCH[0] - 20) for area in read.areas]
    heights = [max(_SWATCH[1] + 14, _LINE * len(row) + 14) for row in rows]
    top = canvas.height + 2 * _MARGIN
    canvas.add_below(_LINE * len(lines) + 20 + sum(heights) + 60)
    for line in lines:
        canvas.text(_MARGIN, top, line, _TEXT, anchor="lm")
        top += _LINE
    top += 20
    for area, row, height in zip(read.areas, rows, heights, strict=True):
        fill = on_screen(Lab(*area.lab)).rgb
        canvas.draw.rectangle((_MARGIN, top, _MARGIN + _SWATCH[0], top + _SWATCH[1]), fill=fill)
        for number, line in enumerate(row):
            place = top + 18 + _LINE * number
            canvas.text(_MARGIN + _SWATCH[0] + 20, place, line, _TEXT, anchor="lm", bold=not number)
        top += height
    if not all(on_screen(Lab(*area.lab)).in_gamut for area in read.areas):
        canvas.text(_MARGIN, top + 20, OUTSIDE, _LABEL, anchor="lm", fill=QUIET)


def _area_lines(area: AreaReading, room: int) -> Sequence[str]:
    lightness, a, b = area.lab
    mark = on_screen(Lab(*area.lab)).mark
    first = f"{area.name}{mark}   L* {lightness:.1f}   a* {a:.1f}   b* {b:.1f}"
    rest = f"{error_words(area)}; {area.spot.place}; varies by ΔE00 {area.spread:.1f} within"
    notes = "; ".join((rest, *area.notes))
    return [first, *wrapped(notes, _TEXT, room)]


def _screen(lab: Floats) -> Ink:
    """The screen colour of a Lab that may lie a little outside what Lab allows."""
    lightness, a, b = lab.tolist()
    return on_screen(Lab(min(max(lightness, 0.0), 100.0), a, b)).rgb

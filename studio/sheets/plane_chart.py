"""A picture of the studio's colours in CIE L*a*b*: a* and b*, and beside it value and chroma."""

import math
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Final

from studio.actions.colour_plane import ColourPlane, Point
from studio.actions.reach import HUE_WINDOW, LIGHTNESS_WINDOW
from studio.colour.difference import ciede2000
from studio.colour.display import on_screen
from studio.colour.lab import Lab
from studio.sheets.chart_sheet import GROUND, INK, LINE, QUIET, WHITE, Kind, chart_sheet, written
from studio.sheets.chart_words import counted, used_papers_text
from studio.sheets.figure_text import folded, write_text
from studio.sheets.screen import lab_text
from studio.sheets.target_view import reach_text

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

WIDTH: Final = 11.69
"""Inches: A4 on its side (ISO 216)."""
LEFT: Final = 0.6
PLOT: Final = 5.35
"""Inches of the square of a* and b*, and of the height of the other."""
_GAP: Final = 0.95
_NOTE: Final = 0.15
_RINGS: Final = (20, 40, 60, 80, 100, 120)
_INK_OF_ALL: Final = 9000.0
"""Square points that all points cover together, had they room: many are drawn small."""
_SMALLEST, _LARGEST = 7.0, 34.0
_EDGE: Final = 0.06
"""Points of an edge to one of the width: an edge that stayed as it is would hide small points."""
_FAR: Final = 0.3
"""The size of what is not near the target's value, or hue, to the size of what is."""
_RULE: Final = "0.82"
_REACHED: Final = "0.97"
_SPREAD: Final = 2654435761
"""Knuth's multiplier, for an order that no hue comes first in."""


def draw_plane(plane: ColourPlane, kind: Kind) -> bytes:
    """The plane as a file."""
    lines = folded(target_text(plane), WIDTH - 2 * LEFT, 9)
    notes = [line for note in notes_of(plane) for line in folded(note, WIDTH - 2 * LEFT, 7.5)]
    head = 1.05 + 0.17 * len(lines)
    height = head + PLOT + 0.75 + _NOTE * len(notes) + 0.2
    with chart_sheet(WIDTH, height) as figure:
        _draw_head(figure, plane, lines, height)
        bottom = height - head - PLOT
        left = LEFT + 0.25
        draw_ab(_axes(figure, left, bottom, PLOT), plane)
        start = left + PLOT + _GAP
        draw_lc(_axes(figure, start, bottom, WIDTH - 0.45 - start), plane)
        for place, line in enumerate(notes):
            y = 0.2 + _NOTE * (len(notes) - place)
            write_text(figure, LEFT, y, line, size=7.5, grey=QUIET)
        return written(figure, kind)


def draw_ab(axes: "Axes", plane: ColourPlane) -> None:
    """The plane of a* and b*, as seen from white: the lightest lie in front."""
    limit = _limit(plane)
    axes.set_xlim(-limit, limit)
    axes.set_ylim(-limit, limit)
    axes.set_aspect("equal")
    turn = [math.radians(degree) for degree in range(361)]
    for ring in _RINGS:
        if ring < limit * 1.4:
            x, y = ([ring * f(each) for each in turn] for f in (math.cos, math.sin))
            axes.plot(x, y, color=_RULE, linewidth=0.5, zorder=1)
    for line in (axes.axhline, axes.axvline):
        line(0.0, color=_RULE, linewidth=0.8, zorder=1)
    points = sorted(plane.points, key=lambda point: point.lab.lightness)
    draw_points(
        axes, points, [(p.lab.a, p.lab.b) for p in points], lambda lab: not plane.has_value(lab)
    )
    around = [math.radians(hue) for hue in range(360)]
    edge = [
        (c * math.cos(hue), c * math.sin(hue)) for hue, c in zip(around, plane.by_hue, strict=True)
    ]
    _draw_reach(axes, edge)
    if plane.target is not None:
        draw_target(axes, plane.target.lab.a, plane.target.lab.b)
    axes.set_xlabel("a*     greener  −     +  redder")
    axes.set_ylabel("b*     bluer  −     +  yellower")


def draw_lc(axes: "Axes", plane: ColourPlane) -> None:
    """Value against chroma; no hue lies before another."""
    limit = _limit(plane)
    axes.set_xlim(0.0, limit)
    axes.set_ylim(0.0, 100.0)
    for level in range(10, 100, 10):
        axes.axhline(level, color=_RULE, linewidth=0.5, zorder=1)
    for ring in _RINGS:
        axes.axvline(ring, color=_RULE, linewidth=0.5, zorder=1)
    order = sorted(range(len(plane.points)), key=lambda n: n * _SPREAD % 2**32)
    points = [plane.points[n] for n in order]
    draw_points(
        axes,
        points,
        [(p.lab.chroma, p.lab.lightness) for p in points],
        lambda lab: not plane.has_hue(lab),
    )
    edge = [(chroma, float(step)) for step, chroma in enumerate(plane.by_lightness) if chroma > 0]
    if edge:
        _draw_reach(axes, [(0.0, edge[0][1]), *edge, (0.0, edge[-1][1])])
    if plane.target is not None:
        draw_target(axes, plane.target.lab.chroma, plane.target.lab.lightness)
    axes.set_yticks(range(0, 101, 10))
    axes.set_xlabel("chroma C*ab     greyer  −     +  more intense")
    axes.set_ylabel("value L*     darker  −     +  lighter")


def draw_points(
    axes: "Axes",
    points: Sequence[Point],
    places: Sequence[tuple[float, float]],
    far: Callable[[Lab], bool],
) -> None:
    """Each swatch in its own colour, one over the other in their order; far ones small.

    Colours outside sRGB are diamonds.
    """
    from matplotlib.collections import PathCollection  # noqa: PLC0415 - for charts alone
    from matplotlib.markers import MarkerStyle  # noqa: PLC0415
    from matplotlib.transforms import IdentityTransform  # noqa: PLC0415

    size = min(_LARGEST, max(_SMALLEST, _INK_OF_ALL / len(points)))
    shown = [on_screen(point.lab) for point in points]
    circle, diamond = (
        marker.get_path().transformed(marker.get_transform())
        for marker in (MarkerStyle("o"), MarkerStyle("D"))
    )
    # One collection keeps the order, which a scatter for each form would not.
    drawn = PathCollection(
        [circle if each.in_gamut else diamond for each in shown],
        sizes=[_FAR * size if far(point.lab) else size for point in points],
        offsets=list(places),
        offset_transform=axes.transData,
        facecolors=[each.hex for each in shown],
        edgecolors="0.25",
        linewidths=_EDGE * math.sqrt(size),
        clip_on=False,
        zorder=2,
    )
    drawn.set_transform(IdentityTransform())
    axes.add_collection(drawn, autolim=False)


def draw_target(axes: "Axes", x: float, y: float) -> None:
    """A black cross on a white one, seen on every colour."""
    for size, width, grey in ((21, 5.0, "1.0"), (19, 1.6, "0.0")):
        axes.plot(
            [x], [y], marker="+", markersize=size, markeredgewidth=width, color=grey,
            linestyle="none", clip_on=False, zorder=5, gid="target",
        )  # fmt: skip


def _draw_reach(axes: "Axes", edge: Sequence[tuple[float, float]]) -> None:
    """The region that was reached, lighter than the ground."""
    x, y = zip(*edge, strict=True)
    axes.fill(
        x, y, facecolor=_REACHED, edgecolor=LINE, linewidth=0.7, joinstyle="round", zorder=0.5,
        gid="reach",
    )  # fmt: skip


def _axes(figure: "Figure", left: float, bottom: float, width: float) -> "Axes":
    height = figure.get_figheight()
    axes = figure.add_axes((left / WIDTH, bottom / height, width / WIDTH, PLOT / height))
    axes.set_facecolor(GROUND)
    for side in axes.spines.values():
        side.set_edgecolor(LINE)
    return axes


def _limit(plane: ColourPlane) -> float:
    """Where both planes end: at the most intense colour, in tens."""
    labs = [point.lab for point in plane.points]
    labs += [plane.target.lab] if plane.target else []
    most = max(lab.chroma for lab in labs)
    return 10.0 * math.ceil(max(most * 1.04, 30.0) / 10.0)


def _draw_head(figure: "Figure", plane: ColourPlane, lines: Sequence[str], height: float) -> None:
    room = WIDTH - 2 * LEFT
    title, lead = title_of(plane), lead_of(plane)
    write_text(figure, LEFT, height - 0.35, title, size=17, weight="bold", grey=INK, room=room)
    write_text(figure, LEFT, height - 0.7, lead, size=9, grey=QUIET, room=room)
    for place, line in enumerate(lines):
        write_text(figure, LEFT, height - 0.9 - 0.17 * place, line, size=9, grey=INK)


def title_of(plane: ColourPlane) -> str:
    """How many swatches there are."""
    return f"{counted(len(plane.points), 'swatch', 'swatches')} on the colour plane"


def lead_of(plane: ColourPlane) -> str:
    """The papers, and what was measured."""
    return f"{used_papers_text(plane.papers.values())}. Measured, dry. {WHITE}."


def target_text(plane: ColourPlane) -> str:
    """What the cross is; empty without a target."""
    if plane.target is None or plane.reach is None:
        return ""
    text = f"Target, the cross: {plane.target.given}, {lab_text(plane.target.lab)}; "
    text += f"{reach_text(plane.reach)}."
    if plane.nearest is not None:
        swatch = plane.nearest.swatch
        away = ciede2000(plane.target.lab.coordinates, swatch.lab.coordinates)
        text += f" Nearest here: {swatch.facts.code}, ΔE00 {away:.1f}."
    return text


def notes_of(plane: ColourPlane) -> list[str]:
    """What the region, the sizes and the forms of points mean."""
    window = f"±{HUE_WINDOW:g}° of hue, ±{LIGHTNESS_WINDOW:g} L*"
    reached = f"The light region was reached: up to the highest chroma of swatches within {window}."
    notes = [reached]
    if plane.target is not None:
        notes[0] += (
            " Large: at the left the swatches of the target's value, at the right those of its hue,"
            " which the region is drawn from; the others are small."
        )
    shown = [on_screen(point.lab) for point in plane.points]
    if not all(each.in_gamut for each in shown):
        most = max(each.off for each in shown)
        notes.append(
            "Diamonds: outside the screen's colours, the nearest is shown, "
            f"at most ΔE00 {most:.1f} off."
        )
    return notes

"""A picture of spectra: reflectance against wavelength, each line with its swatch at its end."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from studio.actions.swatch_rows import SwatchRow
from studio.actions.swatch_spectra import SwatchSpectra
from studio.catalogue.reading import Reading, State
from studio.colour.display import on_screen
from studio.sheets.chart_patch import draw_patch
from studio.sheets.chart_sheet import (
    GROUND,
    INK,
    LINE,
    QUIET,
    WHITE,
    Kind,
    chart_sheet,
    written,
)
from studio.sheets.chart_words import counted, papers_text
from studio.sheets.figure_text import folded, write_text
from studio.sheets.match_view import recipe_text
from studio.sheets.page_parts import starred
from studio.sheets.screen import OUTSIDE, water_text

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

WIDTH: Final = 11.69
"""Inches: A4 on its side (ISO 216)."""
LEFT: Final = 0.6
PLOT: Final = 5.3
_WIDE: Final = 6.35
"""Inches of the plot, height and width."""
_HEAD: Final = 1.05
_NOTE: Final = 0.15
_STEP: Final = 0.42
"""Inches between the labels of lines, which do not come nearer however the lines do."""
_CHIP: Final = (0.55, 0.33)
_DASHES: Final = ("-", (0, (6, 2)), (0, (2, 1.5)), (0, (6, 1.5, 1.5, 1.5)))
_WIDTHS: Final = (1.5, 0.9)


def draw_spectra(found: SwatchSpectra, kind: Kind) -> bytes:
    """The spectra as a file."""
    notes = [line for note in notes_of(found) for line in folded(note, WIDTH - 2 * LEFT, 7.5)]
    height = _HEAD + PLOT + 0.75 + _NOTE * len(notes) + 0.2
    with chart_sheet(WIDTH, height) as figure:
        _draw_head(figure, found, height)
        bottom = height - _HEAD - PLOT
        left = LEFT + 0.2
        axes = figure.add_axes((left / WIDTH, bottom / height, _WIDE / WIDTH, PLOT / height))
        _set_axes(axes, found)
        draw_lines(axes, found)
        _draw_labels(figure, axes, found, (left, bottom))
        for place, line in enumerate(notes):
            y = 0.2 + _NOTE * (len(notes) - place)
            write_text(figure, LEFT, y, line, size=7.5, grey=QUIET)
        return written(figure, kind)


def draw_lines(axes: "Axes", found: SwatchSpectra) -> None:
    """A line for every reading, as it was read; those of one swatch are dashed alike."""
    for place, (row, readings) in enumerate(found.rows):
        for reading in readings:
            spectrum = reading.spectrum
            assert spectrum is not None  # noqa: S101 - only those that have one
            axes.plot(
                spectrum.wavelengths,
                spectrum.values,
                color=INK,
                linewidth=_WIDTHS[place // len(_DASHES) % len(_WIDTHS)],
                linestyle=_DASHES[place % len(_DASHES)],
                gid=row[0].facts.code,
                zorder=3,
            )


def title_of(found: SwatchSpectra) -> str:
    """How many swatches there are."""
    return f"Spectra of {counted(len(found.rows), 'swatch', 'swatches')}"


def lead_of(found: SwatchSpectra) -> str:
    """The papers, and what the colours are."""
    papers = papers_text([row[3] for row, _ in found.rows])
    return f"On {papers}. As read; patches {WHITE}."


def notes_of(found: SwatchSpectra) -> list[str]:
    """Whose spectrum is missing, and what the marks mean."""
    notes = []
    if found.without:
        codes = ", ".join(row[0].facts.code for row in found.without)
        notes.append(f"Without a spectrum: {codes}.")
    if any(len(readings) > 1 for _, readings in found.rows):
        notes.append("A swatch that was read several times has a line for each reading.")
    if any(row[0].state is State.WET for row, _ in found.rows):
        notes.append("Some were read wet, as their labels say.")
    if not all(on_screen(row[0].lab).in_gamut for row, _ in found.rows):
        notes.append(f"{OUTSIDE}.")
    return notes


def _set_axes(axes: "Axes", found: SwatchSpectra) -> None:
    spectra = [each.spectrum for _, readings in found.rows for each in readings if each.spectrum]
    axes.set_facecolor("0.97")
    low = min(spectrum.start for spectrum in spectra)
    high = max(spectrum.end for spectrum in spectra)
    axes.set_xlim(low, high)
    axes.set_ylim(0.0, max(1.0, 1.02 * max(max(spectrum.values) for spectrum in spectra)))
    axes.grid(color=GROUND, linewidth=0.7, zorder=1)
    axes.set_axisbelow(True)
    axes.set_xlabel("wavelength, nm")
    axes.set_ylabel("reflectance factor, 0 to 1")
    for side in axes.spines.values():
        side.set_edgecolor(LINE)


def _draw_head(figure: "Figure", found: SwatchSpectra, height: float) -> None:
    room = WIDTH - 2 * LEFT
    title, lead = title_of(found), lead_of(found)
    write_text(figure, LEFT, height - 0.35, title, size=17, weight="bold", grey=INK, room=room)
    write_text(figure, LEFT, height - 0.7, lead, size=9, grey=QUIET, room=room)


def _draw_labels(
    figure: "Figure", axes: "Axes", found: SwatchSpectra, corner: tuple[float, float]
) -> None:
    """Patch, code and recipe of each swatch level with the end of its line, else led to it."""
    from matplotlib.lines import Line2D  # noqa: PLC0415 - for charts alone

    left, bottom = corner
    top = axes.get_ylim()[1]
    ends = [bottom + PLOT * _end(readings) / top for _, readings in found.rows]
    places = apart(ends, _STEP, bottom + 0.1, bottom + PLOT)
    edge = left + _WIDE
    for place, ((row, readings), end, y) in enumerate(zip(found.rows, ends, places, strict=True)):
        reading = readings[-1]
        assert reading.spectrum is not None  # noqa: S101 - only those that have one
        low, high = axes.get_xlim()
        x = left + _WIDE * (reading.spectrum.end - low) / (high - low)
        figure.add_artist(
            Line2D(
                (x, edge + 0.12, edge + 0.3, edge + 0.72),
                (end, end, y, y),
                color=INK,
                linewidth=_WIDTHS[place // len(_DASHES) % len(_WIDTHS)],
                linestyle=_DASHES[place % len(_DASHES)],
                transform=figure.dpi_scale_trans,
            )
        )
        _draw_label(figure, row, len(readings), edge + 0.8, y)


def _draw_label(figure: "Figure", row: SwatchRow, count: int, left: float, y: float) -> None:
    swatch, mix, recipe, _ = row
    draw_patch(figure, swatch.lab, left, y - _CHIP[1] / 2, _CHIP)
    x = left + _CHIP[0] + 0.1
    room = WIDTH - 0.45 - x
    wet = ", wet" if swatch.state is State.WET else ""
    times = f", read {count} times" if count > 1 else ""
    code = f"{starred(swatch.facts.code, swatch.lab)}  {water_text(swatch.facts.water)}{wet}{times}"
    write_text(figure, x, y + 0.135, code, size=8, weight="bold", grey=INK, room=room)
    name = mix.name or recipe_text(recipe)
    write_text(figure, x, y - 0.015, name, size=7.5, grey=QUIET, room=room)


def _end(readings: Sequence[Reading]) -> float:
    spectrum = readings[-1].spectrum
    assert spectrum is not None  # noqa: S101 - only those that have one
    return spectrum.values[-1]


def apart(places: Sequence[float], step: float, low: float, high: float) -> list[float]:
    """Places moved as little as it takes to lie a step apart between two ends, in their order.

    Neighbours that are too near make a group, which lies about the middle of its own.

    Args:
        places: where each would lie.
        step: how far apart they must be; all of them must have room between the ends.
        low: the lower end.
        high: the upper end.
    """
    order = sorted(range(len(places)), key=lambda n: places[n])
    groups: list[tuple[float, list[int]]] = []  # the lowest place of a group, and its members
    for member in order:
        groups.append((_lowest([places[member]], step, low, high), [member]))
        while len(groups) > 1 and groups[-1][0] < groups[-2][0] + step * len(groups[-2][1]) - 1e-9:
            (_, later), (_, earlier) = groups.pop(), groups.pop()
            members = [*earlier, *later]
            groups.append((_lowest([places[n] for n in members], step, low, high), members))
    moved = [0.0] * len(places)
    for start, members in groups:
        for number, member in enumerate(members):
            moved[member] = start + step * number
    return moved


def _lowest(places: Sequence[float], step: float, low: float, high: float) -> float:
    """Where a group begins so that its members are moved least."""
    middle = sum(place - step * number for number, place in enumerate(places)) / len(places)
    return max(low, min(middle, high - step * (len(places) - 1)))

"""What was taken from a picture in the terminal: a spot, the main colours, the grid."""

from collections.abc import Sequence

from rich.console import Console

from studio.actions.pick_target import Picked
from studio.actions.reach import Reach
from studio.actions.target_palette import PaletteColour
from studio.catalogue.named_target import NamedTarget
from studio.picture.decoding import Picture
from studio.picture.grid import Grid, column_name
from studio.sheets.record_parts import print_fact
from studio.sheets.screen import indented, patch, print_table, signed
from studio.sheets.tables import plain_table
from studio.sheets.target_view import print_colour, print_legend, print_reach


def print_picked(
    console: Console, picture: Picture, picked: Picked, named: NamedTarget | None
) -> None:
    """A colour that was picked: where, how even the spot is, and whether paint reaches it."""
    print_colour(console, named.name if named else "picked, not recorded", picked.lab)
    print_fact(console, "picture", f"{picture.name}, {picture.width} x {picture.height} px")
    cell = f"; in {picked.cell}" if picked.cell else "; outside the grid"
    print_fact(console, "place", f"{picked.place}{cell}")
    advice = ": pick a smaller or more even spot" if picked.is_varied else ""
    print_fact(console, "spread", f"this spot varies by ΔE00 {picked.spread:.1f} (mean){advice}")
    print_reach(console, picked.lab, picked.reach, picked.nearest)
    _print_notes(console, picture)
    print_legend(console, picked.lab)


def print_palette(
    console: Console,
    picture: Picture,
    colours: Sequence[PaletteColour],
    named: Sequence[NamedTarget],
) -> None:
    """The main colours of a picture, the largest first."""
    heading = f"{picture.name}, {picture.width} x {picture.height} px"
    indented(console, heading, 0, "bold")
    columns = ("", "colour", "share", "L* a* b*", "ΔE00", "place", "cell", "outside")
    table = plain_table(*columns, right={0, 2, 3, 4}, whole={5, 6})
    for number, colour in enumerate(colours, start=1):
        table.add_row(
            str(number),
            patch(console, colour.lab),
            f"{100 * colour.share:.0f} %",
            f"{colour.lab.lightness:.0f} {signed(colour.lab.a)} {signed(colour.lab.b)}",
            f"{colour.spread:.1f}",
            f"{colour.x:.0f}%,{colour.y:.0f}%",
            colour.cell,
            _short_reach(colour.reach),
        )
    print_table(console, table)
    indented(
        console,
        "ΔE00: how far its pixels vary (mean); outside: what your paint on paper has not reached, "
        "? where no dry swatch of that hue and value says",
        0,
        "dim",
    )
    if named:
        indented(console, f"recorded as {named[0].name} to {named[-1].name}", 0)
    _print_notes(console, picture)
    print_legend(console, *(colour.lab for colour in colours))


def print_grid(
    console: Console, picture: Picture, grid: Grid, sheet: tuple[float, float], paper: str
) -> None:
    """How a picture and a sheet are squared up.

    Args:
        console: the terminal.
        picture: the reference.
        grid: over the part of the picture that the sheet has room for.
        sheet: its sides as it lies, across and down, mm.
        paper: how it is called.
    """
    across, down = sheet
    cells = grid.cells
    indented(console, f"{picture.name}, {picture.width} x {picture.height} px", 0, "bold")
    print_fact(console, "paper", f"{paper}, {across:g} x {down:g} mm")
    last = f"{column_name(cells - 1)}{cells}"
    size = f"{across / cells:.4g} x {down / cells:.4g} mm"
    print_fact(console, "grid", f"{cells} x {cells} cells, A1 to {last}, of {size} on the paper")
    left, top, width, height = grid.area.whole_pixels
    cut = picture.width * picture.height - width * height
    kept = f"{width} x {height} px from {left},{top}"
    share = 100 * cut / (picture.width * picture.height)
    print_fact(console, "kept", f"{kept}; {share:.1f} % of the picture is left out")
    _print_notes(console, picture)


def _short_reach(reach: Reach) -> str:
    if reach.beyond:
        return ", ".join(each.limit for each in reach.beyond)
    return "" if reach.is_known else "?"


def _print_notes(console: Console, picture: Picture) -> None:
    for note in picture.notes:
        indented(console, f"{picture.name}: {note}", 0, "dim")

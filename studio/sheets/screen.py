"""The terminal: a console, colour patches as true as it can show them, and small texts."""

import re
import textwrap
from collections.abc import Callable, Sequence
from datetime import date
from typing import TYPE_CHECKING, Final, TextIO

from rich.cells import cell_len
from rich.console import Console
from rich.segment import Segment, Segments
from rich.text import Text

from studio.colour.display import on_screen
from studio.colour.lab import Lab
from studio.colour.words import Separation

if TYPE_CHECKING:
    from rich.table import Table

MINUS = "\N{MINUS SIGN}"
OUTSIDE: Final = "* outside the screen's colours, the nearest is shown; *2.7: ΔE00 2.7 off"
"""What the mark at a patch means on a screen or in a picture."""

TOO_UNCERTAIN_TEXT: Final = "too uncertain to act on"
"""Beside a prediction whose colour is crossed out."""

_SYMBOL_BEFORE_NUMBER: Final = re.compile(rf"(?<=[*0]) (?=[+{MINUS}]?\d)")
_GAP: Final = 2
"""Blanks between the columns of a table."""
_NO_BREAK: Final = "\N{NO-BREAK SPACE}"


class Screen(Console):
    """A console that says next steps for the studio that a command line was given for.

    Args:
        stream: where it writes to.
        as_given: a text as it is to be shown, `studio check` as `studio --demo check`.
    """

    def __init__(self, stream: TextIO, as_given: Callable[[str], str]) -> None:
        """Take the stream; NO_COLOR, pipes and narrow terminals are honoured by rich."""
        super().__init__(file=stream, highlight=False, markup=False, emoji=False)
        self.as_given = as_given


def console_for(stream: TextIO, as_given: Callable[[str], str] = str) -> Console:
    """A console on a stream; NO_COLOR, pipes and narrow terminals are honoured by rich."""
    return Screen(stream, as_given)


def as_given(console: Console, text: str) -> str:
    """A text whose next steps name the studio that the command line was given for."""
    return console.as_given(text) if isinstance(console, Screen) else text


def shows_colour(console: Console) -> bool:
    """Whether patches can be shown at all."""
    return console.color_system is not None and not console.no_color


def patch(console: Console, *labs: Lab, width: int = 4) -> Text:
    """Patches side by side; where there is no colour, their sRGB codes.

    A `*` marks a colour outside what the screen can show, with a number where the nearest one,
    which is shown, is more than ΔE00 2 off; a `~` one that a terminal with few colours can only
    approach.
    """
    text = Text()
    for index, lab in enumerate(labs):
        colour = on_screen(lab)
        if shows_colour(console):
            text.append(" " * width, style=f"on {colour.hex}")
            if console.color_system != "truecolor":
                text.append("~")
        else:
            text.append((" " if index else "") + colour.hex)
        text.append(colour.mark)
    return text


def crossed_out(width: int = 4) -> Text:
    """What stands in the place of a patch whose colour is too uncertain to be shown."""
    return Text("x" * width, style="dim")


def beside(console: Console, wanted: Lab, predicted: Lab | None) -> Text:
    """A wanted colour beside what is predicted, None where that is too uncertain to be shown."""
    if predicted is not None:
        return patch(console, wanted, predicted)
    gap = "" if shows_colour(console) else " "
    return patch(console, wanted).append(gap).append_text(crossed_out())


def legend(console: Console, *labs: Lab) -> str | None:
    """What the marks of `patch` mean, where they were needed."""
    notes = []
    if any(not on_screen(lab).in_gamut for lab in labs):
        notes.append(OUTSIDE)
    if shows_colour(console) and console.color_system != "truecolor":
        notes.append("~ as near as this terminal shows")
    return "; ".join(notes) or None


def lab_text(lab: Lab) -> str:
    """L*, a* and b* with one decimal and their white."""
    return (
        f"L* {lab.lightness:.1f}  a* {signed(lab.a)}  b* {signed(lab.b)}  "
        f"({lab.illuminant}/{lab.observer}°)"
    )


def indented(console: Console, text: str, indent: int = 2, style: str = "") -> None:
    """A text wrapped to the terminal, each line indented, without trailing blanks.

    A symbol such as ΔL* stays on the line of its number.
    """
    width = max(20, console.width - indent)
    kept = _SYMBOL_BEFORE_NUMBER.sub(_NO_BREAK, as_given(console, text))
    for line in textwrap.wrap(kept, width, break_long_words=False, break_on_hyphens=False):
        whole = " " * indent + line.replace(_NO_BREAK, " ")
        console.print(whole, style=style or None, soft_wrap=True)


def print_parts(console: Console, first: str, parts: Sequence[Text | str], indent: int) -> None:
    """Parts side by side, two blanks between them; where they do not fit, further ones below.

    Args:
        console: the terminal.
        first: what stands before them on the first line.
        parts: what is never broken.
        indent: blanks before the lines below.
    """
    line = Text(first)
    for number, part in enumerate(parts):
        gap = "" if number == 0 else "  "
        if number and line.cell_len + len(gap) + Text.assemble(part).cell_len > console.width:
            console.print(line, soft_wrap=True)
            line, gap = Text(" " * indent), ""
        line.append(gap).append_text(Text.assemble(part))
    console.print(line, soft_wrap=True)


def print_table(console: Console, table: "Table") -> None:
    """A table of `lists.py`, its columns as wide as the terminal allows, no blanks behind it.

    Where a word would have to be cut, each row stands below the last, a cell a line.
    """
    widths = _widths(table, console.width - _GAP * (len(table.columns) - 1))
    if widths is None:
        _print_rows(console, table)
        return
    for column, width in zip(table.columns, widths, strict=True):
        column.width = width
    whole = console.options.update(width=sum(widths) + _GAP * len(widths))
    for line in console.render_lines(table, whole, pad=False):
        while line and not line[-1].text.strip() and not _has_ground(line[-1]):
            line.pop()
        if line and not _has_ground(line[-1]):
            line[-1] = Segment(line[-1].text.rstrip(), line[-1].style)
        console.print(Segments([*line, Segment.line()]), end="", soft_wrap=True)


def _widths(table: "Table", room: int) -> list[int] | None:
    """A width for each column that cuts no word; None where there is not the room for that."""
    widths, wanted = [], []
    for column in table.columns:
        texts = [str(column.header), *(str(cell) for cell in column.cells)]
        wanted.append(max(map(cell_len, texts)))
        words = [word for text in texts for word in text.split()]
        widths.append(wanted[-1] if column.no_wrap else max(map(cell_len, words), default=0))
    room -= sum(widths)
    if room < 0:
        return None
    while room and widths != wanted:
        short = max(range(len(widths)), key=lambda index: wanted[index] - widths[index])
        widths[short] += 1
        room -= 1
    return widths


def _print_rows(console: Console, table: "Table") -> None:
    headers = [str(column.header) for column in table.columns]
    label = max(map(len, headers)) + 2
    for row in zip(*(column.cells for column in table.columns), strict=True):
        for index, (header, cell) in enumerate(zip(headers, row, strict=True)):
            start = f"  {header:<{label}}" if index else ""
            if isinstance(cell, Text):
                print_parts(console, start, [cell], 0)
                continue
            width = max(20, console.width - len(start))
            for line in textwrap.wrap(
                str(cell), width, break_long_words=False, break_on_hyphens=False
            ):
                console.print(start + line, soft_wrap=True)
                start = " " * len(start)


def _has_ground(segment: Segment) -> bool:
    return segment.style is not None and segment.style.bgcolor is not None


def signed(value: float) -> str:
    """One decimal with its sign; what rounds to zero has none."""
    rounded = f"{abs(value):.1f}"
    if rounded == "0.0":
        return rounded
    return ("+" if value > 0 else MINUS) + rounded


def separation_text(apart: Separation) -> str:
    """The numbers behind the words, in their order; near grey Δa* and Δb* for ΔH* and ΔC*."""
    numbers = apart.numbers
    others = (("ΔH*", numbers.hue), ("ΔC*", numbers.chroma))
    if apart.lean is not None:
        others = (("Δa*", apart.lean[0]), ("Δb*", apart.lean[1]))
    return ", ".join(
        f"{symbol} {signed(value)}" for symbol, value in (("ΔL*", numbers.lightness), *others)
    )


def make_it(needed: Separation) -> str:
    """What is to be corrected, as one says it at the palette: `make it a little lighter (…)`.

    Args:
        needed: how the wanted colour looks beside the one there is.
    """
    numbers = separation_text(needed)
    if not needed.words:
        return f"It is off by too little in value, hue and chroma to name a step ({numbers})"
    return f"Make it {needed.sentence} ({numbers})"


def water_text(water: float | None) -> str:
    """Water to paint by volume, such as `water 3:1`."""
    if water is None:
        return "water not recorded"
    return "no water" if water == 0 else f"water {water:g}:1"


def layers_text(layers: int) -> str:
    """`1 layer`, `2 layers`."""
    return "1 layer" if layers == 1 else f"{layers} layers"


def day_text(day: date) -> str:
    """A day as `14 Mar 2026`."""
    return f"{day.day} {day:%b %Y}"


def verified_text(verified_on: date | None) -> str:
    """How far a fact can be trusted."""
    return "unverified" if verified_on is None else f"verified {day_text(verified_on)}"

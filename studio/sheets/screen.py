"""The terminal: a console, colour patches as true as it can show them, and small texts."""

import textwrap
from datetime import date
from typing import TextIO

from rich.console import Console
from rich.text import Text

from studio.colour.difference import Components
from studio.colour.display import on_screen
from studio.colour.lab import Lab

MINUS = "\N{MINUS SIGN}"


def console_for(stream: TextIO) -> Console:
    """A console on a stream; NO_COLOR, pipes and narrow terminals are honoured by rich."""
    return Console(file=stream, highlight=False, markup=False, emoji=False)


def shows_colour(console: Console) -> bool:
    """Whether patches can be shown at all."""
    return console.color_system is not None and not console.no_color


def patch(console: Console, *labs: Lab, width: int = 4) -> Text:
    """Patches side by side; where there is no colour, their sRGB codes.

    A `*` marks a colour outside what the screen can show (its chroma was lowered), a `~` one that
    a terminal with few colours can only approach.
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
        if not colour.in_gamut:
            text.append("*")
    return text


def legend(console: Console, *labs: Lab) -> str | None:
    """What the marks of `patch` mean, where they were needed."""
    notes = []
    if any(not on_screen(lab).in_gamut for lab in labs):
        notes.append("* outside the screen's colours, shown less intense")
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
    """A text wrapped to the terminal, each line indented, without trailing blanks."""
    width = max(20, console.width - indent)
    for line in textwrap.wrap(text, width, break_long_words=False, break_on_hyphens=False):
        console.print(" " * indent + line, style=style or None, soft_wrap=True)


def signed(value: float) -> str:
    """One decimal with its sign; what rounds to zero has none."""
    rounded = f"{abs(value):.1f}"
    if rounded == "0.0":
        return rounded
    return ("+" if value > 0 else MINUS) + rounded


def separation_text(numbers: Components) -> str:
    """ΔL*, ΔH* and ΔC* in the order a painter corrects in."""
    return (
        f"ΔL* {signed(numbers.lightness)}  ΔH* {signed(numbers.hue)}  ΔC* {signed(numbers.chroma)}"
    )


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

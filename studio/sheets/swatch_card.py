"""One swatch card: room for the offcut beside its measured colour, what it is, and its code."""

from typing import Final

from studio.actions.swatch_rows import SwatchRow
from studio.catalogue.reading import State
from studio.colour.display import on_screen
from studio.sheets.match_view import recipe_text
from studio.sheets.page_parts import starred
from studio.sheets.page_pen import Pen, wrapped
from studio.sheets.page_type import DARK, LINE, Type
from studio.sheets.qr_code import MODULES, qr_runs
from studio.sheets.screen import day_text, lab_text, layers_text, water_text

WIDTH: Final = 74.0
HEIGHT: Final = 52.0
"""mm: A8 (ISO 216), a sixteenth of the sheet it is cut from."""

INSET: Final = 4.0
"""mm of a card that stay white on each side, for a cut that wanders."""

OFFCUT: Final = (INSET, INSET, 27.0, 23.0)
PATCH: Final = (INSET + 27.0, INSET, 15.0, 23.0)
"""Left, top, width and height, mm. They touch: an offcut is judged edge to edge."""

MODULE: Final = 7 * 25.4 / 300
"""mm of a module: seven pixels at 300 an inch; a third of a mm is said to be enough (from memory).
"""

_TEXT_TOP: Final = 28.6
_SIDE: Final = PATCH[0] + PATCH[2] + 2.2
_CODE_SIZES: Final = (15.0, 12.0, 10.0, 8.0, 6.5)
_NAME: Final = Type(8.5, style="B", spacing=1.22)
_FACT: Final = Type(7, spacing=1.2)
_CLOSE: Final = Type(6.5, spacing=1.17)
_MOST: Final = 5
"""So many facts stand in type of 7 points."""
_DASH: Final = 1.0
_HAIR: Final = 0.2


_RECIPE: Final = 2
"""Lines that a recipe may take; a longer one is written by the codes of its paints."""


def draw_card(pen: Pen, row: SwatchRow, left: float, top: float) -> None:
    """Draw a card with its upper left corner at a place, mm."""
    swatch = row[0]
    _draw_offcut(pen, left + OFFCUT[0], top + OFFCUT[1])
    pen.area((left + PATCH[0], top + PATCH[1]), PATCH[2:], on_screen(swatch.lab).rgb)
    _draw_code(pen, swatch.facts.code, left, top)
    room = WIDTH - 2 * INSET
    y = top + _TEXT_TOP
    for line, kind in _lines(pen, row, room):
        pen.text(line, kind, left + INSET, y)
        y += kind.line


def _draw_offcut(pen: Pen, left: float, top: float) -> None:
    """A dashed outline, open where the patch touches it."""
    width, height = OFFCUT[2:]
    dashes = [round(_DASH * 2 * step, 3) for step in range(int(width / _DASH / 2) + 1)]
    for x in dashes:
        length = min(_DASH, width - x)
        if length > 0:
            for y in (top, top + height - _HAIR):
                pen.area((left + x, y), (length, _HAIR), LINE)
    for y in dashes:
        length = min(_DASH, height - y)
        if length > 0:
            pen.area((left, top + y), (_HAIR, length), LINE)
    for place, line in enumerate(("offcut", "painted or glued here")):
        kind = _CLOSE._replace(grey=150)
        x = left + (width - pen.width(line, kind)) / 2
        pen.text(line, kind, x, top + height / 2 + (place - 1) * kind.line)


def _draw_code(pen: Pen, code: str, left: float, top: float) -> None:
    """The code in the largest type that fits, flush right, above its QR code."""
    right, room = left + WIDTH - INSET, WIDTH - INSET - _SIDE
    kinds = [Type(size, DARK, "B", 1.0) for size in _CODE_SIZES]
    kind = next((kind for kind in kinds if pen.width(code, kind) <= room), kinds[-1])
    pen.text(code, kind, right - pen.width(code, kind), top + INSET - 0.7)
    side = MODULES * MODULE
    x, y = right - side, top + OFFCUT[1] + OFFCUT[3] - side
    for row, column, count in qr_runs(code):
        pen.area((x + column * MODULE, y + row * MODULE), (count * MODULE, MODULE), 0)


def _lines(pen: Pen, row: SwatchRow, room: float) -> list[tuple[str, Type]]:
    mix = row[1]
    title = mix.code if mix.name is None else f"{mix.code}  {mix.name}"
    facts = _facts(pen, row, _FACT, room)
    kind = _FACT
    if len(facts) > _MOST:
        kind = _CLOSE
        facts = _facts(pen, row, kind, room)
    return [
        *((line, _NAME) for line in _first(pen, title, 1, _NAME, room)),
        *((line, kind) for line in facts),
    ]


def _facts(pen: Pen, row: SwatchRow, kind: Type, room: float) -> list[str]:
    swatch, _, recipe, paper = row
    facts = swatch.facts
    spelled = recipe_text(recipe)
    if len(wrapped(pen, spelled, kind, room)) > _RECIPE:
        spelled = " + ".join(f"{part.parts} {part.paint.facts.code}" for part in recipe)
    wet = ", read wet" if swatch.state is State.WET else ""
    lines = [
        f"{water_text(facts.water)}, {layers_text(facts.layers)}, {facts.application}{wet}",
        f"{paper.facts.full_name}, {day_text(facts.made_on)}",
        starred(lab_text(swatch.lab), swatch.lab),
        *([facts.kept_at] if facts.kept_at else []),
    ]
    return [
        *_first(pen, spelled, _RECIPE, kind, room),
        *(_first(pen, line, 1, kind, room)[0] for line in lines),
    ]


def _first(pen: Pen, text: str, most: int, kind: Type, room: float) -> list[str]:
    """The first lines of a text; where there are more, the last of them ends in an ellipsis."""
    lines = wrapped(pen, text, kind, room)
    if len(lines) <= most:
        return lines
    last = lines[most - 1]
    while last and pen.width(f"{last} …", kind) > room:
        last = last[:-1].rstrip()
    return [*lines[: most - 1], f"{last} …"]

"""A swatch book on paper, and the words that stand at a patch on paper and on a screen alike."""

from dataclasses import dataclass
from datetime import date
from typing import Final

from studio.actions.match_colour import Ingredient
from studio.actions.swatch_book import Book
from studio.actions.swatch_rows import SwatchRow
from studio.catalogue.book_order import Order, parts_by
from studio.catalogue.swatch import Application, Swatch
from studio.colour.display import NOTABLE, on_screen
from studio.colour.lab import Lab
from studio.sheets.blocks import Block, Heading, Page, Paragraph, Patches
from studio.sheets.screen import day_text, layers_text, water_text

TITLE: Final = "Swatch book"
_NO_BREAK: Final = "\N{NO-BREAK SPACE}"
_LISTED: Final = 12
"""So many mixes without a swatch are named; more are only counted."""

FOOT: Final = (
    "The colours are those of dry swatches, L*a*b* under D50/2°; a screen or print shows them only "
    "as well as it is adjusted."
)


def outside_words(lab: Lab) -> str:
    """What is said where sRGB cannot show a colour, empty where it can."""
    shown = on_screen(lab)
    if shown.in_gamut:
        return ""
    off = f", ΔE00 {shown.off:.1f} off" if shown.off > NOTABLE else ""
    return f"outside sRGB, the nearest is shown{off}"


@dataclass(frozen=True, slots=True)
class PatchWords:
    """What stands at the patch of a swatch; texts of users are parts of their own.

    Args:
        code: of the swatch.
        mix: code of its mix.
        name: name of its mix, empty where it has none.
        recipe: for each paint, what stands before its name, and the name.
        laid: water, and layers and application where they are not the usual ones.
        paper: maker and name.
        kept: where the card is kept, empty where that is not recorded.
        numbers: L*, C*ab and h_ab.
    """

    code: str
    mix: str
    name: str
    recipe: tuple[tuple[str, str], ...]
    laid: str
    paper: str
    kept: str
    numbers: str


def words_of(row: SwatchRow) -> PatchWords:
    """What stands at the patch of a swatch."""
    swatch, mix, recipe, paper = row
    return PatchWords(
        swatch.facts.code,
        mix.code,
        mix.name or "",
        tuple(_term(place, part, len(recipe)) for place, part in enumerate(recipe)),
        _laid(swatch),
        paper.facts.full_name,
        swatch.facts.kept_at or "",
        numbers_text(swatch.lab),
    )


def _term(place: int, part: Ingredient, count: int) -> tuple[str, str]:
    """What stands before the name of a paint in a recipe, and the name."""
    parts = "" if count == 1 else f"{part.parts} "
    return (f" + {parts}" if place else parts), part.paint.facts.name


def _laid(swatch: Swatch) -> str:
    facts = swatch.facts
    said = [water_text(facts.water).replace(" ", _NO_BREAK)]
    said += [] if facts.layers == 1 else [layers_text(facts.layers)]
    said += [] if facts.application is Application.FLAT_WASH else [str(facts.application)]
    return ", ".join(said)


def numbers_text(lab: Lab) -> str:
    """L*, C*ab and h_ab as they stand in small print."""
    hue = round(lab.hue) % 360
    numbers = (f"L* {lab.lightness:.1f}", f"C* {lab.chroma:.1f}", f"h {hue}°")
    return "  ".join(each.replace(" ", _NO_BREAK) for each in numbers)


def lead_of(book: Book, day: date) -> str:
    """What the book holds, in a line."""
    swatches = _counted(len(book.rows), "dry swatch", "dry swatches")
    mixes = _counted(book.mixes, "mix", "mixes")
    on = "" if book.paper is None else f" on {book.paper.facts.full_name}"
    return f"{swatches} of {mixes}{on}; {day_text(day)}"


def missing_of(book: Book) -> str:
    """Which mixes are not in the book, as a sentence; empty where all are."""
    if not book.without:
        return ""
    count = len(book.without)
    on = "" if book.paper is None else " on this paper"
    mixes = "1 mix has" if count == 1 else f"{count:,} mixes have"
    names = ", ".join(
        f"{mix.code} {mix.name}" if mix.name else mix.code for mix in book.without[:_LISTED]
    )
    more = f" and {count - _LISTED:,} more" if count > _LISTED else ""
    return f"{mixes} no dry swatch{on} and cannot be shown: {names}{more}."


def _counted(count: int, one: str, many: str) -> str:
    return f"{count:,} {one if count == 1 else many}"


def book_page(book: Book, order: Order, day: date) -> Page:
    """The book as a page to print."""
    labs = [swatch.lab for swatch, *_ in book.rows]
    blocks: list[Block] = []
    if missing := missing_of(book):
        blocks.append(Paragraph(missing))
    for part in parts_by(order, labs):
        blocks.append(Heading(part.title))
        blocks.append(
            Patches(
                tuple((labs[at], _caption(words_of(book.rows[at]))) for at in part.places),
                many=True,
            )
        )
    return Page(TITLE, lead_of(book, day), tuple(blocks), FOOT, day=day)


def _caption(words: PatchWords) -> tuple[str, ...]:
    recipe = "".join(before + name for before, name in words.recipe)
    return (
        words.code,
        f"{words.mix} {words.name}".rstrip(),
        recipe,
        f"{words.laid}, {words.paper}",
        *([words.kept] if words.kept else []),
        words.numbers,
    )

"""A paint's card: its colour, and all that is on record of it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from studio.catalogue.container import Container
from studio.catalogue.data_sheet import sheet_fault
from studio.catalogue.hazard import ADVICE, NO_DATA, UNCLASSIFIED
from studio.catalogue.paint import Paint
from studio.colour.lab import Lab
from studio.sheets.blocks import Block, Bullets, Grid, Heading, NewSheet, Page, Paragraph, Patches
from studio.sheets.card_sections import form_text, light_text, sections_of
from studio.sheets.screen import day_text, lab_text
from studio.sheets.stock_view import left_text

NO_PATCH: Final = "No dry swatch of this paint alone is on record, so no colour is shown."

_GLANCE: Final = 30
"""The table of so many paints is to stand on one sheet."""

_NO_BREAK: Final = "\N{NO-BREAK SPACE}"


@dataclass(frozen=True, slots=True)
class Card:
    """What a card is made from.

    Args:
        paint: the paint.
        containers: every container of it.
        patch: the colour of its most intense dry swatch, None where there is none.
    """

    paint: Paint
    containers: Sequence[Container]
    patch: Lab | None


def paint_card(paint: Paint, containers: Sequence[Container], patch: Lab | None, day: date) -> Page:
    """The card of one paint on one printed sheet, ending with how to read it.

    Args:
        paint: the paint.
        containers: every container of it.
        patch: the colour of its most intense dry swatch, None where there is none.
        day: the day of the card.
    """
    blocks = [_patch(patch)]
    sections = sections_of(paint, containers, day)
    for section in sections:
        blocks += [Heading(section.title), *section.blocks]
    remarks = dict.fromkeys(remark for section in sections for remark in section.remarks)
    blocks.append(Paragraph(" ".join(remarks), small=True))
    facts = paint.facts
    lead = f"{facts.code}, {form_text(paint)}, {facts.status}; {day_text(day)}"
    return Page(
        facts.full_name,
        lead,
        tuple(blocks),
        f"{facts.code} {facts.full_name}, {day_text(day)}",
        notice=ADVICE,
        day=day,
        fits=True,
    )


def shelf_cards(cards: Sequence[Card], day: date) -> Page:
    """The cards of many paints as one page: their colours, a table, then card by card, each on a
    printed sheet of its own.

    How to read the cards is said once, before them.
    """
    sections = [sections_of(card.paint, card.containers, day) for card in cards]
    remarks = dict.fromkeys(
        remark for parts in sections for section in parts for remark in section.remarks
    )
    glance = NewSheet(fits=len(cards) <= _GLANCE)
    blocks = [*_colours(cards), glance, Heading("At a glance"), _overview(cards, day)]
    blocks += [Heading("How to read the cards"), Bullets(tuple(remarks))]
    for card, parts in zip(cards, sections, strict=True):
        facts = card.paint.facts
        blocks += [NewSheet(fits=True), Heading(f"{facts.code}  {facts.full_name}")]
        blocks.append(_patch(card.patch))
        blocks += [block for section in parts for block in section.blocks]
    count = "1 paint" if len(cards) == 1 else f"{len(cards)} paints"
    foot = f"Paints in use, {day_text(day)}"
    return Page(
        "Paints in use", f"{count}; {day_text(day)}", tuple(blocks), foot, notice=ADVICE, day=day
    )


def _patch(lab: Lab | None) -> Block:
    if lab is None:
        return Paragraph(NO_PATCH)
    read = lab_text(lab).replace("  (", " (").replace("  ", ", ").replace("* ", f"*{_NO_BREAK}")
    return Patches(((lab, f"most intense dry swatch of this paint alone: {read}"),))


def _colours(cards: Sequence[Card]) -> list[Block]:
    """The colours of all paints that have one, and the codes of those that have none."""
    shown = tuple(
        (card.patch, f"{card.paint.facts.code} {card.paint.facts.name}")
        for card in cards
        if card.patch is not None
    )
    hidden = ", ".join(card.paint.facts.code for card in cards if card.patch is None)
    blocks: list[Block] = [Patches(shown)] if shown else []
    return blocks + ([Paragraph(f"Without a dry swatch of their own: {hidden}")] if hidden else [])


def _overview(cards: Sequence[Card], day: date) -> Grid:
    rows = []
    for paint in (card.paint for card in cards):
        cautions = dict.fromkeys(
            word
            for hazard in paint.hazards
            for word in (*hazard.metals, *hazard.class_words)
            if word.rstrip("?") != UNCLASSIFIED
        )
        rows.append(
            (
                paint.facts.code,
                paint.facts.name,
                ", ".join(paint.facts.pigments) or "not recorded",
                light_text(paint),
                left_text(paint.stock).replace(" ml", f"{_NO_BREAK}ml")
                + (", low" if paint.is_low else ""),
                ", ".join(cautions) or ("see its card" if paint.hazards else NO_DATA),
                sheet_fault(paint.data_sheet, day) or "on record",
            )
        )
    columns = ("code", "paint", "pigments", "lightfastness", "left", "cautions", "data sheet")
    return Grid(columns, tuple(rows), widths=(0.9, 2.2, 1.4, 2, 1.3, 3, 2.2))

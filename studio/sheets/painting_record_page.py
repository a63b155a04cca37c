"""The record of a finished painting as a page to print and keep with it."""

from datetime import date

from studio.catalogue.painting_record import PaintingRecord, RecordedColour, RecordedPaint
from studio.sheets import painting_record_words as words
from studio.sheets.blocks import Block, Grid, Heading, Page, Paragraph, Patches
from studio.sheets.screen import day_text, lab_text


def record_page(record: PaintingRecord, today: date) -> Page:
    """How to mix each colour of a painting again.

    Args:
        record: of the painting.
        today: the day of the page.
    """
    facts = tuple((label, text) for label, text in words.facts_of(record))
    blocks: list[Block] = [Grid(("fact", "as recorded"), facts, widths=(1, 6))]
    lacking = words.all_without_mix_text(record)
    if lacking:
        blocks.append(Paragraph(lacking, strong=True))
    for number, passage in enumerate(record.passages, start=1):
        blocks += [Heading(f"{number}. {passage.name}"), Paragraph(words.laid_text(passage))]
        if passage.note:
            blocks.append(Paragraph(passage.note))
        for colour in passage.colours:
            blocks += _colour_blocks(record, colour)
    if record.used or record.paper_used is not None:
        blocks += [Heading("Booked"), Paragraph(words.used_text(record))]
        if record.used:
            blocks.append(_paint_grid(record.used, "ml"))
    return Page(
        f"{record.painting}  {record.title}: how to mix each colour again",
        f"Finished {day_text(record.finished_on)}; printed {day_text(today)}",
        tuple(blocks),
        f"{record.painting}: paints, lots and cards as they were on "
        f"{record.finished_on.isoformat()}. Colours on a screen or in print are a guide; the card "
        "is the colour.",
        day=today,
    )


def _colour_blocks(record: PaintingRecord, colour: RecordedColour) -> list[Block]:
    mix = colour.mix
    wanted = (colour.lab, f"wanted: {words.wanted_text(colour)}; {lab_text(colour.lab)}")
    if mix is None:
        return [Patches((wanted,)), Paragraph(words.without_mix_text(record, colour), strong=True)]
    laid = (mix.lab, f"card {mix.swatch}; {lab_text(mix.lab)}")
    return [
        Patches((wanted, laid)),
        Paragraph(words.recipe_text(mix), strong=True),
        _paint_grid(mix.paints, "parts"),
        Paragraph(words.card_text(record, mix)),
    ]


def _paint_grid(paints: tuple[RecordedPaint, ...], amount: str) -> Grid:
    return Grid(
        (amount, "paint", "maker and name", "pigments", "lot, on the shelf"),
        tuple(
            (
                f"{each.parts if amount == 'parts' else each.used_ml:g}",
                each.code,
                f"{each.maker} {each.name}, {each.form}",
                ", ".join(each.pigments) or "not recorded",
                words.shelf_text(each) or "not noted",
            )
            for each in paints
        ),
        widths=(1, 1, 5, 2.5, 3.5),
        numbers=frozenset({0}),
    )

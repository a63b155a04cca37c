"""The record of a finished painting in the terminal: how to mix each colour again."""

from rich.console import Console
from rich.text import Text

from studio.catalogue.painting_record import PaintingRecord, RecordedColour, RecordedPassage
from studio.colour.lab import Lab
from studio.sheets import painting_record_words as words
from studio.sheets.record_parts import print_fact
from studio.sheets.screen import indented, lab_text, legend, patch, print_parts


def print_record(console: Console, record: PaintingRecord) -> None:
    """Each passage with its colours, the mix that was laid for each, and what it is made of."""
    indented(console, f"{record.painting}  {record.title}: how to mix each colour again", 0, "bold")
    for label, text in words.facts_of(record):
        print_fact(console, label, text)
    print_fact(console, "booked", words.used_text(record))
    labs: list[Lab] = []
    for number, passage in enumerate(record.passages, start=1):
        _print_passage(console, record, number, passage)
        for colour in passage.colours:
            labs += [colour.lab, *([colour.mix.lab] if colour.mix else [])]
    lacking = words.all_without_mix_text(record)
    if lacking:
        indented(console, lacking, 0, "bold")
    note = legend(console, *labs)
    if note:
        indented(console, note, 0, "dim")


def _print_passage(
    console: Console, record: PaintingRecord, number: int, passage: RecordedPassage
) -> None:
    indented(console, f"{number}. {passage.name}", 0, "bold")
    indented(console, words.laid_text(passage), 3)
    if passage.note:
        indented(console, passage.note, 3, "dim")
    for colour in passage.colours:
        _print_colour(console, record, colour)


def _print_colour(console: Console, record: PaintingRecord, colour: RecordedColour) -> None:
    mix = colour.mix
    shown = [colour.lab] if mix is None else [colour.lab, mix.lab]
    parts: list[Text | str] = [patch(console, *shown), words.wanted_text(colour)]
    print_parts(console, "   ", parts, 3)
    indented(console, f"wanted  {lab_text(colour.lab)}", 6)
    if mix is None:
        indented(console, words.without_mix_text(record, colour), 6)
        return
    indented(console, f"laid    {lab_text(mix.lab)}", 6)
    indented(console, words.recipe_text(mix), 6, "bold")
    for paint in mix.paints:
        indented(console, words.paint_text(paint), 8)
    indented(console, words.card_text(record, mix), 6)
    spectrum = words.spectrum_text(mix)
    if spectrum:
        indented(console, spectrum, 6, "dim")

"""What an exported folder says of itself: its README.txt, a line for every column."""

from typing import Final

TABLES: Final = {
    "pigment": "Colour Index pigments.",
    "lightfastness_rating": "Published and own ratings of pigments, each with its source.",
    "h_statement": "Hazard statements of the CLP regulation.",
    "hazard": "Cautions for pigments, each with its source.",
    "hazard_code": "Which statements a caution carries.",
    "hazard_listing": "What lists other than the EU's say of its substance.",
    "hazard_metal": "Which metals a caution is about.",
    "paint": "The paints that you own or owned.",
    "paint_pigment": "Which pigments are in a paint, in the order of its label.",
    "paper": "The papers that you paint and test on.",
    "mix": "Mixes; their paints stand in mix_component.",
    "mix_component": "The parts of each paint in a mix.",
    "swatch": "Test swatches; the colour here is the mean of its dry (else wet) readings.",
    "reading": "Readings of swatches and of the whites of papers.",
    "measurement_file": "Files that readings and targets were taken from.",
    "target": "Colours that were given a name.",
    "container": "Tubes, pans, jars, pads and rolls.",
    "stock_event": "The ledger of each container, in the order of id.",
    "data_sheet": "Where the safety data sheet of a paint lies.",
    "fade_test": "Fade tests of your own.",
    "fade_reading": "Readings of fade tests.",
    "painting": "Your paintings; the picture each is painted from is a file of measurement_file.",
    "passage": "What of a painting is laid in one go, in working order.",
    "passage_colour": "The colours that a passage is to have, the main one first.",
    "colour_try": "Which swatches were held against which colour, in the order of id.",
    "painting_record": "How to mix each colour of a finished painting again.",
    "command": "The commands that changed something.",
    "change": "What each of those commands changed.",
}

COLUMNS: Final = {
    "a": "CIE a* under D50 for the 2 degree observer",
    "amount": "ml, sheets or mm, as the unit of the container says",
    "b": "CIE b* under D50 for the 2 degree observer",
    "backing": "what lay under the sheet (ISO 13655)",
    "blue_wool": "step of a blue wool card that had faded",
    "ci_name": "Colour Index generic name",
    "code": "short name, as shown by the program",
    "condition": "ISO 13655: M0, M1, M2 or M3",
    "at_x": "share of the picture's width",
    "at_y": "share of the picture's height",
    "content": "the file itself, where it was kept; of a record its JSON",
    "currency": "ISO 4217",
    "error_delta_e": "expected error, CIEDE2000",
    "estimated": "1 if it was guessed, else 0",
    "entry": "group, class or statements as the list writes them",
    "evidence": "how well the source was seen",
    "given_a": "a* as it was read, under the white given",
    "given_b": "b* as it was read, under the white given",
    "given_illuminant": "CIE illuminant of what was read",
    "given_lightness": "L* as it was read, under the white given",
    "given_observer": "2 or 10 degrees",
    "hedged": "1 if the source was not certain, else 0",
    "dry_before_next": "1 if it has to be dry before the next begins, else 0",
    "finished_on": "the day its paint was booked",
    "height_mm": "of the painted area",
    "id": "number of the row; other tables refer to it",
    "layers": "how many washes lie over each other",
    "list": "whose list it is",
    "looked_up": "who looked for hazards of it, where, when, and with what result",
    "lightness": "CIE L* under D50 for the 2 degree observer, 0 to 100",
    "low_at_ml": "ml at which it counts as low",
    "low_at_mm": "mm at which it counts as low",
    "low_at_sheets": "sheets at which it counts as low",
    "origin": "how L*a*b* came from what was read",
    "paint_marks_high": "the same from 63 upwards, as bit n - 63",
    "paint_marks_low": "bit n set for a paint of the mix whose id modulo 126 is n, 0 to 62",
    "parts": "whole parts by volume",
    "position": "place in its order, 1 upwards",
    "price_hundredths": "price in hundredths of the currency",
    "recipe_key": "the recipe in lowest terms by paint id, as the program finds it",
    "reference_path": "where the picture lay when it was last seen",
    "sha256": "SHA-256 of the file",
    "scope": "what the entry is about, where not about the substance itself",
    "share": "of the painted area, above 0 and at most 1",
    "size": "bytes",
    "spectrum_start_nm": "first wavelength, nm",
    "spectrum_step_nm": "step, nm",
    "spectrum_values": "reflectance as fractions, a JSON list",
    "spread_delta_e": "mean CIEDE2000 from the mean",
    "state": "dry or wet",
    "tolerance_delta_e": "CIEDE2000 that passes for a colour of it",
    "use": "never, where the caution says never to use it",
    "verified_from": "what you confirmed it from",
    "verified_on": "the day you confirmed it",
    "volume_ml": "ml of a full one",
    "water": "parts of water to one of paint, by volume",
    "weight_g": "g, as the scale showed it",
    "weight_gsm": "g per square metre",
    "width_mm": "of the painted area",
}

OPENING: Final = """\
The records of a painter's studio, whole
========================================

studio.json says what wrote this folder, when, at which schema, and lists every file with its
SHA-256. `studio import FOLDER` makes a database of it that equals the first to the last bit.

Each table is a CSV file (RFC 4180, UTF-8, commas, CRLF, a header). A cell that is \\N holds
nothing, which is not the same as an empty text; a text that begins with a backslash has one more
before it. Numbers have a decimal point and as many digits as it takes to tell the same double.
Days are written 2026-03-14. Colours are CIE 1976 L*a*b* under D50 for the 2 degree observer unless
the row names another white; wavelengths are nm, reflectances fractions.

Measurement files lie in files/ under their SHA-256; their own names stand in measurement_file.csv.
Left out is what the program computes anew from the rest: {left_out}.
"""


def column_line(name: str, kind: str, refers: str | None, *, may_lack: bool) -> str:
    """A line about a column.

    Args:
        name: of the column.
        kind: what it holds.
        refers: the column of another table that it refers to.
        may_lack: whether a row may have none.
    """
    meaning = COLUMNS.get(name)
    parts = [kind + (" or none" if may_lack else "")]
    if refers:
        parts.append(f"refers to {refers}")
    if meaning:
        parts.append(meaning)
    return f"  {name}: {'; '.join(parts)}"


def table_lines(name: str, columns: list[str]) -> str:
    """A paragraph about a table."""
    about = TABLES.get(name)
    title = f"{name}.csv" + (f" - {about}" if about else "")
    return "\n".join(("", title, *columns, ""))

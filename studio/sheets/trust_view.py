"""How far predictions can be trusted, in the terminal."""

from collections import Counter
from collections.abc import Sequence
from typing import Final

from rich.console import Console
from rich.text import Text

from studio.actions.paint_model import PaintModel
from studio.actions.trust import Errors, Foretold, Trust, recipe_of
from studio.colour.lab import Lab
from studio.sheets.match_view import recipe_text
from studio.sheets.screen import (
    indented,
    lab_text,
    legend,
    patch,
    print_parts,
    print_table,
    water_text,
)
from studio.sheets.tables import plain_table

WORST: Final = 5
"""So many swatches are named at most."""

EXAMPLES: Final = 4

LEFT_OUT: Final = (
    "A mix is left out with all its dilutions; a set of paints, such as a pair, with every mix "
    "of it. Expected: the error shown beside predictions; two of three should lie within it."
)


def print_trust(console: Console, trust: Trust) -> None:
    """The errors overall and by paint, the worst swatches, and what the model rests on."""
    indented(console, "Your own mixes, predicted from the others (ΔE00)", 0, "bold")
    table = plain_table(*error_columns("left out"), right=range(1, 7))
    table.add_row("whole mixes", *error_cells(trust.mixes))
    table.add_row("whole sets of paints", *error_cells(trust.sets))
    print_table(console, table)
    indented(console, LEFT_OUT, 0, "dim")
    indented(console, "By paint, whole sets of paints left out", 0, "bold")
    table = plain_table(*error_columns("mixes that hold"), right=range(1, 7))
    for each in trust.paints:
        table.add_row(f"{each.paint.facts.code} {each.paint.facts.name}", *error_cells(each.errors))
    print_table(console, table)
    _print_worst(console, trust)
    print_basis(console, trust.model)
    if trust.staying:
        mixes = "1 mix" if trust.staying == 1 else f"{trust.staying} mixes"
        indented(
            console,
            f"{mixes} could not be left out: a paint in it has no other swatch.",
            0,
        )


def print_basis(console: Console, model: PaintModel) -> None:
    """What a model rests on: its swatches, those left out, and paints it says nothing of."""
    for sentence in basis_sentences(model):
        indented(console, sentence, 0)


def basis_sentences(model: PaintModel) -> list[str]:
    """What a model rests on, a sentence each."""
    sentences = [_spectra(model.measured, model.estimated)]
    sentences += [f"Contradictory: {each.why}." for each in model.contradictions]
    reasons: dict[str, list[str]] = {}
    for each in model.inputs.left_aside:
        reasons.setdefault(each.why, []).append(each.swatch.facts.code)
    for why, codes in reasons.items():
        shown = ", ".join(codes[:EXAMPLES]) + (", …" if len(codes) > EXAMPLES else "")
        many = f"{len(codes)} swatches are left out ({shown}): each {why}."
        sentences.append(f"Left out: {codes[0]} {why}." if len(codes) == 1 else many)
    sentences += [
        f"Not known: {each.paint.facts.full_name}, {each.why}; missing: {each.missing}."
        for each in model.inputs.unknown
    ]
    return sentences


def _spectra(measured: int, estimated: int) -> str:
    if not estimated:
        return f"From {measured} patches, each with a measured spectrum."
    if not measured:
        return (
            f"From {estimated} patches without any spectrum: theirs are estimated from Lab, which "
            "leaves predictions less sure."
        )
    return (
        f"From {measured} patches with a measured spectrum and {estimated} read as Lab alone, "
        "whose spectra are estimated and count less."
    )


def _print_worst(console: Console, trust: Trust) -> None:
    worst = trust.foretold[:WORST]
    indented(console, "Furthest off (measured beside predicted)", 0, "bold")
    for each in worst:
        recipe = recipe_text(recipe_of(trust.model, each.patch))
        parts: list[Text | str] = [
            patch(console, each.measured, each.predicted),
            each.patch.code,
            f"ΔE00 {each.delta_e:.1f} (expected {each.expected:.1f})",
        ]
        print_parts(console, "  ", parts, 4)
        indented(console, f"{recipe}, {water_text(each.patch.swatch.facts.water)}", 4)
        indented(console, f"measured {lab_text(each.measured)}", 4, "dim")
        indented(console, f"predicted {lab_text(each.predicted)}", 4, "dim")
    note = legend(console, *_labs(worst))
    if note:
        indented(console, note, 2, "dim")
    named = Counter(code for each in worst for code in _codes(trust, each))
    often = [code for code, count in named.most_common() if count >= WORST - 2]
    if often:
        indented(console, f"most of them hold {' and '.join(often)}", 2)


def _codes(trust: Trust, each: Foretold) -> list[str]:
    return [part.paint.facts.code for part in recipe_of(trust.model, each.patch)]


def _labs(worst: Sequence[Foretold]) -> list[Lab]:
    return [lab for each in worst for lab in (each.measured, each.predicted)]


def error_columns(first: str) -> tuple[str, ...]:
    """The headings of a table of errors."""
    return (first, "swatches", "mean", "median", "90 %", "expected", "within")


def error_cells(errors: Errors) -> tuple[str, ...]:
    """Some errors as cells of it, behind the first."""
    numbers = (errors.mean, errors.median, errors.ninety, errors.expected)
    return (
        str(errors.count),
        *(f"{number:.1f}" for number in numbers),
        f"{errors.within:.0%}".replace("%", " %"),
    )

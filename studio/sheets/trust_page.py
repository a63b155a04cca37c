"""How far predictions can be trusted, as a page for a browser."""

from datetime import date
from typing import Final

from studio.actions.trust import Foretold, Trust, recipe_of
from studio.sheets.blocks import Block, Bullets, Grid, Heading, Page, Paragraph
from studio.sheets.chart_page import chart_page
from studio.sheets.match_view import recipe_text
from studio.sheets.page_parts import starred
from studio.sheets.screen import water_text
from studio.sheets.trust_chart import TITLE, lead_of
from studio.sheets.trust_view import LEFT_OUT, basis_sentences, error_cells, error_columns

_NUMBERS: Final = frozenset(range(1, 7))
_WIDTHS: Final = (4, 1, 1, 1, 1, 1, 1)


def trust_page(trust: Trust, png: bytes, day: date) -> Page:
    """The errors overall, by paint and swatch by swatch, and what the model rests on."""
    overall = (
        ("whole mixes", *error_cells(trust.mixes)),
        ("whole sets of paints", *error_cells(trust.sets)),
    )
    paints = tuple(
        (f"{each.paint.facts.code} {each.paint.facts.name}", *error_cells(each.errors))
        for each in trust.paints
    )
    blocks: list[Block] = [
        Heading("ΔE00 of your own mixes, predicted from the others"),
        Grid(error_columns("left out"), overall, _WIDTHS, _NUMBERS),
        Paragraph(LEFT_OUT, small=True),
        Heading("By paint, whole sets of paints left out"),
        Grid(error_columns("mixes that hold"), paints, _WIDTHS, _NUMBERS),
        Heading("Swatch by swatch, the furthest off first"),
        _swatches(trust),
        Heading("What predictions rest on"),
        Bullets(tuple(basis_sentences(trust.model))),
    ]
    worst = trust.foretold[0]
    return chart_page(
        title=TITLE,
        lead=f"{lead_of(trust)}.",
        png=png,
        instead=(
            "Predicted against measured L*, a* and b*, and the patches side by side. "
            f"{lead_of(trust)}. The furthest off is {worst.patch.code}, ΔE00 {worst.delta_e:.1f}."
        ),
        values=blocks,
        day=day,
    )


def _swatches(trust: Trust) -> Grid:
    """Two small patches a swatch, as measured and as predicted."""
    rows = tuple(
        (
            f"{starred('measured', each.measured)}\n{starred('predicted', each.predicted)}",
            each.patch.code,
            _wash(trust, each),
            f"{each.delta_e:.1f}",
            f"{each.expected:.1f}",
        )
        for each in trust.foretold
    )
    chips = tuple((each.measured, each.predicted) for each in trust.foretold)
    columns = ("colours", "swatch", "mix", "ΔE00", "expected")
    return Grid(columns, rows, (16, 10, 50, 10, 10), frozenset({3, 4}), chips=chips)


def _wash(trust: Trust, each: Foretold) -> str:
    recipe = recipe_text(recipe_of(trust.model, each.patch))
    return f"{recipe}, {water_text(each.patch.swatch.facts.water)}"

"""A chart as a page for a browser: the picture, what it says in words, and its values as tables."""

from collections.abc import Iterator, Sequence
from datetime import date
from io import BytesIO
from typing import Final

from studio.colour.display import on_screen
from studio.colour.lab import Lab
from studio.sheets.blocks import Block, Grid, Illustration, Page, Paragraph
from studio.sheets.chart_sheet import DPI
from studio.sheets.page_parts import OUTSIDE
from studio.sheets.screen import day_text

_CSS_DPI: Final = 96
_CAPTION: Final = "The same values stand in the tables below."
_FOOT: Final = (
    "Colours are L*a*b* under D50/2°; a screen or print shows them only as well as it is adjusted."
)


def chart_page(  # noqa: PLR0913 - what a chart is
    *, title: str, lead: str, png: bytes, instead: str, values: Sequence[Block], day: date
) -> Page:
    """The page of a chart.

    Args:
        title: its heading.
        lead: what it is of, a sentence or two.
        png: the picture as `chart_sheet` writes it; its patches stay as they are.
        instead: what the picture says, for who cannot see it.
        values: what is drawn, as tables, and what is to be known of it.
        day: the day it was made.
    """
    from PIL import Image  # noqa: PLC0415 - for charts alone

    with Image.open(BytesIO(png)) as picture:
        width, height = picture.size
    chart = Illustration(png, width, height, instead, _CAPTION, round(width * _CSS_DPI / DPI))
    marks = any(not on_screen(lab).in_gamut for lab in _chips(values))
    notes = (Paragraph(OUTSIDE, small=True),) if marks else ()
    blocks = (chart, *values, *notes)
    return Page(title, f"{lead} {day_text(day)}.", blocks, _FOOT, day=day, wide=True)


def _chips(values: Sequence[Block]) -> Iterator[Lab]:
    grids = (block for block in values if isinstance(block, Grid))
    return (lab for grid in grids for row in grid.chips for lab in row if isinstance(lab, Lab))

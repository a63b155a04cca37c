"""A blank grid for a sheet of paper at true size, as a PDF with a page of the sheet's size."""

from datetime import UTC, datetime
from typing import Final

from fpdf import FPDF

from studio.picture.grid import column_name
from studio.sheets.grid_picture import strength
from studio.sheets.page_type import POINT
from studio.sheets.typeface import FAMILY, typeface

_UNDATED: Final = datetime(2000, 1, 1, tzinfo=UTC)
_WIDTHS: Final = {1: 0.15, 2: 0.25, 3: 0.4}
"""mm of a line by its strength."""
_GREY: Final = 150
_INSET: Final = 5.0
"""mm between the edge of the sheet and its names, which a mount covers."""
_CHECK: Final = 100.0
"""mm of the length that shows whether the print has its true size."""


def grid_pdf(across: float, down: float, cells: int, paper: str) -> bytes:
    """The lines and names of a grid on a page of the sheet's size; the same bytes every time.

    Args:
        across: of the sheet, mm.
        down: of the sheet, mm.
        cells: columns and rows.
        paper: how it is called.
    """
    pdf = FPDF(unit="mm", format=(across, down))
    pdf.set_auto_page_break(auto=False)
    pdf.add_font(FAMILY, "", typeface())
    title = f"Grid of {cells} x {cells} for {paper}, {across:g} x {down:g} mm"
    pdf.set_title(title)
    pdf.set_lang("en")
    pdf.set_creator("studio")
    pdf.set_creation_date(_UNDATED)
    pdf.add_page()
    _draw_lines(pdf, across, down, cells)
    _draw_names(pdf, across, down, cells)
    cell = f"cells of {across / cells:.4g} x {down / cells:.4g} mm"
    _draw_foot(pdf, across, down, f"{title}; {cell}; print at 100 %")
    return bytes(pdf.output())


def _draw_lines(pdf: FPDF, across: float, down: float, cells: int) -> None:
    pdf.set_draw_color(_GREY)
    for line in range(cells + 1):
        pdf.set_line_width(_WIDTHS[strength(line, cells)])
        x, y = across * line / cells, down * line / cells
        pdf.line(x, 0, x, down)
        pdf.line(0, y, across, y)


def _draw_names(pdf: FPDF, across: float, down: float, cells: int) -> None:
    size = 9.0
    inset = min(_INSET, down / cells / 4, across / cells / 4)
    for number in range(cells):
        x, y = across * (number + 0.5) / cells, down * (number + 0.5) / cells
        for top in (inset, down - inset):
            _write(pdf, x, top, column_name(number), size)
        for left in (inset, across - inset):
            _write(pdf, left, y, str(number + 1), size)


def _draw_foot(pdf: FPDF, across: float, down: float, text: str) -> None:
    """What it is, small, in the lower left corner, above a length to check the print by."""
    size = 6.0
    pdf.set_font(FAMILY, "", size)
    left = 2 * _INSET
    room = across - 2 * left
    width = pdf.get_string_width(text)
    size = size if width <= room else max(2.0, size * room / width)
    if room >= _CHECK and down >= _CHECK:
        pdf.set_draw_color(_GREY)
        pdf.set_line_width(0.25)
        bar = down - 3.0 * _INSET
        pdf.line(left, bar, left + _CHECK, bar)
        for end in (left, left + _CHECK):
            pdf.line(end, bar - 1.5, end, bar + 1.5)
        _write(pdf, left + _CHECK + 2.0, bar, "100 mm", size, centred=False)
    _write(pdf, left, down - 2.2 * _INSET, text, size, centred=False)


def _write(  # noqa: PLR0913 - where, what, how
    pdf: FPDF, x: float, y: float, text: str, size: float, *, centred: bool = True
) -> None:
    """A text whose middle line lies at y, mm."""
    pdf.set_font(FAMILY, "", size)
    pdf.set_text_color(_GREY - 40)
    width = pdf.get_string_width(text)
    shift = width / 2 if centred else 0.0
    # A line of the grid is left out behind the letters.
    pdf.set_fill_color(255)
    height = size * POINT
    pdf.rect(x - shift - 0.6, y - height / 2, width + 1.2, height, style="F")
    pdf.text(x - shift, y + 0.36 * size * POINT, text)

"""The one look of all charts: a white sheet, greys, the typeface of the pages, PNG and PDF.

All is grey but the patches, and what is told apart is told apart by form, so that a print without
colour reads as well and nothing sits beside a colour that changes how it looks.
"""

import io
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any, Final, Literal

from studio.sheets.page_type import FLOOR
from studio.sheets.typeface import FAMILY

if TYPE_CHECKING:
    from matplotlib.figure import Figure

Kind = Literal["png", "pdf"]

DPI: Final = 150
"""Pixels an inch of a PNG."""

GROUND: Final = "0.90"
"""The neutral ground of plots and of empty cells: a near-white wash shows on it, a dark one too."""

LINE: Final = "0.45"
INK: Final = "0.1"
QUIET: Final = "0.3"
"""Greys of lines, of text and of quiet text."""

SMALLEST: Final = FLOOR
"""Points: no type is smaller, as on the pages."""

WHITE: Final = "CIE L*a*b*, D50/2°"

_LOOK: Final[dict[str, Any]] = {
    "axes.edgecolor": LINE,
    "axes.labelcolor": INK,
    "axes.labelsize": 9.0,
    "axes.linewidth": 0.7,
    "font.family": [FAMILY],
    "lines.solid_capstyle": "butt",
    "pdf.compression": 9,
    # TrueType letters stay text that can be searched and copied.
    "pdf.fonttype": 42,
    # A name may hold a dollar sign.
    "text.parse_math": False,
    "text.color": INK,
    "xtick.color": LINE,
    "xtick.labelcolor": INK,
    "xtick.labelsize": 8.0,
    "ytick.color": LINE,
    "ytick.labelcolor": INK,
    "ytick.labelsize": 8.0,
}


@contextmanager
def chart_sheet(width: float, height: float) -> Iterator["Figure"]:
    """An empty sheet of a size in inches; what is drawn on it and `written` inside has the look."""
    # matplotlib takes half a second, and its pyplot a display; the Agg canvas needs none.
    import warnings  # noqa: PLC0415

    from matplotlib import style  # noqa: PLC0415
    from matplotlib.backends.backend_agg import FigureCanvasAgg  # noqa: PLC0415
    from matplotlib.figure import Figure  # noqa: PLC0415

    with style.context(["default", _LOOK]), warnings.catch_warnings():
        # A name in a script that the font has no letters for is drawn as boxes.
        warnings.filterwarnings("ignore", message="Glyph")
        figure = Figure(figsize=(width, height), dpi=DPI, facecolor="white")
        FigureCanvasAgg(figure)
        yield figure


def written(figure: "Figure", kind: Kind) -> bytes:
    """The sheet as a file; the same sheet gives the same bytes."""
    from PIL.PngImagePlugin import PngInfo  # noqa: PLC0415 - for PNG alone

    file = io.BytesIO()
    if kind == "pdf":
        undated = {"CreationDate": None, "Creator": "studio", "Producer": None}
        figure.savefig(file, format="pdf", metadata=undated)
        return file.getvalue()
    srgb = PngInfo()
    srgb.add(b"sRGB", b"\x00")  # its numbers are sRGB, perceptual intent (PNG, section 11.3.2.5)
    figure.savefig(file, format="png", dpi=DPI, pil_kwargs={"pnginfo": srgb})
    return file.getvalue()

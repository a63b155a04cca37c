"""The typeface of pages and pictures: DejaVu Sans, which comes with matplotlib."""

from pathlib import Path
from typing import Final

FAMILY: Final = "DejaVu Sans"


def typeface(*, bold: bool = False) -> Path:
    """The TrueType file of the typeface."""
    import matplotlib as mpl  # noqa: PLC0415 - half a second, for pages and pictures alone

    name = "DejaVuSans-Bold.ttf" if bold else "DejaVuSans.ttf"
    return Path(mpl.get_data_path()) / "fonts" / "ttf" / name

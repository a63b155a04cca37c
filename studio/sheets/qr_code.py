"""The code of a swatch as a QR code (ISO/IEC 18004), to be drawn in any ink on any sheet."""

from typing import Final

import segno

MODULES: Final = 21
"""Modules to a side: version 1, which holds the longest code of the studio."""

QUIET_ZONE: Final = 4
"""Modules left white on each side (ISO/IEC 18004, 5.3.8)."""


def qr_runs(text: str) -> tuple[tuple[int, int, int], ...]:
    """The dark modules as (row, first column, how many side by side), without the quiet zone.

    A quarter of the code words may be spoilt by a drop of paint (level Q); where the text leaves
    room for it, 30 % (level H).

    Args:
        text: capitals and digits, at most 16.
    """
    made = segno.make_qr(text, version=1, error="q", mode="alphanumeric", boost_error=True)
    runs = []
    for row, modules in enumerate(made.matrix):
        column = 0
        while column < MODULES:
            start = column
            while column < MODULES and modules[column]:
                column += 1
            if column > start:
                runs.append((row, start, column - start))
            column += 1
    return tuple(runs)

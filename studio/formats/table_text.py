"""A text table as rows of cells, whatever stands between its cells."""

import csv
import io
from typing import Final

from studio.formats.plain_text import number
from studio.formats.sample import UnreadableFile

_SNIFFED: Final = 50

Rows = list[tuple[int, list[str]]]
"""(line, cells); blank lines and those that begin with # are left out."""


def rows_of(text: str, file: str) -> Rows:
    """The rows of a table whose cells are parted by tabs, semicolons, commas or blanks.

    Raises:
        UnreadableFile: a quoted cell is never closed or larger than a cell can be.
    """
    lines = text.splitlines()
    kept = [line for line in lines if line.strip() and not line.lstrip().startswith("#")]
    sign = _separator(kept[:_SNIFFED])
    if sign is None:
        found = enumerate(lines, start=1)
        return [
            (at, line.split())
            for at, line in found
            if line.strip() and not line.lstrip().startswith("#")
        ]
    rows: Rows = []
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=sign, strict=True)
    try:
        for cells in reader:
            stripped = [cell.strip() for cell in cells]
            if any(stripped) and not stripped[0].startswith("#"):
                rows.append((reader.line_num, stripped))
    except csv.Error as error:
        msg = f"{file}, line {reader.line_num}: {error}; export it again"
        raise UnreadableFile(msg) from None
    return rows


def _separator(lines: list[str]) -> str | None:
    """What stands between cells; None for blanks.

    Blanks are tried before commas, which may be decimal commas: `380 0,123`.
    """
    for sign in ("\t", ";"):
        if any(sign in line for line in lines):
            return sign
    numeric = [line.split() for line in lines if line.split()[0][0] in "+-.0123456789"]
    if numeric and all(
        len(cells) > 1 and all(number(cell) is not None for cell in cells) for cells in numeric
    ):
        return None
    return "," if any("," in line for line in lines) else None

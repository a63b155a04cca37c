"""A CSV file as a header and rows, refused where it is no table of its kind."""

import codecs
import csv
import io
from collections.abc import Sequence
from pathlib import Path
from typing import Final

from studio.actions.plain_file import LARGEST_TABLE, bytes_of
from studio.errors import BadInput

LONGEST_CELL: Final = 1_000_000
Line = tuple[int, tuple[str, ...]]
"""The number of a line and its cells."""


def read_table(
    path: Path, name: str, needed: Sequence[str], optional: Sequence[str]
) -> tuple[list[str], list[Line]]:
    """The header of a file in lower case, and its rows with their line numbers.

    Args:
        path: the file.
        name: what the table holds, for people.
        needed: columns that must be there.
        optional: columns that may be there.

    Raises:
        BadInput: it is no UTF-8 CSV file with the columns of its kind.
    """
    csv.field_size_limit(LONGEST_CELL)
    try:
        content = bytes_of(path, LARGEST_TABLE, "split it")
        text = content.removeprefix(codecs.BOM_UTF8).decode("utf-8")
        reader = csv.reader(io.StringIO(text, newline=""), strict=True)
        header = [column.strip().lower() for column in next(reader, [])]
        _check_header(path, header, name, needed, optional)
        rows = []
        line = reader.line_num + 1
        for values in reader:
            if any(map(str.strip, values)):
                rows.append((line, tuple(values)))
            line = reader.line_num + 1  # a quoted cell may have gone over several lines
    except UnicodeDecodeError as error:
        msg = f"{path.name} is not UTF-8 text (byte {error.start}); save it as CSV UTF-8"
        raise BadInput(msg) from None
    except csv.Error as error:
        msg = f"{path.name} is not a CSV table: line {reader.line_num}: {error}"
        raise BadInput(msg) from None
    return header, rows


def _check_header(
    path: Path, header: list[str], name: str, needed: Sequence[str], optional: Sequence[str]
) -> None:
    known = {*needed, *optional}
    missing = [column for column in needed if column not in header]
    unknown = [column for column in header if column not in known]
    double = {column for column in header if header.count(column) > 1}
    if missing:
        msg = f"{path.name} has no column {', '.join(missing)}, which {name} need"
        raise BadInput(msg)
    if unknown or double:
        listed = ", ".join(repr(column) for column in (*unknown, *sorted(double)))
        msg = (
            f"{path.name} has a column {listed} that {name} do not have (or have once); "
            f"columns are: {', '.join((*needed, *optional))}"
        )
        raise BadInput(msg)

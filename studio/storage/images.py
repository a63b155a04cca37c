"""Rows as text, exact to the last bit, and back: what the history keeps of a row."""

import base64
import json
from collections.abc import Iterator, Mapping
from datetime import date
from typing import Any, Final

from sqlalchemy import Column, Date, LargeBinary, RowMapping, Table

from studio.catalogue.history import Image
from studio.storage import tables as t
from studio.storage.table_rows import DERIVED

NOT_KEPT: Final = DERIVED | {"command", "change"}
"""Tables without a history: what is computed anew from the others, and the history itself."""

KEPT: Final[dict[str, Table]] = {
    table.name: table for table in t.metadata.sorted_tables if table.name not in NOT_KEPT
}
"""Every table with a history, a table before those that refer to it."""

_PART_OF: Final = {
    "reading": {"swatch_id": "swatch", "paper_id": "paper"},
    "mix_component": {"mix_id": "mix"},
    "paint_pigment": {"paint_id": "paint"},
    "data_sheet": {"paint_id": "paint"},
    "container": {"paint_id": "paint", "paper_id": "paper"},
    "stock_event": {"container_id": "container"},
    "fade_reading": {"fade_test_id": "fade_test"},
    "passage": {"painting_id": "painting"},
    "passage_colour": {"passage_id": "passage"},
    "colour_try": {"colour_id": "passage_colour"},
    "painting_record": {"painting_id": "painting"},
    "lightfastness_rating": {"pigment_id": "pigment"},
    "hazard": {"pigment_id": "pigment"},
}


def image_of(row: RowMapping) -> Image:
    """A row as it is kept: without its NULLs; floats, days and bytes come back as they were."""
    return {str(name): _plain(cell) for name, cell in row.items() if cell is not None}


def cells_of(table: Table, image: Image) -> dict[str, Any]:
    """The cells of a row for an INSERT or UPDATE of all its columns."""
    return {column.name: _cell(column, image.get(column.name)) for column in table.columns}


def written(image: Image) -> str:
    """An image as the history stores it, its columns in their order in the table."""
    return json.dumps(image, ensure_ascii=False, separators=(",", ":"))


def alike(one: Image, other: Image) -> bool:
    """Whether two images are of the same row in the same state, to the last bit."""
    # Compared as text: 0.0 and -0.0 are two, and so are 1 and 1.0.
    return dict(_texts(one)) == dict(_texts(other))


def _texts(image: Image) -> Iterator[tuple[str, str]]:
    return ((name, repr(cell)) for name, cell in image.items())


def key_columns(table: Table) -> tuple[Column[Any], ...]:
    """The columns of a table's primary key."""
    return tuple(table.primary_key.columns)


def has_ids(table: Table) -> bool:
    """Whether the rows of a table are numbered by the database."""
    return "id" in table.columns


def part_of(table: str, cells: Mapping[str, Any]) -> str | None:
    """What a row is a part of, such as `swatch 12` for a reading."""
    for column, owner in _PART_OF.get(table, {}).items():
        if cells.get(column) is not None:
            return f"{owner} {cells[column]}"
    return None


def part_columns(owner: str) -> dict[str, str]:
    """The tables whose rows are parts of another's, each with the column that says so."""
    return {
        table: column
        for table, columns in _PART_OF.items()
        for column, other in columns.items()
        if other == owner
    }


def _plain(cell: Any) -> str | int | float | bool:  # noqa: ANN401 - what a driver returns
    if isinstance(cell, date):
        return cell.isoformat()
    if isinstance(cell, bytes):
        return base64.b64encode(cell).decode("ascii")
    plain: str | int | float | bool = cell
    return plain


def _cell(column: Column[Any], kept: Any) -> Any:  # noqa: ANN401 - what a driver takes
    if kept is None:
        return None
    if isinstance(column.type, Date):
        return date.fromisoformat(kept)
    if isinstance(column.type, LargeBinary):
        return base64.b64decode(kept)
    return kept

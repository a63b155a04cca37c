"""Rows of the history as a painter would name them, with the fields that changed."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from studio.catalogue.history import Cell, Image, RowChange
from studio.storage.unit_of_work import UnitOfWork


class What(StrEnum):
    """What was done to a row."""

    ADDED = "added"
    CHANGED = "changed"
    TAKEN_OUT = "taken out"


@dataclass(frozen=True, slots=True)
class FieldChange:
    """A field of a row before and afterwards; None stands for nothing on record."""

    field: str
    before: Cell
    after: Cell


@dataclass(frozen=True, slots=True)
class ToldRow:
    """What a command did to one row.

    Args:
        command_id: the command.
        table: its table.
        name: what a painter calls it: `S12`, `reading of S12`.
        what: what was done to it.
        fields: the fields that changed; of a row that was added or taken out, all it holds.
    """

    command_id: int
    table: str
    name: str
    what: What
    fields: tuple[FieldChange, ...]


_NAMED_BY: Final = {
    "swatch": "code",
    "mix": "code",
    "paint": "code",
    "paper": "code",
    "container": "code",
    "fade_test": "code",
    "target": "name",
    "painting": "code",
    "passage": "name",
    "pigment": "ci_name",
    "measurement_file": "name",
    "h_statement": "code",
}
_PARTS: Final = {
    "reading": ("reading", (("swatch_id", "swatch"), ("paper_id", "paper"))),
    "stock_event": ("entry", (("container_id", "container"),)),
    "fade_reading": ("reading", (("fade_test_id", "fade_test"),)),
    "passage_colour": ("colour", (("passage_id", "passage"),)),
    "colour_try": ("try", (("swatch_id", "swatch"),)),
    "painting_record": ("record", (("painting_id", "painting"),)),
    "mix_component": ("paint", (("mix_id", "mix"),)),
    "paint_pigment": ("pigment", (("paint_id", "paint"),)),
    "data_sheet": ("data sheet", (("paint_id", "paint"),)),
    "lightfastness_rating": ("rating", (("pigment_id", "pigment"),)),
    "hazard": ("caution", (("pigment_id", "pigment"),)),
    "hazard_code": ("statement", (("hazard_id", "hazard"),)),
    "hazard_listing": ("listing", (("hazard_id", "hazard"),)),
    "hazard_metal": ("metal", (("hazard_id", "hazard"),)),
}
_NOT_TOLD: Final = frozenset({"id", "paint_marks_low", "paint_marks_high"})
"""Columns that say nothing to a painter."""
_REFERS: Final = {
    "mix_id": "mix",
    "paper_id": "paper",
    "paint_id": "paint",
    "pigment_id": "pigment",
    "file_id": "measurement_file",
    "swatch_id": "swatch",
    "container_id": "container",
    "other_id": "container",
    "fade_test_id": "fade_test",
    "hazard_id": "hazard",
    "painting_id": "painting",
    "passage_id": "passage",
    "over_id": "passage",
    "colour_id": "passage_colour",
}


def told_rows(work: UnitOfWork, changes: Sequence[RowChange]) -> tuple[ToldRow, ...]:
    """What was done to some rows; names are those that the things have now, else had."""
    names: dict[tuple[str, Cell], str] = {}
    for change in changes:
        image = change.after or change.before or {}
        if change.table in _NAMED_BY:
            names[change.table, change.key[0]] = str(image.get(_NAMED_BY[change.table], ""))
    return tuple(_told(work, change, names) for change in changes)


def _told(work: UnitOfWork, change: RowChange, names: dict[tuple[str, Cell], str]) -> ToldRow:
    before, after = change.before or {}, change.after or {}
    what = What.CHANGED
    if change.before is None:
        what = What.ADDED
    elif change.after is None:
        what = What.TAKEN_OUT
    columns = dict.fromkeys((*before, *after))
    fields = tuple(
        _field(work, column, before, after, names)
        for column in columns
        if column not in _NOT_TOLD and before.get(column) != after.get(column)
    )
    name = _name(work, change.table, change.key, after or before, names)
    return ToldRow(change.command_id, change.table, name, what, fields)


def _field(
    work: UnitOfWork, column: str, before: Image, after: Image, names: dict[tuple[str, Cell], str]
) -> FieldChange:
    old, new = before.get(column), after.get(column)
    if column not in _REFERS:
        return FieldChange(column, old, new)
    of = _REFERS[column]
    return FieldChange(
        column.removesuffix("_id"),
        None if old is None else _name(work, of, (old,), None, names),
        None if new is None else _name(work, of, (new,), None, names),
    )


def _name(
    work: UnitOfWork,
    table: str,
    key: tuple[Cell, ...],
    image: Image | None,
    names: dict[tuple[str, Cell], str],
) -> str:
    if image is None and (table, key[0]) in names:
        return names[table, key[0]]
    if image is None:
        image = work.history.row(table, key) or {}
    if table in _NAMED_BY:
        name = str(image.get(_NAMED_BY[table]) or f"{table.replace('_', ' ')} {key[0]}")
        names[table, key[0]] = name
        return name
    noun, owners = _PARTS[table]
    for column, owner in owners:
        if image.get(column) is not None:
            return f"{noun} of {_name(work, owner, (image[column],), None, names)}"
    return noun

"""What the statements of a transaction did to the rows, brought together row by row."""

import json
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any

from sqlalchemy import Connection, Table, select
from sqlalchemy import tuple_ as row_of

from studio.catalogue.history import Image
from studio.storage.images import KEPT, alike, has_ids, image_of, key_columns, part_of, written

_CHUNK = 500
_encode = json.JSONEncoder(ensure_ascii=False).encode

Key = tuple[Any, ...]
Cells = dict[str, int | str | None]


@dataclass(frozen=True, slots=True)
class Added:
    """Rows that a statement added, by their ids or where they have another key by that."""

    table: str
    rows: range | Sequence[Key]


@dataclass(frozen=True, slots=True)
class Touched:
    """A row that a statement was about to change or to delete."""

    table: str
    key: Key
    before: Image


@dataclass(slots=True)
class _Gathered:
    """What became of one table: a row that was changed twice was changed once."""

    ranges: list[tuple[int, int]] = field(default_factory=list)
    added: dict[Key, None] = field(default_factory=dict)
    before: dict[Key, Image] = field(default_factory=dict)
    added_and_touched: set[Key] = field(default_factory=set)

    def take(self, entry: Added | Touched, *, numbered: bool) -> None:
        if isinstance(entry, Touched):
            if self._is_new(entry.key, numbered=numbered):
                self.added_and_touched.add(entry.key)
            else:
                self.before.setdefault(entry.key, entry.before)
        elif not isinstance(entry.rows, range):
            self.added |= dict.fromkeys(entry.rows)
        elif self.ranges and self.ranges[-1][1] + 1 == entry.rows.start:
            self.ranges[-1] = (self.ranges[-1][0], entry.rows[-1])
        else:
            self.ranges.append((entry.rows.start, entry.rows[-1]))

    def drop_added(self, key: Key, *, numbered: bool) -> None:
        """A row that is not new after all: it had been there before, or is gone again."""
        self.added.pop(key, None)
        if numbered:
            self.ranges = [
                part
                for first, last in self.ranges
                for part in (
                    ((first, key[0] - 1), (key[0] + 1, last))
                    if first <= key[0] <= last
                    else ((first, last),)
                )
                if part[0] <= part[1]
            ]

    def _is_new(self, key: Key, *, numbered: bool) -> bool:
        if key in self.before:
            return False
        if not numbered:
            return key in self.added
        return any(first <= key[0] <= last for first, last in self.ranges)


def changes_of(connection: Connection, entries: Iterable[Added | Touched]) -> Iterator[Cells]:
    """The rows of the table `change` for what some statements did, a table before its children."""
    gathered: dict[str, _Gathered] = {}
    for entry in entries:
        of_table = gathered.setdefault(entry.table, _Gathered())
        of_table.take(entry, numbered=has_ids(KEPT[entry.table]))
    for name, table in KEPT.items():
        if name in gathered:
            yield from _changes(connection, table, gathered[name])


def _changes(connection: Connection, table: Table, gathered: _Gathered) -> Iterator[Cells]:
    numbered = has_ids(table)
    for key in gathered.before:
        gathered.drop_added(key, numbered=numbered)
    there = _rows(connection, table, [*gathered.before, *gathered.added_and_touched])
    for key in gathered.added_and_touched - there.keys():
        gathered.drop_added(key, numbered=numbered)
    names = [column.name for column in key_columns(table)]
    empty: Cells = dict.fromkeys(("first_id", "last_id", "row_key", "part_of", "before", "after"))
    empty["table_name"] = table.name
    for first, last in gathered.ranges:
        yield {**empty, "first_id": first, "last_id": last}
    for key in gathered.added:
        owner = part_of(table.name, dict(zip(names, key, strict=True)))
        yield {**empty, **_key_cells(key, numbered=numbered), "part_of": owner}
    for key, before in gathered.before.items():
        after = there.get(key)
        if after is None or not alike(before, after):
            yield {
                **empty,
                **_key_cells(key, numbered=numbered),
                "part_of": part_of(table.name, before),
                "before": written(before),
                "after": None if after is None else written(after),
            }


def _key_cells(key: Key, *, numbered: bool) -> Cells:
    if numbered:
        return {"first_id": key[0], "last_id": key[0]}
    return {"row_key": written_key(key)}


def written_key(key: Key) -> str:
    """A key that is no number of its own, as the history stores it."""
    return _encode(list(key))


def _rows(connection: Connection, table: Table, keys: Sequence[Key]) -> dict[Key, Image]:
    columns = key_columns(table)
    found: dict[Key, Image] = {}
    for start in range(0, len(keys), _CHUNK):
        some = keys[start : start + _CHUNK]
        among = (
            columns[0].in_([key[0] for key in some])
            if len(columns) == 1
            else row_of(*columns).in_(some)
        )
        for row in connection.execute(select(table).where(among)).mappings():
            found[tuple(row[column.name] for column in columns)] = image_of(row)
    return found

"""The history of a studio: which commands changed what, and what a row was before."""

import json
from collections.abc import Sequence
from datetime import UTC, datetime
from typing import Any

from sqlalchemy import ColumnElement, Connection, RowMapping, and_, case, func, select, update

from studio.catalogue.history import (
    Cell,
    Change,
    Command,
    CommandKind,
    Count,
    Image,
    RowChange,
)
from studio.storage import tables as t
from studio.storage.gathered import written_key
from studio.storage.images import KEPT, has_ids, image_of, key_columns, part_columns


class History:
    """The commands of one database that changed something, and their changes."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection
        self._read: tuple[int, tuple[Change, ...]] | None = None

    def last(self, most: int) -> tuple[Command, ...]:
        """The last commands, the newest first."""
        statement = select(t.command).order_by(t.command.c.id.desc()).limit(most)
        return tuple(_command(row) for row in self._connection.execute(statement).mappings())

    def by_ids(self, keys: Sequence[int]) -> dict[int, Command]:
        """Some commands by their ids."""
        return {command.id: command for command in self._commands(t.command.c.id.in_(keys))}

    def standing(self, kind: CommandKind) -> tuple[Command, ...]:
        """The commands of a kind that were not taken back, the newest first."""
        c = t.command.c
        return self._commands(and_(c.kind == kind, c.undone_by.is_(None)))[::-1]

    def mark_undone(self, command: int, by: int | None) -> None:
        """Note that a command was taken back by another, or with None that it stands again."""
        self._connection.execute(
            update(t.command).where(t.command.c.id == command).values(undone_by=by)
        )

    def changes_of(self, command: int) -> tuple[Change, ...]:
        """What a command changed, in the order it is kept."""
        if self._read is None or self._read[0] != command:  # told first, then taken back
            self._read = command, self._changes(t.change.c.command_id == command)
        return self._read[1]

    def counts_of(self, commands: Sequence[int]) -> dict[int, tuple[Count, ...]]:
        """How many rows of each table some commands added, changed and took out."""
        c = t.change.c
        rows = func.coalesce(c.last_id - c.first_id, 0) + 1
        statement = (
            select(
                c.command_id,
                c.table_name,
                func.sum(case((c.before.is_(None), rows), else_=0)),
                func.sum(case((c.after.is_not(None), 1), else_=0)),
                func.sum(case((and_(c.before.is_not(None), c.after.is_(None)), 1), else_=0)),
            )
            .where(c.command_id.in_(commands))
            .group_by(c.command_id, c.table_name)
            .order_by(func.min(c.id))
        )
        found: dict[int, list[Count]] = {}
        for command, *count in self._connection.execute(statement):
            found.setdefault(command, []).append(Count(*count))
        return {command: tuple(counts) for command, counts in found.items()}

    def rows_of(self, command: int, most: int) -> tuple[RowChange, ...]:
        """What a command did to each row: of each table the first so many of each kind."""
        left: dict[tuple[str, bool, bool], int] = {}
        found: list[RowChange] = []
        for change in self.changes_of(command):
            kind = (change.table, change.adds, change.takes_out)
            keys = _keys(change, left.setdefault(kind, most))
            left[kind] -= len(keys)
            found += [self._row_change(change, key) for key in keys]
        return tuple(found)

    def of_thing(self, table: str, key: int) -> tuple[RowChange, ...]:
        """What was ever done to a row and to the rows that are parts of it, oldest first."""
        own: tuple[Cell, ...] = (key,)
        found = {
            (change.id, own): self._row_change(change, own)
            for change in self._changes(_covers(table, own))
        }
        parts = self._changes(t.change.c.part_of == f"{table} {key}")
        for change in parts:
            for key_of_part in _keys(change, 1):
                found[change.id, key_of_part] = self._row_change(change, key_of_part)
        # Rows that were added are not kept with what they are a part of: those that are there now,
        # and those that were taken out or changed since, tell which they were.
        for name, column in part_columns(table).items():
            if not has_ids(KEPT[name]):
                continue
            there = KEPT[name].c
            now = self._connection.execute(select(there.id).where(there[column] == key)).scalars()
            seen: list[tuple[int, int | None]] = [(part, None) for part in now]
            seen += [(each.ids[0], each.id) for each in parts if each.table == name and each.ids]
            for part, before in seen:
                adding = self._last_adding(name, part, before)
                if adding is not None:
                    found[adding.id, (part,)] = self._row_change(adding, (part,))
        return tuple(sorted(found.values(), key=lambda each: (each.change_id, each.key)))

    def gone(self, code: str) -> tuple[str, int] | None:
        """Table and id of the thing of a code that was taken out and is not there any more."""
        c = t.change.c
        named = c.before.contains(f'"code":{json.dumps(code)}', autoescape=True)
        out = and_(named, c.after.is_(None), c.first_id.is_not(None))
        for change in reversed(self._changes(out)):
            if change.ids and self.row(change.table, change.ids[:1]) is None:
                return change.table, change.ids[0]
        return None

    def row(self, table: str, key: tuple[Cell, ...]) -> Image | None:
        """A row as it is now; None where there is none."""
        of = KEPT[table]
        same = and_(*(column == cell for column, cell in zip(key_columns(of), key, strict=True)))
        row = self._connection.execute(select(of).where(same)).mappings().one_or_none()
        return None if row is None else image_of(row)

    def how_many(self, table: str, first: int, last: int) -> int:
        """How many of the rows from one id to another there are."""
        of = KEPT[table]
        counted = select(func.count()).select_from(of).where(of.c.id.between(first, last))
        return self._connection.execute(counted).scalar_one()

    def _row_change(self, change: Change, key: tuple[Cell, ...]) -> RowChange:
        after = change.after
        if change.adds:
            later = self._next_change(change, key)
            after = self.row(change.table, key) if later is None else later.before
        return RowChange(change.command_id, change.id, change.table, key, change.before, after)

    def _next_change(self, change: Change, key: tuple[Cell, ...]) -> Change | None:
        same = _covers(change.table, key)
        later = t.change.c.id > change.id
        found = self._changes(and_(same, later, t.change.c.before.is_not(None)), most=1)
        return found[0] if found else None

    def _last_adding(self, table: str, key: int, before: int | None) -> Change | None:
        adding = and_(_covers(table, (key,)), t.change.c.before.is_(None))
        if before is not None:
            adding = and_(adding, t.change.c.id < before)
        newest = select(func.max(t.change.c.id)).where(adding).scalar_subquery()
        found = self._changes(t.change.c.id == newest)
        return found[0] if found else None

    def _commands(self, condition: ColumnElement[bool]) -> tuple[Command, ...]:
        statement = select(t.command).where(condition).order_by(t.command.c.id)
        return tuple(_command(row) for row in self._connection.execute(statement).mappings())

    def _changes(
        self, condition: ColumnElement[bool], most: int | None = None
    ) -> tuple[Change, ...]:
        statement = select(t.change).where(condition).order_by(t.change.c.id).limit(most)
        return tuple(_change(row) for row in self._connection.execute(statement).mappings())


def _covers(table: str, key: tuple[Cell, ...]) -> ColumnElement[bool]:
    c = t.change.c
    if has_ids(KEPT[table]):
        return and_(c.table_name == table, c.first_id <= key[0], c.last_id >= key[0])
    return and_(c.table_name == table, c.row_key == written_key(key))


def _keys(change: Change, most: int) -> list[tuple[Cell, ...]]:
    if change.ids is None:
        return [change.key or ()][:most]
    first, last = change.ids
    return [(key,) for key in range(first, min(last, first + most - 1) + 1)]


def _command(row: RowMapping) -> Command:
    return Command(
        id=row["id"],
        happened_at=datetime.strptime(row["happened_at"], "%Y-%m-%dT%H:%M:%SZ").replace(tzinfo=UTC),
        who=row["who"],
        program=row["program"],
        words=row["words"],
        kind=CommandKind(row["kind"]),
        takes_back=row["takes_back"],
        undone_by=row["undone_by"],
    )


def _change(row: RowMapping) -> Change:
    numbered = row["first_id"] is not None
    return Change(
        id=row["id"],
        command_id=row["command_id"],
        table=row["table_name"],
        ids=(row["first_id"], row["last_id"]) if numbered else None,
        key=None if numbered else tuple(json.loads(row["row_key"])),
        before=_image(row["before"]),
        after=_image(row["after"]),
    )


def _image(kept: str | None) -> Image | None:
    image: dict[str, Any] | None = None if kept is None else json.loads(kept)
    return image

"""Notes what each statement of a transaction changes, so that it can be told and taken back."""

from collections.abc import Mapping, Sequence
from datetime import UTC, datetime
from itertools import chain
from typing import Any

from sqlalchemy import (
    Connection,
    Delete,
    Engine,
    ExecutionContext,
    Insert,
    Table,
    Update,
    event,
    insert,
    select,
)
from sqlalchemy.sql.elements import RollbackToSavepointClause, SavepointClause

from studio.catalogue.history import LONGEST_WORDS, CommandKind, Doing
from studio.storage import tables as t
from studio.storage.gathered import Added, Key, Touched, changes_of
from studio.storage.images import KEPT, has_ids, image_of, key_columns
from studio.storage.many_rows import added_by, highest_id, insert_many


class Recorder:
    """Listens to the statements of one engine; nothing that is written through Core escapes it.

    A row that is about to change is read before. Rows that were added are not read: they are their
    own image until something changes them, and those added one after the other are kept as a range.
    """

    def __init__(self, engine: Engine) -> None:
        self._entries: list[Added | Touched] = []
        self._marks: dict[str, int] = {}
        event.listen(engine, "before_execute", self._before)
        event.listen(engine, "after_execute", self._after)
        event.listen(engine, "after_cursor_execute", self._after_many)
        event.listen(engine, "rollback", lambda _connection: self._entries.clear())

    def keep(
        self,
        connection: Connection,
        doing: Doing,
        program: str,
        kind: CommandKind = CommandKind.RECORDED,
        takes_back: int | None = None,
    ) -> int | None:
        """Write what was noted since then as one command; its id, None where it is nothing."""
        entries, self._entries = self._entries, []
        changes = changes_of(connection, entries)
        first = next(changes, None)
        if first is None:
            return None
        result = connection.execute(
            insert(t.command).values(
                happened_at=f"{doing.at.astimezone(UTC):%Y-%m-%dT%H:%M:%SZ}",
                who=doing.who,
                program=program,
                words=_shortened(doing.words),
                kind=kind,
                takes_back=takes_back,
            )
        )
        key = result.inserted_primary_key
        assert key is not None  # noqa: S101 - every INSERT of one row has a key
        of = {"command_id": key[0]}
        insert_many(connection, t.change, ({**of, **row} for row in chain((first,), changes)))
        return int(key[0])

    def _before(
        self,
        connection: Connection,
        statement: object,
        many: Sequence[Mapping[str, Any]],
        one: Mapping[str, Any],
        _options: Mapping[str, Any],
    ) -> None:
        if isinstance(statement, Update | Delete):
            table = statement.table
            if isinstance(table, Table) and table.name in KEPT:
                for parameters in many or [one]:
                    self._touch(connection, table, statement, parameters)
        elif isinstance(statement, SavepointClause):
            self._marks[statement.ident] = len(self._entries)
        elif isinstance(statement, RollbackToSavepointClause):
            del self._entries[self._marks[statement.ident] :]

    def _touch(
        self,
        connection: Connection,
        table: Table,
        statement: Update | Delete,
        parameters: Mapping[str, Any],
    ) -> None:
        wanted = select(table)
        if statement.whereclause is not None:
            wanted = wanted.where(statement.whereclause)
        names = [column.name for column in key_columns(table)]
        self._entries += [
            Touched(table.name, tuple(row[name] for name in names), image_of(row))
            for row in connection.execute(wanted, dict(parameters)).mappings()
        ]

    def _after(
        self,
        connection: Connection,
        statement: object,
        many: Sequence[Mapping[str, Any]],
        _one: Mapping[str, Any],
        _options: Mapping[str, Any],
        result: Any,  # noqa: ANN401 - any result of any statement
    ) -> None:
        if not isinstance(statement, Insert) or statement.table.name not in KEPT:
            return
        table = KEPT[statement.table.name]
        if many:
            self._add(connection, table, many)
        else:
            key = tuple(result.inserted_primary_key)
            numbered = has_ids(table)
            rows = range(key[0], key[0] + 1) if numbered else (key,)
            self._entries.append(Added(table.name, rows))

    def _after_many(
        self,
        connection: Connection,
        _cursor: object,
        _statement: str,
        _parameters: object,
        context: ExecutionContext,
        _executemany: bool,  # noqa: FBT001 - SQLAlchemy calls it
    ) -> None:
        added = added_by(context)
        if added is not None and added.table.name in KEPT:
            self._add(connection, *added)

    def _add(self, connection: Connection, table: Table, rows: Sequence[Mapping[str, Any]]) -> None:
        names = [column.name for column in key_columns(table)]
        keys: list[Key] = [tuple(row[name] for name in names) for row in rows if names[0] in row]
        if not has_ids(table):
            self._entries.append(Added(table.name, keys))
        elif keys:
            self._entries += [Added(table.name, range(key, key + 1)) for (key,) in keys]
        else:
            last = highest_id(connection, table)
            self._entries.append(Added(table.name, range(last - len(rows) + 1, last + 1)))


def by_script(at: datetime | None = None) -> Doing:
    """What is done by a program that names no command line."""
    return Doing("(a script)", login_name(), at or datetime.now(UTC))


def login_name() -> str:
    """Who is at the keyboard, as the system calls them."""
    import getpass  # noqa: PLC0415 - only what writes asks

    try:
        return getpass.getuser()[:1000].strip() or "somebody"
    except (OSError, KeyError, ImportError):  # a user without an entry, as in a container
        return "somebody"


def _shortened(words: str) -> str:
    return words if len(words) <= LONGEST_WORDS else f"{words[: LONGEST_WORDS - 2]} …"

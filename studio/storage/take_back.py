"""Makes every row that a command touched as it was before, exactly, or refuses."""

from collections.abc import Sequence

from sqlalchemy import Connection, Table, and_, delete, insert, update
from sqlalchemy.exc import IntegrityError

from studio.catalogue.history import Cell, Change, Command, Image
from studio.errors import BadInput
from studio.storage.history import History
from studio.storage.images import KEPT, alike, cells_of, has_ids, key_columns


def take_back(connection: Connection, history: History, command: Command) -> None:
    """Take back what a command did; what this changes is a part of the history like anything else.

    What it added is taken out, a part before what it is a part of; what it changed is as before;
    what it took out is there again under its old key.

    Raises:
        BadInput: a row is not as the command left it, or something rests on what it added.
    """
    by_table: dict[str, list[Change]] = {}
    for change in history.changes_of(command.id):
        by_table.setdefault(change.table, []).append(change)
    try:
        for name in reversed([name for name in KEPT if name in by_table]):
            for change in by_table[name]:
                if change.adds:
                    _take_out(connection, history, command, change)
        for name in KEPT:
            changed = [each for each in by_table.get(name, ()) if each.before and each.after]
            _put_back(connection, history, command, changed)
        for name, table in KEPT.items():
            gone = [each.before for each in by_table.get(name, ()) if each.takes_out]
            _insert(connection, table, [image for image in gone if image is not None])
    except IntegrityError as error:
        msg = (
            f"{command.words!r} cannot be taken back: something that is not in the history rests "
            f"on it or took its place ({error.orig})"
        )
        raise BadInput(msg) from error


def _take_out(connection: Connection, history: History, command: Command, change: Change) -> None:
    table = KEPT[change.table]
    if change.ids is not None:
        first, last = change.ids
        if history.how_many(change.table, first, last) != change.rows:
            raise _changed_elsewhere(command, change, None)
        connection.execute(delete(table).where(table.c.id.between(first, last)))
    elif change.key is not None:
        if history.row(change.table, change.key) is None:
            raise _changed_elsewhere(command, change, None)
        _delete(connection, table, change.key)


def _put_back(
    connection: Connection, history: History, command: Command, changes: Sequence[Change]
) -> None:
    for change in changes:
        now = history.row(change.table, _key(change))
        if now is None or change.after is None or not alike(now, change.after):
            raise _changed_elsewhere(command, change, now)
    joining = [each for each in changes if len(key_columns(KEPT[each.table])) > 1]
    # Rows that only join others may have changed places, which no order of UPDATEs can undo.
    for change in joining:
        _delete(connection, KEPT[change.table], _key(change))
    for change in changes:
        table = KEPT[change.table]
        image = change.before or {}
        if change in joining:
            _insert(connection, table, [image])
        else:
            (column,) = key_columns(table)
            connection.execute(
                update(table).where(column == _key(change)[0]).values(**cells_of(table, image))
            )


def _insert(connection: Connection, table: Table, images: list[Image]) -> None:
    if images:
        connection.execute(insert(table), [cells_of(table, image) for image in images])


def _delete(connection: Connection, table: Table, key: tuple[Cell, ...]) -> None:
    same = and_(*(column == cell for column, cell in zip(key_columns(table), key, strict=True)))
    connection.execute(delete(table).where(same))


def _key(change: Change) -> tuple[Cell, ...]:
    return change.key if change.ids is None and change.key else (change.ids or (0,))[:1]


def _changed_elsewhere(command: Command, change: Change, now: Image | None) -> BadInput:
    image = now or change.after or {}
    key = _key(change) if has_ids(KEPT[change.table]) else change.key or ()
    name = image.get("code") or image.get("name") or " ".join(map(str, key))
    noun = change.table.replace("_", " ")
    return BadInput(
        f"{command.words!r} cannot be taken back: {noun} {name} is not as it left it, and the "
        "history does not know why; put it right by hand"
    )

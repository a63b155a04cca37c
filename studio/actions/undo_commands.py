"""Take back the last commands, or repeat what was taken back last."""

from dataclasses import dataclass

from studio.actions.told_rows import ToldRow, told_rows
from studio.catalogue.history import Command, CommandKind, Count
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork

_MOST_ROWS = 8
"""Rows of one change that are told by name."""


@dataclass(frozen=True, slots=True)
class TakenBack:
    """A command that was taken back.

    Args:
        command: the command whose words count: the one that recorded something.
        kind: whether it was undone or repeated.
        counts: what the taken-back command had added, changed and taken out.
        rows: the rows that this was done to, the first few of many.
    """

    command: Command
    kind: CommandKind
    counts: tuple[Count, ...]
    rows: tuple[ToldRow, ...]


def undo_commands(work: UnitOfWork, count: int = 1) -> tuple[TakenBack, ...]:
    """Take back the last commands that stand, the newest first.

    Each is taken back by a command of its own, so that `redo_commands` can repeat them one by one.

    Args:
        work: the studio, open for writing; the caller commits.
        count: how many.

    Raises:
        BadInput: there are not so many, or a row is not as a command left it.
    """
    standing = work.history.standing(CommandKind.RECORDED)
    if not standing:
        msg = (
            "there is nothing to undo: no command on record stands, and what was recorded before "
            "the studio kept a history cannot be taken back"
        )
        raise BadInput(msg)
    if len(standing) < count:
        only = "1 command" if len(standing) == 1 else f"{len(standing)} commands"
        msg = f"only {only} can be undone, not {count}; see: studio history"
        raise BadInput(msg)
    return tuple(_take_back(work, each, CommandKind.UNDO, each) for each in standing[:count])


def redo_commands(work: UnitOfWork, count: int = 1) -> tuple[TakenBack, ...]:
    """Repeat the commands that were undone last, the last undone first.

    Args:
        work: the studio, open for writing; the caller commits.
        count: how many.

    Raises:
        BadInput: nothing was undone, or something was recorded since then.
    """
    undone = work.history.standing(CommandKind.UNDO)
    if not undone:
        msg = "there is nothing to redo: no command was undone"
        raise BadInput(msg)
    standing = work.history.standing(CommandKind.RECORDED)
    open_still = _repeatable(undone, max((command.id for command in standing), default=0))
    if not open_still:
        msg = (
            f"nothing can be redone: {standing[0].words!r} was recorded since the last undo, and "
            "what was undone may not fit beside it"
        )
        raise BadInput(msg)
    if len(open_still) < count:
        only = "1 command" if len(open_still) == 1 else f"{len(open_still)} commands"
        msg = f"only {only} can be redone, not {count}; see: studio history"
        raise BadInput(msg)
    first = work.history.by_ids([each.takes_back or 0 for each in open_still[:count]])
    return tuple(
        _take_back(work, each, CommandKind.REDO, first[each.takes_back or 0])
        for each in open_still[:count]
    )


def _repeatable(undone: tuple[Command, ...], newest: int) -> list[Command]:
    """The undos that can be repeated one after the other, each newer than all that stands then."""
    found = []
    for each in undone:
        if each.id < newest:
            break
        found.append(each)
        newest = max(newest, each.takes_back or 0)
    return found


def _take_back(work: UnitOfWork, command: Command, kind: CommandKind, first: Command) -> TakenBack:
    counts = work.history.counts_of([command.id])[command.id]
    rows = told_rows(work, work.history.rows_of(command.id, _MOST_ROWS))
    work.take_back(command, kind)
    return TakenBack(first, kind, counts, rows)

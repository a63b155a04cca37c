"""Commands and what they changed, as JSON; README.md documents the names."""

from studio.actions.tell_history import ToldCommand
from studio.actions.told_rows import ToldRow
from studio.actions.undo_commands import TakenBack
from studio.catalogue.history import Command, Count
from studio.sheets.fields import Fields


def command_fields(told: ToldCommand) -> Fields:
    """A command with what it changed."""
    return {
        **_command(told.command),
        "counts": _counts(told.counts),
        "rows": None if told.rows is None else [row_fields(row) for row in told.rows],
    }


def taken_back_fields(done: TakenBack, *, kept: bool) -> Fields:
    """A command that was undone or repeated, with what it had changed."""
    return {
        "kept": kept,
        "did": done.kind,
        "words": done.command.words,
        "happened_at": f"{done.command.happened_at:%Y-%m-%dT%H:%M:%SZ}",
        "counts": _counts(done.counts),
        "rows": [row_fields(row) for row in done.rows],
    }


def row_fields(row: ToldRow) -> Fields:
    """What was done to a row."""
    return {
        "table": row.table,
        "name": row.name,
        "what": row.what,
        "fields": [
            {"field": each.field, "before": each.before, "after": each.after} for each in row.fields
        ],
    }


def _command(command: Command) -> Fields:
    return {
        "command": command.id,
        "happened_at": f"{command.happened_at:%Y-%m-%dT%H:%M:%SZ}",
        "who": command.who,
        "program": command.program,
        "words": command.words,
        "kind": command.kind,
        "takes_back": command.takes_back,
        "undone_by": command.undone_by,
    }


def _counts(counts: tuple[Count, ...]) -> list[Fields]:
    return [
        {
            "table": each.table,
            "added": each.added,
            "changed": each.changed,
            "taken_out": each.taken_out,
        }
        for each in counts
    ]

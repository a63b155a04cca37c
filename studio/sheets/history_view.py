"""The history in the terminal: the last commands, or all that ever happened to one thing."""

from collections.abc import Sequence
from datetime import datetime

from rich.console import Console

from studio.actions.tell_history import ToldCommand
from studio.actions.told_rows import FieldChange, ToldRow, What
from studio.catalogue.history import CommandKind
from studio.sheets.history_words import counts_text, field_text, field_word
from studio.sheets.screen import MINUS, day_text, indented

_SHOWN_OF_NEW = (
    "name", "title", "mix", "paper", "water", "technique", "layers", "application", "state",
    "method", "instrument", "maker", "kind", "amount", "happened_on", "given", "place", "read_on",
)  # fmt: skip
"""Fields told of a new row; the record itself shows them all."""


def print_history(console: Console, told: Sequence[ToldCommand], name: str | None) -> None:
    """Commands with when, who, their words and what each changed.

    Args:
        console: the terminal.
        told: the commands.
        name: the thing whose history it is; None for the studio's.
    """
    if not told:
        of = "" if name is None else f" of {name}"
        console.print(f"No command on record{of}: what is older than the history is not in it.")
        return
    for each in told:
        command = each.command
        state = ", undone" if command.undone_by is not None else ""
        head = f"{moment_text(command.happened_at)}  {command.who}{state}"
        indented(console, head, 0, "dim")
        indented(console, _words(each), 2)
        if each.rows is None:
            indented(console, counts_text(each.counts), 4)
            continue
        for row in each.rows:
            indented(console, _row_text(row), 4)


def moment_text(moment: datetime) -> str:
    """A moment in local time, as `14 Mar 2026 17:05`."""
    local = moment.astimezone()
    return f"{day_text(local.date())} {local:%H:%M}"


def _words(told: ToldCommand) -> str:
    if told.taken_back is None:
        return told.command.words
    did = "took back" if told.command.kind is CommandKind.UNDO else "repeated"
    return f"{told.command.words}: {did} {told.taken_back.words}"


def _row_text(row: ToldRow) -> str:
    if row.what is What.CHANGED:
        return f"{row.name}: {'; '.join(field_text(each) for each in row.fields)}"
    known = {each.field: each for each in row.fields}
    parts = [_lab_text(known, row.what)]
    for field in _SHOWN_OF_NEW:
        if field in known:
            value = _value(known[field], row.what)
            parts.append(value if isinstance(value, str) else f"{field_word(field)} {value:g}")
    detail = ", ".join(part for part in parts if part)
    return f"{row.name} {row.what}" + (f": {detail}" if detail else "")


def _lab_text(known: dict[str, FieldChange], what: What) -> str:
    axes = [known.get(axis) for axis in ("lightness", "a", "b")]
    values = [_value(each, what) for each in axes if each is not None]
    if len(values) < len(axes):
        return ""
    pairs = zip(("L*", "a*", "b*"), values, strict=True)
    return " ".join(f"{axis} {value:.1f}".replace("-", MINUS) for axis, value in pairs)


def _value(change: FieldChange, what: What) -> str | float:
    cell = change.after if what is What.ADDED else change.before
    return float(cell) if isinstance(cell, int | float) else str(cell)

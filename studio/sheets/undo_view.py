"""What was taken back or repeated, in plain words."""

from collections.abc import Sequence
from typing import Final

from rich.console import Console

from studio.actions.told_rows import What
from studio.actions.undo_commands import TakenBack
from studio.catalogue.history import CommandKind, Count
from studio.sheets.history_view import moment_text
from studio.sheets.history_words import JOINING, counts_text, listed
from studio.sheets.screen import indented

_NUMBERED: Final = ("swatch", "mix", "container", "fade_test")
"""Things whose codes are given in a row, so that a free one is given again."""
_OTHERS: Final = ("paint", "paper", "target", "measurement_file", "pigment", "h_statement")

_ENDINGS: Final = (
    (
        What.ADDED,
        _NUMBERED,
        (
            "is gone from the list; its code will be used again",
            "are gone from the list; their codes will be used again",
        ),
    ),
    (What.ADDED, _OTHERS, ("is gone from the list", "are gone from the list")),
    (
        What.TAKEN_OUT,
        (*_NUMBERED, *_OTHERS),
        ("is on the list again", "are on the list again"),
    ),
    (
        What.CHANGED,
        (*_NUMBERED, *_OTHERS),
        ("is as it was before", "are as they were before"),
    ),
)
_PART_ENDING: Final = {
    What.ADDED: "is gone",
    What.CHANGED: "is as it was before",
    What.TAKEN_OUT: "is there again",
}
_CHANGED_AGAIN: Final = ("is changed again", "are changed again")
"""What was changed by a command that is repeated is not as it was, but as the command left it."""
_MOST: Final = 6


def print_taken_back(console: Console, done: Sequence[TakenBack], *, dry_run: bool) -> None:
    """Each command that was taken back or repeated, and how the records stand now."""
    for each in done:
        undone = each.kind is CommandKind.UNDO
        did = {
            (True, False): "took back",
            (True, True): "would take back",
            (False, False): "repeated",
            (False, True): "would repeat",
        }[undone, dry_run]
        when = moment_text(each.command.happened_at)
        indented(console, f"{did}: {each.command.words} ({when})", 0)
        for sentence in _sentences(each) or [counts_text(each.counts)]:
            indented(console, sentence, 2)


def _sentences(done: TakenBack) -> list[str]:
    """How things stand once what was done to some rows was turned round."""
    rows, counts = done.rows, done.counts
    again = done.kind is CommandKind.REDO
    said = []
    for what, tables, usual in _ENDINGS:
        endings = _CHANGED_AGAIN if again and what is What.CHANGED else usual
        of = [row for table in tables for row in rows if (row.what, row.table) == (what, table)]
        names = list(dict.fromkeys(row.name for row in of))
        total = sum(_number(each, what) for each in counts if each.table in tables)
        if names:
            more = total - len(names[:_MOST])
            shown = [*names[:_MOST], *([f"{more:,} more"] if more else [])]
            said.append(f"{listed(shown)} {endings[total > 1]}")
    whole = {row.name for row in rows if row.what is not What.CHANGED}
    parts = [
        f"one {row.name} {_part_ending(row.what, again=again)}"
        for row in rows
        if row.table not in (*_NUMBERED, *_OTHERS, *JOINING)
        and row.name.partition(" of ")[2] not in whole
    ]
    return [*said, *dict.fromkeys(parts)][:_MOST]


def _part_ending(what: What, *, again: bool) -> str:
    return _CHANGED_AGAIN[0] if again and what is What.CHANGED else _PART_ENDING[what]


def _number(count: Count, what: What) -> int:
    return {
        What.ADDED: count.added,
        What.CHANGED: count.changed,
        What.TAKEN_OUT: count.taken_out,
    }[what]

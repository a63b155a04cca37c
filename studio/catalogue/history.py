"""What was done in a studio: the commands that recorded something, and what each changed."""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from typing import Final

LONGEST_WORDS: Final = 4000
"""Characters of a command line that are kept."""

Cell = str | int | float | bool | None
Image = dict[str, Cell]
"""A row as it was, by column: days as ISO 8601 writes them, bytes as base64; without its NULLs."""


class CommandKind(StrEnum):
    """Whether a command recorded something itself, or took another one back."""

    RECORDED = "recorded"
    UNDO = "undo"
    REDO = "redo"


@dataclass(frozen=True, slots=True)
class Doing:
    """What is being done, as the history will tell it.

    Args:
        words: the command line, quoted for a shell.
        who: the login name.
        at: the moment, with its time zone.
    """

    words: str
    who: str
    at: datetime


@dataclass(frozen=True, slots=True)
class Command:
    """A command that changed something.

    Args:
        id: commands are in the order of their ids, whatever the clock said.
        happened_at: the moment, to the second, in UTC.
        who: the login name.
        program: version of the program.
        words: the command line, quoted for a shell.
        kind: whether it recorded something itself.
        takes_back: id of the command that it took back.
        undone_by: id of the command that took it back; None while it stands.
    """

    id: int
    happened_at: datetime
    who: str
    program: str
    words: str
    kind: CommandKind
    takes_back: int | None
    undone_by: int | None


@dataclass(frozen=True, slots=True)
class Change:
    """What a command did to one row, or to several that it added one after the other.

    Args:
        id: changes are in the order of their ids.
        command_id: the command.
        table: the table of the rows.
        ids: first and last id of the rows; None where a row has another key.
        key: that other key.
        before: the row before; None for rows that were added.
        after: the row afterwards; None for rows that were added, and for one that was taken out.
    """

    id: int
    command_id: int
    table: str
    ids: tuple[int, int] | None
    key: tuple[Cell, ...] | None
    before: Image | None
    after: Image | None

    @property
    def rows(self) -> int:
        """How many rows."""
        return 1 if self.ids is None else self.ids[1] - self.ids[0] + 1

    @property
    def adds(self) -> bool:
        """Whether it added its rows."""
        return self.before is None

    @property
    def takes_out(self) -> bool:
        """Whether it took its row out."""
        return self.before is not None and self.after is None


@dataclass(frozen=True, slots=True)
class RowChange:
    """What a command did to one row, with the row before and afterwards.

    Args:
        command_id: the command.
        change_id: the change; a row's changes are in the order of these.
        table: its table.
        key: its key.
        before: the row before; None for one that was added.
        after: the row afterwards; None for one that was taken out.
    """

    command_id: int
    change_id: int
    table: str
    key: tuple[Cell, ...]
    before: Image | None
    after: Image | None


@dataclass(frozen=True, slots=True)
class Count:
    """How many rows of a table a command added, changed and took out."""

    table: str
    added: int
    changed: int
    taken_out: int

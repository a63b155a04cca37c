"""What can go wrong, each as one sentence for the painter and one exit status for a script."""

from enum import IntEnum


class ExitStatus(IntEnum):
    """Exit statuses of the `studio` command; README.md documents the same list."""

    DONE = 0
    DEFECT = 1
    USAGE = 2
    BAD_INPUT = 3
    NOT_FOUND = 4
    DATABASE = 5
    PARTLY_IMPORTED = 6
    ATTENTION = 10
    INTERRUPTED = 130


class StudioError(Exception):
    """Base of every error a user can cause or meet; `str()` says what to do in one sentence."""

    status = ExitStatus.DEFECT


class BadInput(StudioError):
    """A value that cannot be recorded or understood; nothing was changed."""

    status = ExitStatus.BAD_INPUT


class NotFound(StudioError):
    """A name that fits nothing, or more than one thing; the candidates stand in `candidates`."""

    status = ExitStatus.NOT_FOUND

    def __init__(self, message: str, candidates: tuple[str, ...] = ()) -> None:
        super().__init__(message)
        self.candidates = candidates


class Ambiguous(NotFound):
    """A name that fits more than one thing."""


class DatabaseTrouble(StudioError):
    """The database file cannot be opened, read, written or upgraded."""

    status = ExitStatus.DATABASE

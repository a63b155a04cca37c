"""Command lines run in forks of one warm process, so that a thousand can be killed in minutes."""

import os
import signal
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final, NoReturn

from studio.cli.app import main

_END: Final = b"\x1e"
"""Ends what a command printed; no command prints it itself."""


@dataclass(frozen=True, slots=True)
class Ended:
    """How a fork that ran some command lines ended.

    Args:
        killed: it was killed before it had run them all.
        statuses: the exit status of each command that ended.
        printed: what each command printed, the last one perhaps in part.
        err: all that stands on standard error.
    """

    killed: bool
    statuses: tuple[int, ...]
    printed: tuple[str, ...]
    err: str

    @property
    def acknowledged(self) -> int:
        """How many commands had said that they are done: a result is printed when it is kept."""
        return len(self.printed)


class Fork:
    """A fork of this process that runs command lines one after the other.

    Args:
        lines: the words after `studio` of each.
        errors: a file for what they say on standard error.
    """

    def __init__(self, lines: Sequence[Sequence[str]], errors: Path) -> None:
        self._errors = errors
        self._reader, writer = os.pipe()
        self._pid = os.fork()
        if not self._pid:
            _run(lines, writer, errors)
        os.close(writer)

    def kill(self) -> Ended:
        """Kill it now, as a loss of power or a full memory would: nothing is caught or flushed."""
        os.kill(self._pid, signal.SIGKILL)
        return self.wait()

    def wait(self) -> Ended:
        """What came of it.

        Raises:
            RuntimeError: it ended by something else than its end or a kill.
        """
        with os.fdopen(self._reader, "rb") as pipe:
            said = pipe.read()
        _, status = os.waitpid(self._pid, 0)
        killed = os.WIFSIGNALED(status) and os.WTERMSIG(status) == signal.SIGKILL
        if not killed and os.waitstatus_to_exitcode(status):
            msg = f"a command ended by itself with {os.waitstatus_to_exitcode(status)}"
            raise RuntimeError(msg)
        *whole, rest = said.split(_END)
        printed = [part.decode(errors="replace") for part in whole]
        statuses = [int(text.rpartition("\x1f")[2]) for text in printed]
        printed = [text.rpartition("\x1f")[0] for text in printed]
        if rest.strip():
            printed.append(rest.decode(errors="replace"))
        err = self._errors.read_text(errors="replace") if self._errors.exists() else ""
        return Ended(killed, tuple(statuses), tuple(printed), err)


def _run(lines: Sequence[Sequence[str]], writer: int, errors: Path) -> NoReturn:
    """In the fork: every line, each with its exit status behind what it printed."""
    try:
        os.dup2(writer, 1)
        os.dup2(os.open(errors, os.O_WRONLY | os.O_CREAT | os.O_TRUNC), 2)
        sys.stdout = os.fdopen(1, "w", buffering=1, encoding="utf-8", closefd=False)
        sys.stderr = os.fdopen(2, "w", buffering=1, encoding="utf-8", closefd=False)
        for words in lines:
            status = main(list(words))
            sys.stdout.flush()
            os.write(1, b"\x1f%d" % status + _END)
    except BaseException as error:  # noqa: BLE001 - whatever it is, the fork must not go on
        os.write(2, f"{type(error).__name__}: {error}".encode())
        os._exit(99)
    os._exit(0)


def run(words: Sequence[str], errors: Path) -> Ended:
    """One command line, undisturbed."""
    return Fork([words], errors).wait()

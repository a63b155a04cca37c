"""Proof: whatever a command line holds, it ends as README.md says and failure changes nothing.

    python -m tests.proofs.command_lines --runs 10000

Arguments and options of every command are made by hypothesis from what people type and what
nobody should. Each line runs on a fresh copy of the demo studio; what is checked of each:

- the exit status is a documented one, and never that of a defect;
- a failure is one sentence on standard error, nothing on standard output, no traceback;
- after a failure, or a command that only looks, every table is as it was;
- nothing was written but the database, its backups, and what the line told to write;
- whatever was written belongs to its owner alone where it holds the studio.
"""

import argparse
import shlex
import shutil
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import datetime
from itertools import pairwise
from pathlib import Path
from typing import Any, Final

from hypothesis import HealthCheck, Phase, given, seed, settings

from studio.errors import ExitStatus
from tests.cli.command_tree import EVERY
from tests.proofs.arguments import WRITES, words_of
from tests.proofs.studio_beside import Beside, Ended, furnished

RUN: Final = {
    path: command
    for path, command in EVERY.items()
    if path and (not hasattr(command, "commands") or command.invoke_without_command)
}
"""Every command that does something."""

FAILED: Final = {ExitStatus.USAGE, ExitStatus.BAD_INPUT, ExitStatus.NOT_FOUND, ExitStatus.DATABASE}
DOCUMENTED: Final = {int(status) for status in ExitStatus} - {ExitStatus.DEFECT}
LOOKS: Final = (
    frozenset({"match", "formulate", "adjust", "trust", "check", "care", "history", "export"})
    | frozenset({"list", "show", "reorder", "card", "report", "compare", "drying", "where", "grid"})
    | frozenset({"cards", "plane", "spectra", "chart"})
)
"""Words of commands that only look."""

_RARE: Final[dict[tuple[str, ...], int]] = {
    ("demo",): 20,
    ("trust",): 20,
    ("formulate",): 2,
    ("adjust",): 2,
    ("mix", "chart"): 2,
}
"""How much rarer commands are run that take seconds."""


@dataclass
class Figures:
    """What came of the lines that were run.

    Args:
        of: what was run.
    """

    of: str
    runs: int = 0
    statuses: Counter[int] = field(default_factory=Counter)
    kinds: Counter[str] = field(default_factory=Counter)
    recorded: int = 0
    faults: list[str] = field(default_factory=list)
    seconds: float = 0.0

    def add(self, kind: str, ended: Ended, beside: Beside) -> None:
        """Count a line."""
        self.runs += 1
        self.statuses[ended.status] += 1
        self.kinds[kind] += 1
        self.recorded += beside.records_changed()

    @contextmanager
    def timed(self) -> Iterator[None]:
        """Take the time of the block."""
        begun = time.monotonic()
        yield
        self.seconds = time.monotonic() - begun

    def __str__(self) -> str:
        """The figures in three lines."""
        said = ", ".join(f"{count} of {status}" for status, count in sorted(self.statuses.items()))
        return (
            f"{self.runs} {self.of} of {len(self.kinds)} kinds in {self.seconds:.0f} s\n"
            f"exit statuses: {said}; {self.recorded} recorded something\n"
            f"{len(self.faults)} faults"
        )


def faults_of(
    words: list[str], command: Any, ended: Ended, beside: Beside, also: tuple[Path, ...] = ()
) -> list[str]:
    """What a command line did that none may do.

    Args:
        words: the line.
        command: the command that it names.
        ended: how it ended.
        beside: where it was run.
        also: what it was told to write besides the values of its options.
    """
    failed = ended.status in FAILED
    found = [*_badly_ended(words, ended)]
    if (failed or LOOKS & set(words[:2])) and beside.records_changed():
        found.append("the records are others now")
    allowed = [*also, *_told_to_write(words, command, beside)]
    for path in beside.changed():
        near = any(
            path == each or each in path.parents or path in each.parents or _is_sheet(path, each)
            for each in allowed
        )
        if not near and beside.database.parent not in path.parents:
            found.append(f"wrote {path}")
    found += [
        f"others may read {path}"
        for path in beside.database.parent.rglob("*")
        if path.lstat().st_mode & 0o077
    ]
    return found


def _is_sheet(path: Path, told: Path) -> bool:
    """Whether a file is one of the numbered sheets of a picture: out-2.png of out.png."""
    stem, _, number = path.stem.rpartition("-")
    return bool(stem) and number.isdecimal() and path.with_stem(stem) == told


def _badly_ended(words: list[str], ended: Ended) -> Iterator[str]:
    if ended.raised:
        yield f"raised {ended.raised}"
    if ended.status not in DOCUMENTED:
        yield f"status {ended.status}: {ended.err.strip()[-400:]}"
    if "Traceback" in ended.err:
        yield f"a traceback: {ended.err[-400:]}"
    if ended.status not in FAILED:
        return
    last = ended.err.splitlines()[-1:] or [""]
    if not last[0].startswith("Error: " if ended.status == ExitStatus.USAGE else "studio: "):
        yield f"no sentence of its own: {ended.err[-300:]!r}"
    tells_rows = words[0] == "import" and "--strict" in words  # and why none was kept
    if ended.out and not tells_rows:
        yield f"failed with a result: {ended.out[:200]!r}"


def _told_to_write(words: list[str], command: Any, beside: Beside) -> Iterator[Path]:
    names = {option for each in command.params if each.name in WRITES for option in each.opts}
    told = [after for word, after in pairwise(words) if word in names]
    if words[0] == "export":
        told += words[1:]
    yield from ((beside.here / each).resolve() for each in told if "\x00" not in each)
    if words[:2] == ["swatch", "cards"]:
        named = [(beside.here / each).resolve() for each in told if "\x00" not in each]
        yield from (
            sheet for each in named for sheet in each.parent.glob(f"{each.stem}-*{each.suffix}")
        )
    if words[0] == "demo":
        yield beside.root / "data"


def checked_by(test: Callable[[], None], runs: int, number: int | None) -> Callable[[], None]:
    """A test of hypothesis that goes on to its end: what it finds is collected, not raised.

    Args:
        test: made by `given`.
        runs: how many examples.
        number: of the random choices; None makes the same ones each time.
    """
    chosen = settings(
        max_examples=runs,
        database=None,
        deadline=None,
        derandomize=number is None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )(test)
    return chosen if number is None else seed(number)(chosen)


def prove(beside: Beside, runs: int, number: int | None) -> Figures:
    """Run so many command lines.

    Args:
        beside: the studio to run them on.
        runs: how many.
        number: of the random choices; None makes the same ones each time.
    """
    figures = Figures("command lines")
    with figures.timed(), beside.inside():
        for path in RUN:
            count = round(runs / len(RUN) / _RARE.get(path, 1))
            if count:
                _prove_command(beside, path, count, number, figures)
    return figures


def _prove_command(
    beside: Beside, path: tuple[str, ...], runs: int, number: int | None, figures: Figures
) -> None:
    command = RUN[path]

    def one(words: list[str]) -> None:
        beside.renew()
        ended = beside.run(*words)
        figures.add(" ".join(path), ended, beside)
        figures.faults += [
            f"{shlex.join(words)[:600]!r}: {fault}"
            for fault in faults_of(words, command, ended, beside)
        ]

    checked_by(given(words_of(path, command))(one), runs, number)()


def proof_of(
    proof: Callable[[Beside, int, int | None], Figures], about: str | None, runs: int
) -> int:
    """Run the full form of a proof and print its figures; 1 where a fault was found."""
    options = argparse.ArgumentParser(description=about)
    options.add_argument("--runs", type=int, default=runs)
    options.add_argument("--seed", type=int, default=int(time.time()))
    options.add_argument("--template", type=Path, help="a demo studio, to save building one")
    options.add_argument("--show", type=int, default=40, help="how many faults to print")
    chosen = options.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        template = Path(folder, "template.sqlite3")
        if chosen.template is not None:
            shutil.copy(chosen.template, template)
        root = Path(folder, "proof")
        root.mkdir()
        beside = Beside(furnished(template, datetime.now().astimezone().date()), root)
        figures = proof(beside, chosen.runs, chosen.seed)
    for fault in figures.faults[: chosen.show]:
        sys.stdout.write(fault.encode("utf-8", "backslashreplace").decode() + "\n")
    sys.stdout.write(f"seed {chosen.seed}\n{figures}\n")
    return 1 if figures.faults else 0


if __name__ == "__main__":
    sys.exit(proof_of(prove, __doc__, 10_000))

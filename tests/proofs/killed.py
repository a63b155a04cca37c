"""What is killed, and what a kill may leave: nothing lost, nothing half, nothing stuck."""

import re
import shutil
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from studio.storage.sqlite_backup import backups_in
from studio.storage.sqlite_file import SIDES
from tests.proofs.forked import Ended, run
from tests.proofs.studios import (
    content,
    damage_of,
    faults_of,
    made_by_commands,
    made_by_the_first_release,
    table_of_swatches,
)

NAME: Final = "studio.sqlite3"

_LEFT_OVER: Final = re.compile(r"\.(studio\.sqlite3\.)?unfinished-\w+(-wal|-shm|-journal)?")
"""Names that no command takes for a studio, a backup or anything else."""

Lines = tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class Plan:
    """Command lines that follow each other in a studio, and what it holds after each.

    Args:
        name: what is killed.
        folder: the studio before, to be copied.
        lines: the words of each command.
        states: a digest of what the studio holds before the first, and after each.
        seconds: how long all of them take.
    """

    name: str
    folder: Path
    lines: Lines
    states: tuple[str, ...]
    seconds: float


@dataclass(frozen=True, slots=True)
class Finding:
    """What one kill left.

    Args:
        done: how many of the commands the studio holds.
        left_over: something lay there that no undisturbed command leaves.
        faults: what is wrong; none is to be.
    """

    done: int
    left_over: bool
    faults: tuple[str, ...]


def judge(plan: Plan, folder: Path, ended: Ended) -> Finding:
    """What a kill left in a folder; then the command that is not done is run again.

    Args:
        plan: what was run.
        folder: where, with the studio as the kill left it.
        ended: what the commands had said until then.
    """
    studio = folder / NAME
    left = [file.name for file in _all_in(folder) if _is_left(file)]
    faults = [f"the studio: {fault}" for fault in faults_of(studio)]
    faults += [f"exit status {status}: {ended.err}" for status in ended.statuses if status]
    said = ended.acknowledged
    holds = content(studio)
    # Where a command changes nothing of the studio, such as a backup, what it said tells how far.
    places = range(said, min(said + 2, len(plan.states)))
    done = next((at for at in places if plan.states[at] == holds), None)
    if done is None:
        at = plan.states.index(holds) if holds in plan.states else None
        where = "nothing that a command leaves" if at is None else f"what {at} commands leave"
        faults.append(f"{said} commands had said that they were done, and it holds {where}")
        return Finding(at or 0, bool(left), tuple(faults))
    faults += _files(plan, folder)
    resumed = folder / "said"
    for words in plan.lines[done : done + 1]:
        again = run(_named(words, folder), resumed)
        faults += [f"run again: {again.err}" for status in again.statuses if status]
        if content(studio) != plan.states[done + 1]:
            faults.append("run again, the command left something else")
        faults += [f"run again: {fault}" for fault in damage_of(studio)]
    return Finding(done, bool(left), tuple(faults))


def _named(words: tuple[str, ...], folder: Path) -> tuple[str, ...]:
    return ("--db", str(folder / NAME), *words)


def _all_in(folder: Path) -> list[Path]:
    backups = folder / "backups"
    return [*folder.iterdir(), *(backups.iterdir() if backups.is_dir() else ())]


def _is_left(file: Path) -> bool:
    return bool(_LEFT_OVER.fullmatch(file.name)) or (
        file.name == NAME + "-journal" or (file.name == NAME + "-wal" and file.stat().st_size > 0)
    )


def _files(plan: Plan, folder: Path) -> list[str]:
    """What is wrong with the files: each backup is whole, and nothing bears a name by half."""
    faults = []
    backups = backups_in(folder / "backups", Path(NAME).stem)
    for backup in backups:
        faults += [f"{backup.path.name}: {fault}" for fault in faults_of(backup.path)]
        if content(backup.path) not in plan.states:
            faults.append(f"{backup.path.name} holds what the studio never held")
    known = {NAME, "backups", "said", *(NAME + side for side in SIDES)}
    known |= {backup.path.name for backup in backups}
    known |= {backup.path.name + side for backup in backups for side in SIDES}
    faults += [
        f"{file.name} lies there"
        for file in _all_in(folder)
        if file.name not in known and not _LEFT_OVER.fullmatch(file.name)
    ]
    return faults


WRITES: Final[Lines] = (
    ("swatch", "log", "2 FU + 3 BS", "--lab", "50,3,-4", "--water", "2:1"),
    ("swatch", "read", "S3", "--lab", "50.5,3,-4.5"),
    ("stock", "use", "FU", "0.4"),
    ("paint", "edit", "BS", "--note", "of the evening tide"),
    ("swatch", "remove", "S2", "--because", "smudged"),
)
"""Single writes, one after the other; each is to be there as soon as its command has said so."""


def _writes(shelf: Path, home: Path) -> Lines:
    shutil.copy(shelf, home / NAME)
    return WRITES


def _import(shelf: Path, home: Path) -> Lines:
    shutil.copy(shelf, home / NAME)
    return (("import", str(table_of_swatches(home.parent / "swatches.csv", 60))),)


def _migration(_shelf: Path, home: Path) -> Lines:
    made_by_the_first_release(home / NAME)
    return (("swatch", "list"),)


def _backup(shelf: Path, home: Path) -> Lines:
    shutil.copy(shelf, home / NAME)
    return (("backup",),)


def _restore(shelf: Path, home: Path) -> Lines:
    shutil.copy(shelf, home / NAME)
    made_by_commands(home / NAME, WRITES[:1])
    return (("restore", str(shelf), "--yes"),)


def _undo(shelf: Path, home: Path) -> Lines:
    made_by_commands(home / NAME, _import(shelf, home))
    shutil.rmtree(home / "backups")
    return (("undo",),)


PLANS: Final[dict[str, Callable[[Path, Path], Lines]]] = {
    "single writes": _writes,
    "imports": _import,
    "migrations": _migration,
    "backups": _backup,
    "restores": _restore,
    "undo": _undo,
}
"""What is killed: each makes its studio in a folder from a small shelf, and tells the commands."""

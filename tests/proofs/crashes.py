"""Kills commands by SIGKILL at random moments, and looks each time at what is left.

In full: `python -m tests.proofs.crashes --moments 1000`; the tests run it with few moments. A
moment counts where the kill found the command at work. The figures are printed, and every fault;
the exit status is 1 where there is one.

A kill leaves to the system what was handed to it, as a crash of the program does; what a loss of
power takes is another matter, for which commits are written with `synchronous=FULL`.
"""

import argparse
import contextlib
import io
import os
import random
import shutil
import sys
import tempfile
import time
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # a fork takes no threads along

from tests.proofs.forked import Ended, Fork, run
from tests.proofs.killed import NAME, PLANS, Plan, judge
from tests.proofs.studios import content, faults_of, made_by_commands

SHARES: Final = {"single writes": 5, "imports": 3, "migrations": 3, "backups": 3, "restores": 3}
"""Of how many moments each is killed, in parts; undo has the rest of 20."""

_WHOLE: Final = 20
_TRIES: Final = 4
"""How often a moment is drawn again where the command was done before it came."""


@dataclass(slots=True)
class Figures:
    """What was found of one kind of command.

    Args:
        kills: how many found it at work.
        before: how many left the studio as it was before the command that was at work.
        left: how many left something that undisturbed commands do not.
        acknowledged: how many commands had said that they are done, of all kills.
        faults: each that was found.
    """

    kills: int = 0
    before: int = 0
    left: int = 0
    acknowledged: int = 0
    faults: list[str] = field(default_factory=list)


def plan(name: str, shelf: Path, home: Path) -> Plan:
    """A plan with what its studio holds after each command, by one undisturbed run.

    Raises:
        RuntimeError: a command of it fails undisturbed.
    """
    folder = home / "studio"
    folder.mkdir(parents=True)
    with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
        lines = PLANS[name](shelf, folder)
    trial = Path(shutil.copytree(folder, home / "trial"))
    states, seconds = [content(trial / NAME)], 0.0
    for words in lines:
        began = time.monotonic()
        ended = run(("--db", str(trial / NAME), *words), home / "said")
        seconds += time.monotonic() - began
        if ended.statuses != (0,):
            msg = f"undisturbed, {' '.join(words)} ended with {ended.statuses}: {ended.err}"
            raise RuntimeError(msg)
        states.append(content(trial / NAME))
    faults = faults_of(trial / NAME)
    if faults:
        msg = f"undisturbed, {name} left faults: {faults}"
        raise RuntimeError(msg)
    shutil.rmtree(trial)
    return Plan(name, folder, lines, tuple(states), seconds)


def kill_at(plan: Plan, folder: Path, seconds: float) -> Ended:
    """Run a plan in a copy of its studio, and kill it after a while.

    Args:
        plan: what to run.
        folder: a new folder for the copy.
        seconds: from the start to the kill.
    """
    shutil.copytree(plan.folder, folder)
    lines = [("--db", str(folder / NAME), *words) for words in plan.lines]
    fork = Fork(lines, folder / "said")
    time.sleep(seconds)
    return fork.kill()


def killed(plan: Plan, moments: int, home: Path, chance: random.Random) -> Figures:
    """Kill a plan at so many moments, spread evenly over how long it takes."""
    figures, longest = Figures(), plan.seconds
    for number in range(moments * _TRIES):
        if figures.kills == moments:
            break
        folder = home / f"{number}"
        ended = kill_at(plan, folder, chance.uniform(0.0, longest))
        # A machine that was busy at the first run is not always: what ends early tells.
        longest *= 1.01 if ended.killed else 0.95
        found = judge(plan, folder, ended)
        figures.faults += found.faults
        if ended.killed:
            figures.kills += 1
            figures.before += found.done == ended.acknowledged
            figures.left += found.left_over
            figures.acknowledged += ended.acknowledged
        if not found.faults:
            shutil.rmtree(folder)
    return figures


def shares(moments: int) -> dict[str, int]:
    """How many moments each kind gets."""
    dealt = {name: max(1, moments * part // _WHOLE) for name, part in SHARES.items()}
    return dealt | {"undo": max(1, moments - sum(dealt.values()))}


def main(words: list[str] | None = None) -> int:
    """Kill, print the figures; 1 where something was lost."""
    parser = argparse.ArgumentParser(description=__doc__, prog="python -m tests.proofs.crashes")
    parser.add_argument("--moments", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=None, help="to draw the same moments again")
    given = parser.parse_args(words)
    seed = random.randrange(1 << 32) if given.seed is None else given.seed  # noqa: S311
    chance = random.Random(seed)  # noqa: S311 - moments, no secret
    home = Path(tempfile.mkdtemp(prefix="crashes-"))
    began = time.monotonic()
    with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
        shelf = made_by_commands(home / "shelf.sqlite3")
    print(f"{'':14} {'kills':>6} {'as before':>10} {'left-overs':>11} {'said done':>10} faults")
    faults: list[str] = []
    total = 0
    for name, moments in shares(given.moments).items():
        found = killed(plan(name, shelf, home / name), moments, home / name / "kills", chance)
        print(
            f"{name:14} {found.kills:6} {found.before:10} {found.left:11} {found.acknowledged:10} "
            f"{len(found.faults):6}",
            flush=True,
        )
        faults += [f"{name}: {fault}" for fault in found.faults]
        total += found.kills
    print(f"{total} kills in {time.monotonic() - began:.0f} s, seed {seed}, {len(faults)} faults")
    for fault in faults:
        print(fault)
    if faults:
        print(f"what the faults left lies in {home}")
        return 1
    shutil.rmtree(home)
    return 0


if __name__ == "__main__":
    sys.exit(main())

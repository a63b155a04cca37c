"""Damages a studio's file in random places, and looks at what each command makes of it.

In full: `python -m tests.proofs.damage --places 50`; the tests run it with few places. Bytes are
overwritten, bits flipped, pages zeroed or written to the place of another, the file is cut; every
sixth place lies in the header. Each command has to end with a documented exit status and sentences
on standard error, the commands that only look must leave every byte as it was, and a backup has to
come back. The figures are printed, and every fault; the exit status is 1 where there is one.
"""

import argparse
import os
import random
import shutil
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Final

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # a fork takes no threads along

from studio.actions.build_demo import build_demo
from studio.errors import ExitStatus
from studio.storage.sqlite_backup import backups_in
from tests.proofs.forked import Ended, run
from tests.proofs.studios import content, damage_of

NAME: Final = "studio.sqlite3"
PAGE: Final = 4096
HEADER: Final = 100

LOOKING: Final = (
    ("match", "#5b5f6e"),
    ("check",),
    ("history",),
    ("db", "check"),
    ("backup",),
    ("export", "{folder}/written"),
)
"""Commands that write nothing to the studio."""

WRITING: Final = (
    ("swatch", "log", "2 FU + 1 BS", "--lab", "41,2,-12"),
    ("restore", "{folder}/sound.sqlite3", "--yes"),
)

Damage = Callable[[bytearray, random.Random], None]


def _at(content: bytearray, chance: random.Random) -> int:
    return chance.randrange(len(content))


def _overwrite(content: bytearray, chance: random.Random) -> None:
    start = _at(content, chance)
    length = min(chance.choice((1, 4, 60, 900)), len(content) - start)
    content[start : start + length] = chance.randbytes(length)


def _flip(content: bytearray, chance: random.Random) -> None:
    content[_at(content, chance)] ^= 1 << chance.randrange(8)


def _zero_a_page(content: bytearray, chance: random.Random) -> None:
    start = _at(content, chance) // PAGE * PAGE
    content[start : start + PAGE] = bytes(PAGE)


def _misplace_a_page(content: bytearray, chance: random.Random) -> None:
    start, other = (_at(content, chance) // PAGE * PAGE for _ in range(2))
    content[start : start + PAGE] = content[other : other + PAGE]


def _cut(content: bytearray, chance: random.Random) -> None:
    del content[_at(content, chance) :]


def _header(content: bytearray, chance: random.Random) -> None:
    start = chance.randrange(HEADER)
    length = chance.choice((1, 2, 4, 16))
    content[start : start + length] = chance.randbytes(length)


KINDS: Final[dict[str, Damage]] = {
    "bytes overwritten": _overwrite,
    "a bit flipped": _flip,
    "a page zeroed": _zero_a_page,
    "a page misplaced": _misplace_a_page,
    "cut": _cut,
    "header": _header,
}


def tried(
    words: tuple[str, ...], damaged: bytes, sound: Path, folder: Path
) -> tuple[Ended, list[str]]:
    """What a command makes of a damaged studio, and what is wrong with that.

    Args:
        words: the words after `studio`.
        damaged: the bytes of the studio's file.
        sound: the studio before the damage.
        folder: a new folder to work in.
    """
    folder.mkdir()
    studio = folder / NAME
    studio.touch(mode=0o600)
    studio.write_bytes(damaged)
    shutil.copy(sound, folder / "sound.sqlite3")
    named = [word.format(folder=folder) for word in words]
    try:
        ended = run(("--db", str(studio), *named), folder / "said")
    except RuntimeError as error:
        said = (folder / "said").read_text()
        return Ended(killed=False, statuses=(1,), printed=(), err=said), [f"{error}: {said}"]
    faults = [*_wrongly_said(ended), *_wrongly_changed(words, ended, damaged, folder)]
    if words[0] == "restore" and ended.statuses == (0,) and content(studio) != content(sound):
        faults.append("what was restored is not what the backup holds")
    shutil.rmtree(folder)
    return ended, faults


def _wrongly_said(ended: Ended) -> list[str]:
    (status,) = ended.statuses
    lines = ended.err.splitlines()
    faults = []
    if status not in set(ExitStatus) - {ExitStatus.DEFECT}:
        faults.append(f"exit status {status}: {ended.err}")
    if any(not line.startswith("studio: ") for line in lines):
        faults.append(f"no sentences of the program: {ended.err}")
    if status not in {ExitStatus.DONE, ExitStatus.ATTENTION} and not lines:
        faults.append(f"it ended with {status} and said nothing")
    return faults


def _wrongly_changed(
    words: tuple[str, ...], ended: Ended, damaged: bytes, folder: Path
) -> list[str]:
    studio = folder / NAME
    failed = ended.statuses[0] not in {ExitStatus.DONE, ExitStatus.ATTENTION}
    faults = []
    if (failed or words in LOOKING) and studio.read_bytes() != damaged:
        faults.append(f"it changed the file, and only looked or failed: {ended.err}")
    if failed and (folder / "written").exists():
        faults.append("an export that failed left its folder")
    for backup in backups_in(folder / "backups", studio.stem):
        # One before a restore need not be sound.
        found = damage_of(backup.path) if backup.name.why is None else []
        faults += [f"{backup.path.name}: {fault}" for fault in found]
    return faults


def main(words: list[str] | None = None) -> int:
    """Damage, print the figures; 1 where a command did not stand it."""
    parser = argparse.ArgumentParser(description=__doc__, prog="python -m tests.proofs.damage")
    parser.add_argument("--places", type=int, default=50)
    parser.add_argument("--seed", type=int, default=None, help="to damage the same places again")
    given = parser.parse_args(words)
    seed = random.randrange(1 << 32) if given.seed is None else given.seed  # noqa: S311
    chance = random.Random(seed)  # noqa: S311 - places, no secret
    home = Path(tempfile.mkdtemp(prefix="damage-"))
    began = time.monotonic()
    sound = home / "sound.sqlite3"
    build_demo(sound, date(2026, 11, 25))
    statuses: dict[str, Counter[int]] = {}
    faults: list[str] = []
    refused: list[str] = []
    for number in range(given.places):
        name = list(KINDS)[(number + 5) % len(KINDS)]
        damaged = bytearray(sound.read_bytes())
        KINDS[name](damaged, chance)
        for line in (*LOOKING, *WRITING):
            ended, found = tried(line, bytes(damaged), sound, home / "studio")
            command = " ".join(line[:2] if line[0] in {"db", "swatch"} else line[:1])
            if line[0] == "restore" and ended.statuses[0]:
                refused.append(ended.err.strip())
            statuses.setdefault(command, Counter())[ended.statuses[0]] += 1
            faults += [f"place {number}, {name}, {command}: {fault}" for fault in found]
            if found:
                (home / f"place-{number}.sqlite3").write_bytes(damaged)
                shutil.rmtree(home / "studio", ignore_errors=True)
    shutil.rmtree(home / "studio", ignore_errors=True)
    print(f"{'':12} exit statuses, each with how often")
    for command, counts in statuses.items():
        print(f"{command:12} " + ", ".join(f"{k}: {n}" for k, n in sorted(counts.items())))
    for sentence in refused:
        print(f"restore refused: {sentence}")
    seconds = time.monotonic() - began
    print(f"{given.places} places in {seconds:.0f} s, seed {seed}, {len(faults)} faults")
    for fault in faults:
        print(fault)
    if faults:
        print(f"what was damaged lies in {home}")
        return 1
    shutil.rmtree(home)
    return 0


if __name__ == "__main__":
    sys.exit(main())

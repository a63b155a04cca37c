"""Folders in which something is made that is to be whole or not there, and what kills leave of it.

Such a folder holds a copy of the studio. While its command lives, a file in it is locked (flock),
and the system lets go of that however the command ends; so what can be locked is abandoned.
"""

import os
import shutil
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Final

from studio.storage.trouble import in_plain_words

_MARK: Final = ".unfinished-"
_HELD: Final = "being-written"
_ABANDONED: Final = 86_400
"""Seconds after which a folder without a lock is what a killed command left: none takes a day."""


@contextmanager
def unfinished_folder(target: Path) -> Iterator[Path]:
    """A folder of its owner's alone beside what is to be made in it; it goes with the block.

    What killed commands left beside it goes first.

    Args:
        target: what is to be made.

    Raises:
        DatabaseTrouble: the folder cannot be made.
    """
    with in_plain_words(target):
        target.parent.mkdir(parents=True, exist_ok=True)
        place = target.parent.resolve()
        remove_abandoned(place)
        folder = Path(tempfile.mkdtemp(prefix=f".{target.name}{_MARK}", dir=place))
        descriptor = _hold(folder)
    try:
        yield folder
    finally:
        shutil.rmtree(folder, ignore_errors=True)
        if descriptor is not None:
            os.close(descriptor)


def let_go(folder: Path) -> None:
    """Take the lock's file out of a folder that is finished and gets its name now."""
    (folder / _HELD).unlink(missing_ok=True)


def abandoned_in(place: Path) -> list[Path]:
    """The folders that killed commands left in another, oldest name first."""
    found = []
    for folder in _candidates(place):
        descriptor = _take(folder)
        if descriptor is not None:
            os.close(descriptor)
            found.append(folder)
        elif _is_old(folder):
            found.append(folder)
    return found


def remove_abandoned(place: Path) -> None:
    """Remove what killed commands left in a folder, and nothing that one still writes."""
    for folder in _candidates(place):
        descriptor = _take(folder)
        if descriptor is not None or _is_old(folder):
            shutil.rmtree(folder, ignore_errors=True)
        if descriptor is not None:
            os.close(descriptor)


def _candidates(place: Path) -> list[Path]:
    try:
        there = sorted(place.iterdir())
    except OSError:
        return []
    return [
        folder
        for folder in there
        if folder.name.startswith(".")
        and _MARK in folder.name
        and folder.is_dir()
        and not folder.is_symlink()
    ]


def _hold(folder: Path) -> int | None:
    """Lock a file in a new folder before it can be seen under its name; None where none locks."""
    if sys.platform == "win32":
        return None
    import fcntl  # noqa: PLC0415 - not everywhere

    made = folder / f"{_HELD}.new"
    descriptor = os.open(made, os.O_RDWR | os.O_CREAT | os.O_EXCL, 0o600)
    try:
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
        made.rename(folder / _HELD)
    except OSError:  # a file system without locks
        os.close(descriptor)
        made.unlink(missing_ok=True)
        return None
    return descriptor


def _take(folder: Path) -> int | None:
    """The lock of a folder whose command is gone; None where it lives, or there is no lock."""
    if sys.platform == "win32":
        return None
    import fcntl  # noqa: PLC0415 - not everywhere

    try:
        descriptor = os.open(folder / _HELD, os.O_RDWR | os.O_NOFOLLOW)
    except OSError:
        return None
    try:
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        os.close(descriptor)
        return None
    return descriptor


def _is_old(folder: Path) -> bool:
    """Whether a folder without a lock, as earlier versions made them, was left long ago."""
    if (folder / _HELD).exists():
        return False
    newest = 0.0
    for each in (folder, *folder.rglob("*")):
        with suppress(OSError):
            newest = max(newest, each.lstat().st_mtime)
    return newest < time.time() - _ABANDONED

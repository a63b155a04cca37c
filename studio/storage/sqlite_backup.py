"""Backups of a database file: dated copies in a folder beside it, kept by a rule."""

import secrets
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Final

from studio.catalogue.backup import BackupName, backup_name, parsed_name, superseded
from studio.storage.sqlite_copy import copy
from studio.storage.sqlite_file import SIDES, beside, make_lasting, take_name
from studio.storage.trouble import in_plain_words

FOLDER: Final = "backups"

_UNFINISHED: Final = ".unfinished-"
_ABANDONED: Final = 86_400
"""Seconds after which an unfinished copy is what a killed program left: none takes a day."""
_COUNTERS: Final = ((24, 28), (92, 100))
"""Bytes of the header that change without the content: SQLite's counters and its version."""


@dataclass(frozen=True, slots=True)
class Backup:
    """A backup.

    Args:
        path: the file.
        name: what its name says.
        size: in bytes.
    """

    path: Path
    name: BackupName
    size: int


def backup_folder(path: Path) -> Path:
    """Where the backups of a database lie unless another folder was named."""
    return path.parent / FOLDER


def backups_in(folder: Path, stem: str) -> tuple[Backup, ...]:
    """The backups of a database in a folder, oldest first; none where there is no folder.

    Raises:
        DatabaseTrouble: the folder cannot be read.
    """
    found = []
    with in_plain_words(folder):
        for file in sorted(folder.iterdir()) if folder.is_dir() else ():
            name = parsed_name(stem, file.name)
            if name is not None and file.is_file() and not file.is_symlink():
                found.append(Backup(file, name, file.stat().st_size))
    return tuple(sorted(found, key=lambda backup: backup.name.order))


def back_up(
    path: Path,
    now: datetime,
    *,
    why: str | None = None,
    folder: Path | None = None,
    unless_same: bool = False,
) -> Backup:
    """A checked copy of a database under a dated name, after which the rule removes old ones.

    Nothing stands under that name before the copy is whole, checked and on the disk, and no file
    is ever replaced.

    Args:
        path: the database; others may read and write it meanwhile.
        now: the moment, for its name.
        why: what it is made before, as words joined by hyphens.
        folder: where to; None takes the folder beside the database.
        unless_same: where the newest backup holds the same content, return that one.

    Raises:
        DatabaseTrouble: it cannot be made, or the database does not pass its check.
    """
    place = folder or backup_folder(path)
    _prepare(place, now)
    there = backups_in(place, path.stem)
    unfinished = _unfinished(place)
    try:
        copy(path, unfinished)
        if unless_same and there and _same(there[-1].path, unfinished):
            return there[-1]
        made = _named(unfinished, path.stem, backup_name(now, why))
    finally:
        _remove(unfinished)
    _remove_superseded(place, path.stem, made, now)
    return made


def keep_as_it_is(path: Path, now: datetime, why: str, fill: Callable[[Path], None]) -> Backup:
    """A copy that need not be sound, of a database that is about to be replaced.

    Args:
        path: the database.
        now: the moment.
        why: as of `back_up`.
        fill: writes the copy into an empty private file.

    Raises:
        DatabaseTrouble: it cannot be written.
    """
    place = backup_folder(path)
    _prepare(place, now)
    unfinished = _unfinished(place)
    try:
        with in_plain_words(place):
            unfinished.touch(mode=0o600, exist_ok=False)
        fill(unfinished)
        with in_plain_words(place):
            make_lasting(unfinished)
        return _named(unfinished, path.stem, backup_name(now, why))
    finally:
        _remove(unfinished)


def make_private_folder(folder: Path) -> None:
    """A folder that its owner alone can look into; one that is there stays as it is."""
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)


def _prepare(folder: Path, now: datetime) -> None:
    """Make the folder, and take out what a killed program left there long ago."""
    with in_plain_words(folder):
        make_private_folder(folder)
        for file in folder.glob(f"{_UNFINISHED}*"):
            with suppress(OSError):  # another program was faster, or may and we may not
                if file.stat().st_mtime < now.timestamp() - _ABANDONED:
                    file.unlink()


def _unfinished(folder: Path) -> Path:
    """A free name that is no backup's."""
    return folder / f"{_UNFINISHED}{secrets.token_hex(8)}"


def _remove(unfinished: Path) -> None:
    for file in (unfinished, *(beside(unfinished, side) for side in SIDES)):
        file.unlink(missing_ok=True)


def _named(unfinished: Path, stem: str, wanted: BackupName) -> Backup:
    """Gives a finished copy the first name of its moment that is free."""
    name = wanted
    with in_plain_words(unfinished.parent):
        while True:
            target = unfinished.parent / name.text(stem)
            try:
                take_name(unfinished, target)
            except FileExistsError:
                name = BackupName(name.made_at, name.number + 1, name.why)
            else:
                break
        make_lasting(target.parent)
        return Backup(target, name, target.stat().st_size)


def _same(one: Path, other: Path) -> bool:
    """Whether two databases hold the same pages."""
    if one.stat().st_size != other.stat().st_size:
        return False
    first = True
    with one.open("rb") as a, other.open("rb") as b:
        while True:
            x, y = bytearray(a.read(1 << 20)), bytearray(b.read(1 << 20))
            if first:
                for start, end in _COUNTERS:
                    x[start:end] = y[start:end] = bytes(end - start)
                first = False
            if x != y:
                return False
            if not x:
                return True


def _remove_superseded(folder: Path, stem: str, made: Backup, now: datetime) -> None:
    there = {backup.name: backup for backup in backups_in(folder, stem)}
    for name in superseded(there, now) - {made.name}:
        try:
            there[name].path.unlink()
        except OSError:
            continue  # an old backup too many does no harm

"""Backups: made when asked for and before what changes much, listed, and put back."""

from datetime import datetime
from pathlib import Path

from studio.errors import Ambiguous, NotFound
from studio.storage.schema import SchemaState, state_of
from studio.storage.sqlite_backup import Backup, back_up, backup_folder, backups_in
from studio.storage.unit_of_work import UnitOfWork


def back_up_before(path: Path, why: str, now: datetime) -> Backup | None:
    """A backup before what changes many records; None where there is nothing to lose.

    Args:
        path: the database; it may be missing or older.
        why: the command, as words joined by hyphens.
        now: the moment.

    Raises:
        DatabaseTrouble: it cannot be made, and so nothing should be changed.
    """
    if state_of(path) is not SchemaState.CURRENT:
        return None  # it is begun now, or upgraded with a backup of its own
    with UnitOfWork(path) as work:
        if not holds_records(work):
            return None
    return back_up(path, now, why=f"before-{why}", unless_same=True)


def holds_records(work: UnitOfWork) -> bool:
    """Whether a studio holds anything beside the reference of pigments."""
    return bool(
        work.swatches.count()
        or work.paints.all()
        or work.papers.all()
        or work.mixes.all()
        or work.targets.all()
    )


def find_backup(named: str, path: Path, folder: Path | None = None) -> Path:
    """The backup of a name: a file, or the part of a backup's name that fits only one.

    Args:
        named: such as 20261125T17, 2026-11-25, or a path.
        path: the database.
        folder: where its backups lie; None takes the folder beside it.

    Raises:
        NotFound: there is none.
        Ambiguous: there are several.
    """
    if Path(named).is_file():
        return Path(named)
    wanted = named.replace("-", "").replace(":", "")
    there = backups_in(folder or backup_folder(path), path.stem)
    fitting = [
        backup
        for backup in there
        if named in backup.path.name or (wanted and wanted in backup.path.name)
    ]
    if len(fitting) == 1:
        return fitting[0].path
    if fitting:
        names = tuple(backup.path.name for backup in fitting)
        msg = f"{named!r} fits {len(names)} backups: {', '.join(names[:5])}; name one of them"
        raise Ambiguous(msg, names)
    msg = f"there is no backup {named!r}; studio backup list shows what there is"
    raise NotFound(msg)

"""Open a studio's database, making or upgrading it first where that is needed."""

import shutil
import tempfile
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from studio.errors import DatabaseTrouble
from studio.storage.schema import SchemaState, state_of
from studio.storage.sqlite_file import settle_journal
from studio.storage.sqlite_place import told_today
from studio.storage.trouble import in_plain_words
from studio.storage.unit_of_work import UnitOfWork


def open_studio(
    path: Path,
    *,
    write: bool,
    now: datetime,
    tell: Callable[[str], None],
    create: bool = True,
) -> UnitOfWork:
    """A unit of work on the database at a path.

    A missing database is made for a command that may record the first thing in it; any other says
    how to start.
    An older one is upgraded after a backup beside it.

    Args:
        path: the database file.
        write: whether the caller records something.
        now: the moment, for a backup's name.
        tell: takes one sentence for the user about what was made or upgraded.
        create: make a missing database for a command that records.

    Raises:
        DatabaseTrouble: there is none and nothing is to be recorded, or it cannot be used.
    """
    state = state_of(path)
    if state is SchemaState.MISSING:
        if not (write and create):
            existing_studio(path)
        try:
            create_studio(path)
        except DatabaseTrouble:
            if state_of(path) is SchemaState.MISSING:
                raise
            # Another command began it in the meantime.
        else:
            tell(f"started a new studio at {path}")
    elif state is SchemaState.OLD:
        # Alembic takes most of a second to load, and only here is it needed.
        from studio.storage.migrate import upgrade  # noqa: PLC0415

        backup = upgrade(path, now)
        tell(f"upgraded {path}; the database as it was is kept at {backup}")
    unfit = settle_journal(path) if write else None
    if unfit is not None and not told_today(path, now.date()):
        tell(
            f"{path} lies {unfit}, where SQLite cannot keep two machines from damaging it: use it "
            "on one at a time, or move it to a folder of this machine"
        )
    return UnitOfWork(path, write=write)


def existing_studio(path: Path) -> Path:
    """The path of a studio that is there, at whatever schema.

    Raises:
        DatabaseTrouble: there is none, or it is no studio's database.
    """
    if state_of(path) is SchemaState.MISSING:
        msg = (
            f"there is no studio at {path} yet; start one with 'studio paint add', or look "
            "at one with 'studio demo'"
        )
        raise DatabaseTrouble(msg)
    return path


def create_studio(path: Path, fill: Callable[[UnitOfWork], None] | None = None) -> None:
    """A new database with the pigment reference, whole or not at all.

    Args:
        path: where it is to be.
        fill: records what else it is to hold from the start.

    Raises:
        DatabaseTrouble: it cannot be made, or there is a file of that name.
    """
    from studio.actions.load_reference import load_reference  # noqa: PLC0415
    from studio.storage.migrate import build, put_in_place  # noqa: PLC0415

    with in_plain_words(path):
        path.parent.mkdir(parents=True, exist_ok=True)
        # A folder of its own: two commands that begin a studio at once must not share a file.
        folder = Path(tempfile.mkdtemp(prefix=f".{path.name}.unfinished-", dir=path.parent))
    unfinished = folder / path.name
    try:
        build(unfinished)
        with UnitOfWork(unfinished, write=True) as work:
            load_reference(work)
            if fill is not None:
                fill(work)
            work.commit()
        put_in_place(unfinished, path)
    finally:
        shutil.rmtree(folder, ignore_errors=True)

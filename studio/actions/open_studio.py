"""Open a studio's database, making or upgrading it first where that is needed."""

from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from studio.errors import DatabaseTrouble
from studio.storage.schema import SchemaState, state_of
from studio.storage.trouble import in_plain_words
from studio.storage.unit_of_work import UnitOfWork


def open_studio(
    path: Path, *, write: bool, now: datetime, tell: Callable[[str], None]
) -> UnitOfWork:
    """A unit of work on the database at a path.

    A missing database is made for a command that records; one that only looks says how to start.
    An older one is upgraded after a backup beside it.

    Args:
        path: the database file.
        write: whether the caller records something.
        now: the moment, for a backup's name.
        tell: takes one sentence for the user about what was made or upgraded.

    Raises:
        DatabaseTrouble: there is none and nothing is to be recorded, or it cannot be used.
    """
    state = state_of(path)
    if state is SchemaState.MISSING:
        if not write:
            msg = (
                f"there is no studio at {path} yet; start one with 'studio paint add', or look "
                "at one with 'studio demo'"
            )
            raise DatabaseTrouble(msg)
        create_studio(path)
        tell(f"started a new studio at {path}")
    elif state is SchemaState.OLD:
        # Alembic takes most of a second to load, and only here is it needed.
        from studio.storage.migrate import upgrade  # noqa: PLC0415

        backup = upgrade(path, now)
        tell(f"upgraded {path}; the database as it was is kept at {backup}")
    return UnitOfWork(path, write=write)


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
        unfinished = path.with_name(f".{path.name}.unfinished")
        unfinished.unlink(missing_ok=True)
    try:
        build(unfinished)
        with UnitOfWork(unfinished, write=True) as work:
            load_reference(work)
            if fill is not None:
                fill(work)
            work.commit()
        put_in_place(unfinished, path)
    finally:
        unfinished.unlink(missing_ok=True)

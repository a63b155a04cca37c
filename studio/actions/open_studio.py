"""Open a studio's database, making or upgrading it first where that is needed."""

from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from studio.catalogue.history import Doing
from studio.errors import DatabaseTrouble
from studio.storage.address import Database, ServerAddress
from studio.storage.schema import SchemaState, state_of
from studio.storage.sqlite_file import settle_journal
from studio.storage.sqlite_place import told_today
from studio.storage.unfinished import unfinished_folder
from studio.storage.unit_of_work import UnitOfWork


def open_studio(  # noqa: PLR0913 - a database, what for, and whom to tell
    path: Database,
    *,
    write: bool,
    now: datetime,
    tell: Callable[[str], None],
    create: bool = True,
    doing: Doing | None = None,
) -> UnitOfWork:
    """A unit of work on a database.

    A missing database is made for a command that may record the first thing in it; any other says
    how to start.
    An older file is upgraded after a backup beside it. One on a server is not: that would shut out
    all who share it and have the older program, and its backup is not this program's to make.

    Args:
        path: the database, a file or a server's.
        write: whether the caller records something.
        now: the moment, for a backup's name.
        tell: takes one sentence for the user about what was made or upgraded.
        create: make a missing database for a command that records.
        doing: how the history is to tell of what is recorded.

    Raises:
        DatabaseTrouble: there is none and nothing is to be recorded, or it cannot be used.
    """
    state = state_of(path)
    if state is SchemaState.MISSING:
        if not (write and create):
            raise DatabaseTrouble(_none_yet(path))
        try:
            create_studio(path)
        except DatabaseTrouble:
            if state_of(path) is SchemaState.MISSING:
                raise
            # Another command began it in the meantime.
        else:
            tell(f"started a new studio at {path}")
    elif state is SchemaState.OLD:
        if not isinstance(path, Path):
            msg = (
                f"{path} is of an older studio; when its administrator has dumped it and all who "
                "share it have this program, run: studio db upgrade"
            )
            raise DatabaseTrouble(msg)
        # Alembic takes most of a second to load, and only here is it needed.
        from studio.actions.load_reference import refresh_reference  # noqa: PLC0415
        from studio.storage.migrate import upgrade  # noqa: PLC0415

        backup = upgrade(path, now, refresh_reference)
        tell(f"upgraded {path}; the database as it was is kept at {backup}")
    if isinstance(path, Path) and write:
        _settle(path, now, tell)
    return UnitOfWork(path, write=write, doing=doing)


def upgrade_shared(address: ServerAddress, tell: Callable[[str], None]) -> None:
    """Brings a database on a server to this program's schema, where it is of an older one.

    Raises:
        DatabaseTrouble: it cannot be used or upgraded; it is as it was.
    """
    if state_of(address) is SchemaState.OLD:
        from studio.actions.load_reference import refresh_reference  # noqa: PLC0415
        from studio.storage.migrate import upgrade_on_server  # noqa: PLC0415

        upgrade_on_server(address, refresh_reference)
        tell(f"upgraded {address}; older programs cannot use it any more")


def _settle(path: Path, now: datetime, tell: Callable[[str], None]) -> None:
    """Give a file the journal that its place allows, and warn once a day of an unfit place."""
    unfit = settle_journal(path)
    if unfit is not None and not told_today(path, now.date()):
        tell(
            f"{path} lies {unfit}, where SQLite cannot keep two machines from damaging it: use it "
            "on one at a time, or move it to a folder of this machine"
        )


def existing_studio(path: Path) -> Path:
    """The path of a studio that is there, at whatever schema.

    Raises:
        DatabaseTrouble: there is none, or it is no studio's database.
    """
    if state_of(path) is SchemaState.MISSING:
        raise DatabaseTrouble(_none_yet(path))
    return path


def _none_yet(path: Database) -> str:
    return (
        f"there is no studio at {path} yet; start one with 'studio paint add', or look at one with "
        "'studio demo'"
    )


def create_studio(path: Database, fill: Callable[[UnitOfWork], None] | None = None) -> None:
    """A new database with the pigment reference, whole or not at all.

    Args:
        path: where it is to be; on a server an empty database is there already.
        fill: records what else it is to hold from the start.

    Raises:
        DatabaseTrouble: it cannot be made, or there is a file of that name.
    """
    from studio.actions.load_reference import load_reference  # noqa: PLC0415
    from studio.storage.migrate import build, build_on_server, put_in_place  # noqa: PLC0415

    def fill_whole(work: UnitOfWork) -> None:
        load_reference(work)
        if fill is not None:
            fill(work)
        work.commit()

    if not isinstance(path, Path):
        with UnitOfWork(path, write=True, in_history=False) as work:
            build_on_server(work, path)
            fill_whole(work)
        return
    # A folder of its own: two commands that begin a studio at once must not share a file.
    with unfinished_folder(path) as folder:
        unfinished = folder / path.name
        build(unfinished)
        with UnitOfWork(unfinished, write=True, in_history=False) as work:
            fill_whole(work)
        put_in_place(unfinished, path)

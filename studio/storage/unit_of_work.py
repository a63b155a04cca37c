"""One transaction on a studio's database; leaving it without `commit` keeps nothing."""

import sqlite3
from functools import cached_property
from pathlib import Path
from types import TracebackType
from typing import Self

from sqlalchemy import Connection, Engine, NullPool, create_engine, event

from studio import __version__
from studio.catalogue.history import Command, CommandKind, Doing
from studio.storage.address import Database
from studio.storage.characterisations import Characterisations
from studio.storage.containers import Containers
from studio.storage.fade_tests import FadeTests
from studio.storage.history import History
from studio.storage.measurement_files import MeasurementFiles
from studio.storage.mixes import Mixes
from studio.storage.painting_records import PaintingRecords
from studio.storage.paintings import Paintings
from studio.storage.paints import Paints
from studio.storage.papers import Papers
from studio.storage.pigments import Pigments
from studio.storage.recorder import Recorder, by_script
from studio.storage.schema import connect
from studio.storage.sqlite_damage import unless_damaged
from studio.storage.sqlite_file import identity
from studio.storage.sqlite_patience import begin_writing, retried_once, unless_replaced
from studio.storage.sqlite_schema import refuse_strange
from studio.storage.swatches import Swatches
from studio.storage.take_back import take_back
from studio.storage.targets import Targets
from studio.storage.trouble import in_plain_words


class UnitOfWork:
    """A transaction and the repositories that work in it.

    Args:
        path: an existing database at the current schema, a file or a server's.
        write: True takes the write lock at once, so that what is read stays true until the commit.
        doing: how the history is to tell of it; None for a program that names no command line.
        in_history: False for a studio's beginning, and for what is only derived anew: the history
            tells of neither.
        of_this_schema: False for a database of an older one that this program built itself.
    """

    def __init__(
        self,
        path: Database,
        *,
        write: bool = False,
        doing: Doing | None = None,
        in_history: bool = True,
        of_this_schema: bool = True,
    ) -> None:
        self.path = path
        self.writes = write
        self.kept = False
        self._doing = doing
        self._of_this_schema = of_this_schema
        self._engine = _engine(path)
        event.listen(self._engine, "begin", self._begin)
        if isinstance(path, Path):
            event.listen(self._engine, "commit", self._commit)
        self._recorder = Recorder(self._engine) if write and in_history else None

    def _begin(self, connection: Connection) -> None:
        if not isinstance(self.path, Path):
            from studio.storage.server import begin  # noqa: PLC0415 - few studios lie on one

            begin(connection, write=self.writes)
            return
        connection.exec_driver_sql("PRAGMA foreign_keys = ON")
        if self.writes:
            # What was said to be recorded is on the disk; a log's default may be less.
            connection.exec_driver_sql("PRAGMA synchronous = FULL")
            # 64 MiB, taken as it is needed: a long import writes all over the indexes.
            connection.exec_driver_sql("PRAGMA cache_size = -65536")
            begin_writing(_driver(connection))
        else:
            connection.exec_driver_sql("BEGIN")
        if self._of_this_schema:
            refuse_strange(_driver(connection), self.path)

    def _commit(self, connection: Connection) -> None:
        """Ends the transaction before SQLAlchemy would, which gives a busy database up at once."""
        assert isinstance(self.path, Path)  # noqa: S101 - listened to for files alone
        unless_replaced(self.path, self._file)
        retried_once(lambda: _driver(connection).execute("COMMIT"))
        unless_replaced(self.path, self._file)

    def __enter__(self) -> Self:
        self._file = identity(self.path) if isinstance(self.path, Path) else None
        with in_plain_words(self.path):
            self.connection = self._engine.connect()
            try:
                self.connection.begin()
            except BaseException:
                self.connection.close()
                raise
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        traceback: TracebackType | None,
    ) -> None:
        self.connection.close()
        if error is None:
            return
        unless_damaged(self.path, error)
        if not isinstance(error, OSError):  # that is about another file
            with in_plain_words(self.path):
                raise error

    def begin_to_write(self) -> None:
        """End what was only looked at, and begin a transaction that writes.

        Raises:
            DatabaseTrouble: another program is writing; this one goes on looking.
        """
        with in_plain_words(self.path):
            self.connection.rollback()
            self.writes = True
            try:
                self.connection.begin()
            except BaseException:
                self.writes = False
                self.connection.rollback()
                raise

    def commit(self) -> None:
        """Keep all that was done in this unit of work.

        Raises:
            DatabaseTrouble: the database refused; nothing was kept.
        """
        with in_plain_words(self.path):
            self._record()
            self.connection.commit()
        self.kept = self.kept or self.writes
        self.forget()

    def take_back(self, command: Command, kind: CommandKind) -> None:
        """Take back a command, as a command of its own in the history.

        Raises:
            BadInput: a row is not as the command left it, or something rests on it.
        """
        with in_plain_words(self.path):
            take_back(self.connection, self.history, command)
            by = self._record(kind, command.id)
            self.history.mark_undone(command.id, by)
            if kind is CommandKind.REDO and command.takes_back is not None:
                self.history.mark_undone(command.takes_back, None)
        self.forget()

    def _record(
        self, kind: CommandKind = CommandKind.RECORDED, takes_back: int | None = None
    ) -> int | None:
        if self._recorder is None:
            return None
        doing = self._doing or by_script()
        return self._recorder.keep(self.connection, doing, __version__, kind, takes_back)

    def forget(self) -> None:
        """Drop what the repositories remember, so that they read the database anew."""
        for repository in ("pigments", "paints", "papers", "containers", "fade_tests"):
            self.__dict__.pop(repository, None)

    @cached_property
    def pigments(self) -> Pigments:
        """Pigments with their ratings and hazards."""
        return Pigments(self.connection)

    @cached_property
    def paints(self) -> Paints:
        """Paints with pigments and stock."""
        return Paints(self.connection, self.pigments, self.containers, self.fade_tests)

    @cached_property
    def papers(self) -> Papers:
        """Papers with stock and white."""
        return Papers(self.connection, self.containers)

    @cached_property
    def mixes(self) -> Mixes:
        """Mixes with their recipes."""
        return Mixes(self.connection)

    @cached_property
    def swatches(self) -> Swatches:
        """Swatches with their readings."""
        return Swatches(self.connection)

    @cached_property
    def files(self) -> MeasurementFiles:
        """The files that readings and targets were taken from."""
        return MeasurementFiles(self.connection)

    @cached_property
    def targets(self) -> Targets:
        """Targets that were given a name."""
        return Targets(self.connection)

    @cached_property
    def paintings(self) -> Paintings:
        """Paintings with their passages and what was tested for them."""
        return Paintings(self.connection)

    @cached_property
    def painting_records(self) -> PaintingRecords:
        """How to mix the colours of finished paintings again."""
        return PaintingRecords(self.connection)

    @cached_property
    def history(self) -> History:
        """What was done in this studio, by which command."""
        return History(self.connection)

    @cached_property
    def characterisations(self) -> Characterisations:
        """What was last computed of the paints."""
        return Characterisations(self.connection)

    @cached_property
    def containers(self) -> Containers:
        """Containers of paint and paper, each with its ledger."""
        return Containers(self.connection)

    @cached_property
    def fade_tests(self) -> FadeTests:
        """The owner's fade tests with their readings."""
        return FadeTests(self.connection)


def _engine(path: Database) -> Engine:
    if isinstance(path, Path):
        return create_engine("sqlite://", creator=lambda: connect(path), poolclass=NullPool)
    from studio.storage.server import engine_of  # noqa: PLC0415 - few studios lie on one

    return engine_of(path)


def _driver(connection: Connection) -> sqlite3.Connection:
    driver = connection.connection.driver_connection
    assert isinstance(driver, sqlite3.Connection)  # noqa: S101 - `connect` made it
    return driver

"""One transaction on a studio's database; leaving it without `commit` keeps nothing."""

import sqlite3
from functools import cached_property
from pathlib import Path
from types import TracebackType
from typing import Self

from sqlalchemy import Connection, NullPool, create_engine, event

from studio.storage.characterisations import Characterisations
from studio.storage.containers import Containers
from studio.storage.fade_tests import FadeTests
from studio.storage.measurement_files import MeasurementFiles
from studio.storage.mixes import Mixes
from studio.storage.paints import Paints
from studio.storage.papers import Papers
from studio.storage.pigments import Pigments
from studio.storage.schema import connect
from studio.storage.sqlite_file import identity
from studio.storage.sqlite_patience import begin_writing, retried_once, unless_replaced
from studio.storage.swatches import Swatches
from studio.storage.targets import Targets
from studio.storage.trouble import in_plain_words


class UnitOfWork:
    """A transaction and the repositories that work in it.

    Args:
        path: an existing database at the current schema.
        write: True takes the write lock at once, so that what is read stays true until the commit.
    """

    def __init__(self, path: Path, *, write: bool = False) -> None:
        self.path = path
        self.writes = write
        self._engine = create_engine("sqlite://", creator=lambda: connect(path), poolclass=NullPool)
        event.listen(self._engine, "begin", self._begin)
        event.listen(self._engine, "commit", self._commit)

    def _begin(self, connection: Connection) -> None:
        connection.exec_driver_sql("PRAGMA foreign_keys = ON")
        if self.writes:
            # What was said to be recorded is on the disk; a log's default may be less.
            connection.exec_driver_sql("PRAGMA synchronous = FULL")
            begin_writing(_driver(connection))
        else:
            connection.exec_driver_sql("BEGIN")

    def _commit(self, connection: Connection) -> None:
        """Ends the transaction before SQLAlchemy would, which gives a busy database up at once."""
        unless_replaced(self.path, self._file)
        retried_once(lambda: _driver(connection).execute("COMMIT"))
        unless_replaced(self.path, self._file)

    def __enter__(self) -> Self:
        self._file = identity(self.path)
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
        if error is not None:
            with in_plain_words(self.path):
                raise error

    def commit(self) -> None:
        """Keep all that was done in this unit of work.

        Raises:
            DatabaseTrouble: the database refused; nothing was kept.
        """
        with in_plain_words(self.path):
            self.connection.commit()
        self.forget()

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


def _driver(connection: Connection) -> sqlite3.Connection:
    driver = connection.connection.driver_connection
    assert isinstance(driver, sqlite3.Connection)  # noqa: S101 - `connect` made it
    return driver

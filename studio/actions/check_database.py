"""Check a studio's database: its own checks, its schema, the records, and how it is kept."""

import stat
import sys
from contextlib import closing
from pathlib import Path

from studio.actions.check_records import check_records
from studio.actions.fault import MEND, RESTORE, Fault
from studio.storage.address import Database, ServerAddress
from studio.storage.schema import HEAD, connect
from studio.storage.server import faults_on
from studio.storage.sqlite_copy import problems
from studio.storage.sqlite_place import unfit_place
from studio.storage.sqlite_schema import (
    Definitions,
    definitions,
    holds_tables_alone,
    lost_indexes,
    schema_differences,
)
from studio.storage.trouble import in_plain_words
from studio.storage.unfinished import abandoned_in
from studio.storage.unit_of_work import UnitOfWork

_OF_AN_INDEX = ("missing from index", "in index", "non-unique entry")


def check_database(path: Database) -> list[Fault]:
    """What is wrong with a database, one fault each; empty when nothing is.

    Raises:
        DatabaseTrouble: it cannot be read at all.
    """
    faults = _damage(path) if isinstance(path, Path) else _damage_on_server(path)
    if faults:
        return faults  # records of damaged pages cannot be read
    schema = _schema_faults(path) if isinstance(path, Path) else []
    if isinstance(path, Path) and not _has_tables_alone(path):
        return schema  # what a view shows is no record
    # What is strange was told; it must not hide what is wrong with the records.
    with UnitOfWork(path, of_this_schema=False) as work:
        records = check_records(work)
    return [*schema, *records]


def _has_tables_alone(path: Path) -> bool:
    with in_plain_words(path), closing(connect(path)) as connection:
        return holds_tables_alone(connection)


def _damage(path: Path) -> list[Fault]:
    with in_plain_words(path), closing(connect(path)) as connection:
        found = problems(connection)
    return [Fault(text, MEND if _of_an_index(text) else RESTORE) for text in found]


def _damage_on_server(address: ServerAddress) -> list[Fault]:
    return [Fault(text, "the dump that its administrator keeps") for text in faults_on(address)]


def _schema_faults(path: Path) -> list[Fault]:
    with in_plain_words(path), closing(connect(path)) as connection:
        there = definitions(connection)
    expected = expected_definitions()
    return [
        *(Fault(text) for text in schema_differences(there, expected)),
        *(Fault(f"the index {name} is missing", MEND) for name in lost_indexes(there, expected)),
    ]


def remarks_on(path: Path) -> list[Fault]:
    """What is wrong with how a database is kept rather than with what it holds."""
    said = []
    with in_plain_words(path), closing(connect(path)) as connection:
        (mode,) = connection.execute("PRAGMA journal_mode").fetchone()
    unfit = unfit_place(path)
    if unfit is not None:
        said.append(
            Fault(
                f"it lies {unfit}, where SQLite cannot keep two machines from damaging it",
                "use it on one machine at a time, or move it to a folder of this one",
            )
        )
    if mode in {"wal", "delete"} and (mode == "wal") != (unfit is None):
        kind = "without a write-ahead log" if unfit is None else "with a write-ahead log"
        said.append(Fault(f"it is kept {kind}, which is wrong for its place", MEND))
    said += [
        Fault(f"a command that was killed left {folder.name} beside it, with a copy of it", MEND)
        for folder in abandoned_in(path.parent)
    ]
    if others_may_read(path):
        said.append(Fault("others on this machine may read it", MEND))
    return said


def others_may_read(path: Path) -> bool:
    """Whether the file's permissions let anybody but its owner in."""
    return sys.platform != "win32" and bool(stat.S_IMODE(path.stat().st_mode) & 0o077)


def expected_definitions() -> Definitions:
    """The schema of a database that is built now."""
    # Alembic takes most of a second to load, and only here is it needed.
    from studio.storage.migrate import schema_at  # noqa: PLC0415

    return schema_at(HEAD)


def _of_an_index(text: str) -> bool:
    return any(words in text for words in _OF_AN_INDEX)

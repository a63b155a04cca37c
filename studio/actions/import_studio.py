"""Make a database of an exported folder, equal to the first to the last bit."""

import hashlib
import tempfile
from collections.abc import Callable, Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

from studio.actions.check_records import check_records
from studio.actions.export_studio import KeptFiles, written_table
from studio.actions.exported_folder import ExportedFolder, read_folder
from studio.actions.keep_backups import holds_records
from studio.actions.open_studio import create_studio, open_studio
from studio.errors import BadInput
from studio.storage.address import Database
from studio.storage.schema import HEAD, SchemaState, state_of
from studio.storage.server import sequences_in_step
from studio.storage.table_rows import (
    add_rows,
    count_of,
    empty_all,
    kept_tables,
    reflected,
    rows_of,
    values_of,
)
from studio.storage.trouble import in_plain_words
from studio.storage.unit_of_work import UnitOfWork


def import_studio(
    path: Database, folder: Path, now: datetime, tell: Callable[[str], None], *, keep: bool = True
) -> dict[str, int]:
    """The rows of each table, recorded in a studio that holds nothing yet.

    Args:
        path: the database, a file or a server's, which is begun where it is missing.
        folder: as `studio export` wrote it, by this or an older program.
        now: the moment.
        tell: takes one sentence for the user about what was begun.
        keep: False only tells what would be recorded.

    Raises:
        BadInput: the folder is not as it was written, breaks a rule, or the studio holds something.
        DatabaseTrouble: the database cannot be used.
    """
    found = read_folder(folder)
    counts: dict[str, int] = {}

    def fill(work: UnitOfWork) -> None:
        if found.schema == HEAD:
            _fill_from_folder(work, found, kept_tables())
            _compare(work, found)
        else:
            _fill_by_upgrade(work, found)
        faults = check_records(work)
        if faults:
            msg = f"{folder} holds a studio with {len(faults)} faults, the first: {faults[0].text}"
            raise BadInput(msg)
        sequences_in_step(work.connection)
        counts.update({table.name: count_of(work.connection, table) for table in kept_tables()})

    if not keep:
        with tempfile.TemporaryDirectory() as place:
            create_studio(Path(place, "studio.sqlite3"), fill)
    elif state_of(path) is SchemaState.MISSING:
        create_studio(path, fill)
        tell(f"started a new studio at {path}")
    else:
        with open_studio(path, write=False, now=now, tell=tell):
            pass  # an older one is upgraded
        with UnitOfWork(path, write=True, in_history=False) as work:
            if holds_records(work):
                msg = (
                    f"{path} holds records already, and {folder} is a whole studio; name a new "
                    "database with --db"
                )
                raise BadInput(msg)
            fill(work)
            work.commit()
    return counts


def _fill_from_folder(work: UnitOfWork, found: ExportedFolder, tables: list[Any]) -> None:
    names = {table.name for table in tables}
    if set(found.tables) != names:
        odd = ", ".join(sorted(set(found.tables) ^ names))
        msg = f"{found.folder} does not hold the tables of schema {found.schema}: {odd}"
        raise BadInput(msg)
    with in_plain_words(work.path):
        empty_all(work.connection, tables)
    for table in tables:
        line = 0

        def values(table: Any = table) -> Iterator[dict[str, Any]]:  # noqa: ANN401 - SQLAlchemy's
            nonlocal line
            for line, cells in found.rows(table.name, table.columns.keys()):
                try:
                    yield values_of(table, cells, found.content)
                except ValueError as error:
                    msg = f"{table.name}.csv, line {line}: {error}"
                    raise BadInput(msg) from None

        try:
            with in_plain_words(work.path):
                add_rows(work.connection, table, values())
        except BadInput as error:
            if str(error).startswith(f"{table.name}.csv"):
                raise
            msg = f"{table.name}.csv, at or before line {line}: {error}"
            raise BadInput(msg) from None


class _Digest:
    """Where the text of a table goes of which only the digest is wanted."""

    def __init__(self) -> None:
        self.digest = hashlib.sha256()

    def write(self, text: str) -> int:
        self.digest.update(text.encode())
        return len(text)


def _compare(work: UnitOfWork, found: ExportedFolder) -> None:
    """Export what was recorded again, and hold it to the digests of the folder."""
    for table, digest in found.tables.items():
        again = _Digest()
        written_table(work, table, again, KeptFiles(None))
        if again.digest.hexdigest() != digest:
            msg = f"{table}.csv would not come back as it is written; it was not imported"
            raise BadInput(msg)


def _fill_by_upgrade(work: UnitOfWork, found: ExportedFolder) -> None:
    """What an older program exported: into a database of its schema, which is then upgraded."""
    from studio.actions.load_reference import refresh_reference  # noqa: PLC0415
    from studio.storage.migrate import build, to_head  # noqa: PLC0415 - loads Alembic

    with tempfile.TemporaryDirectory() as place:
        old = Path(place, "old.sqlite3")
        build(old, found.schema)
        with UnitOfWork(old, write=True, in_history=False, of_this_schema=False) as source:
            metadata = reflected(source.connection)
            _fill_from_folder(source, found, kept_tables(metadata))
            source.commit()
        with in_plain_words(old):
            to_head(old, refresh=refresh_reference)
        with UnitOfWork(old) as source, in_plain_words(work.path):
            tables = kept_tables()
            empty_all(work.connection, tables)
            for table in tables:
                held: dict[str, bytes] = {}
                cells = rows_of(source.connection, table, _holding(held))
                add_rows(work.connection, table, (values_of(table, row, held.pop) for row in cells))


def _holding(held: dict[str, bytes]) -> Callable[[bytes, str | None], str]:
    """Keeps bytes in memory until the row that they stand in is recorded."""

    def keep(content: bytes, _name: str | None) -> str:
        name = str(len(held))
        held[name] = content
        return name

    return keep

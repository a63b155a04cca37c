"""Compute anew what a database derives from its records; the records themselves are not touched."""

import tempfile
from contextlib import closing
from datetime import datetime
from pathlib import Path

from studio.actions.check_colours import wrong_labs
from studio.actions.check_database import check_database, remarks_on
from studio.actions.fault import Fault
from studio.catalogue.reading import representative
from studio.storage.paint_marks import put_marks, wrong_marks
from studio.storage.readings import put_lab
from studio.storage.schema import connect
from studio.storage.sqlite_file import settle_journal
from studio.storage.sqlite_schema import definitions, lost_indexes
from studio.storage.trouble import in_plain_words
from studio.storage.unfinished import remove_abandoned
from studio.storage.unit_of_work import UnitOfWork


def mend_database(path: Path, now: datetime) -> list[Fault]:
    """The faults that were mended: colours, marks, recipes and indexes, permissions and journal.

    The database as it was is kept among the backups first.

    Args:
        path: the database.
        now: the moment.

    Raises:
        DatabaseTrouble: it cannot be written; it is as it was.
    """
    before = [fault for fault in check_database(path) if fault.derived]
    how = [fault for fault in remarks_on(path) if fault.derived]
    if before:
        from studio.storage.sqlite_restore import copy_as_it_is  # noqa: PLC0415

        copy_as_it_is(path, now)
        _mend_indexes(path)
        with UnitOfWork(path, write=True, in_history=False) as work:
            _mend_records(work)
            work.commit()
    if how:
        with in_plain_words(path):
            path.chmod(0o600)
        settle_journal(path)
        remove_abandoned(path.parent)
    left = {fault.text for fault in (*check_database(path), *remarks_on(path))}
    return [fault for fault in (*before, *how) if fault.text not in left]


def _mend_records(work: UnitOfWork) -> None:
    for key, _, right in list(wrong_labs(work)):
        if right is not None:
            put_lab(work.connection, key, right)
    for swatch in work.swatches.every():
        if swatch.readings and representative(swatch.readings) != (swatch.state, swatch.lab):
            work.swatches.derive_colour(swatch.id)
    for key in wrong_marks(work.connection):
        put_marks(work.connection, key)
    for mix in work.mixes.all():
        if work.mixes.with_recipe(mix.recipe) is None:
            work.mixes.file_anew(mix)


def _mend_indexes(path: Path) -> None:
    from studio.storage.migrate import build  # noqa: PLC0415 - loads Alembic

    with tempfile.TemporaryDirectory() as folder, in_plain_words(path):
        fresh = Path(folder, "fresh.sqlite3")
        build(fresh)
        with closing(connect(fresh)) as model, closing(connect(path)) as connection:
            lost = lost_indexes(definitions(connection), definitions(model))
            connection.execute("BEGIN IMMEDIATE")
            for name in lost:
                (sql,) = model.execute(
                    "SELECT sql FROM sqlite_master WHERE type = 'index' AND name = ?", (name,)
                ).fetchone()
                connection.execute(f'DROP INDEX IF EXISTS "{name}"')
                connection.execute(sql)
            connection.execute("REINDEX")
            connection.execute("COMMIT")

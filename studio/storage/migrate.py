"""Making and upgrading a studio's database with Alembic; the only importer of Alembic."""

from datetime import datetime
from pathlib import Path

from alembic import command
from alembic.config import Config
from sqlalchemy import NullPool, create_engine, event

from studio.errors import DatabaseTrouble
from studio.storage.schema import APPLICATION_ID, HEAD, connect, revision_of
from studio.storage.shipped import shipped_folder
from studio.storage.sqlite_backup import back_up
from studio.storage.sqlite_file import settle_journal, take_name
from studio.storage.trouble import in_plain_words


def build(path: Path, revision: str | None = None) -> None:
    """An empty studio database in a new file.

    Args:
        path: where it is to be.
        revision: the schema it is to have, the newest unless one is named.

    Raises:
        DatabaseTrouble: the file cannot be made.
    """
    with in_plain_words(path):
        path.touch(mode=0o600, exist_ok=False)
        to_head(path, revision)
        settle_journal(path)


def put_in_place(built: Path, path: Path) -> None:
    """Gives a finished database its name; an existing file is never replaced.

    Raises:
        DatabaseTrouble: there is a file of that name by now.
    """
    with in_plain_words(path):
        take_name(built, path)


def upgrade(path: Path, now: datetime) -> Path:
    """Brings an older database to this program's schema, after a verified backup.

    Args:
        path: the database.
        now: the moment, for the backup's name.

    Returns:
        The backup.

    Raises:
        DatabaseTrouble: backup or upgrade failed; the database is as it was.
    """
    with in_plain_words(path):
        backup = back_up(path, now, why=f"before-upgrade-from-{revision_of(path)}")
        to_head(path)
    return backup.path


def to_head(path: Path, revision: str | None = None) -> None:
    """Runs the missing revisions in one transaction, foreign keys off while tables are rebuilt.

    Args:
        path: the database.
        revision: the one to come to, the newest unless one is named.

    Raises:
        DatabaseTrouble: references of it are broken.
    """
    config = Config()
    config.set_main_option("script_location", str(shipped_folder("migrations")).replace("%", "%%"))
    engine = create_engine("sqlite://", creator=lambda: connect(path), poolclass=NullPool)
    event.listen(engine, "begin", lambda connection: connection.exec_driver_sql("BEGIN EXCLUSIVE"))
    event.listen(
        engine,
        "connect",
        # A rebuilt table would take its child rows along (SQLite's default is off, but no promise).
        lambda connection, _record: connection.execute("PRAGMA foreign_keys = OFF"),
    )
    with engine.connect() as connection, connection.begin():
        config.attributes["connection"] = connection
        command.upgrade(config, revision or HEAD)
        connection.exec_driver_sql(f"PRAGMA application_id = {APPLICATION_ID}")
        dangling = connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall()
        if dangling:
            msg = f"{path} has {len(dangling)} broken references and was not upgraded"
            raise DatabaseTrouble(msg)

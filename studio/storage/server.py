"""Databases on a PostgreSQL server: connections, the writers' lock, what state one is in."""

from typing import TYPE_CHECKING, Any, Final

from studio.errors import DatabaseTrouble
from studio.storage.address import ServerAddress
from studio.storage.trouble import in_plain_words

if TYPE_CHECKING:
    import psycopg
    from sqlalchemy import Connection, Engine

MARK: Final = "studio of a painter"
"""Comment on the version table, which marks a database as a studio's."""

WRITERS: Final = 0x53574348
"""Key of the advisory lock that one writer at a time holds: the letters SWCH."""

SETTINGS: Final = {
    "application_name": "studio",
    "client_encoding": "UTF8",
    "connect_timeout": "10",
    "lock_timeout": "5s",
    "statement_timeout": "10min",
    # A computer that fell asleep in the middle must not keep the others from writing.
    "idle_in_transaction_session_timeout": "10min",
    "tcp_keepalives_idle": "30",
    "tcp_keepalives_interval": "10",
    "tcp_keepalives_count": "3",
}
"""Settings of the client and, those with another name than its own, of the server's session."""

_OF_THE_CLIENT: Final = ("application_name", "client_encoding", "connect_timeout")


def connect_server(address: ServerAddress) -> "psycopg.Connection[Any]":
    """A bare connection; settings that the address names go before the program's.

    Raises:
        DatabaseTrouble: psycopg is not installed.
        psycopg.Error: the server cannot be reached or refuses.
    """
    try:
        import psycopg  # noqa: PLC0415 - nobody with a file needs it
        from psycopg.conninfo import conninfo_to_dict  # noqa: PLC0415
    except ImportError as error:
        msg = (
            "a database on a server needs the package psycopg; install it with: "
            "pip install 'psycopg[binary]'"
        )
        raise DatabaseTrouble(msg) from error
    own = {name: SETTINGS[name] for name in _OF_THE_CLIENT}
    given = {name: str(value) for name, value in conninfo_to_dict(address.text).items()}
    ours = [f"-c {name}={value}" for name, value in SETTINGS.items() if name not in own]
    # Of two settings of one name the server takes the last.
    options = " ".join([*ours, given.pop("options", "")]).strip()
    secret = {} if address.password is None else {"password": address.password}
    return psycopg.connect(**{**own, **given, **secret, "options": options})  # type: ignore[arg-type]


def engine_of(address: ServerAddress) -> "Engine":
    """An engine on a server's database, without a pool: a command is one transaction or two."""
    from sqlalchemy import NullPool, create_engine  # noqa: PLC0415

    with in_plain_words(address):
        connect_once = connect_server  # tells of a missing psycopg before SQLAlchemy does
        return create_engine(
            "postgresql+psycopg://",
            creator=lambda: connect_once(address),
            poolclass=NullPool,
            use_native_hstore=False,
        )


def begin(connection: "Connection", *, write: bool) -> None:
    """Begin a transaction: a reader sees one moment, a writer is the only one until its commit.

    What a writer reads (the next code, what a container holds) rests on nobody else writing
    meanwhile. With one lock for all of them that holds without any retry; under SERIALIZABLE a
    command would fail at its end and be run again. READ COMMITTED lets it see what the writers
    before it left; under REPEATABLE READ its view would be that of before it waited.

    Args:
        connection: a connection whose transaction has not begun.
        write: take the writers' lock.
    """
    driver: Any = connection.connection.dbapi_connection
    from psycopg import IsolationLevel  # noqa: PLC0415 - loaded by the connection

    level = IsolationLevel.READ_COMMITTED if write else IsolationLevel.REPEATABLE_READ
    driver.isolation_level = level
    driver.read_only = not write
    if write:
        # With its schema and the type of its argument: one of the same name elsewhere, that takes
        # another type, would be called instead, with all the rights of the writer.
        connection.exec_driver_sql(
            "SELECT pg_catalog.pg_advisory_xact_lock(%s::pg_catalog.int8)", (WRITERS,)
        )


def revision_on(address: ServerAddress) -> str | None:
    """The schema revision of a studio's database, None where there is nothing in it yet.

    Raises:
        DatabaseTrouble: it cannot be reached, cannot be used, or is not a studio's.
    """
    with in_plain_words(address), connect_server(address) as connection:
        schema, encoding = connection.execute(
            "SELECT current_schema(), pg_encoding_to_char(encoding) FROM pg_database "
            "WHERE datname = current_database()"
        ).fetchone() or (None, None)
        found = connection.execute(
            "SELECT relname, obj_description(oid, 'pg_class') FROM pg_class "
            "WHERE relnamespace = to_regnamespace(quote_ident(%s)) AND relkind IN ('r', 'p', 'v')",
            (schema,),
        ).fetchall()
        if ("alembic_version", MARK) in found:
            row = connection.execute("SELECT version_num FROM alembic_version").fetchone()
            if row is not None:
                return str(row[0])
    if found:
        msg = f"{address} is not a studio's database; name another one with --db"
        raise DatabaseTrouble(msg)
    if schema is None or encoding != "UTF8":
        wanting = "no schema of yours" if schema is None else f"the encoding {encoding}"
        msg = f"{address} has {wanting}; have it made anew with: createdb --encoding UTF8"
        raise DatabaseTrouble(msg)
    return None


def faults_on(address: ServerAddress) -> list[str]:
    """What the server itself knows to be broken: rules not held, indexes not whole."""
    with in_plain_words(address), connect_server(address) as connection:
        rules = connection.execute(
            "SELECT conrelid::regclass, conname FROM pg_constraint "
            "WHERE NOT convalidated AND connamespace = to_regnamespace(current_schema())"
        ).fetchall()
        indexes = connection.execute(
            "SELECT indrelid::regclass, indexrelid::regclass FROM pg_index JOIN pg_class "
            "ON pg_class.oid = indexrelid WHERE NOT (indisvalid AND indisready) "
            "AND relnamespace = to_regnamespace(current_schema())"
        ).fetchall()
    return [
        *(f"the rule {name} of {table} is not held for every row" for table, name in rules),
        *(f"the index {name} of {table} is not whole; rebuild it" for table, name in indexes),
    ]


def sequences_in_step(connection: "Connection") -> None:
    """Let the next id of every table follow its highest, after rows came in with ids of their own.

    A file needs none of it: SQLite takes the highest id there is. Call it in the transaction that
    recorded the rows.
    """
    if connection.dialect.name != "postgresql":
        return
    from studio.storage.tables import metadata  # noqa: PLC0415 - SQLAlchemy's tables

    for table in metadata.sorted_tables:
        if "id" in table.c:
            connection.exec_driver_sql(
                f"SELECT setval(pg_get_serial_sequence('{table.name}', 'id'), "  # noqa: S608  # nosec B608
                f"coalesce(max(id), 1), max(id) IS NOT NULL) FROM {table.name}"
            )

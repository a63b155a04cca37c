"""Databases on a PostgreSQL server: connections, the writers' lock, what state one is in."""

from contextlib import contextmanager
from typing import TYPE_CHECKING, Any, Final

from studio.errors import DatabaseTrouble
from studio.storage.address import ServerAddress
from studio.storage.trouble import in_plain_words

if TYPE_CHECKING:
    from collections.abc import Iterator

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

SCHEMA: Final = "studio.schema"
"""A setting of the session: the schema that the studio lies in."""

_OURS: Final = (
    "EXISTS (SELECT FROM pg_roles AS theirs WHERE theirs.oid = {0} AND (theirs.rolsuper "
    "OR theirs.rolname = current_user OR theirs.rolname = 'pg_database_owner')) "
    "OR {0} = (SELECT datdba FROM pg_database WHERE datname = current_database()) "
    "OR (pg_has_role({0}, 'USAGE') AND NOT "
    "(SELECT mine.rolsuper FROM pg_roles AS mine WHERE mine.rolname = current_user))"
)
"""Whether an owner is one whom we trust anyway: ourselves, a role of ours, the database's owner, a
superuser (who has every role, which says nothing of the other)."""

_OF_THE_CLIENT: Final = ("application_name", "client_encoding", "connect_timeout")


def connect_server(address: ServerAddress) -> "psycopg.Connection[Any]":
    """A bare connection; settings that the address names go before the program's.

    Names without a schema are looked for in pg_catalog alone: a function, an operator or a table
    that another role put into a schema of the search path is never called or written to.

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
    secret = dict(address.hidden)
    if address.password is not None:
        secret["password"] = address.password
    connection = psycopg.connect(**{**own, **given, **secret, "options": options})  # type: ignore[arg-type]
    try:
        _pin(connection)
    except BaseException:
        connection.close()
        raise
    return connection


def _pin(connection: "psycopg.Connection[Any]") -> None:
    """Finds the studio's schema by the search path of the session, and then does without that.

    A schema named after the user counts where the user, the database's owner or a superuser owns
    it: whoever may create schemas could make one, which a server's usual path looks into first.
    """
    connection.autocommit = True
    (path,) = connection.execute("SELECT pg_catalog.current_schemas(false)").fetchone() or ((),)
    connection.execute("SET search_path TO pg_catalog, pg_temp")
    trusted = connection.execute(
        "SELECT nspname FROM pg_namespace "  # noqa: S608  # nosec B608
        f"WHERE nspname = ANY (%s) AND (nspname <> current_user OR {_OURS.format('nspowner')})",
        (list(path),),
    ).fetchall()
    usable = {name for (name,) in trusted}
    schema = next((name for name in path if name in usable and not name.startswith("pg_")), "")
    connection.execute("SELECT set_config(%s, %s, false)", (SCHEMA, schema))
    connection.autocommit = False


def schema_in(connection: "psycopg.Connection[Any]") -> str | None:
    """The schema that the studio lies in, None where there is none to lie in."""
    (schema,) = connection.execute("SELECT current_setting(%s)", (SCHEMA,)).fetchone() or ("",)
    return schema or None


@contextmanager
def building(connection: "Connection") -> "Iterator[None]":
    """Lets revisions make and change tables by names without a schema, inside the block.

    Raises:
        DatabaseTrouble: another role has put functions, operators or casts there, which a rule of
            a table could take for the server's own.
    """
    driver: Any = connection.connection.dbapi_connection
    schema = schema_in(driver)
    if schema is None:
        yield
        return
    others = driver.execute(
        "SELECT rolname FROM ("  # noqa: S608  # nosec B608
        "SELECT proowner, pronamespace FROM pg_proc "
        "UNION ALL SELECT oprowner, oprnamespace FROM pg_operator "
        "UNION ALL SELECT typowner, typnamespace FROM pg_type WHERE typrelid = 0 AND typelem = 0"
        ") AS made (owner, namespace) JOIN pg_namespace ON pg_namespace.oid = namespace "
        "JOIN pg_roles ON pg_roles.oid = owner "
        f"WHERE nspname = %s AND NOT ({_OURS.format('owner')}) ORDER BY rolname LIMIT 1",
        (schema,),
    ).fetchone()
    if others is not None:
        msg = (
            f"the role {others[0]} has put functions, operators or types into the schema {schema}; "
            f"let the administrator drop them and run: REVOKE CREATE ON SCHEMA {schema} FROM PUBLIC"
        )
        raise DatabaseTrouble(msg)
    quoted = connection.dialect.identifier_preparer.quote_identifier(schema)
    connection.exec_driver_sql(f"SET LOCAL search_path TO {quoted}, pg_temp")
    yield
    connection.exec_driver_sql("SET LOCAL search_path TO pg_catalog, pg_temp")


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
    schema = schema_in(driver)
    if schema is not None:
        connection.execution_options(schema_translate_map={None: schema})
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
        schema = schema_in(connection)
        (encoding,) = connection.execute(
            "SELECT pg_encoding_to_char(encoding) FROM pg_database "
            "WHERE datname = current_database()"
        ).fetchone() or (None,)
        found = connection.execute(
            "SELECT relname, obj_description(oid, 'pg_class') FROM pg_class "
            "WHERE relnamespace = to_regnamespace(quote_ident(%s)) AND relkind IN ('r', 'p', 'v')",
            (schema,),
        ).fetchall()
        if ("alembic_version", MARK) in found:
            from psycopg import sql  # noqa: PLC0415 - loaded by the connection

            versions = sql.Identifier(str(schema), "alembic_version")
            row = connection.execute(
                sql.SQL("SELECT version_num FROM {}").format(versions)
            ).fetchone()
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
        schema = schema_in(connection)
        rules = connection.execute(
            "SELECT relname, conname FROM pg_constraint JOIN pg_class ON pg_class.oid = conrelid "
            "WHERE NOT convalidated AND connamespace = to_regnamespace(quote_ident(%s))",
            (schema,),
        ).fetchall()
        indexes = connection.execute(
            "SELECT owner.relname, own.relname FROM pg_index "
            "JOIN pg_class AS own ON own.oid = indexrelid "
            "JOIN pg_class AS owner ON owner.oid = indrelid "
            "WHERE NOT (indisvalid AND indisready) "
            "AND own.relnamespace = to_regnamespace(quote_ident(%s))",
            (schema,),
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
    from studio.storage.many_rows import qualified  # noqa: PLC0415 - SQLAlchemy
    from studio.storage.tables import metadata  # noqa: PLC0415 - SQLAlchemy's tables

    for table in metadata.sorted_tables:
        if "id" in table.c:
            of = qualified(connection, table.name)
            connection.exec_driver_sql(
                "SELECT setval(pg_get_serial_sequence(%s, 'id'), "  # noqa: S608  # nosec B608
                f"coalesce(max(id), 1), max(id) IS NOT NULL) FROM {of}",
                (of,),
            )

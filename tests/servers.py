"""Databases for tests: files, or on the server that STUDIO_TEST_SERVER names."""

import hashlib
import os
import shutil
import zlib
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from functools import cache
from itertools import count
from pathlib import Path
from typing import Any, Final, cast

import psycopg
from psycopg import sql
from sqlalchemy import Connection

from studio.storage.address import Database, ServerAddress
from studio.storage.schema import connect
from studio.storage.server import connect_server

SERVER: Final = os.environ.get("STUDIO_TEST_SERVER")
"""Address of a database on a server where these tests may make others; None for files."""

_RUN: Final = os.environ.get("PYTEST_XDIST_TESTRUNUID", str(os.getpid()))[:8]
_WORKER: Final = os.environ.get("PYTEST_XDIST_WORKER", "alone")
_numbers = count(1)


def address_of(name: str) -> ServerAddress:
    """The address of a database on the test server."""
    assert SERVER is not None
    return ServerAddress(f"{SERVER.rpartition('/')[0]}/{name}")


@cache
def maintenance() -> "psycopg.Connection[Any]":
    """The one connection of this process that makes and drops databases."""
    assert SERVER is not None
    connection = connect_server(ServerAddress(SERVER))
    connection.autocommit = True
    connection.execute("SET lock_timeout = 0")
    return connection


def new_database(name: str | None = None, template: ServerAddress | None = None) -> ServerAddress:
    """An empty database on the test server, or a copy of one that nobody is connected to."""
    name = name or f"studio_{_RUN}_{_WORKER}_{next(_numbers)}"
    source = "template0" if template is None else name_of(template)
    # As files it takes half as long as through the log.
    statement = sql.SQL("CREATE DATABASE {} TEMPLATE {} STRATEGY file_copy")
    maintenance().execute(statement.format(sql.Identifier(name), sql.Identifier(source)))
    return address_of(name)


def drop(address: ServerAddress) -> None:
    """Drop a database of the test server, whoever is connected to it."""
    statement = sql.SQL("DROP DATABASE IF EXISTS {} WITH (FORCE)")
    maintenance().execute(statement.format(sql.Identifier(name_of(address))))


def name_of(address: ServerAddress) -> str:
    """The name of a database."""
    return address.text.rpartition("/")[2]


def shared_template(build: Callable[[ServerAddress], None]) -> ServerAddress:
    """A database to copy that the processes of a test run share: the first to ask builds it."""
    address = address_of(f"studio_{_RUN}_demo")
    maintenance().execute("SELECT pg_advisory_lock(%s)", (zlib.crc32(_RUN.encode()),))
    try:
        name = maintenance().execute(
            "SELECT 1 FROM pg_database WHERE datname = %s", (name_of(address),)
        )
        if name.fetchone() is None:
            build(new_database(name_of(address)))
    finally:
        maintenance().execute("SELECT pg_advisory_unlock(%s)", (zlib.crc32(_RUN.encode()),))
    return address


def by_hand(address: ServerAddress) -> "psycopg.Connection[Any]":
    """A connection as an administrator has it, with the server's own search path."""
    connection = connect_server(address)
    connection.execute("RESET search_path")
    connection.commit()
    return connection


def names_alone(connection: Connection) -> None:
    """Let statements written by hand name tables without their schema until the next commit."""
    if connection.dialect.name == "postgresql":
        connection.exec_driver_sql("SET LOCAL search_path TO public")


def on_server(database: Database) -> Path:
    """A database as most tests name its type: what they do with it must hold for an address too."""
    return cast("Path", database)


@contextmanager
def copy_of(template: Database, path: Path) -> Iterator[Database]:
    """A database of a test's own: a file at a path, or a copy on the server of the template."""
    if isinstance(template, Path):
        yield Path(shutil.copy(template, path))
        return
    address = new_database(template=template)
    yield address
    drop(address)


def fingerprint(database: Database) -> str:
    """A digest of all that a database holds; a file's down to its last byte."""
    if isinstance(database, Path):
        return hashlib.sha256(database.read_bytes()).hexdigest()
    with by_hand(database) as connection:
        row = connection.execute(
            "SELECT md5(schema_to_xml(current_schema(), true, false, '')::text)"
        ).fetchone()
    assert row is not None
    return str(row[0])


def execute(database: Database, *statements: str) -> None:
    """Change a database behind the program's back."""
    if isinstance(database, Path):
        with closing(connect(database)) as file:
            for statement in statements:
                file.execute(statement)
        return
    with by_hand(database) as server:
        for statement in statements:
            server.execute(statement.encode())

"""Databases for tests: files, or on the server that STUDIO_TEST_SERVER names."""

import hashlib
import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import count
from pathlib import Path
from typing import Any, Final, cast

import psycopg
from psycopg import sql

from studio.storage.address import Database, ServerAddress
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


@contextmanager
def maintenance() -> Iterator["psycopg.Connection[Any]"]:
    """A connection that makes and drops databases."""
    assert SERVER is not None
    with connect_server(ServerAddress(SERVER)) as connection:
        connection.autocommit = True
        yield connection


def new_database(name: str | None = None, template: ServerAddress | None = None) -> ServerAddress:
    """An empty database on the test server, or a copy of one that nobody is connected to."""
    name = name or f"studio_{_RUN}_{_WORKER}_{next(_numbers)}"
    source = "template0" if template is None else name_of(template)
    with maintenance() as connection:
        connection.execute(
            sql.SQL("CREATE DATABASE {} TEMPLATE {}").format(
                sql.Identifier(name), sql.Identifier(source)
            )
        )
    return address_of(name)


def drop(address: ServerAddress) -> None:
    """Drop a database of the test server, whoever is connected to it."""
    with maintenance() as connection:
        connection.execute(
            sql.SQL("DROP DATABASE IF EXISTS {} WITH (FORCE)").format(
                sql.Identifier(name_of(address))
            )
        )


def name_of(address: ServerAddress) -> str:
    """The name of a database."""
    return address.text.rpartition("/")[2]


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
    with connect_server(database) as connection:
        row = connection.execute(
            "SELECT md5(schema_to_xml(current_schema()::regnamespace, true, false, '')::text)"
        ).fetchone()
    assert row is not None
    return str(row[0])

"""Which database a studio lies in: a file, or a server's by its address."""

import re
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final
from urllib.parse import unquote

from studio.errors import BadInput

_SCHEMES: Final = ("postgresql://", "postgres://")
_IN_USERINFO: Final = re.compile(r"(postgres(?:ql)?://[^\s:/@?]*):\S*@")
_AS_PARAMETER: Final = re.compile(r"([?&])password=[^&\s]*(&?)")


@dataclass(frozen=True, slots=True)
class ServerAddress:
    """A database on a PostgreSQL server, as libpq's connection URIs name it.

    Args:
        text: the address without its password; all that is ever shown.
        password: the password, None to leave it to PGPASSWORD or the password file.
    """

    text: str
    password: str | None = field(default=None, repr=False)

    def __str__(self) -> str:
        return self.text


Database = Path | ServerAddress
"""What a studio lies in; a file is named by its path."""


def database_at(text: str) -> Database:
    """The database of a path or of an address such as postgresql://user@host:5432/name.

    Raises:
        BadInput: the address is of another kind of server, or holds a password that cannot be told
            from the rest.
    """
    scheme = re.match(r"[A-Za-z][A-Za-z0-9+.-]*://", text)
    if scheme is None:
        return Path(text)
    if scheme[0].lower() not in _SCHEMES:
        msg = (
            f"{scheme[0]} is not a kind of database this program knows; name a file, or an address "
            "such as postgresql://user@host/name"
        )
        raise BadInput(msg)
    text = scheme[0].lower() + text[scheme.end() :]
    before, mark, parameters = text.partition("?")
    authority, *path = before[scheme.end() :].split("/")
    if authority.count("@") > 1 or any("@" in part for part in path):
        msg = (
            "the password in the address must be written with %40 for @ and %2F for /, or be left "
            "to PGPASSWORD or the file ~/.pgpass"
        )
        raise BadInput(msg)
    _, _, password = authority.rpartition("@")[0].partition(":")
    given = [part.partition("=") for part in parameters.split("&") if part]
    password = next((value for name, _, value in given if name == "password"), password)
    return ServerAddress(without_password(before + mark + parameters), unquote(password) or None)


def without_password(text: str) -> str:
    """A text, such as a command line or an error, without the passwords of addresses in it."""
    text = _IN_USERINFO.sub(r"\1@", text)
    return _AS_PARAMETER.sub(lambda found: found[1] if found[2] else "", text)


def file_of(database: Database) -> Path:
    """The file of a database that is one.

    Raises:
        BadInput: it lies on a server.
    """
    if isinstance(database, Path):
        return database
    msg = (
        f"{database} lies on a server, where this is the work of its administrator; it can be done "
        "here with a database file"
    )
    raise BadInput(msg)

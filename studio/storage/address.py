"""Which database a studio lies in: a file, or a server's by its address."""

import os
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final
from urllib.parse import quote, unquote

from studio.errors import BadInput

_SCHEMES: Final = ("postgresql://", "postgres://")
_IN_USERINFO: Final = re.compile(r"(postgres(?:ql)?://[^\s:/@?]*):\S*@")
_HELD_BACK: Final = "password|sslpassword|oauth_client_secret|scram_client_key|scram_server_key"
"""Parameters of libpq's connections that are secrets (PostgreSQL documentation, 34.1.2)."""
_AS_PARAMETER: Final = re.compile(rf"([?&])(?:{_HELD_BACK})=[^&\s]*(&?)")
_AS_KEYWORD: Final = re.compile(rf"\b({_HELD_BACK})(\s*=\s*)('(?:\\.|[^'\\])*'?|[^\s&]+)")
_KEYWORDS: Final = re.compile(
    rf"\s*(?:host|hostaddr|port|dbname|user|service|{_HELD_BACK})\s*=|.*\s(?:{_HELD_BACK})\s*=",
    re.DOTALL,
)
"""How a connection string of key words and values is told from the name of a file."""
_IN_WORD: Final = re.compile(r"((?:--?[\w-]+=)?postgres(?:ql)?://)(.*)", re.DOTALL | re.IGNORECASE)
SHORTEST: Final = 3
"""Signs that a secret must have to be looked for in any text: less would stand in every word."""


@dataclass(frozen=True, slots=True)
class ServerAddress:
    """A database on a PostgreSQL server, as libpq's connection URIs name it.

    Args:
        text: the address without its password; all that is ever shown.
        password: the password, None to leave it to PGPASSWORD or the password file.
        hidden: other secrets among its parameters, such as sslpassword, with their names.
    """

    text: str
    password: str | None = field(default=None, repr=False)
    hidden: tuple[tuple[str, str], ...] = field(default=(), repr=False)

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
        if _KEYWORDS.match(text) and not os.path.lexists(text):
            msg = (
                "a database on a server is named as postgresql://user@host/name; leave the "
                "password to PGPASSWORD or the file ~/.pgpass"
            )
            raise BadInput(msg)
        return Path(text)
    if scheme[0].lower() not in _SCHEMES:
        msg = (
            f"{scheme[0]} is not a kind of database this program knows; name a file, or an address "
            "such as postgresql://user@host/name"
        )
        raise BadInput(msg)
    text = scheme[0].lower() + text[scheme.end() :]
    before, _, parameters = text.partition("?")
    authority, *path = before[scheme.end() :].split("/")
    if authority.count("@") > 1 or any("@" in part for part in (*path, parameters)):
        msg = (
            "the password in the address must be written with %40 for @, %2F for / and %3F for ?, "
            "or be left to PGPASSWORD or the file ~/.pgpass"
        )
        raise BadInput(msg)
    secrets = dict(_secrets(text[scheme.end() :]))
    password = secrets.pop("password", "")
    shown = scheme[0].lower() + _without_secrets(text[scheme.end() :])
    return ServerAddress(shown, password or None, tuple(secrets.items()))


def _secrets(address: str) -> Iterator[tuple[str, str]]:
    """The secrets of an address behind its scheme, by their names; of two the last counts."""
    before, _, parameters = address.partition("?")
    user, _, _ = before.partition("/")[0].rpartition("@")
    if before.count("@") > 1:  # in the password itself, which `database_at` refuses
        user = before.rpartition("@")[0]
    yield "password", unquote(user.partition(":")[2])
    for part in parameters.split("&"):
        name, _, value = part.partition("=")
        if re.fullmatch(_HELD_BACK, name):
            yield name, unquote(value)


def _without_secrets(address: str) -> str:
    before, mark, parameters = address.partition("?")
    user, at, rest = before.rpartition("@")
    if at:
        before = user.partition(":")[0] + at + rest
    kept = [
        part
        for part in parameters.split("&")
        if not re.fullmatch(_HELD_BACK, part.partition("=")[0])
    ]
    return before + (mark if any(kept) else "") + "&".join(kept)


def word_without_password(word: str) -> str:
    """A word of a command line without the secrets of the address that it is, if it is one."""
    found = _IN_WORD.fullmatch(word)
    return found[1] + _without_secrets(found[2]) if found else without_password(word)


def secrets_in(words: Iterable[str]) -> tuple[str, ...]:
    """The secrets that stand in words of a command line, as they stand there and as they are meant.

    Longer ones come first, so that none is left by half where another is part of it.
    """
    found: set[str] = set()
    for word in words:
        address = _IN_WORD.fullmatch(word)
        if address:
            for _, secret in _secrets(address[2]):
                found |= {secret, quote(secret, safe="")}
            before, _, parameters = address[2].partition("?")
            # What is refused, as it cannot be told from the rest, is not shown either.
            found.add(address[2].rpartition("@")[0].partition(":")[2])
            found.add(before.rpartition("@")[0].partition(":")[2])
            found.update(
                part.partition("=")[2]
                for part in parameters.split("&")
                if re.fullmatch(_HELD_BACK, part.partition("=")[0])
            )
        for keyword in _AS_KEYWORD.finditer(word):
            plain = keyword[3].strip("'")
            found |= {keyword[3], plain, re.sub(r"\\(.)", r"\1", plain)}
    long = {secret for secret in found if len(secret) >= SHORTEST}
    told = long | {ascii(secret)[1:-1] for secret in long} | {repr(secret)[1:-1] for secret in long}
    return tuple(sorted(told, key=len, reverse=True))


def hidden(text: str, secrets: Iterable[str]) -> str:
    """A message without the secrets that are known, and without what looks like one."""
    for secret in secrets:
        text = text.replace(secret, "…")
    return without_password(text)


def without_password(text: str) -> str:
    """A text, such as a command line or an error, without the passwords of addresses in it."""
    text = _IN_USERINFO.sub(r"\1@", text)
    text = _AS_PARAMETER.sub(lambda found: found[1] if found[2] else "", text)
    return _AS_KEYWORD.sub(r"\1\2…", text)


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

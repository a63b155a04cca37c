"""Whether a database has the tables, rules, indexes and triggers that the migrations make."""

import re
import sqlite3
from collections.abc import Iterable
from functools import cache
from pathlib import Path
from typing import Final

from studio.errors import DatabaseTrouble

_OF_SQLITE: Final = frozenset({"sqlite_sequence", "sqlite_stat1", "sqlite_stat4"})
"""Tables that SQLite makes by itself (file format, 2.6.2 to 2.6.6)."""

_MADE: Final = re.compile(
    r'CREATE (?:TABLE "?(?P<table>\w+)"?\s*\(|'
    r'(?P<unique>UNIQUE )?INDEX "?(?P<index>\w+)"? ON "?(?P<on>\w+)"? \()'
)
_ACTS: Final = ("DELETE", "UPDATE", "CONFLICT", "--", "/*", ";")
"""What makes a table change rows that no statement names, and comments, which could hide it."""
_COMPUTED: Final = re.compile(r"(?<!\w)AS\s*\(")
_CHECK: Final = re.compile(r"CONSTRAINT ck_\w+ CHECK \(.*\)")

Definitions = dict[tuple[str, str], tuple[str, ...]]
"""(kind, name) of everything a schema holds, with its lines in one order whatever built it."""


def definitions(connection: sqlite3.Connection) -> Definitions:
    """What a database holds, but for what SQLite makes by itself."""
    found: Definitions = {}
    for kind, name, sql in connection.execute("SELECT type, name, sql FROM sqlite_master"):
        if _is_of_sqlite(kind, name, sql):
            continue
        # A table that took over another's name is kept with its name in quotes.
        lines = (sql or "").replace(f'"{name}"', name).splitlines()
        found[kind, name] = tuple(sorted(" ".join(line.strip(" ,\t").split()) for line in lines))
    return found


def _is_of_sqlite(kind: str, name: str, sql: str | None) -> bool:
    """Whether SQLite made it; names that begin with sqlite_ can be forged by writing the schema."""
    if sql is None:
        return kind == "index" and name.startswith("sqlite_autoindex_")
    return kind == "table" and name in _OF_SQLITE and sql.startswith(f"CREATE TABLE {name}(")


@cache
def _known() -> dict[tuple[str, str], tuple[str, bool]]:
    """(kind, name) of all that the newest schema holds -> its table, and whether it is unique."""
    from studio.storage.tables import metadata  # noqa: PLC0415 - loads SQLAlchemy, as units do

    known = {("table", "alembic_version"): ("alembic_version", False)}
    for table in metadata.tables.values():
        known["table", table.name] = (table.name, False)
        known.update(
            {
                ("index", str(index.name)): (table.name, bool(index.unique))
                for index in table.indexes
            }
        )
    return known


def refuse_strange(connection: sqlite3.Connection, path: Path) -> None:
    """Looks over the schema of a database at the newest revision, at the cost of reading it.

    A trigger, a view or a rule of a stranger's would change or show what no record did. Whether
    all is there, and each rule as it should be, is for `db check`.

    Args:
        connection: an open one, in a transaction where that matters.
        path: what to call the database.

    Raises:
        DatabaseTrouble: it holds what no studio makes.
    """
    part = strange_part(connection)
    if part is not None:
        raise DatabaseTrouble(_strange(path, part))


def strange_part(connection: sqlite3.Connection) -> str | None:
    """The first thing in a schema that no studio makes, as a clause; None where there is none."""
    known = _known()
    for kind, name, table, sql in connection.execute(
        "SELECT type, name, tbl_name, sql FROM sqlite_master"
    ):
        if _is_of_sqlite(kind, name, sql):
            continue
        if (kind, name) not in known:
            return f"the {kind} {name} is none of the studio's"
        made = _MADE.match(sql or "")
        own, unique = known[kind, name]
        if (
            made is None
            or made[kind] != name
            or table != own
            or (made["on"] or own) != own
            or bool(made["unique"]) != unique
            or (kind == "table" and _acts(sql))
        ):
            return f"the {kind} {name} is other than a studio makes it"
    return None


def _acts(sql: str) -> bool:
    """Whether a table does more than hold what it is given, told by words that no studio uses."""
    plain = sql.upper()
    return any(word in plain for word in _ACTS) or _COMPUTED.search(plain) is not None


def holds_tables_alone(connection: sqlite3.Connection) -> bool:
    """Whether what can be read was recorded: no view, no virtual table, no computed column."""
    return not any(
        kind == "view"
        or (kind == "table" and (not _MADE.match(sql) or _COMPUTED.search(sql.upper())))
        for kind, sql in connection.execute(
            "SELECT type, sql FROM sqlite_master WHERE sql IS NOT NULL"
        )
    )


def refuse_other_than(there: Definitions, expected: Definitions, path: Path) -> None:
    """Holds a schema to what the migrations make of its revision, before anything is done with it.

    A missing index and another CHECK pass: they lose nothing, the first studios had fewer CHECKs,
    and `db check` tells of both.

    Raises:
        DatabaseTrouble: it holds what no studio makes.
    """
    for key, lines in sorted(there.items()):
        kind, name = key
        if key not in expected:
            raise DatabaseTrouble(_strange(path, f"the {kind} {name} is none of the studio's"))
        if _without_checks(lines) != _without_checks(expected[key]):
            said = f"the {kind} {name} is other than a studio makes it"
            raise DatabaseTrouble(_strange(path, said))


def _without_checks(lines: Iterable[str]) -> list[str]:
    return [line for line in lines if not _CHECK.fullmatch(line) or _acts(line)]


def _strange(path: Path, part: str) -> str:
    return (
        f"{path} is not as a studio makes it ({part}) and was left as it is; drop that if you "
        "added it, else restore a backup of your own (studio backup list shows them)"
    )


def lost_indexes(there: Definitions, expected: Definitions) -> list[str]:
    """Names of indexes that are missing or made otherwise; their tables hold all they need."""
    return [
        name
        for (kind, name), lines in expected.items()
        if kind == "index" and there.get((kind, name)) != lines
    ]


def schema_differences(there: Definitions, expected: Definitions) -> list[str]:
    """What is missing, added or other than the migrations make it, a clause each."""
    said: list[str] = []
    for key, lines in expected.items():
        kind, name = key
        if kind == "index":
            continue
        if key not in there:
            said.append(f"the {kind} {name} is missing")
        elif there[key] != lines:
            said.append(
                f"the {kind} {name} is other than it should be: {_first(there[key], lines)}"
            )
    said += [f"the {kind} {name} is none of the studio's" for kind, name in _added(there, expected)]
    return said


def _added(there: Definitions, expected: Definitions) -> Iterable[tuple[str, str]]:
    return sorted(set(there) - set(expected))


def _first(there: Iterable[str], expected: Iterable[str]) -> str:
    lost, more = sorted(set(expected) - set(there)), sorted(set(there) - set(expected))
    if lost:
        return f"it lacks {lost[0]}"
    return f"it has {more[0]}" if more else "a line of it is there twice"

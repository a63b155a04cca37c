"""Whether a database has the tables, rules, indexes and triggers that the migrations make."""

import sqlite3
from collections.abc import Iterable

Definitions = dict[tuple[str, str], tuple[str, ...]]
"""(kind, name) of everything a schema holds, with its lines in one order whatever built it."""


def definitions(connection: sqlite3.Connection) -> Definitions:
    """What a database holds, but for what SQLite makes by itself."""
    found: Definitions = {}
    for kind, name, sql in connection.execute(
        "SELECT type, name, sql FROM sqlite_master WHERE name NOT LIKE 'sqlite\\_%' ESCAPE '\\'"
    ):
        # A table that took over another's name is kept with its name in quotes.
        lines = (sql or "").replace(f'"{name}"', name).splitlines()
        found[kind, name] = tuple(sorted(" ".join(line.strip(" ,\t").split()) for line in lines))
    return found


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

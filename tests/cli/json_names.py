"""The names of JSON objects as the table in README.md documents them."""

import re
from collections.abc import Collection, Iterator
from pathlib import Path
from typing import Any, Final

README: Final = Path(__file__).resolve().parents[2] / "README.md"

Names = dict[str, Any]
"""Name -> the names inside it, None for a plain value. Names that only `show` has are under `show`;
those of a brace without a name, such as `each paint {…}`, under the empty name."""

_TOKEN: Final = re.compile(
    r"`([a-z_0-9 ]+)`|([\[{])|([\]}])|(\([^()]*(?:\([^()]*\)[^()]*)*\))|adds"
)


def documented() -> dict[str, Names]:
    """Each object of the table by its name, such as `match` or `a hazard`."""
    table = re.search(r"\| JSON of \| names \|\n.*?\n\n", README.read_text("utf-8"), re.DOTALL)
    assert table is not None
    rows = re.findall(r"^\| (.+?) \| (.+) \|$", table[0], re.MULTILINE)[1:]
    return {
        name.strip("`"): _read(_TOKEN.finditer(cell)) for name, cell in rows if "---" not in name
    }


def _read(tokens: Iterator[re.Match[str]]) -> Names:
    names: Names = {}
    into, last = names, ""
    for token in tokens:
        if token[1]:
            last = token[1]
            into[last] = None
        elif token[2]:
            inside = _read(tokens)
            into[last] = {**(into.get(last) or {}), **inside.pop("", {}), **inside}
            last = ""
        elif token[3]:
            return names
        elif token[0] == "adds":
            del names["show"]
            into = names["show"] = {}
        if not token[1]:
            last = ""
    return names


def names_in(value: Any, by_kind: Collection[str] = ()) -> Names | None:
    """The names of a JSON value and of every object inside it; alike objects must be named alike.

    Args:
        value: a parsed JSON value.
        by_kind: names whose objects are counts by kind, so that what is inside is data.
    """
    if isinstance(value, list):
        merged: Names | None = None
        for each in value:
            merged = _merged(merged, names_in(each, by_kind))
        return merged
    if isinstance(value, dict):
        return {
            name: None if name in by_kind else names_in(each, by_kind)
            for name, each in value.items()
        }
    return None


def _merged(one: Names | None, other: Names | None) -> Names | None:
    if one is None or other is None:
        return other if one is None else one
    assert one.keys() == other.keys()
    return {name: _merged(one[name], other[name]) for name in one}

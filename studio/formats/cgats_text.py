"""CGATS.17 text (ISO 28178) as tables: keywords, fields and rows."""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Final

from studio.formats.sample import UnreadableFile

_QUOTED: Final = re.compile(r'"((?:[^"]|"")*)"')
_COMMENT: Final = re.compile(r"(?:^|(?<=\s))#.*")
_HELD: Final = re.compile("\ue000(\\d+)\ue001")

Cells = list[str]


@dataclass(frozen=True, slots=True)
class CgatsTable:
    """One table of a file.

    Args:
        keywords: keyword in capitals -> its texts; those of earlier tables hold on.
        fields: the names of its columns.
        rows: (line, a cell for each field).
        sets: how many rows the file says there are, None where it does not.
    """

    keywords: dict[str, list[str]]
    fields: tuple[str, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]
    sets: int | None


@dataclass(slots=True)
class _Open:
    """The table that is being read."""

    keywords: dict[str, list[str]] = field(default_factory=dict)
    fields: Cells = field(default_factory=list)
    rows: list[tuple[int, tuple[str, ...]]] = field(default_factory=list)
    _own: set[str] = field(default_factory=set)

    def add(self, key: str, text: str) -> None:
        """One more text of a keyword; what earlier tables said stays theirs."""
        if key not in self._own:
            self._own.add(key)
            self.keywords[key] = [*self.keywords.get(key, ())]
        self.keywords[key].append(text)


def looks_like_cgats(text: str) -> bool:
    """Whether a text has a data format as CGATS.17 writes it, or begins as its files do."""
    first = text.lstrip("\ufeff").split(maxsplit=1)[:1]
    known = ("CGATS", "ISO28178", "LGOROWLENGTH")
    return "BEGIN_DATA_FORMAT" in text or any(word.upper().startswith(known) for word in first)


def tables_of(text: str, file: str) -> list[CgatsTable]:
    """The tables of a file.

    A row is what stands between two tabs where the line has as many cells as there are fields, so
    that cells may be empty or hold blanks; else what stands between blanks, over several lines.

    Raises:
        UnreadableFile: it ends in the middle, has no data format, or a row does not fit it.
    """
    lines = iter(enumerate(text.splitlines(), start=1))
    current, tables = _Open(), []
    for number, line in lines:
        words, _ = _cells(line)
        if not words:
            continue
        key = words[0].upper()
        if key == "BEGIN_DATA_FORMAT":
            current.fields = _format(words[1:], lines, file)
        elif key == "BEGIN_DATA":
            if not current.fields:
                msg = f"{file}, line {number}: data without a BEGIN_DATA_FORMAT before them"
                raise UnreadableFile(msg)
            current.rows = _rows(current.fields, lines, file)
            tables.append(_closed(current))
            current = _Open(dict(current.keywords), current.fields)
            current.keywords.pop("NUMBER_OF_SETS", None)
        elif key not in {"END_DATA", "END_DATA_FORMAT", "KEYWORD"}:
            current.add(key, " ".join(words[1:]))
    if not tables:
        msg = f"{file} has no BEGIN_DATA with readings; it may be cut off, so export it again"
        raise UnreadableFile(msg)
    return tables


def _closed(current: _Open) -> CgatsTable:
    sets = current.keywords.get("NUMBER_OF_SETS", [""])[-1]
    return CgatsTable(
        dict(current.keywords),
        tuple(current.fields),
        tuple(current.rows),
        int(sets) if sets.isascii() and sets.isdigit() and len(sets) < 10 else None,  # noqa: PLR2004
    )


def _format(words: Cells, lines: Iterator[tuple[int, str]], file: str) -> Cells:
    fields = list(words)
    while "END_DATA_FORMAT" not in fields:
        line = next(lines, None)
        if line is None:
            msg = f"{file} ends before END_DATA_FORMAT: it is cut off, so export it again"
            raise UnreadableFile(msg)
        fields += _cells(line[1])[0]
    return fields[: fields.index("END_DATA_FORMAT")]


def _rows(
    fields: Cells, lines: Iterator[tuple[int, str]], file: str
) -> list[tuple[int, tuple[str, ...]]]:
    rows: list[tuple[int, tuple[str, ...]]] = []
    pending: Cells = []
    count = len(fields)
    for number, line in lines:
        words, columns = _cells(line)
        ended = bool(words) and words[0].upper() == "END_DATA"
        if not ended and not pending and len(words) != count:
            row = _by_tabs(columns, count)
            if row is not None:
                rows.append((number, row))
                continue
        pending += [] if ended else words
        if len(pending) > count or (ended and pending):
            held = len(pending)
            msg = (
                f"{file}, line {number}: {held} values, and the data format has {count} fields; "
                "export it again"
            )
            raise UnreadableFile(msg)
        if len(pending) == count:
            rows.append((number, tuple(pending)))
            pending = []
        if ended:
            return rows
    msg = f"{file} ends before END_DATA: it is cut off, so export it again"
    raise UnreadableFile(msg)


def _by_tabs(columns: Cells, count: int) -> tuple[str, ...] | None:
    """The cells of a line between tabs, without blank columns at its ends beyond the format's."""
    if len(columns) < 2:  # noqa: PLR2004 - no tab
        return None
    while len(columns) > count and not columns[0]:
        columns = columns[1:]
    while len(columns) > count and not columns[-1]:
        columns = columns[:-1]
    return tuple(columns) if len(columns) == count and any(columns) else None


def _cells(line: str) -> tuple[Cells, Cells]:
    """The cells of a line between blanks and those between tabs; quotes hold cells together."""
    held: Cells = []

    def hold(found: re.Match[str]) -> str:
        held.append(found[1].replace('""', '"'))
        return f"\ue000{len(held) - 1}\ue001"

    def back(cell: str) -> str:
        return _HELD.sub(release, cell).strip().strip('"')

    def release(found: re.Match[str]) -> str:
        index = int(found[1])
        return held[index] if index < len(held) else ""

    plain = _COMMENT.sub("", _QUOTED.sub(hold, line))
    split: Callable[[Cells], Cells] = lambda cells: [back(cell) for cell in cells]  # noqa: E731
    return split(plain.split()), split(plain.split("\t"))

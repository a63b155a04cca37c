"""An exported folder as it is read back: what it lists, checked before anything is recorded."""

import csv
import hashlib
import json
import re
import stat
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from studio.actions.export_studio import FORMAT, LIST, VERSION
from studio.errors import BadInput
from studio.storage.schema import REVISIONS

_TABLE: Final = re.compile(r"[a-z][a-z0-9_]*\.csv")
_FILE: Final = re.compile(r"files/([0-9a-f]{64})(\.[a-z0-9]{1,8})?")


@dataclass(frozen=True, slots=True)
class ExportedFolder:
    """A folder whose files are all there and as they were written.

    Args:
        folder: where it is.
        schema: the revision of the tables.
        tables: the digest of each table.
        files: the names of the measurement files.
    """

    folder: Path
    schema: str
    tables: dict[str, str]
    files: frozenset[str]

    def rows(self, table: str, header: list[str]) -> Iterator[tuple[int, list[str]]]:
        """The lines of a table's file with their cells, the header apart.

        Raises:
            BadInput: the header is another.
        """
        path = self.folder / f"{table}.csv"
        limit = csv.field_size_limit(sys.maxsize)
        try:
            with path.open(encoding="utf-8", newline="") as file:
                reader = csv.reader(file, strict=True)
                if next(reader, None) != header:
                    msg = f"{path.name} does not begin with {','.join(header)}"
                    raise BadInput(msg)
                for cells in reader:
                    yield reader.line_num, cells
        except (OSError, ValueError, csv.Error) as error:
            msg = f"{path.name} cannot be read as a table: {error}"
            raise BadInput(msg) from None
        finally:
            csv.field_size_limit(limit)

    def content(self, name: str) -> bytes:
        """The bytes of a measurement file.

        Raises:
            ValueError: the folder does not list it.
        """
        if name not in self.files:
            msg = f"{LIST} lists no such file"
            raise ValueError(msg)
        return (self.folder / name).read_bytes()


def is_exported(folder: Path) -> bool:
    """Whether a folder holds a whole studio rather than tables to add."""
    return (folder / LIST).is_file()


def read_folder(folder: Path) -> ExportedFolder:
    """What a folder lists, after a look at every file of it.

    Raises:
        BadInput: it was written by a newer studio, a file is missing, was changed, or lies
            elsewhere.
    """
    about = _about(folder)
    schema = about.get("schema")
    if schema not in REVISIONS:
        msg = f"{folder} was exported by a newer studio (schema {schema}); install that version"
        raise BadInput(msg)
    tables: dict[str, str] = {}
    files: set[str] = set()
    for entry in _entries(about, "tables"):
        name, digest = entry.get("file"), entry.get("sha256")
        if not (isinstance(name, str) and isinstance(digest, str) and _TABLE.fullmatch(name)):
            msg = f"{LIST} lists a table {name!r}, which is not the name of one"
            raise BadInput(msg)
        _look_at(folder, name, digest)
        tables[name.removesuffix(".csv")] = digest
    for entry in _entries(about, "files"):
        name = entry.get("file")
        found = _FILE.fullmatch(name) if isinstance(name, str) else None
        if found is None:
            msg = f"{LIST} lists a file {name!r}, which does not lie in files/ under its digest"
            raise BadInput(msg)
        _look_at(folder, found[0], found[1])
        files.add(found[0])
    return ExportedFolder(folder, str(schema), tables, frozenset(files))


def _about(folder: Path) -> dict[str, Any]:
    path = folder / LIST
    try:
        text = "" if path.is_symlink() else path.read_text(encoding="utf-8")
        about = json.loads(text)
    except (OSError, ValueError, RecursionError) as error:
        msg = f"{path} cannot be read: {error}"
        raise BadInput(msg) from None
    if not isinstance(about, dict) or about.get("format") != FORMAT:
        msg = f"{path} is not the list of an exported studio"
        raise BadInput(msg)
    if about.get("format_version") != VERSION:
        form = about.get("format_version")
        msg = f"{folder} is written in another form ({form}); install a newer version"
        raise BadInput(msg)
    return about


def _entries(about: dict[str, Any], name: str) -> list[dict[str, Any]]:
    entries = about.get(name)
    if not isinstance(entries, list) or not all(isinstance(entry, dict) for entry in entries):
        msg = f"{LIST} does not list its {name}"
        raise BadInput(msg)
    return entries


def _look_at(folder: Path, name: str, digest: str) -> None:
    """A file of the folder must be a plain file of it, with the content that was written."""
    path = folder / name
    try:
        if (folder / "files").is_symlink() or not stat.S_ISREG(path.lstat().st_mode):
            msg = f"{path} is a link or no file; an exported folder holds its files itself"
            raise BadInput(msg)
        with path.open("rb") as file:
            found = hashlib.file_digest(file, "sha256").hexdigest()
    except OSError as error:
        msg = f"{path} cannot be read: {(error.strerror or str(error)).lower()}"
        raise BadInput(msg) from None
    if found != digest:
        msg = f"{path} was changed since it was exported (its SHA-256 is another); export it again"
        raise BadInput(msg)

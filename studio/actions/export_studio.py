"""Write a whole studio to an open folder: CSV tables, a list of them in JSON, measurement files."""

import csv
import hashlib
import json
import os
import re
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import IO, Any, Final, Protocol

from studio import __version__
from studio.actions.export_words import OPENING, column_line, table_lines
from studio.errors import BadInput
from studio.storage.schema import HEAD
from studio.storage.sqlite_file import make_lasting
from studio.storage.table_rows import DERIVED, kept_tables, kind_of, rows_of
from studio.storage.trouble import in_plain_words
from studio.storage.unfinished import let_go, unfinished_folder
from studio.storage.unit_of_work import UnitOfWork

LIST: Final = "studio.json"
FORMAT: Final = "studio export"
VERSION: Final = 1
FILES: Final = "files"

_EXTENSION: Final = re.compile(r".*(\.[a-z0-9]{1,8})")


class _Written(Protocol):
    """What text can be written to."""

    def write(self, text: str, /) -> object:
        """Take some text."""


@dataclass(frozen=True, slots=True)
class Exported:
    """What was written.

    Args:
        folder: where.
        rows: of each table.
        files: how many measurement files.
    """

    folder: Path
    rows: dict[str, int]
    files: int


def export_studio(work: UnitOfWork, folder: Path, now: datetime) -> Exported:
    """A studio in a folder of its own, of one moment, whole or not at all.

    Args:
        work: one transaction, so that all tables are of one moment.
        folder: a new or an empty one.
        now: the moment, for studio.json.

    Raises:
        BadInput: the folder holds something, or is a file.
        DatabaseTrouble: it cannot be written.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        msg = f"{folder} is there already and not an empty folder; name a new one"
        raise BadInput(msg)
    with in_plain_words(folder):
        folder.parent.mkdir(parents=True, exist_ok=True)
        with unfinished_folder(folder) as unfinished:
            exported = _write(work, unfinished, folder, now)
            if folder.exists():
                folder.rmdir()
            let_go(unfinished)
            unfinished.rename(folder)
            make_lasting(folder.parent)
    return exported


def written_table(work: UnitOfWork, name: str, file: "_Written", kept: "KeptFiles") -> int:
    """Write one table as CSV; how many rows it has."""
    table = next(table for table in kept_tables() if table.name == name)
    writer = csv.writer(file, lineterminator="\r\n")
    writer.writerow(table.columns.keys())
    count = 0
    for row in rows_of(work.connection, table, kept.name_of):
        writer.writerow(row)
        count += 1
    return count


class KeptFiles:
    """The bytes of cells as files, each once, under the digest of its content.

    Args:
        folder: where to write them; None only names them.
    """

    def __init__(self, folder: Path | None) -> None:
        self._folder = folder
        self._names: dict[str, str] = {}
        self.listed: list[dict[str, Any]] = []

    def name_of(self, content: bytes, name: str | None) -> str:
        """Where the bytes lie in the folder; a plain end of the name is kept for programs."""
        digest = hashlib.sha256(content).hexdigest()
        if digest not in self._names:
            ending = _EXTENSION.fullmatch((name or "").lower().rpartition("/")[2])
            file = f"{FILES}/{digest}{ending[1] if ending else ''}"
            self._names[digest] = file
            self.listed.append({"file": file, "sha256": digest, "size": len(content)})
            if self._folder is not None:
                with private_file(self._folder / file) as stream:
                    stream.write(content)
        return self._names[digest]


def private_file(path: Path) -> IO[bytes]:
    """A new file that its owner alone may read."""
    return os.fdopen(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "wb")


def _write(work: UnitOfWork, unfinished: Path, folder: Path, now: datetime) -> Exported:
    (unfinished / FILES).mkdir(mode=0o700)
    kept = KeptFiles(unfinished)
    listed = []
    counts: dict[str, int] = {}
    said = [OPENING.format(left_out=", ".join(sorted(DERIVED)))]
    for table in kept_tables():
        path = unfinished / f"{table.name}.csv"
        private_file(path).close()
        with path.open("w", encoding="utf-8", newline="") as file:
            rows = written_table(work, table.name, file, kept)
        with path.open("rb") as written:
            digest = hashlib.file_digest(written, "sha256").hexdigest()
        counts[table.name] = rows
        listed.append({"table": table.name, "file": path.name, "rows": rows, "sha256": digest})
        said.append(
            table_lines(
                table.name,
                [
                    column_line(
                        column.name,
                        kind_of(column),
                        next((key.target_fullname for key in column.foreign_keys), None),
                        may_lack=bool(column.nullable),
                    )
                    for column in table.columns
                ],
            )
        )
    about = {
        "format": FORMAT,
        "format_version": VERSION,
        "program": __version__,
        "schema": HEAD,
        "exported_at": f"{now.astimezone(UTC):%Y-%m-%dT%H:%M:%SZ}",
        "colour": {
            "space": "CIE 1976 L*a*b*", "illuminant": "D50", "observer_degrees": 2,
            "wavelengths": "nm", "reflectance": "fraction",
        },
        "left_out": sorted(DERIVED),
        "tables": listed,
        "files": kept.listed,
    }  # fmt: skip
    texts = {
        "README.txt": "".join(said),
        LIST: json.dumps(about, ensure_ascii=False, indent=2) + "\n",
    }
    for name, text in texts.items():
        with private_file(unfinished / name) as file:
            file.write(text.encode())
    for path in (*unfinished.iterdir(), *(unfinished / FILES).iterdir(), unfinished):
        make_lasting(path)
    return Exported(folder, counts, len(kept.listed))

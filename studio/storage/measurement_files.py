"""The files that readings and targets were taken from; small ones are kept whole."""

import hashlib
from datetime import date
from typing import Any

from sqlalchemy import ColumnElement, Connection, RowMapping, insert, select

from studio.catalogue.measurement_file import LARGEST_KEPT, MeasurementFile
from studio.storage import tables as t
from studio.storage.keys import inserted_key
from studio.storage.removals import kept


class MeasurementFiles:
    """The measurement files of one database, each once."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def keep(self, name: str, content: bytes, today: date) -> MeasurementFile:
        """Record a file; the same bytes are recorded once, under their first name.

        Args:
            name: its name, without the folder.
            content: its bytes; kept where they are few enough.
            today: the day it was read.
        """
        digest = hashlib.sha256(content).hexdigest()
        known = self.with_digest(digest)
        if known is not None:
            return known
        kept = content if len(content) <= LARGEST_KEPT else None
        key = inserted_key(
            self._connection.execute(
                insert(t.measurement_file).values(
                    name=name, sha256=digest, size=len(content), content=kept, read_on=today
                )
            )
        )
        return MeasurementFile(key, name, digest, len(content), kept is not None)

    def with_digest(self, sha256: str) -> MeasurementFile | None:
        """The file of a digest."""
        found = self._where(t.measurement_file.c.sha256 == sha256)
        return found[0] if found else None

    def all(self) -> tuple[MeasurementFile, ...]:
        """Every file, oldest first."""
        return self._where(t.measurement_file.c.id > 0)

    def content(self, key: int) -> bytes | None:
        """The bytes of a file, None where only its digest was kept."""
        column = t.measurement_file.c.content
        found: bytes | None = self._connection.execute(
            select(column).where(t.measurement_file.c.id == key)
        ).scalar_one()
        return found

    def used_by(self, key: int) -> tuple[tuple[str, str | None], ...]:
        """(code of a swatch, name of a sample) of the readings that were taken from a file."""
        statement = (
            select(t.swatch.c.code, t.reading.c.sample)
            .join_from(t.reading, t.swatch)
            .where(t.reading.c.file_id == key, kept(t.swatch))
            .order_by(t.reading.c.id)
        )
        return tuple((code, sample) for code, sample in self._connection.execute(statement))

    def _where(self, condition: ColumnElement[bool]) -> tuple[MeasurementFile, ...]:
        c = t.measurement_file.c
        statement = select(c.id.label("file_id"), *file_columns()).where(condition).order_by(c.id)
        found = (file_of(row) for row in self._connection.execute(statement).mappings())
        return tuple(file for file in found if file is not None)


def file_columns() -> tuple[ColumnElement[Any], ...]:
    """What a statement that joins the files reads of them beside its own `file_id`."""
    c = t.measurement_file.c
    kept = c.content.is_not(None).label("is_kept")
    return (c.name.label("file_name"), c.sha256, c.size, kept)


def file_of(row: RowMapping) -> MeasurementFile | None:
    """The file of a row that was read with `file_columns`."""
    if row["file_id"] is None:
        return None
    return MeasurementFile(
        row["file_id"], row["file_name"], row["sha256"], row["size"], bool(row["is_kept"])
    )

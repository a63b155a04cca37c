"""What was last computed of the paints, kept beside the swatches that it was computed from."""

from dataclasses import dataclass
from datetime import date

from sqlalchemy import Connection, delete, insert, select

from studio.storage import tables as t


@dataclass(frozen=True, slots=True)
class KeptCharacterisation:
    """A result that need not be computed again while its inputs are the same.

    Args:
        inputs_sha256: digest of all that it was computed from, 64 hex digits in lower case.
        model: which model, with which settings, computed it.
        swatches: how many swatches it was computed from, 1 upwards.
        estimated: how many of them have a spectrum estimated from their Lab.
        content: the result.
        computed_on: the day.
    """

    inputs_sha256: str
    model: str
    swatches: int
    estimated: int
    content: bytes
    computed_on: date


class Characterisations:
    """The characterisation of one database: the last one alone is kept."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def keep(self, result: KeptCharacterisation) -> None:
        """Keep a result in place of the one before."""
        self._connection.execute(delete(t.characterisation))
        self._connection.execute(
            insert(t.characterisation).values(
                inputs_sha256=result.inputs_sha256,
                model=result.model,
                swatches=result.swatches,
                estimated=result.estimated,
                content=result.content,
                computed_on=result.computed_on,
            )
        )

    def last(self) -> KeptCharacterisation | None:
        """The result that is kept."""
        c = t.characterisation.c
        row = self._connection.execute(
            select(c.inputs_sha256, c.model, c.swatches, c.estimated, c.content, c.computed_on)
        ).one_or_none()
        return None if row is None else KeptCharacterisation(*row)

"""A file that readings or targets were taken from, told again by its digest."""

from dataclasses import dataclass
from typing import Final

LARGEST_KEPT: Final = 4_000_000
"""Bytes; smaller files are kept whole in the database, of larger ones (pictures) the digest."""


@dataclass(frozen=True, slots=True)
class MeasurementFile:
    """A file as it was when something was read from it.

    Args:
        id: database id.
        name: its name, without the folder.
        sha256: digest of its bytes, 64 hexadecimal digits.
        size: bytes.
        is_kept: whether its bytes are in the database.
    """

    id: int
    name: str
    sha256: str
    size: int
    is_kept: bool

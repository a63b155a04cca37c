"""The bytes of a file that the owner names, however many it claims to have."""

import stat
from os import fstat
from pathlib import Path
from typing import Final

from studio.errors import BadInput

LARGEST_TABLE: Final = 1 << 30
"""Bytes of a table that are still read; a million swatches are 400 MB."""

_LARGEST_STREAM: Final = 20_000_000
"""Bytes taken from what is no plain file: a pipe ends, a device such as /dev/zero never does."""


def bytes_of(path: Path, largest: int, instead: str) -> bytes:
    """What a file holds.

    Args:
        path: the file.
        largest: how many bytes it may have.
        instead: what to do where it has more, for people.

    Raises:
        BadInput: there is no such file, it is too large or cannot be read.
    """
    try:
        with path.open("rb") as file:
            plain = stat.S_ISREG(fstat(file.fileno()).st_mode)
            limit = largest if plain else min(largest, _LARGEST_STREAM)
            content = file.read(limit + 1)
    except OSError as error:
        msg = f"{path} cannot be read: {(error.strerror or str(error)).lower()}"
        raise BadInput(msg) from None
    except ValueError as error:  # a NUL in the name
        msg = f"{str(path)!r} cannot be read: {error}"
        raise BadInput(msg) from None
    if len(content) > limit:
        msg = f"{path.name} is larger than {limit // 1_000_000} MB; {instead}"
        raise BadInput(msg)
    return content

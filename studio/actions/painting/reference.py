"""The reference picture of a painting: kept by its digest, and opened again where it lies."""

import hashlib
from dataclasses import replace
from datetime import date
from pathlib import Path

from studio.actions.open_picture import OpenPicture, open_picture
from studio.catalogue.painting import Painting
from studio.errors import BadInput
from studio.picture.decoding import from_bytes
from studio.storage.unit_of_work import UnitOfWork


def with_reference(work: UnitOfWork, painting: Painting, path: Path, today: date) -> Painting:
    """A painting with a picture as its reference, which is recorded by its digest.

    Raises:
        BadInput: the picture cannot be read, or its path cannot be written down.
    """
    opened = open_picture(path)
    place = str(path.absolute())
    if len(place) > 4000 or not place.isprintable():  # noqa: PLR2004 - the database's own limit
        msg = "the path of the picture cannot be written down; put it in a folder of a plain name"
        raise BadInput(msg)
    kept = work.files.keep(opened.picture.name, opened.content, today)
    return replace(painting, reference=kept, reference_path=place)


def same_reference(painting: Painting, path: Path) -> bool:
    """Whether a file is the very picture that a painting is painted from.

    Raises:
        BadInput: it cannot be read, or is no picture.
    """
    return painting.reference is not None and (
        _digest(open_picture(path).content) == painting.reference.sha256
    )


def open_reference(
    work: UnitOfWork, painting: Painting, enough: int | None = None
) -> tuple[OpenPicture, str | None]:
    """The reference picture of a painting, exactly as it was recorded, and what to know of it.

    It is read where it lay; where it is gone or was changed, from the copy in the studio.

    Args:
        work: the studio.
        painting: whose reference.
        enough: pixels of the longer side that do (see `from_bytes`); None for all there are.

    Raises:
        BadInput: there is none, or it is gone or changed and too large to have been kept.
    """
    known, place = painting.reference, painting.reference_path
    if known is None or place is None:
        msg = (
            f"{painting.code} has no reference picture; name it with: studio painting edit "
            f"{painting.code} --reference picture.jpg, or give colours with --colour"
        )
        raise BadInput(msg)
    path = Path(place)
    there = path.is_file()
    if there:
        opened = _opened(path, known.size, enough)
        if opened is not None and _digest(opened.content) == known.sha256:
            return opened, None
    content = work.files.content(known.id)
    fate = "is another file by now" if there else "is not there any more"
    if content is not None:
        copy = OpenPicture(from_bytes(content, known.name, enough), content)
        return copy, f"{place} {fate}; the copy that the studio keeps of it was read"
    msg = (
        f"the picture {place} {fate}; say where it is: studio painting edit {painting.code} "
        "--reference new/place.jpg"
    )
    raise BadInput(msg)


def _opened(path: Path, size: int, enough: int | None) -> OpenPicture | None:
    """The picture of a file, None where it cannot be the one of that size, or be read."""
    try:
        return open_picture(path, enough) if path.stat().st_size == size else None
    except (BadInput, OSError):
        return None


def _digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()

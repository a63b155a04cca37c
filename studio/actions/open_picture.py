"""Read a picture file that the owner names."""

from dataclasses import dataclass
from pathlib import Path

from studio.errors import BadInput
from studio.picture.decoding import LARGEST_FILE, Picture, from_bytes


@dataclass(frozen=True, slots=True, eq=False)
class OpenPicture:
    """A decoded picture and the file it came from.

    Args:
        picture: its pixels and what they mean.
        content: the bytes of the file.
    """

    picture: Picture
    content: bytes


def open_picture(path: Path, enough: int | None = None) -> OpenPicture:
    """The picture in a file.

    Args:
        path: of the file.
        enough: pixels of the longer side that do (see `from_bytes`); None for all there are.

    Raises:
        BadInput: there is no such file, it cannot be read, or it is no picture that can be used.
    """
    if not path.exists():
        msg = f"there is no file {path}; give the path of a picture"
        raise BadInput(msg)
    if not path.is_file():
        msg = f"{path} is not a file; give the path of a picture"
        raise BadInput(msg)
    if path.stat().st_size > LARGEST_FILE:
        msg = f"{path.name} is larger than {LARGEST_FILE >> 30} GiB; save it smaller"
        raise BadInput(msg)
    try:
        content = path.read_bytes()
    except OSError as error:
        msg = f"{path} cannot be read: {(error.strerror or str(error)).lower()}"
        raise BadInput(msg) from None
    return OpenPicture(from_bytes(content, path.name, enough), content)

"""A picture's bytes as an array of device values, upright, with what they mean."""

import io
import warnings
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from studio.colour.lab_arrays import Floats
from studio.errors import BadInput
from studio.picture.encodings import Encoding, Pixels
from studio.picture.strips import device_values, in_one_block, upright
from studio.picture.tags import DAMAGE, encoding_of, orientation_of

if TYPE_CHECKING:
    from PIL import Image

LARGEST_MEGAPIXELS: Final = 150
"""Pictures beyond are refused; decoding takes 4 bytes a pixel, or 7 to 12 where pixels must be
copied (palettes, grey with transparency)."""

LARGEST_FILE: Final = 1 << 30
"""Bytes; a 100-megapixel TIFF of 16 bits a channel, uncompressed, has 600 million."""

_FORMATS: Final = ("JPEG", "PNG", "TIFF", "WEBP", "BMP", "GIF")
_DNG_VERSION, _SUBFILE_TYPE = 50706, 254
_HEIC_BRANDS: Final = (b"heic", b"heix", b"hevc", b"heim", b"heis", b"mif1", b"msf1")


@dataclass(frozen=True, slots=True, eq=False)
class Picture:
    """A decoded picture.

    Args:
        name: of the file, for messages.
        pixels: (height, width, channels) device values, uint8 or uint16; 1 channel for grey.
        encoding: what the device values mean.
        notes: what had to be taken for granted, each a clause for the painter.
    """

    name: str
    pixels: Pixels
    encoding: Encoding
    notes: tuple[str, ...] = ()

    @property
    def width(self) -> int:
        """Pixels across, as the picture is looked at."""
        return int(self.pixels.shape[1])

    @property
    def height(self) -> int:
        """Pixels down, as the picture is looked at."""
        return int(self.pixels.shape[0])

    @property
    def full_scale(self) -> int:
        """The largest device value: 255 or 65535."""
        return int(np.iinfo(self.pixels.dtype).max)

    def lab(self, values: Pixels) -> Floats:
        """Lab under D50/2° of device values: (..., channels) becomes (..., 3).

        Choose a region or a sample of `pixels`; a float takes eight times the memory of a byte.
        """
        return self.encoding.lab(values.reshape(-1, values.shape[-1])).reshape(
            *values.shape[:-1], 3
        )

    def linear(self, values: Pixels) -> Floats:
        """Linear RGB, 0 to about 1, of device values: (..., channels) becomes (..., 3)."""
        return self.encoding.linear(values.reshape(-1, values.shape[-1])).reshape(
            *values.shape[:-1], 3
        )


def from_bytes(data: bytes, name: str, enough: int | None = None) -> Picture:
    """The picture in a JPEG, PNG, TIFF, WebP, BMP or GIF file, turned upright as its EXIF says.

    Args:
        data: the whole file.
        name: of the file, for messages.
        enough: pixels of the longer side that do for what it is needed for; a JPEG is decoded
            to a half, a quarter or an eighth that is no smaller, in as much less memory.

    Raises:
        BadInput: it is empty, no picture, cut short, too large, a camera's raw file, in channels
            without a known meaning, or its colour profile is broken.
    """
    from PIL import Image, UnidentifiedImageError  # noqa: PLC0415

    _refuse_unreadable(data, name)
    notes: list[str] = []
    try:
        with warnings.catch_warnings(), in_one_block():
            warnings.simplefilter("ignore")
            with Image.open(io.BytesIO(data), formats=_FORMATS) as image:
                _refuse_size(image.size, name)
                _refuse_raw(image, name)
                orientation = orientation_of(image)
                count = getattr(image, "n_frames", 1)
                if count > 1 and image.format != "MPO":  # a phone's MPO has views of one scene
                    notes.append(f"the first of {count} pictures in the file is read")
                if enough is not None:
                    image.draft(None, _no_smaller(image.size, enough))
                image.load()
                encoding = encoding_of(image, name, notes)
                pixels = device_values(image, notes)
    except Image.DecompressionBombError:
        raise _too_large(name, None) from None
    except UnidentifiedImageError:
        msg = f"{name} is not a picture that can be read; save it as JPEG, PNG or TIFF"
        raise BadInput(msg) from None
    except MemoryError:
        msg = f"{name} needs more memory than there is; save it smaller, or cut out what matters"
        raise BadInput(msg) from None
    except DAMAGE:
        msg = f"{name} is damaged or cut short; copy it again, or save it again as JPEG or PNG"
        raise BadInput(msg) from None
    return Picture(name, upright(pixels, orientation), encoding, tuple(notes))


def _no_smaller(size: tuple[int, int], longest: int) -> tuple[int, int]:
    share = min(1.0, longest / max(size))
    return max(1, round(size[0] * share)), max(1, round(size[1] * share))


def _refuse_unreadable(data: bytes, name: str) -> None:
    if not data:
        msg = f"{name} is empty; copy it again from the camera or the scanner"
        raise BadInput(msg)
    if len(data) > LARGEST_FILE:
        raise _too_large(name, None)
    if data[4:8] == b"ftyp" and data[8:12] in _HEIC_BRANDS:
        msg = f"{name} is an HEIC picture, which cannot be read; save or share it as JPEG"
        raise BadInput(msg)


def _refuse_size(size: tuple[int, int], name: str) -> None:
    megapixels = size[0] * size[1] / 1e6
    if megapixels > LARGEST_MEGAPIXELS:
        raise _too_large(name, megapixels)


def _too_large(name: str, megapixels: float | None) -> BadInput:
    what = "is too large" if megapixels is None else f"has {megapixels:.0f} megapixels"
    return BadInput(
        f"{name} {what}, and {LARGEST_MEGAPIXELS} megapixels are read at most; "
        "save it smaller, or cut out what matters"
    )


def _refuse_raw(image: "Image.Image", name: str) -> None:
    """Raw files look like TIFF, and what opens is their thumbnail."""
    tags = getattr(image, "tag_v2", {})
    if _DNG_VERSION in tags or int(tags.get(_SUBFILE_TYPE, 0)) & 1:
        msg = f"{name} is a camera's raw file; develop it and save it as TIFF or JPEG"
        raise BadInput(msg)

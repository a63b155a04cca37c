"""From Pillow's picture to an array of device values, upright, in little memory."""

import ctypes
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Final

import numpy as np

from studio.picture.encodings import Pixels

if TYPE_CHECKING:
    from PIL import Image

_STRIP: Final = 256
_OPAQUE: Final = 255
_LAID: Final = "its transparent parts are taken as white"


class _ArrowArray(ctypes.Structure):
    """The head of a `struct ArrowArray`. Source: Apache Arrow, "The Arrow C data interface"."""


_ArrowArray._fields_ = (
    ("length", ctypes.c_int64),
    ("null_count", ctypes.c_int64),
    ("offset", ctypes.c_int64),
    ("n_buffers", ctypes.c_int64),
    ("n_children", ctypes.c_int64),
    ("buffers", ctypes.POINTER(ctypes.c_void_p)),
    ("children", ctypes.POINTER(ctypes.POINTER(_ArrowArray))),
)

_BYTES: Final = {"L": 1, "RGB": 4, "RGBA": 4, "CMYK": 4}
"""Bytes that Pillow keeps a pixel in; the fourth of RGB is padding."""


class _Lent:
    """Pillow's own pixels, lent to numpy; Pillow keeps them for as long as this lives."""

    def __init__(self, image: "Image.Image") -> None:
        _, self._kept = image.__arrow_c_array__()
        pointer = ctypes.pythonapi.PyCapsule_GetPointer
        pointer.restype, pointer.argtypes = ctypes.c_void_p, (ctypes.py_object, ctypes.c_char_p)
        array = _ArrowArray.from_address(pointer(self._kept, b"arrow_array") or 0)
        values = array.children[0].contents if array.n_children else array
        self.__array_interface__ = {
            "version": 3,
            "typestr": "|u1",
            "shape": (image.height, image.width, _BYTES[image.mode]),
            "data": (values.buffers[1], False),
        }


@contextmanager
def in_one_block() -> Iterator[None]:
    """Pictures that Pillow decodes meanwhile lie in one block of memory each, which can be lent."""
    from PIL import _imaging as core  # noqa: PLC0415 - Pillow has no public door to it

    before = core.get_use_block_allocator()
    core.set_use_block_allocator(1)
    try:
        yield
    finally:
        core.set_use_block_allocator(before)


def device_values(image: "Image.Image", notes: list[str]) -> Pixels:
    """(height, width, channels) device values of a loaded picture, held only once if it can be.

    Pillow's own memory is lent where its modes are those of the picture, which halves what a large
    picture takes; else they are copied strip by strip. What is seen through is laid on white, and
    said in `notes`.
    """
    if image.mode not in _BYTES or "transparency" in image.info:
        return copied(image, notes)
    try:
        pixels: Pixels = np.asarray(_Lent(image))
    except (ValueError, NotImplementedError, MemoryError):  # in several blocks
        return copied(image, notes)
    if image.mode != "RGBA":
        return pixels[..., :3] if image.mode == "RGB" else pixels
    opaque = True
    for top in range(0, image.height, _STRIP):
        strip = pixels[top : top + _STRIP]
        if (strip[..., 3] < _OPAQUE).any():
            opaque, strip[..., :3] = False, _on_white(strip[..., :3], strip[..., 3:])
    if not opaque:
        notes.append(_LAID)
    return pixels[..., :3]


def copied(image: "Image.Image", notes: list[str]) -> Pixels:
    """(height, width, channels) device values of a loaded picture, copied strip by strip.

    Nothing as large as the picture is held besides the picture and the array. What is seen through
    is laid on white, and said in `notes`.
    """
    mode, channels = _mode_and_channels(image)
    wide = mode.startswith("I;16")
    pixels: Pixels = np.empty(
        (image.height, image.width, channels), np.uint16 if wide else np.uint8
    )
    opaque = True
    for top in range(0, image.height, _STRIP):
        bottom = min(top + _STRIP, image.height)
        strip = image.crop((0, top, image.width, bottom))
        strip = strip if strip.mode == mode else strip.convert(mode)
        values = np.asarray(strip).reshape(bottom - top, image.width, -1)
        if mode.endswith("A"):
            alpha = values[..., -1:]
            values = values[..., :-1]
            if (alpha < _OPAQUE).any():
                opaque, values = False, _on_white(values, alpha)
        pixels[top:bottom] = values
    if not opaque:
        notes.append(_LAID)
    return pixels


def upright(pixels: Pixels, orientation: int) -> Pixels:
    """The array turned and mirrored as EXIF orientation 1 to 8 asks for, without a copy.

    Source: CIPA DC-008 (Exif), tag Orientation.
    """
    if orientation >= 5:  # noqa: PLR2004 - 5 to 8 have rows and columns exchanged
        pixels = pixels.swapaxes(0, 1)
    if orientation in {3, 4, 7, 8}:
        pixels = pixels[::-1]
    if orientation in {2, 3, 6, 7}:
        pixels = pixels[:, ::-1]
    return pixels


def _mode_and_channels(image: "Image.Image") -> tuple[str, int]:
    """The mode to copy in, alpha included, and the channels without alpha."""
    mode = image.mode
    see_through = mode in {"LA", "PA", "RGBA", "La", "RGBa"} or "transparency" in image.info
    if mode.startswith("I;16"):
        return mode, 1
    if mode == "CMYK":
        return mode, 4
    if mode in {"1", "L", "LA", "La"}:
        return ("LA" if see_through else "L"), 1
    return ("RGBA" if see_through else "RGB"), 3


def _on_white(values: Pixels, alpha: Pixels) -> Pixels:
    share = alpha.astype(np.float32) / _OPAQUE
    laid: Pixels = np.rint(values * share + 255 * (1 - share)).astype(np.uint8)
    return laid

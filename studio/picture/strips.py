"""From Pillow's picture to an array of device values, upright, in little memory."""

from typing import TYPE_CHECKING, Final

import numpy as np

from studio.picture.encodings import Pixels

if TYPE_CHECKING:
    from PIL import Image

_STRIP: Final = 256
_OPAQUE: Final = 255


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
        notes.append("its transparent parts are taken as white")
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

"""A white sheet with a picture on it, to draw names and lines on, as PNG."""

import io
from functools import cache
from typing import Final

from PIL import Image, ImageDraw, ImageFont

from studio.picture.decoding import Picture
from studio.picture.screen_copy import screen_copy
from studio.sheets.typeface import typeface

LONGEST: Final = 2400
"""Pixels of a picture's longer side at most: 20 cm at 300 an inch."""
_SHORTEST: Final = 1600
"""Smaller pictures are enlarged to this, so that lines and letters stay fine beside them."""

INK: Final = (26, 26, 26)
QUIET: Final = (90, 90, 90)


class Canvas:
    """A picture with a white margin on each side.

    Args:
        picture: what lies on it.
        margin: pixels on each side.
    """

    def __init__(self, picture: Picture, margin: int) -> None:
        copy = Image.fromarray(screen_copy(picture, LONGEST))
        longer = max(copy.size)
        if longer < _SHORTEST:
            scale = _SHORTEST / longer
            size = (max(1, round(copy.width * scale)), max(1, round(copy.height * scale)))
            copy = copy.resize(size, Image.Resampling.LANCZOS)
        self.width, self.height = copy.size
        self.margin = margin
        size = (self.width + 2 * margin, self.height + 2 * margin)
        self.image = Image.new("RGB", size, "white")
        self.image.paste(copy, (margin, margin))
        self.draw = ImageDraw.Draw(self.image)

    def add_below(self, height: int) -> None:
        """Make room below the lower margin, pixels."""
        taller = Image.new("RGB", (self.image.width, self.image.height + height), "white")
        taller.paste(self.image)
        self.image = taller
        self.draw = ImageDraw.Draw(taller)

    def text(  # noqa: PLR0913 - where, what, how
        self,
        x: float,
        y: float,
        text: str,
        size: int,
        *,
        anchor: str = "mm",
        fill: tuple[int, int, int] = INK,
        bold: bool = False,
    ) -> None:
        """A text at a place; `anchor` as Pillow has it, `mm` for its middle."""
        self.draw.text((x, y), text, fill=fill, font=font(size, bold=bold), anchor=anchor)

    def png(self) -> bytes:
        """The PNG file, for 300 pixels an inch; its numbers are sRGB, and it says so."""
        from PIL.PngImagePlugin import PngInfo  # noqa: PLC0415

        information = PngInfo()
        information.add(b"sRGB", b"\x00")
        file = io.BytesIO()
        self.image.save(file, "PNG", dpi=(300, 300), pnginfo=information)
        return file.getvalue()

    def jpeg(self, longest: int) -> tuple[bytes, tuple[int, int]]:
        """A smaller JPEG file for a page, in sRGB, and its width and height in pixels.

        Args:
            longest: pixels of its longer side at most.
        """
        copy = self.image.copy()
        copy.thumbnail((longest, longest), Image.Resampling.LANCZOS)
        file = io.BytesIO()
        copy.save(file, "JPEG", quality=90, subsampling=0)
        return file.getvalue(), copy.size


@cache
def font(size: int, *, bold: bool = False) -> ImageFont.FreeTypeFont:
    """The typeface of the printed pages in a size of pixels."""
    return ImageFont.truetype(typeface(bold=bold), size)


def wrapped(text: str, size: int, room: float) -> list[str]:
    """The lines of a text in a width of pixels."""
    lines = [""]
    for word in text.split():
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and font(size).getlength(longer) > room:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines

"""Draws pages as pictures, with the measures of the PDF so that both break lines alike."""

import io
from functools import cache
from typing import Final

from PIL import Image, ImageDraw, ImageFont
from PIL.PngImagePlugin import PngInfo

from studio.sheets import page_type as t
from studio.sheets.page_parts import Paper
from studio.sheets.page_pdf import FpdfPen, seen
from studio.sheets.page_pen import Colour
from studio.sheets.page_type import Type
from studio.sheets.typeface import typeface

_DPI: Final = 300
_SCALE: Final = _DPI / 25.4
"""Pixels of a mm."""


class PicturePen:
    """Draws with Pillow on sheets of a size, measures with fpdf2."""

    def __init__(self, paper: Paper) -> None:
        self._paper = paper
        self._measures = FpdfPen("", None, paper)
        self._done: list[bytes] = []
        self._image: Image.Image | None = None
        self.clean = self._measures.clean
        self.width = self._measures.width

    def begin(self) -> None:
        """A new sheet; the last one is kept as a file, as many would fill the memory."""
        self._finish()
        size = (round(self._paper.width * _SCALE), round(self._paper.height * _SCALE))
        self._image = Image.new("RGB", size, "white")
        self._draw = ImageDraw.Draw(self._image)

    def written(self) -> list[bytes]:
        """The sheets as PNG files whose numbers are sRGB, last thing of all."""
        self._finish()
        self._measures.close()
        return self._done

    def _finish(self) -> None:
        if self._image is None:
            return
        srgb = PngInfo()
        srgb.add(b"sRGB", b"\x00")
        file = io.BytesIO()
        self._image.save(file, "PNG", dpi=(_DPI, _DPI), pnginfo=srgb)
        self._done.append(file.getvalue())
        self._image = None

    def text(self, line: str, kind: Type, left: float, top: float) -> None:
        """Draw a line, in the order it is seen in."""
        base = top + kind.line / 2 + 0.36 * kind.size * t.POINT
        place = (left * _SCALE, base * _SCALE)
        font = _font(kind.size, bold=kind.style == "B")
        self._draw.text(place, seen(line), fill=(kind.grey,) * 3, font=font, anchor="ls")

    def area(self, corner: tuple[float, float], size: tuple[float, float], fill: Colour) -> None:
        """Fill a rectangle to whole pixels, at least one."""
        left, top = (round(each * _SCALE) for each in corner)
        right, bottom = (
            max(start + 1, round((each + length) * _SCALE))
            for start, each, length in zip((left, top), corner, size, strict=True)
        )
        rgb = fill if isinstance(fill, tuple) else (fill,) * 3
        self._draw.rectangle((left, top, right - 1, bottom - 1), fill=rgb)

    def rule(self, left: float, top: float, width: float, grey: int) -> None:
        """Draw a horizontal line."""
        self.area((left, top), (width, 0.2), grey)


@cache
def _font(size: float, *, bold: bool) -> ImageFont.FreeTypeFont:
    # Basic layout, as the PDF has it: letters stand where they were measured.
    return ImageFont.truetype(
        typeface(bold=bold), size * t.POINT * _SCALE, layout_engine=ImageFont.Layout.BASIC
    )

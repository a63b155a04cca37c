"""A page as a picture: the sheets of its PDF under each other."""

import io
from typing import Final

import pypdfium2
from PIL import Image
from PIL.PngImagePlugin import PngInfo

_DPI: Final = 150
_GAP: Final = 16
"""Pixels of grey between two sheets."""
_GREY: Final = (119, 119, 119)


def png_of(pdf: bytes) -> bytes:
    """A PDF as one PNG of 150 pixels an inch; its numbers are sRGB, and it says so."""
    document = pypdfium2.PdfDocument(pdf)
    try:
        sheets = [page.render(scale=_DPI / 72).to_pil().convert("RGB") for page in document]
    finally:
        document.close()
    width = max(sheet.width for sheet in sheets)
    height = sum(sheet.height for sheet in sheets) + _GAP * (len(sheets) - 1)
    picture = Image.new("RGB", (width, height), _GREY)
    top = 0
    for sheet in sheets:
        picture.paste(sheet, (0, top))
        top += sheet.height + _GAP
    information = PngInfo()
    information.add(b"sRGB", b"\x00")
    file = io.BytesIO()
    picture.save(file, "PNG", dpi=(_DPI, _DPI), pnginfo=information)
    return file.getvalue()

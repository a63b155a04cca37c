"""The sheets of a PDF as pictures."""

import io
from typing import Final

import pypdfium2
from PIL import Image
from PIL.PngImagePlugin import PngInfo

SHEET_DPI: Final = 150
"""Pixels an inch of a page that is read."""
CARD_DPI: Final = 300
"""The same of what is cut out and scanned."""


def sheets_png(pdf: bytes, dpi: int = SHEET_DPI) -> list[bytes]:
    """Every sheet of a PDF as a PNG whose numbers are sRGB, and which says so."""
    document = pypdfium2.PdfDocument(pdf)
    try:
        return [_png(page.render(scale=dpi / 72).to_pil(), dpi) for page in document]
    finally:
        document.close()


def _png(sheet: Image.Image, dpi: int) -> bytes:
    srgb = PngInfo()
    srgb.add(b"sRGB", b"\x00")
    file = io.BytesIO()
    sheet.convert("RGB").save(file, "PNG", dpi=(dpi, dpi), pnginfo=srgb)
    return file.getvalue()

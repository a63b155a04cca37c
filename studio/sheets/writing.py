"""Writing a page or picture to a file the owner named: whole, or not at all."""

import os
import secrets
import stat
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from studio.errors import BadInput
from studio.sheets.blocks import Page
from studio.sheets.page_type import FLOOR


def write_text(path: Path, text: str) -> None:
    """Write a text as UTF-8.

    Raises:
        BadInput: the file cannot be written.
    """
    write_bytes(path, text.encode())


@dataclass(frozen=True, slots=True)
class Written:
    """A file that was written; its text tells where, and what a reader would not expect of it.

    Args:
        path: where it is.
        sheets: how many sheets a PDF has that was to stand on one and does not; else None.
    """

    path: Path
    sheets: int | None = None

    def __str__(self) -> str:
        if self.sheets is None:
            return str(self.path)
        return f"{self.path}, on {self.sheets} sheets: one does not hold it in type of {FLOOR} pt"


def write_page(
    page: Page, *, html: Path | None, pdf: Path | None, png: Path | None = None
) -> list[Written]:
    """Write a page as HTML, PDF or PNG, or as several of them; returns the files.

    Raises:
        BadInput: a file cannot be written.
    """
    written = []
    if html is not None:
        from studio.sheets.page_html import html_of  # noqa: PLC0415

        write_text(html, html_of(page))
        written.append(Written(html))
    if pdf is not None or png is not None:
        # Half a second of fonts, for these alone.
        from studio.sheets.page_pdf import pdf_of  # noqa: PLC0415

        made = pdf_of(page)
        if pdf is not None:
            write_bytes(pdf, made.content)
            written.append(Written(pdf, made.sheets if made.too_long else None))
        if png is not None:
            from studio.sheets.page_png import sheets_png  # noqa: PLC0415

            for path, content in numbered(png, sheets_png(made.content)):
                write_bytes(path, content)
                written.append(Written(path))
    return written


def numbered(png: Path, sheets: Sequence[bytes]) -> list[tuple[Path, bytes]]:
    """Each sheet with the file it goes to: one to the name itself, several with their number.

    What is no plain file, such as a device, takes them all.
    """
    if len(sheets) == 1 or (png.exists() and not png.is_file()):
        return [(png, sheet) for sheet in sheets]
    names = (png.with_stem(f"{png.stem}-{number}") for number in range(1, len(sheets) + 1))
    return list(zip(names, sheets, strict=True))


def write_bytes(path: Path, content: bytes) -> None:
    """Write a file under another name first, so that no half of it is ever left.

    A link is followed, and a device or a pipe written to; neither is replaced. A file that is there
    keeps who may read it; a new one gets what the umask leaves, as it is made to be handed on.

    Raises:
        BadInput: the file cannot be written.
    """
    try:
        place = path.resolve()
        if place.exists() and not place.is_file():
            with place.open("wb") as stream:
                stream.write(content)
            return
        unfinished = place.with_name(f".unfinished-{secrets.token_hex(8)}")
        try:
            mode = stat.S_IMODE(place.stat().st_mode) if place.exists() else None
            opener = (lambda name, flags: os.open(name, flags, 0o600)) if mode is not None else None
            with open(unfinished, "xb", opener=opener) as file:
                file.write(content)
            if mode is not None:
                unfinished.chmod(mode)
            unfinished.replace(place)
        except BaseException:
            unfinished.unlink(missing_ok=True)
            raise
    except (OSError, ValueError, RuntimeError) as error:  # a NUL in the name, a link to itself
        reason = getattr(error, "strerror", None) or str(error)
        msg = f"{path} cannot be written: {reason.lower()}"
        raise BadInput(msg) from None

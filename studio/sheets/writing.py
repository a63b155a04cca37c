"""Writing a page or picture to a file the owner named: whole, or not at all."""

from pathlib import Path

from studio.errors import BadInput
from studio.sheets.blocks import Page


def write_text(path: Path, text: str) -> None:
    """Write a text as UTF-8.

    Raises:
        BadInput: the file cannot be written.
    """
    write_bytes(path, text.encode())


def write_page(page: Page, *, html: Path | None, pdf: Path | None) -> list[Path]:
    """Write a page as HTML, as PDF or both; returns the files.

    Raises:
        BadInput: a file cannot be written.
    """
    written = []
    if html is not None:
        from studio.sheets.page_html import html_of  # noqa: PLC0415

        write_text(html, html_of(page))
        written.append(html)
    if pdf is not None:
        # Half a second of fonts, for PDF alone.
        from studio.sheets.page_pdf import pdf_of  # noqa: PLC0415

        write_bytes(pdf, pdf_of(page))
        written.append(pdf)
    return written


def write_bytes(path: Path, content: bytes) -> None:
    """Write a file under another name first, so that no half of it is ever left.

    Raises:
        BadInput: the file cannot be written.
    """
    unfinished = path.with_name(f".{path.name}.unfinished")
    try:
        unfinished.write_bytes(content)
        unfinished.replace(path)
    except OSError as error:
        unfinished.unlink(missing_ok=True)
        msg = f"{path} cannot be written: {(error.strerror or str(error)).lower()}"
        raise BadInput(msg) from None

"""Where pictures go: the options of every command that draws, and writing them."""

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from studio.cli.session import tell

if TYPE_CHECKING:
    from studio.sheets.blocks import Page
    from studio.sheets.chart_sheet import Kind

Html = Annotated[
    Path | None, typer.Option(help="Write it with its values as tables to this HTML file.")
]
Png = Annotated[Path | None, typer.Option(help="Draw it into this PNG file.")]
Pdf = Annotated[Path | None, typer.Option(help="Draw it into this PDF file, to print.")]


def draw_files(
    draw: "Callable[[Kind], bytes]",
    page: "Callable[[bytes], Page]",
    *,
    html: Path | None,
    png: Path | None,
    pdf: Path | None,
) -> None:
    """Draw a picture into the files that were named; nothing is written unless all are drawn.

    Args:
        draw: makes a file of the picture.
        page: makes the page of the picture, as PNG.
        html: where the page goes.
        png: where the picture goes.
        pdf: where it goes to be printed.

    Raises:
        BadInput: a file cannot be written.
    """
    if html is None and png is None and pdf is None:
        return
    from studio.sheets.waiting import waiting  # noqa: PLC0415

    files: list[tuple[Path, bytes]] = []
    with waiting("drawing"):
        drawn = b"" if html is None and png is None else draw("png")
        if html is not None:
            from studio.sheets.page_html import html_of  # noqa: PLC0415

            files.append((html, html_of(page(drawn)).encode()))
        if png is not None:
            files.append((png, drawn))
        if pdf is not None:
            files.append((pdf, draw("pdf")))
    write_files(files)


def write_files(files: Sequence[tuple[Path, bytes]]) -> None:
    """Write some files and tell of each.

    Raises:
        BadInput: a file cannot be written.
    """
    for path, content in files:
        from studio.sheets.writing import write_bytes  # noqa: PLC0415

        write_bytes(path, content)
        tell(f"wrote {path}")

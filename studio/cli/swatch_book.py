"""studio swatch book."""

from pathlib import Path
from typing import Annotated

import typer

from studio.cli.session import reading, tell, today
from studio.errors import BadInput

app = typer.Typer()


@app.command()
def book(
    context: typer.Context,
    html: Annotated[Path | None, typer.Option(help="Write the book to this HTML file.")] = None,
    pdf: Annotated[Path | None, typer.Option(help="Write the book to this PDF file.")] = None,
    png: Annotated[
        Path | None, typer.Option(help="Write the printed book to this PNG file, or several.")
    ] = None,
    by: Annotated[str, typer.Option(help="Its order: hue, chroma or value.")] = "hue",
    paper: Annotated[str | None, typer.Option(help="Only swatches on this paper.")] = None,
) -> None:
    """Write all dry swatches as a book of patches: to print, and to search in a browser."""
    from studio.actions.find import find_paper  # noqa: PLC0415
    from studio.actions.swatch_book import swatch_book  # noqa: PLC0415
    from studio.catalogue.book_order import Order  # noqa: PLC0415
    from studio.catalogue.checks import word  # noqa: PLC0415

    if html is None and pdf is None and png is None:
        msg = "the book needs a file to go to; give --html FILE, --pdf FILE or --png FILE"
        raise BadInput(msg)
    order = word(by, Order, "the order")
    with reading(context) as work:
        made = swatch_book(work, None if paper is None else find_paper(work, paper))
    if html is not None:
        from studio.sheets.book_html import book_html  # noqa: PLC0415
        from studio.sheets.writing import write_text  # noqa: PLC0415

        write_text(html, book_html(made, order, today()))
        tell(f"wrote {html}")
    if pdf is not None or png is not None:
        from studio.sheets.book_page import book_page  # noqa: PLC0415
        from studio.sheets.writing import write_page  # noqa: PLC0415

        page = book_page(made, order, today())
        for written in write_page(page, html=None, pdf=pdf, png=png):
            tell(f"wrote {written}")

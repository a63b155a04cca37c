"""studio swatch cards."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from studio.cli.chart_files import Pdf, Png, write_files
from studio.cli.session import console, print_json, reading

if TYPE_CHECKING:
    from collections.abc import Sequence

    from studio.actions.swatch_rows import SwatchRow

app = typer.Typer()

Codes = Annotated[
    list[str] | None, typer.Argument(metavar="[S1 S2 ...]", help="Codes of swatches, such as S12.")
]
Mix = Annotated[str | None, typer.Option(help="The swatches of this mix.")]
OnPaper = Annotated[str | None, typer.Option(help="Only swatches on this paper.")]
Json = Annotated[bool, typer.Option("--json", help="Print JSON.")]


@app.command()
def cards(
    context: typer.Context,
    codes: Codes = None,
    last: Annotated[int | None, typer.Option("--last", "-n", help="The last so many.")] = None,
    mix: Mix = None,
    paper: OnPaper = None,
    pdf: Pdf = None,
    png: Png = None,
    as_json: Json = False,
) -> None:
    """Make cards of swatches to cut out, each with room for its offcut and a QR code.

    A4 sheets of ten cards of 74 x 52 mm. Several sheets are several PNG files, numbered.
    """
    from studio.actions.chosen_swatches import chosen_swatches  # noqa: PLC0415
    from studio.actions.swatch_rows import swatch_rows  # noqa: PLC0415
    from studio.sheets.waiting import waiting  # noqa: PLC0415

    with reading(context) as work:
        chosen = chosen_swatches(work, codes or (), mix=mix, paper=paper, last=last)
        rows = swatch_rows(work, chosen)
    with waiting("drawing the cards"):
        files = _files(rows, pdf, png)
    write_files(files)
    if as_json:
        from studio.sheets.cards_view import cards_fields  # noqa: PLC0415

        print_json(cards_fields(rows))
        return
    from studio.sheets.cards_view import print_cards  # noqa: PLC0415

    print_cards(console(), rows, written=pdf is not None or png is not None)


def _files(
    rows: "Sequence[SwatchRow]", pdf: Path | None, png: Path | None
) -> list[tuple[Path, bytes]]:
    files: list[tuple[Path, bytes]] = []
    if pdf is not None:
        from studio.sheets.card_sheets import cards_pdf  # noqa: PLC0415 - draws

        files.append((pdf, cards_pdf(rows)))
    if png is not None:
        from studio.sheets.card_sheets import cards_png  # noqa: PLC0415 - draws

        sheets = cards_png(rows)
        files += zip(_numbered(png, len(sheets)), sheets, strict=True)
    return files


def _numbered(path: Path, count: int) -> list[Path]:
    """A name for each sheet; what is no plain file, such as a device, takes them all."""
    if count == 1 or (path.exists() and not path.is_file()):
        return [path] * count
    return [path.with_stem(f"{path.stem}-{number}") for number in range(1, count + 1)]

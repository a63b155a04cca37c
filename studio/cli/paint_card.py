"""studio paint card."""

from pathlib import Path
from typing import Annotated

import typer

from studio.cli.session import reading, tell, today


def card(
    context: typer.Context,
    name: Annotated[str | None, typer.Argument(help="Code, or any part of maker and name.")] = None,
    every: Annotated[
        bool, typer.Option("--all", help="One page with the cards of all paints in use.")
    ] = False,
    html: Annotated[Path | None, typer.Option(help="Write the card to this HTML file.")] = None,
    pdf: Annotated[Path | None, typer.Option(help="Write the card to this PDF file.")] = None,
    png: Annotated[Path | None, typer.Option(help="Write the card to this PNG file.")] = None,
) -> None:
    """Write a card to print: colour, pigments, lightfastness, cautions, stock."""
    from studio.actions.find import find_paint  # noqa: PLC0415
    from studio.actions.find_patch import find_patch  # noqa: PLC0415
    from studio.catalogue.paint import Status  # noqa: PLC0415
    from studio.errors import BadInput  # noqa: PLC0415
    from studio.sheets.paint_card import Card, paint_card, shelf_cards  # noqa: PLC0415
    from studio.sheets.writing import write_page  # noqa: PLC0415

    if html is None and pdf is None and png is None:
        msg = "the card needs a file to go to; give --html FILE, --pdf FILE or --png FILE"
        raise BadInput(msg)
    if (name is not None) == every:
        msg = "name one paint, or give --all for every paint in use"
        raise BadInput(msg)
    with reading(context) as work:
        paints = (
            [find_paint(work, name)]
            if name is not None
            else [paint for paint in work.paints.all() if paint.facts.status is Status.IN_USE]
        )
        cards = [
            Card(paint, work.containers.of_paint(paint.id), find_patch(work, paint))
            for paint in paints
        ]
    if not cards:
        msg = "no paint is in use; record one with: studio paint add"
        raise BadInput(msg)
    page = (
        shelf_cards(cards, today())
        if every
        else paint_card(cards[0].paint, cards[0].containers, cards[0].patch, today())
    )
    for written in write_page(page, html=html, pdf=pdf, png=png):
        tell(f"wrote {written}")

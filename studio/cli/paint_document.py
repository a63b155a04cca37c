"""studio paint document."""

from typing import Annotated

import typer

from studio.cli import values
from studio.cli.session import console, today, writing


def document(
    context: typer.Context,
    name: Annotated[str, typer.Argument(help="Code, or any part of maker and name.")],
    location: Annotated[
        str | None,
        typer.Option("--file-or-address", help="Where the maker's safety data sheet lies."),
    ] = None,
    dated: Annotated[
        str | None, typer.Option(help="The date on the data sheet: 2026-01-05.")
    ] = None,
    marks: Annotated[
        str | None, typer.Option(help='Marks on the label: "AP, GHS07"; "" removes them.')
    ] = None,
) -> None:
    """Record a paint's data sheet and label marks; what you do not name stays."""
    from studio.actions.advise_care import document_of  # noqa: PLC0415
    from studio.actions.find import find_paint  # noqa: PLC0415
    from studio.actions.record_data_sheet import amend_data_sheet  # noqa: PLC0415
    from studio.sheets.care_view import document_text  # noqa: PLC0415
    from studio.sheets.screen import indented  # noqa: PLC0415

    with writing(context) as work:
        paint = find_paint(work, name)
        amend_data_sheet(
            work,
            paint,
            today(),
            location=location,
            dated_on=None if dated is None else values.day(dated),
            label_marks=marks,
        )
        work.commit()
        recorded = document_of(work.paints.by_id(paint.id), today())
    indented(console(), document_text(recorded), 0)

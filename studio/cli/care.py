"""studio care."""

from pathlib import Path
from typing import Annotated, NamedTuple

import typer

from studio.cli.session import console, print_json, reading, tell, today
from studio.errors import BadInput

SHEET = "sheet"
"""The word that asks for the sheet; a paint of that name is found by its code."""


class Files(NamedTuple):
    """Where the sheet goes."""

    html: Path | None
    pdf: Path | None
    png: Path | None


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the command to the top."""
    top.command(name, short_help=line)(care)


def care(
    context: typer.Context,
    subject: Annotated[
        str | None,
        typer.Argument(
            metavar="[PAINT|MIX|sheet]",
            help='A paint, a mix or a recipe; or "sheet" for the cautions of the whole shelf.',
        ),
    ] = None,
    work_kind: Annotated[
        str | None,
        typer.Option(
            "--for",
            metavar="WORK",
            help="brush, spatter, spray, dry pigment, sanding, rinse water, adults, children or "
            "pregnancy; without it, all of them in short.",
        ),
    ] = None,
    for_class: Annotated[
        str | None,
        typer.Option("--class", help="What a class needs, in full: adults or children."),
    ] = None,
    html: Annotated[Path | None, typer.Option(help="Write the sheet to this HTML file.")] = None,
    pdf: Annotated[Path | None, typer.Option(help="Write the sheet to this PDF file.")] = None,
    png: Annotated[Path | None, typer.Option(help="Write the sheet to this PNG file.")] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON.")] = False,
) -> None:
    """Show the usual cautions for a paint, a mix, a kind of work or a class.

    They are an unverified summary and no advice: the label, the maker's safety data sheet, local
    rules and professionals come first.
    """
    sheet = subject is not None and subject.strip() == SHEET
    if (subject is None) == (for_class is None):
        msg = 'name a paint or a mix, "sheet", or --class adults or children; one of them'
        raise BadInput(msg)
    if work_kind is not None and (sheet or for_class is not None):
        msg = "--for goes with a paint or a mix"
        raise BadInput(msg)
    files = Files(html, pdf, png)
    if any(files) and not sheet:
        msg = "--html, --pdf and --png go with: studio care sheet"
        raise BadInput(msg)
    if sheet:
        _sheet(context, files, as_json=as_json)
    elif for_class is not None:
        _class(context, for_class, as_json=as_json)
    elif subject is not None:
        _subject(context, subject, work_kind, as_json=as_json)


def _subject(context: typer.Context, subject: str, work_kind: str | None, *, as_json: bool) -> None:
    from studio.actions.advise_care import advise  # noqa: PLC0415
    from studio.actions.find_subject import find_subject  # noqa: PLC0415
    from studio.catalogue.care import Work, read_work  # noqa: PLC0415

    kinds = list(Work) if work_kind is None else [read_work(work_kind)]
    with reading(context) as work:
        advice = advise(work, find_subject(work, subject), kinds, today())
    if as_json:
        from studio.sheets.care_fields import advice_fields  # noqa: PLC0415

        print_json(advice_fields(advice))
        return
    from studio.sheets.care_view import print_advice  # noqa: PLC0415

    print_advice(console(), advice)


def _class(context: typer.Context, for_class: str, *, as_json: bool) -> None:
    from studio.actions.advise_care import advise_class  # noqa: PLC0415
    from studio.catalogue.care import read_class_kind  # noqa: PLC0415

    kind = read_class_kind(for_class)
    with reading(context) as work:
        advice = advise_class(work, kind, today())
    if as_json:
        from studio.sheets.care_fields import class_fields  # noqa: PLC0415

        print_json(class_fields(advice))
        return
    from studio.sheets.class_view import print_class  # noqa: PLC0415

    print_class(console(), advice)


def _sheet(context: typer.Context, files: Files, *, as_json: bool) -> None:
    from studio.catalogue.paint import Status  # noqa: PLC0415
    from studio.sheets.care_page import sheet_rows  # noqa: PLC0415

    with reading(context) as work:
        paints = [each for each in work.paints.all() if each.facts.status is Status.IN_USE]
        written = []
        if any(files):
            from studio.actions.find_patch import find_patch  # noqa: PLC0415
            from studio.sheets.wall_page import wall_page  # noqa: PLC0415
            from studio.sheets.writing import write_page  # noqa: PLC0415

            found = {paint.id: find_patch(work, paint) for paint in paints}
            patches = {key: lab for key, lab in found.items() if lab is not None}
            written = write_page(wall_page(paints, patches, today()), **files._asdict())
    rows = sheet_rows(paints)
    if as_json:
        from studio.sheets.care_fields import sheet_fields  # noqa: PLC0415

        print_json(sheet_fields(rows, paints))
    elif not written:
        from studio.sheets.care_view import print_care_sheet  # noqa: PLC0415

        unread = [paint for paint in paints if paint.unread]
        print_care_sheet(console(), rows, unread, paints)
    for path in written:
        tell(f"wrote {path}")

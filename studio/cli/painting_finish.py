"""studio painting finish|record: what a painting took, and how to mix its colours again."""

import re
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final

import typer

from studio.cli import values
from studio.cli.session import console, print_json, reading, tell, today, writing
from studio.errors import BadInput

if TYPE_CHECKING:
    from studio.storage.unit_of_work import UnitOfWork

app = typer.Typer()

_NUMBER: Final = re.compile(r"\d{1,9}(\.\d{1,9})?", re.ASCII)

Name = Annotated[str, typer.Argument(help="Code such as P3, title, or a part of it.")]


@app.command()
def finish(
    context: typer.Context,
    name: Name,
    on: Annotated[str | None, typer.Option(help="The day: 2026-03-14; by default today.")] = None,
    used: Annotated[
        list[str] | None,
        typer.Option(help="ml of each paint it took, without water: FU=1.2,BS=0.4; repeatable."),
    ] = None,
    by_plan: Annotated[
        bool,
        typer.Option("--by-plan", help="Book what its plan takes, as an estimate, in its place."),
    ] = False,
    paper_used: Annotated[
        float | None, typer.Option(help="Sheets of its paper that it took, such as 0.5.")
    ] = None,
    final: Annotated[
        list[str] | None,
        typer.Option(
            help="The swatch that was laid for a passage, where it is not the nearest: "
            '"far bank=S14", for its second colour "far bank:2=S14".'
        ),
    ] = None,
) -> None:
    """Finish a painting: book what it took, and keep how to mix each colour again."""
    from studio.actions.painting.find_painting import find_painting  # noqa: PLC0415
    from studio.actions.painting.finish_painting import (  # noqa: PLC0415
        finish_painting,
        read_finals,
    )
    from studio.sheets.painting_record_view import print_record  # noqa: PLC0415

    if by_plan and used:
        msg = "--by-plan books what the plan takes; give either it or --used"
        raise BadInput(msg)
    day = values.day(on)
    planned = _planned_amounts(context, name) if by_plan else {}
    with writing(context) as work:
        painting = find_painting(work, name)
        finished = finish_painting(
            work,
            painting,
            planned or _amounts(work, used or []),
            on=day,
            today=today(),
            paper_used=paper_used,
            finals=read_finals(painting, final or []),
            estimated=by_plan,
        )
        work.commit()
    if not finished.record.used:
        tell("no paint was booked; studio undo, and --used FU=1.2,BS=0.4 books what it took")
    print_record(console(), finished.record)


@app.command()
def record(
    context: typer.Context,
    name: Name,
    html: Annotated[Path | None, typer.Option(help="Write a page to this HTML file.")] = None,
    pdf: Annotated[Path | None, typer.Option(help="Write a page to this PDF file.")] = None,
    png: Annotated[Path | None, typer.Option(help="Write a page to this PNG file.")] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON.")] = False,
) -> None:
    """Show how to mix each colour of a finished painting again."""
    from studio.actions.painting.find_painting import find_painting  # noqa: PLC0415

    with reading(context) as work:
        painting = find_painting(work, name, removed_too=True)
        found = work.painting_records.of_painting(painting.id)
    if found is None:
        msg = (
            f"{painting.code} has no record yet; it is made with: studio painting finish "
            f"{painting.code}"
        )
        raise BadInput(msg)
    written = []
    if html is not None or pdf is not None or png is not None:
        from studio.sheets.painting_record_page import record_page  # noqa: PLC0415
        from studio.sheets.writing import write_page  # noqa: PLC0415

        written = write_page(record_page(found, today()), html=html, pdf=pdf, png=png)
        for path in written:
            tell(f"wrote {path}")
    if as_json:
        from studio.sheets.painting_fields import record_fields  # noqa: PLC0415

        print_json(record_fields(found))
        return
    if not written:
        from studio.sheets.painting_record_view import print_record  # noqa: PLC0415

        print_record(console(), found)


def _planned_amounts(context: typer.Context, name: str) -> dict[int, float]:
    """The ml of each paint that the plan of a painting takes.

    It is planned before the studio is held for writing, as that may take seconds.

    Raises:
        BadInput: a colour wants a test swatch first, so that the plan is not whole.
    """
    from studio.actions.match_colour import Wanted  # noqa: PLC0415
    from studio.actions.painting.find_painting import find_painting  # noqa: PLC0415
    from studio.actions.painting.plan_painting import plan_painting  # noqa: PLC0415
    from studio.cli.model import keep_for_next_time, model_of  # noqa: PLC0415
    from studio.sheets.waiting import waiting  # noqa: PLC0415

    with reading(context) as work:
        painting = find_painting(work, name)
        model = model_of(work)
        with waiting("planning what it takes"):
            plan = plan_painting(work, model, painting, Wanted())
        keep_for_next_time(work, model)
    if plan.to_test:
        names = ", ".join(dict.fromkeys(each.passage.name for each in plan.to_test))
        msg = f"the plan has no mix yet for {names}; say what was used with --used FU=1.2,BS=0.4"
        raise BadInput(msg)
    return {need.paint.id: round(need.ml, 3) for need in plan.palette}


def _amounts(work: "UnitOfWork", texts: list[str]) -> dict[int, float]:
    """The ml of each paint by its id, as typed: `FU=1.2,BS=0.4`.

    Raises:
        BadInput: one is not clear, or a paint is named twice.
        NotFound: there is no such paint.
    """
    from studio.actions.find import find_paint  # noqa: PLC0415

    found: dict[int, float] = {}
    for part in (part for text in texts for part in text.split(",")):
        name, equals, amount = part.rpartition("=")
        if not (name.strip() and equals and _NUMBER.fullmatch(amount.strip())):
            msg = f"{part.strip()!r} is not clear; write paints with their ml: --used FU=1.2,BS=0.4"
            raise BadInput(msg)
        paint = find_paint(work, name)
        if paint.id in found:
            msg = f"{paint.facts.code} is named twice in --used; give it once"
            raise BadInput(msg)
        found[paint.id] = float(amount)
    return found

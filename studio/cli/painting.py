"""studio painting start|list|show|edit|remove|restore; the other commands stand in files beside."""

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from studio.cli import (
    painting_finish,
    painting_order,
    painting_passage,
    painting_plan,
    painting_try,
    values,
)
from studio.cli.paper_choice import asked_paper
from studio.cli.session import answer, asked, console, print_json, reading, tell, today, writing
from studio.errors import BadInput

if TYPE_CHECKING:
    from studio.catalogue.painting import Painting
    from studio.catalogue.paper import PaperFacts

app = typer.Typer(no_args_is_help=True)
painting_passage.app.add_typer(painting_order.app)
app.add_typer(
    painting_passage.app, name="passage", help="Passages: what is laid in one go, in order."
)
app.add_typer(painting_try.app)
app.add_typer(painting_plan.app)
app.add_typer(painting_finish.app)


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the commands to the top."""
    top.add_typer(app, name=name, help=line)


Name = Annotated[str, typer.Argument(help="Code such as P3, title, or a part of it.")]
PaperOption = Annotated[str | None, typer.Option(help="The paper it is painted on.")]
Size = Annotated[str | None, typer.Option(help="The painted area: 380x280mm, 38x28cm, 15x11in.")]
Reference = Annotated[
    Path | None, typer.Option(help="The picture it is painted from: JPEG, PNG, TIFF, …")
]
Within = Annotated[
    float | None, typer.Option(help="ΔE00 within which a mix passes for its colour; 3 by default.")
]
Note = Annotated[str | None, typer.Option(help="Remarks.")]
Json = Annotated[bool, typer.Option("--json", help="Print JSON.")]


@app.command()
def start(
    context: typer.Context,
    title: Annotated[str | None, typer.Argument(help="What it is called.")] = None,
    paper: PaperOption = None,
    size: Size = None,
    reference: Reference = None,
    within: Within = None,
    on: Annotated[str | None, typer.Option(help="The day: 2026-03-14; by default today.")] = None,
    note: Note = None,
    code: Annotated[str | None, typer.Option(help="Short code; by default P1, P2, …")] = None,
) -> None:
    """Begin a painting: its paper, its size and the picture it is painted from."""
    from studio.actions.find import find_paper  # noqa: PLC0415
    from studio.actions.painting.start_painting import start_painting  # noqa: PLC0415
    from studio.catalogue.painting import TOLERANCE, Painting  # noqa: PLC0415

    called = asked(title, "the title", "the title as an argument")
    named = asked_paper(context, paper)
    width, height = values.sheet_size(asked(size, "the size", "--size", values.sheet_size))
    with writing(context) as work:
        sheet = find_paper(work, named)
        painting = Painting(
            id=0,
            code=code or "",
            title=called,
            paper_id=sheet.id,
            width_mm=width or 0.0,
            height_mm=height or 0.0,
            tolerance=TOLERANCE if within is None else within,
            started_on=values.day(on),
            note=note,
        )
        painting = start_painting(work, painting, today(), reference)
        work.commit()
        _tell_beyond(painting, sheet.facts)
    print(f"{painting.code}  {painting.title}")


@app.command("list")
def list_(
    context: typer.Context,
    removed: Annotated[bool, typer.Option("--removed", help="Removed ones instead.")] = False,
    as_json: Json = False,
) -> None:
    """List the paintings, oldest first."""
    from studio.actions.painting.show_painting import shown_painting  # noqa: PLC0415

    with reading(context) as work:
        found = work.paintings.removed() if removed else work.paintings.all()
        shown = [shown_painting(work, painting) for painting in found]
    if as_json:
        from studio.sheets.painting_fields import painting_fields  # noqa: PLC0415

        print_json([painting_fields(each) for each in shown])
        return
    from studio.sheets.painting_view import print_paintings  # noqa: PLC0415

    print_paintings(console(), shown)


@app.command()
def show(
    context: typer.Context,
    name: Name,
    passage: Annotated[
        str | None, typer.Argument(help="A passage: what was tried for each of its colours.")
    ] = None,
    as_json: Json = False,
) -> None:
    """Show a painting with its passages in order, or one passage with all its tries."""
    from studio.actions.painting.find_painting import (  # noqa: PLC0415
        find_painting,
        find_passage,
    )
    from studio.actions.painting.show_painting import shown_painting  # noqa: PLC0415

    with reading(context) as work:
        painting = find_painting(work, name, removed_too=True)
        shown = shown_painting(work, painting)
        wanted = None if passage is None else find_passage(painting, passage)
        dropped = () if wanted is None else work.paintings.removed_colours(wanted.id)
    one = None if wanted is None else shown.passages[painting.passages.index(wanted)]
    if as_json:
        from studio.sheets import painting_fields as fields  # noqa: PLC0415

        print_json(
            fields.painting_fields(shown) if one is None else fields.passage_fields(shown, one)
        )
        return
    from studio.sheets import painting_view as view  # noqa: PLC0415

    if one is None:
        view.print_painting(console(), shown)
    else:
        view.print_passage(console(), shown, one, dropped)


@app.command()
def edit(
    context: typer.Context,
    name: Name,
    title: Annotated[str | None, typer.Option(help="What it is called.")] = None,
    paper: PaperOption = None,
    size: Size = None,
    reference: Reference = None,
    another: Annotated[
        bool, typer.Option("--another", help="--reference is another picture than before.")
    ] = False,
    within: Within = None,
    on: Annotated[str | None, typer.Option(help="The day it was begun.")] = None,
    note: Annotated[str | None, typer.Option(help='Remarks; "" removes them.')] = None,
) -> None:
    """Correct a painting, or say where its reference picture lies now."""
    from studio.actions.find import find_paper  # noqa: PLC0415
    from studio.actions.painting.find_painting import find_painting  # noqa: PLC0415
    from studio.actions.painting.start_painting import edit_painting  # noqa: PLC0415

    if another and reference is None:
        msg = "--another goes with a picture; name it with --reference"
        raise BadInput(msg)
    width, height = values.sheet_size(size)
    changes: dict[str, Any] = {
        "title": title,
        "width_mm": width,
        "height_mm": height,
        "tolerance": within,
        "started_on": None if on is None else values.day(on),
        "note": note,
    }
    given = {field: value for field, value in changes.items() if value is not None}
    if not given and paper is None and reference is None:
        msg = "say what to change: studio painting edit --help lists it"
        raise BadInput(msg)
    with writing(context) as work:
        painting = find_painting(work, name)
        if paper is not None:
            given["paper_id"] = find_paper(work, paper).id
        changed = edit_painting(
            work,
            painting,
            replace(painting, **given),
            today(),
            reference=reference,
            another=another,
        )
        facts = work.papers.by_id(changed.paper_id).facts
        work.commit()
    if paper is not None or size is not None:
        _tell_beyond(changed, facts)
    print(f"{changed.code} is changed")


@app.command()
def remove(
    context: typer.Context,
    name: Name,
    because: Annotated[str | None, typer.Option(help="Why.")] = None,
) -> None:
    """Take a painting out of every list; it stays on record with all that belongs to it."""
    from studio.actions.painting.find_painting import find_painting  # noqa: PLC0415
    from studio.actions.painting.start_painting import remove_painting  # noqa: PLC0415

    with writing(context) as work:
        found = find_painting(work, name, removed_too=True)
        painting = remove_painting(work, found, because, today())
        work.commit()
    answer(
        f"removed {painting.code} {painting.title}; studio painting restore {painting.code} "
        "brings it back"
    )


@app.command()
def restore(
    context: typer.Context,
    code: Annotated[str, typer.Argument(help="Its code.")],
) -> None:
    """Bring back a removed painting."""
    from studio.actions.painting.start_painting import restore_painting  # noqa: PLC0415

    with writing(context) as work:
        painting = restore_painting(work, code)
        work.commit()
    print(f"{painting.code} {painting.title} is back")


def _tell_beyond(painting: "Painting", facts: "PaperFacts") -> None:
    from studio.catalogue.painting_rules import beyond_sheet  # noqa: PLC0415

    beyond = beyond_sheet(painting, facts)
    if beyond is not None:
        tell(f"{painting.code}: {beyond}")

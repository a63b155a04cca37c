"""studio painting passage move|remove|restore."""

from typing import Annotated

import typer

from studio.cli.painting_passage import Name, PaintingName, show
from studio.cli.session import answer, today, writing
from studio.errors import BadInput

app = typer.Typer()


@app.command()
def move(
    context: typer.Context,
    painting: PaintingName,
    passage: Name,
    before: Annotated[str | None, typer.Option(help="The passage it comes before.")] = None,
    after: Annotated[str | None, typer.Option(help="The passage it comes after.")] = None,
    first: Annotated[bool, typer.Option("--first", help="It comes first.")] = False,
    last: Annotated[bool, typer.Option("--last", help="It comes last.")] = False,
) -> None:
    """Give a passage another place in the working order."""
    from studio.actions.painting.find_painting import (  # noqa: PLC0415
        find_passage,
        painting_in_the_making,
    )
    from studio.actions.painting.passages import move_passage, place_of  # noqa: PLC0415

    with writing(context) as work:
        whole = painting_in_the_making(work, painting)
        found = find_passage(whole, passage)
        place = place_of(whole, before=before, after=after, first=first, last=last, moved=found)
        if place is None:
            msg = "say where: --before or --after another passage, --first or --last"
            raise BadInput(msg)
        changed = move_passage(work, whole, found, place)
        work.commit()
        show(work, changed)


@app.command()
def remove(
    context: typer.Context,
    painting: PaintingName,
    passage: Name,
    because: Annotated[str | None, typer.Option(help="Why.")] = None,
) -> None:
    """Take a passage out of a painting; it stays on record with what was tested for it."""
    from studio.actions.painting.find_painting import (  # noqa: PLC0415
        find_passage,
        painting_in_the_making,
    )
    from studio.actions.painting.passages import remove_passage  # noqa: PLC0415

    with writing(context) as work:
        whole = painting_in_the_making(work, painting)
        found = find_passage(whole, passage)
        remove_passage(work, whole, found, because, today())
        work.commit()
    answer(
        f"removed {found.name!r} from {whole.code}; studio painting passage restore {whole.code} "
        f'"{found.name}" brings it back'
    )


@app.command()
def restore(
    context: typer.Context,
    painting: PaintingName,
    passage: Annotated[
        str, typer.Argument(metavar="PASSAGE", help="Its name, or a part that fits only one.")
    ],
) -> None:
    """Bring back a removed passage, at the end of the working order."""
    from studio.actions.painting.find_painting import painting_in_the_making  # noqa: PLC0415
    from studio.actions.painting.passages import restore_passage  # noqa: PLC0415

    with writing(context) as work:
        changed = restore_passage(work, painting_in_the_making(work, painting), passage)
        work.commit()
        show(work, changed)

"""studio swatch remove|restore: a swatch, or one of its readings, is marked and stays on record."""

from typing import TYPE_CHECKING, Annotated

import typer

from studio.cli.session import console, tell, today, writing
from studio.cli.swatch_log import Code

if TYPE_CHECKING:
    from studio.actions.swatch_rows import SwatchRow

app = typer.Typer()


@app.command()
def remove(
    context: typer.Context,
    code: Code,
    reading: Annotated[
        int | None,
        typer.Option(help="Only set this reading aside, by its number in studio swatch show."),
    ] = None,
    because: Annotated[str | None, typer.Option(help="Why.")] = None,
) -> None:
    """Take a swatch, or a wrong reading of it, out of every search; it stays on record."""
    from studio.actions.find import find_swatch  # noqa: PLC0415
    from studio.actions.remove_swatch import remove_swatch, set_reading_aside  # noqa: PLC0415
    from studio.actions.swatch_rows import swatch_rows  # noqa: PLC0415

    with writing(context) as work:
        swatch = find_swatch(work, code, removed_too=reading is None)
        if reading is None:
            changed = remove_swatch(work, swatch, because, today())
        else:
            changed = set_reading_aside(work, swatch, reading, because, today())
        work.commit()
        (row,) = swatch_rows(work, [changed])
    back = "" if reading is None else f" --reading {reading}"
    tell(f"bring it back with: studio swatch restore {changed.facts.code}{back}")
    _show(row)


@app.command()
def restore(
    context: typer.Context,
    code: Code,
    reading: Annotated[
        int | None, typer.Option(help="Only count this reading again, by its number.")
    ] = None,
) -> None:
    """Bring back a removed swatch, or a reading that was set aside."""
    from studio.actions.find import find_swatch  # noqa: PLC0415
    from studio.actions.remove_swatch import count_reading_again, restore_swatch  # noqa: PLC0415
    from studio.actions.swatch_rows import swatch_rows  # noqa: PLC0415

    with writing(context) as work:
        swatch = find_swatch(work, code, removed_too=reading is None)
        if reading is None:
            changed = restore_swatch(work, swatch)
        else:
            changed = count_reading_again(work, swatch, reading)
        work.commit()
        (row,) = swatch_rows(work, [changed])
    _show(row)


def _show(row: "SwatchRow") -> None:
    from studio.sheets.swatch_view import show_swatch  # noqa: PLC0415

    show_swatch(console(), *row)

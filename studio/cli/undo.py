"""studio undo and studio redo."""

from typing import TYPE_CHECKING, Annotated

import typer

from studio.cli.session import back_up_first, console, print_json, writing

if TYPE_CHECKING:
    from collections.abc import Callable

    from studio.actions.undo_commands import TakenBack
    from studio.storage.unit_of_work import UnitOfWork

DryRun = Annotated[
    bool, typer.Option("--dry-run", help="Only say what would be done; change nothing.")
]
Json = Annotated[bool, typer.Option("--json", help="Print JSON.")]


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the command of a name to the top."""
    top.command(name, short_help=line)(undo if name == "undo" else redo)


def undo(
    context: typer.Context,
    count: Annotated[
        int, typer.Option("--count", "-n", help="How many commands, the newest first.")
    ] = 1,
    dry_run: DryRun = False,
    as_json: Json = False,
) -> None:
    """Take back the last command that recorded something; studio redo repeats it.

    Every record it touched is exactly as before. Files that were written, such as sheets and
    pictures, stay where they are.
    """
    from studio.actions.undo_commands import undo_commands  # noqa: PLC0415

    _do(context, undo_commands, "undo", count, dry_run=dry_run, as_json=as_json)


def redo(
    context: typer.Context,
    count: Annotated[
        int, typer.Option("--count", "-n", help="How many commands, the last undone first.")
    ] = 1,
    dry_run: DryRun = False,
    as_json: Json = False,
) -> None:
    """Repeat what was undone last, as long as nothing was recorded since."""
    from studio.actions.undo_commands import redo_commands  # noqa: PLC0415

    _do(context, redo_commands, "redo", count, dry_run=dry_run, as_json=as_json)


def _do(
    context: typer.Context,
    action: "Callable[[UnitOfWork, int], tuple[TakenBack, ...]]",
    name: str,
    count: int,
    *,
    dry_run: bool,
    as_json: bool,
) -> None:
    from studio.catalogue.checks import number  # noqa: PLC0415

    wanted = int(number(count, "how many commands", 1, 1_000_000))
    if wanted > 1 and not dry_run:
        with writing(context, create=False) as work:
            action(work, wanted)  # what would be refused leaves no backup behind
        back_up_first(context, name)
    with writing(context, create=False) as work:
        done = action(work, wanted)
        if not dry_run:
            work.commit()
    if as_json:
        from studio.sheets.history_fields import taken_back_fields  # noqa: PLC0415

        print_json([taken_back_fields(each, kept=not dry_run) for each in done])
        return
    from studio.sheets.undo_view import print_taken_back  # noqa: PLC0415

    print_taken_back(console(), done, dry_run=dry_run)

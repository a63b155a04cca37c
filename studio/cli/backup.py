"""studio backup, and studio backup list."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from studio.cli.session import console, now, print_json, session_of

if TYPE_CHECKING:
    from studio.storage.sqlite_backup import Backup

app = typer.Typer(invoke_without_command=True)

To = Annotated[
    Path | None,
    typer.Option("--to", help="The folder of the backups; yours lie in one beside the database."),
]


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the commands to the top."""
    top.add_typer(app, name=name, help=line)


@app.callback()
def backup(
    context: typer.Context,
    to: To = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON.")] = False,
) -> None:
    """Make a checked backup, and remove those that newer ones stand for."""
    if context.invoked_subcommand is not None:
        return
    from studio.actions.open_studio import existing_studio  # noqa: PLC0415
    from studio.storage.sqlite_backup import back_up  # noqa: PLC0415

    made = back_up(existing_studio(session_of(context).path), now(), folder=to)
    if as_json:
        print_json(_fields(made))
        return
    print(f"{made.path}: whole, {_size(made)}")


@app.command("list")
def list_(
    context: typer.Context,
    to: To = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON.")] = False,
) -> None:
    """List the backups, oldest first."""
    from studio.storage.sqlite_backup import backup_folder, backups_in  # noqa: PLC0415

    path = session_of(context).path
    folder = to or backup_folder(path)
    there = backups_in(folder, path.stem)
    if as_json:
        print_json([_fields(each) for each in there])
        return
    if not there:
        from studio.sheets.screen import indented  # noqa: PLC0415

        indented(console(), f"no backups in {folder} yet; studio backup makes one", 0)
    for each in there:
        made = each.name.made_at.astimezone()
        print(f"{made:%Y-%m-%d %H:%M}  {_size(each):>8}  {each.path.name}")


def _fields(made: "Backup") -> dict[str, Any]:
    return {
        "backup": str(made.path),
        "made_at": f"{made.name.made_at:%Y-%m-%dT%H:%M:%SZ}",
        "why": made.name.why,
        "size": made.size,
    }


def _size(made: "Backup") -> str:
    return f"{made.size / 1e6:.1f} MB"

"""studio restore."""

import sys
from typing import Annotated

import typer

from studio.cli.session import now, session_of
from studio.errors import BadInput


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the command to the top."""
    top.command(name, short_help=line)(restore)


def restore(
    context: typer.Context,
    backup: Annotated[
        str,
        typer.Argument(
            help="A file, or a part of a backup's name that fits only one, such as its day or "
            "moment: 2026-11-25, 20261125T171200Z.",
        ),
    ],
    yes: Annotated[bool, typer.Option("--yes", help="Do not ask.")] = False,
) -> None:
    """Put a backup in the place of the database.

    It is checked in a new file first. The database as it was is kept among the backups.
    """
    from studio.actions.keep_backups import find_backup  # noqa: PLC0415
    from studio.storage.sqlite_restore import restore as put_back  # noqa: PLC0415

    path = session_of(context).path
    found = find_backup(backup, path)
    if not yes:
        if not (sys.stdin.isatty() and sys.stderr.isatty()):
            msg = f"{path} would be replaced by {found.name}; add --yes if it is to be"
            raise BadInput(msg)
        typer.confirm(f"Replace {path} by {found.name}?", abort=True, err=True)
    before = put_back(found, path, now())
    print(f"{path} is as it was in {found.name}")
    if before is not None:
        print(f"what was there before is kept at {before.path}")

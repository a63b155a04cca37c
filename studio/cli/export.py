"""studio export."""

from pathlib import Path
from typing import Annotated

import typer

from studio.cli.session import now, print_json, reading


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the command to the top."""
    top.command(name, short_help=line)(export)


def export(
    context: typer.Context,
    folder: Annotated[Path, typer.Argument(help="A new or an empty folder.")],
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON.")] = False,
) -> None:
    """Write everything to a folder of CSV and JSON files, with the files of your instruments.

    Its README.txt explains every column; studio import makes the same database of it again.
    """
    from studio.actions.export_studio import export_studio  # noqa: PLC0415
    from studio.storage.schema import HEAD  # noqa: PLC0415

    with reading(context) as work:
        exported = export_studio(work, folder, now())
    rows = sum(exported.rows.values())
    if as_json:
        print_json(
            {
                "folder": str(folder),
                "schema": HEAD,
                "tables": [
                    {"table": table, "rows": count} for table, count in exported.rows.items()
                ],
                "files": exported.files,
            }
        )
        return
    print(
        f"{folder}: {rows} rows in {len(exported.rows)} tables, {exported.files} measurement files"
    )

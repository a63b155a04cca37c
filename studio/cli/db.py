"""studio db where|upgrade|check."""

from pathlib import Path
from typing import Annotated

import typer

from studio.cli.session import now, print_json, session_of, tell
from studio.errors import DatabaseTrouble

app = typer.Typer(no_args_is_help=True)


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the commands to the top."""
    top.add_typer(app, name=name, help=line)


@app.command()
def where(
    context: typer.Context,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON.")] = False,
) -> None:
    """Print where the database is."""
    from studio.storage.schema import SchemaState, state_of  # noqa: PLC0415

    path = session_of(context).database
    exists = path.exists() if isinstance(path, Path) else state_of(path) is not SchemaState.MISSING
    if as_json:
        print_json({"path": str(path), "exists": exists})
        return
    print(path)
    if not exists:
        tell("it is not there yet; the first paint, paper or swatch you record makes it")


@app.command()
def upgrade(context: typer.Context) -> None:
    """Bring the database to this program's schema, with a backup beside it."""
    from studio.actions.open_studio import open_studio, upgrade_shared  # noqa: PLC0415
    from studio.storage.schema import HEAD  # noqa: PLC0415

    path = session_of(context).database
    if not isinstance(path, Path):
        upgrade_shared(path, tell)
    with open_studio(path, write=False, now=now(), tell=tell):
        print(f"{path} is at schema {HEAD}, the newest of this program")


@app.command()
def check(context: typer.Context) -> None:
    """Check the database: the database's own checks and the studio's rules."""
    from studio.actions.check_database import check_database  # noqa: PLC0415
    from studio.actions.open_studio import open_studio  # noqa: PLC0415

    path = session_of(context).database
    with open_studio(path, write=False, now=now(), tell=tell):
        pass
    faults = check_database(path)
    for fault in faults:
        print(fault)
    if faults:
        msg = f"{path} has {len(faults)} faults; restore a backup, or keep a copy and ask for help"
        raise DatabaseTrouble(msg)
    print(f"{path}: no faults found")

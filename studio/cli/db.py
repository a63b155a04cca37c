"""studio db where|upgrade|check."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from studio.cli.session import answer, now, print_json, session_of, tell
from studio.errors import DatabaseTrouble, ExitStatus

if TYPE_CHECKING:
    from studio.actions.fault import Fault

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
def check(
    context: typer.Context,
    mend: Annotated[
        bool,
        typer.Option(
            "--mend",
            help="Compute anew what is derived from your records: colours, recipes, indexes.",
        ),
    ] = False,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON.")] = False,
) -> None:
    """Check the database: SQLite's own checks, the schema, and the studio's rules.

    The exit status is 5 when what it holds is damaged, 10 when only how it is kept wants attention.
    """
    from studio.actions.check_database import check_database, remarks_on  # noqa: PLC0415
    from studio.actions.open_studio import open_studio  # noqa: PLC0415

    session = session_of(context)
    path = session.database
    open_studio(path, write=False, now=now(), tell=tell)  # not entered: an older one is upgraded
    mended: list[Fault] = []
    if mend:
        from studio.actions.mend_database import mend_database  # noqa: PLC0415

        mended = mend_database(session.path, now())
    faults = check_database(path)
    remarks = remarks_on(path) if isinstance(path, Path) else []
    if as_json:
        listed = {"faults": faults, "remarks": remarks, "mended": mended}
        print_json({"path": str(path)} | {name: _fields(found) for name, found in listed.items()})
    else:
        for fault in mended:
            print(f"mended: {fault.text}")
        for fault in (*faults, *remarks):
            answer(f"{fault.text}; mend it with: {fault.mend}")
    if faults:
        msg = f"{path} has {len(faults)} fault{'s' if len(faults) > 1 else ''}"
        raise DatabaseTrouble(msg)
    if remarks:
        raise typer.Exit(ExitStatus.ATTENTION)
    if not as_json:
        print(f"{path}: no faults found")


def _fields(faults: "list[Fault]") -> list[dict[str, str]]:
    return [{"fault": fault.text, "mend": fault.mend} for fault in faults]

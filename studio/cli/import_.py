"""studio import."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Annotated

import typer

from studio.cli.session import (
    back_up_first,
    now,
    print_json,
    session_of,
    tell,
    today,
    writing,
)
from studio.errors import BadInput, ExitStatus

if TYPE_CHECKING:
    from studio.storage.unit_of_work import UnitOfWork


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the command to the top."""
    top.command(name, short_help=line)(import_tables)


def import_tables(
    context: typer.Context,
    paths: Annotated[
        list[Path],
        typer.Argument(
            metavar="FILE_OR_FOLDER...",
            help="CSV tables named after their kind: pigments, lightfastness, h_statements, "
            "hazards, paints, papers, mixes, swatches, stock, data_sheets.",
        ),
    ],
    kind: Annotated[
        str | None, typer.Option("--as", help="The kind of table, whatever the file is called.")
    ] = None,
    strict: Annotated[
        bool, typer.Option("--strict", help="Import nothing if any row is bad.")
    ] = False,
    dry_run: Annotated[
        bool, typer.Option("--dry-run", help="Only say what would be imported.")
    ] = False,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON.")] = False,
) -> None:
    """Import CSV tables; bad rows are listed by line and left out.

    The columns of each kind are in README.md. Rows that stand in the studio already are passed
    over. The exit status is 6 when rows were left out. A folder that studio export wrote makes a
    whole studio, where there is none yet.
    """
    from studio.actions.exported_folder import is_exported  # noqa: PLC0415
    from studio.actions.importing import tables  # noqa: PLC0415

    if any(is_exported(path) for path in paths):
        _import_whole(context, paths, kind, keep=not dry_run, as_json=as_json)
        return
    found = tables.tables_at(paths, tables.kind_named(kind) if kind else None)
    if not dry_run:
        back_up_first(context, "import")
    with _tried(context) if dry_run else writing(context, create=True) as work:
        result = tables.import_tables(work, found, today())
        keep = not dry_run and not (strict and result.faults)
        if keep:
            work.commit()
    if as_json:
        print_json(
            {
                "kept": keep,
                "added": result.added,
                "present": result.present,
                "faults": [
                    {"file": fault.file, "line": fault.line, "reason": fault.reason}
                    for fault in result.faults
                ],
            }
        )
    else:
        for each in tables.KINDS:
            added, present = result.added.get(each.name, 0), result.present.get(each.name, 0)
            if added or present:
                before = f", {present} there already" if present else ""
                print(f"{each.name}: {added} {'added' if keep else 'could be added'}{before}")
    for fault in result.faults:
        tell(f"{fault.file}, line {fault.line}: {fault.reason}")
    if not result.faults:
        return
    if strict:
        count = len(result.faults)
        msg = f"{count} bad row{'s' if count > 1 else ''}, so nothing was imported (--strict)"
        raise BadInput(msg)
    raise typer.Exit(ExitStatus.PARTLY_IMPORTED)


@contextmanager
def _tried(context: typer.Context) -> Iterator["UnitOfWork"]:
    """What an import may be tried on: the studio, or where there is none yet, one that is not kept.

    A new one is built in a folder of its own, also for a server.
    """
    from studio.actions.open_studio import create_studio  # noqa: PLC0415
    from studio.storage.schema import SchemaState, state_of  # noqa: PLC0415
    from studio.storage.unit_of_work import UnitOfWork  # noqa: PLC0415

    session = session_of(context)
    if session.demo or state_of(session.database) is not SchemaState.MISSING:
        with writing(context) as work:
            yield work
        return
    with TemporaryDirectory() as place:
        path = Path(place, "studio.sqlite3")
        create_studio(path)
        with UnitOfWork(path, write=True) as work:
            yield work


def _import_whole(
    context: typer.Context, paths: list[Path], kind: str | None, *, keep: bool, as_json: bool
) -> None:
    from studio.actions.import_studio import import_studio  # noqa: PLC0415

    if len(paths) > 1 or kind is not None:
        msg = "an exported folder is a whole studio; import it alone, without --as"
        raise BadInput(msg)
    counts = import_studio(session_of(context).database, paths[0], now(), tell, keep=keep)
    if as_json:
        print_json({"kept": keep, "added": counts, "present": {}, "faults": []})
        return
    for table, count in counts.items():
        if count:
            print(f"{table}: {count} {'added' if keep else 'could be added'}")

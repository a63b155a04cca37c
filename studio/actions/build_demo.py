"""Build the demo studio: an invented painter's paints, papers, mixes, swatches and paintings."""

from datetime import date
from pathlib import Path

from studio.actions.importing.tables import import_tables, tables_at
from studio.actions.open_studio import create_studio
from studio.errors import DatabaseTrouble, StudioError
from studio.storage.address import Database
from studio.storage.schema import SchemaState, state_of
from studio.storage.shipped import shipped_folder
from studio.storage.sqlite_file import SIDES, beside
from studio.storage.trouble import in_plain_words
from studio.storage.unit_of_work import UnitOfWork


def build_demo(path: Database, today: date) -> bool:
    """Build the demo database unless it stands there already; whether it was built now.

    Args:
        path: where it is to be.
        today: no record may lie after it.

    Raises:
        DatabaseTrouble: it cannot be written.
        StudioError: the shipped tables hold a row that cannot be recorded.
    """
    if state_of(path) is not SchemaState.MISSING:
        return False

    def fill(work: UnitOfWork) -> None:
        folder = shipped_folder("seed_demo")
        result = import_tables(work, tables_at([folder]), today)
        if result.faults:
            fault = result.faults[0]
            msg = f"the program's own {fault.file}, line {fault.line}: {fault.reason}"
            raise StudioError(msg)
        # Pictures load numpy, which only the building needs.
        from studio.actions.demo_paintings import demo_paintings  # noqa: PLC0415

        demo_paintings(work, folder, today)

    try:
        create_studio(path, fill)
    except DatabaseTrouble:
        if state_of(path) is SchemaState.MISSING:
            raise
        return False  # another command built it in the meantime
    return True


def remove_demo(path: Path) -> None:
    """Remove a demo database, so that the next one is built anew.

    Raises:
        DatabaseTrouble: it is no studio's database, or cannot be removed.
    """
    if state_of(path) is not SchemaState.MISSING:
        with in_plain_words(path):
            path.unlink()
            for side in SIDES:
                beside(path, side).unlink(missing_ok=True)

"""Load the pigment reference that ships with the program into a database."""

from datetime import date

from studio.actions.importing.tables import import_tables, kind_named
from studio.errors import StudioError
from studio.storage.shipped import shipped_folder
from studio.storage.unit_of_work import UnitOfWork

TABLES = ("pigments", "lightfastness", "h_statements", "hazards")


def load_reference(work: UnitOfWork) -> None:
    """Add what is missing of the pigment reference; nothing that is recorded is changed.

    Raises:
        StudioError: the shipped tables hold a row that cannot be recorded.
    """
    folder = shipped_folder("shared")
    tables = [(kind_named(name), folder / f"{name}.csv") for name in TABLES]
    result = import_tables(work, tables, date.min)
    if result.faults:
        fault = result.faults[0]
        msg = f"the program's own {fault.file}, line {fault.line}: {fault.reason}"
        raise StudioError(msg)

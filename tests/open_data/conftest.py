"""The open measurements, and a studio that was filled with them through the CSV import."""

import shutil
from pathlib import Path

import pytest

from studio.actions.importing.tables import ImportResult, import_tables, tables_at
from studio.storage.unit_of_work import UnitOfWork
from tests.conftest import TODAY
from tests.open_data.csv_tables import write_shelf, write_swatches
from tests.open_data.wpsm import Measurements, read_wheel, wheel


@pytest.fixture(scope="session")
def measured() -> Measurements:
    """13 watercolours and 780 mixtures of two, as they were measured."""
    return read_wheel(wheel())


@pytest.fixture(scope="session")
def imported(
    measured: Measurements, empty_template: Path, tmp_path_factory: pytest.TempPathFactory
) -> tuple[Path, ImportResult]:
    """A studio with every mixture as a swatch, and what its import said. Do not write to it."""
    folder = tmp_path_factory.mktemp("open_data")
    write_shelf(measured, folder / "tables")
    write_swatches(measured.mixtures, folder / "tables")
    path = Path(shutil.copy(empty_template, folder / "studio.sqlite3"))
    with UnitOfWork(path, write=True) as work:
        result = import_tables(work, tables_at([folder / "tables"]), TODAY)
        work.commit()
    return path, result

"""Rows of the papers that come with paints: data sheets and label marks."""

from datetime import date

from studio.actions.find import find_paint
from studio.actions.importing.row import Row
from studio.actions.record_data_sheet import checked_data_sheet, record_data_sheet
from studio.catalogue.data_sheet import DataSheet
from studio.storage.unit_of_work import UnitOfWork


def import_data_sheet(work: UnitOfWork, row: Row, today: date) -> bool:
    """Record the data sheet of a paint; False when the same stands there already."""
    paint = find_paint(work, row.needed("paint"))
    recorded_on = row.day("recorded_on")
    known = paint.data_sheet
    sheet = checked_data_sheet(
        DataSheet(
            location=row.text("location"),
            dated_on=row.day("dated_on"),
            label_marks=row.text("label_marks"),
            recorded_on=recorded_on or (known.recorded_on if known else today),
        ),
        today,
    )
    if sheet == known:
        return False
    if recorded_on is None:
        sheet = DataSheet(sheet.location, sheet.dated_on, sheet.label_marks, today)
    record_data_sheet(work, paint, sheet, today)
    return True

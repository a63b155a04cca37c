"""Record where the maker's data sheet of a paint lies, and what its label says."""

from dataclasses import replace
from datetime import date

from studio.catalogue import checks
from studio.catalogue.data_sheet import DataSheet
from studio.catalogue.paint import Paint
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork


def record_data_sheet(work: UnitOfWork, paint: Paint, sheet: DataSheet, today: date) -> DataSheet:
    """Record the data sheet of a paint in place of an earlier one; returns it as recorded.

    Raises:
        BadInput: it says nothing, or a day lies in the future or belongs to no sheet.
    """
    checked = checked_data_sheet(sheet, today)
    work.paints.set_data_sheet(paint.id, checked)
    return checked


def amend_data_sheet(  # noqa: PLR0913 - what may be on record of a document
    work: UnitOfWork,
    paint: Paint,
    today: date,
    *,
    location: str | None = None,
    dated_on: date | None = None,
    label_marks: str | None = None,
) -> DataSheet:
    """Record what is given of a paint's documents and keep the rest; a new sheet has its own date.

    Args:
        work: the studio.
        paint: the paint.
        today: the day it is noted.
        location: a file or an address.
        dated_on: the date on the sheet.
        label_marks: marks and words on the label; an empty text removes them.

    Raises:
        BadInput: nothing is given, or it cannot be recorded.
    """
    if location is None and dated_on is None and label_marks is None:
        msg = "nothing to record; give --file-or-address, --dated or --marks"
        raise BadInput(msg)
    sheet = paint.data_sheet or DataSheet(None, None, None, today)
    if location is not None:
        sheet = replace(sheet, location=location, dated_on=None)
    if dated_on is not None:
        sheet = replace(sheet, dated_on=dated_on)
    if label_marks is not None:
        sheet = replace(sheet, label_marks=label_marks)
    return record_data_sheet(work, paint, replace(sheet, recorded_on=today), today)


def checked_data_sheet(sheet: DataSheet, today: date) -> DataSheet:
    """A data sheet in its stored form.

    Raises:
        BadInput: it says nothing, or a day lies in the future or belongs to no sheet.
    """
    location = checks.optional_text(sheet.location, "the file or address")
    marks = checks.optional_text(sheet.label_marks, "the label marks")
    if location is None and marks is None:
        msg = "a data sheet needs a file or an address, or at least the label marks"
        raise BadInput(msg)
    if sheet.dated_on is not None:
        if location is None:
            msg = "the date belongs to a data sheet; give its file or address, too"
            raise BadInput(msg)
        checks.past(sheet.dated_on, today, "the date of the data sheet")
    checks.past(sheet.recorded_on, today, "the day it was noted")
    return replace(sheet, location=location, label_marks=marks)

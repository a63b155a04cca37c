"""The maker's safety data sheet and label marks of a paint, and whether they are recent."""

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

OLD_AFTER: Final = timedelta(days=3 * 365)
"""A data sheet older than this is reported (common practice, no source): look for a newer one."""


@dataclass(frozen=True, slots=True)
class DataSheet:
    """What the owner keeps of a paint's documents.

    Args:
        location: a file or an address; None when only the label was read.
        dated_on: the date on the sheet.
        label_marks: marks and words on the tube, such as pictograms or AP, CL, Prop 65.
        recorded_on: the day it was noted.
    """

    location: str | None
    dated_on: date | None
    label_marks: str | None
    recorded_on: date

    def fault(self, today: date) -> str | None:
        """What is wrong with it, in a few words; None when nothing is."""
        if self.location is None:
            return "no data sheet on record, only label marks"
        if self.dated_on is None:
            return "the data sheet has no date on record"
        if today - self.dated_on > OLD_AFTER:
            return f"the data sheet is of {self.dated_on.isoformat()}; look for a newer one"
        return None


def sheet_fault(sheet: DataSheet | None, today: date) -> str | None:
    """What is wrong with a paint's data sheet, or that there is none."""
    return "no data sheet on record" if sheet is None else sheet.fault(today)

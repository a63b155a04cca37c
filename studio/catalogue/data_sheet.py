"""The maker's safety data sheet and label marks of a paint, and whether they are recent."""

import re
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

OLD_AFTER: Final = timedelta(days=3 * 365)
"""A data sheet older than this is reported (common practice, no source): look for a newer one."""

_WARNING: Final = re.compile(
    r"(?<!no )(?<!non-)(?<!non )\b(?:GHS ?0[1-9]|(?:EUH|AUH|H) ?[0-9]{3}[a-z]*|CL|danger(?:ous)?|"
    r"warning|caution|toxic|harmful|poison(?:ous)?|irritant|corrosive|carcinogen\w*|cancer|"
    r"prop(?:osition|\.)? ?65)\b",
    re.IGNORECASE,
)
"""What warns on a label: CLP's pictograms, statements and signal words, ASTM D4236's CL."""


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

    @property
    def is_read(self) -> bool:
        """Whether the owner noted both what the label says and where the data sheet lies."""
        return self.location is not None and self.label_marks is not None

    @property
    def warning(self) -> str | None:
        """The first mark or word on the label that warns; None where none does."""
        found = _WARNING.search(self.label_marks or "")
        return None if found is None else found[0]

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

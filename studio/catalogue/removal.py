"""Removing only marks: what is removed stays on record and can be restored."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class Removal:
    """The mark of something removed.

    Args:
        on: the day.
        because: why, in the owner's words.
    """

    on: date
    because: str | None = None

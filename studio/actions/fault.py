"""What a check of a database finds: the fault, and how to mend it."""

from dataclasses import dataclass
from typing import Final

MEND: Final = "studio db check --mend"
RESTORE: Final = "studio restore BACKUP (studio backup list shows them)"


@dataclass(frozen=True, slots=True)
class Fault:
    """Something wrong with a database.

    Args:
        text: what is wrong, a clause.
        mend: the command that mends it.
    """

    text: str
    mend: str = RESTORE

    @property
    def derived(self) -> bool:
        """Whether it can be computed anew from what is sound."""
        return self.mend == MEND

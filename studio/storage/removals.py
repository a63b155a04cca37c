"""The mark of what was removed: swatches, readings and targets stay on record with it."""

from sqlalchemy import ColumnElement, RowMapping, Table

from studio.catalogue.removal import Removal


def kept(table: Table) -> ColumnElement[bool]:
    """That a row was not removed."""
    return table.c.removed_on.is_(None)


def removal_of(row: RowMapping) -> Removal | None:
    """The mark of a row of swatches, readings or targets; None where it was not removed."""
    if row["removed_on"] is None:
        return None
    return Removal(row["removed_on"], row["removed_because"])


def marked(removal: Removal | None) -> dict[str, object]:
    """The cells of a mark; None restores."""
    return {
        "removed_on": removal.on if removal else None,
        "removed_because": removal.because if removal else None,
    }

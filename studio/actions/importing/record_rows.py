"""Rows of a table on their way into a studio: one by one, or plain swatches many together."""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from datetime import date

from studio.actions.importing.many_swatches import TOGETHER, ManySwatches
from studio.actions.importing.row import Row
from studio.actions.importing.swatches import import_swatch
from studio.actions.importing.table_file import Line
from studio.errors import BadInput, NotFound
from studio.storage.trouble import in_plain_words
from studio.storage.unit_of_work import UnitOfWork

ImportRow = Callable[[UnitOfWork, Row, date], bool]
"""Records one row; False when it stands there already."""
Outcome = bool | str
"""Whether a row was new, or why it was left out."""


def record_rows(
    work: UnitOfWork,
    import_row: ImportRow,
    header: list[str],
    lines: Sequence[Line],
    today: date,
) -> Iterator[tuple[int, Outcome]]:
    """Record the rows of a table in their order; each line with what came of it."""
    whole: list[Line] = []
    for line, cells in lines:
        if len(cells) == len(header):
            whole.append((line, cells))
        else:
            yield line, f"it has {len(cells)} cells, and the header has {len(header)}"
    if import_row is import_swatch:
        yield from _record_swatches(work, header, whole, today)
        return
    seen: Counter[tuple[str, ...]] = Counter()
    for line, cells in whole:
        seen[cells] += 1
        row = Row(dict(zip(header, cells, strict=True)), seen[cells])
        yield line, recorded(work, import_row, row, today)


def _record_swatches(
    work: UnitOfWork, header: Sequence[str], lines: Sequence[Line], today: date
) -> Iterator[tuple[int, Outcome]]:
    many = ManySwatches(work, header, [cells for _, cells in lines], today)
    waiting: list[tuple[int, Row]] = []
    # Rows are made one by one: a hundred thousand dicts would keep Python's collector busy.
    for each in ((line, Row(dict(zip(header, cells, strict=True)))) for line, cells in lines):
        if many.take(each[1]):
            waiting.append(each)
            if len(waiting) < TOGETHER:
                continue
        yield from _together(work, many, waiting, today)
        if not waiting or waiting[-1] is not each:
            yield each[0], recorded(work, import_swatch, each[1], today)
            many.forget()
        waiting.clear()
    yield from _together(work, many, waiting, today)


def _together(
    work: UnitOfWork, many: ManySwatches, waiting: Sequence[tuple[int, Row]], today: date
) -> Iterator[tuple[int, Outcome]]:
    """Record what waits; were it refused in spite of all, row by row, to name the one to blame."""
    if not waiting:
        return
    try:
        with in_plain_words(work.path), work.connection.begin_nested():
            outcomes: list[Outcome] = list(many.record())
    except (BadInput, NotFound):
        work.forget()
        many.forget()
        outcomes = [recorded(work, import_swatch, row, today) for _, row in waiting]
    yield from zip((line for line, _ in waiting), outcomes, strict=True)


def recorded(work: UnitOfWork, import_row: ImportRow, row: Row, today: date) -> Outcome:
    """Record a row whole or not at all."""
    try:
        with in_plain_words(work.path), work.connection.begin_nested():
            return import_row(work, row, today)
    except (BadInput, NotFound) as error:
        work.forget()
        return str(error)

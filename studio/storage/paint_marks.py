"""Which paints a mix may hold, as the bits of two whole numbers.

A swatch keeps the marks of its mix beside its colour, where the search index has them too: whether
it may be answered is told by a number or two, and the paints of a mix are looked up only where two
paints share a bit. They follow from the recipe, which no command changes once it is recorded.
"""

from collections.abc import Iterable, Iterator
from typing import Final

from sqlalchemy import (
    BigInteger,
    Column,
    ColumnElement,
    Connection,
    ScalarSelect,
    case,
    cast,
    func,
    literal_column,
    or_,
    select,
    update,
)

from studio.storage import tables as t

_BITS: Final = 63
"""So many a whole number of either database has beside its sign."""
_COLUMNS: Final[tuple[Column[int], ...]] = (
    t.swatch.c.paint_marks_low,
    t.swatch.c.paint_marks_high,
)
MARKS: Final = _BITS * len(_COLUMNS)
"""Paints whose ids lie so far apart share a bit."""
_AT_ONCE: Final = 1000


def marks_of(paints: Iterable[int]) -> int:
    """The bits of some paint ids, as one number of `MARKS` bits."""
    marks = 0
    for paint in paints:
        marks |= 1 << paint % MARKS
    return marks


def have_none(marks: int) -> list[ColumnElement[bool]]:
    """What says of a swatch that it has none of some bits."""
    return [column.bitwise_and(word) == 0 for column, word in _words(marks) if word]


def have_all(marks: int) -> list[ColumnElement[bool]]:
    """What says of a swatch that it has all of some bits."""
    return [column.bitwise_and(word) == word for column, word in _words(marks) if word]


def cells_of_mixes(connection: Connection, mixes: Iterable[int]) -> dict[int, dict[str, int]]:
    """The marks of some mixes as the columns of their swatches hold them, by mix id."""
    part = t.mix_component.c
    marks = dict.fromkeys(mixes, 0)
    keys = list(marks)
    for start in range(0, len(keys), _AT_ONCE):
        among = part.mix_id.in_(keys[start : start + _AT_ONCE])
        rows = connection.execute(select(part.mix_id, part.paint_id).where(among))
        for mix_id, paint_id in rows:
            marks[mix_id] |= marks_of((paint_id,))
    return {
        mix_id: {column.name: word for column, word in _words(each)}
        for mix_id, each in marks.items()
    }


def wrong_marks(connection: Connection) -> dict[int, str]:
    """The codes of the mixes with swatches whose marks are not those of its paints, by mix id.

    A mix that lost its recipe is another fault, and its swatches may have the only trace of it.
    """
    wrong = or_(*(column != right for column, right in _derived().items()))
    rows = connection.execute(
        select(t.mix.c.id, t.mix.c.code)
        .distinct()
        .join_from(t.swatch, t.mix)
        .where(wrong, t.mix.c.id.in_(select(t.mix_component.c.mix_id)))
        .order_by(t.mix.c.id)
    )
    return dict(map(tuple, rows))


def put_marks(connection: Connection, mix_id: int) -> None:
    """Set the marks of the swatches of a mix from its paints."""
    connection.execute(update(t.swatch).where(t.swatch.c.mix_id == mix_id).values(_derived()))


def _derived() -> dict[Column[int], ScalarSelect[int]]:
    """What each column of marks is by the recipe, in a statement about swatches."""
    part = t.mix_component.c
    bit = cast(literal_column("1"), BigInteger).op("<<")(part.paint_id % _BITS)
    found = {}
    for place, column in enumerate(_COLUMNS):
        first = place * _BITS
        here = (part.paint_id % MARKS).between(first, first + _BITS - 1)
        marks = func.coalesce(func.sum(case((here, bit)).distinct()), 0)
        of_mix = select(cast(marks, BigInteger)).where(part.mix_id == t.swatch.c.mix_id)
        found[column] = of_mix.scalar_subquery()
    return found


def _words(marks: int) -> Iterator[tuple[Column[int], int]]:
    for place, column in enumerate(_COLUMNS):
        yield column, marks >> place * _BITS & ((1 << _BITS) - 1)

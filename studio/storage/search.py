"""What a search reads of the swatches, through an index made for it."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any, Final

from sqlalchemy import (
    ColumnElement,
    Connection,
    Select,
    TextClause,
    and_,
    column,
    func,
    literal_column,
    or_,
    select,
    table,
    text,
)

from studio.catalogue.reading import State
from studio.colour.box import Box
from studio.colour.nearest import Candidate
from studio.storage import tables as t
from studio.storage.paint_marks import have_all, have_none, marks_of
from studio.storage.removals import kept

FEW: Final = 10_000
"""So many swatches are compared in less time than a search from box to box takes."""
_ENDS: Final = ((0.0, 100.0),) * 2 + ((-200.0, 200.0),) * 4
"""What the database lets L*, a* and b* be."""
_cell: Final = table(
    "cell",
    *map(column, ("lightness_step", "a_step", *Box._fields)),
)


KEPT: Final = kept(t.swatch)
"""What every search, list, count and average asks of a swatch: that it was not removed."""


@dataclass(frozen=True, slots=True)
class SwatchFilter:
    """Which swatches a search may answer with, in the database's own terms.

    Args:
        paper_id: only on this paper.
        dry_only: only swatches that were read dry.
        barred_paints: no mix that holds one of these paint ids.
        required_paints: only mixes that hold all of these paint ids.
        not_swatch: leave this swatch out.
    """

    paper_id: int | None = None
    dry_only: bool = True
    barred_paints: frozenset[int] = frozenset()
    required_paints: frozenset[int] = frozenset()
    not_swatch: int | None = None


class SearchedSwatches:
    """The swatches that a filter allows, as `studio.colour.nearest` asks for them.

    The index begins with L* and a* in steps of `CELL`, then has b* and all that the filters ask
    of a swatch: what lies in a box is a few ranges of it, and the swatches themselves are not read.
    """

    def __init__(
        self, connection: Connection, wanted: SwatchFilter, *, each_its_own: bool = False
    ) -> None:
        self._connection = connection
        self._wanted = wanted
        self._paints = connection.execute(select(t.paint.c.id)).scalars().all()
        s = t.swatch.c
        group = s.id.label("group_id") if each_its_own else s.mix_id
        self._chosen = select(s.id, group, s.lightness, s.a, s.b)
        self._allowed = self._chosen.where(*_conditions(wanted, s.mix_id, self._paints))
        # The cells to look into differ in number each time, and stand in the text as plain numbers:
        # a thousand bound ones take longer to bind than to look up.
        boxed = self._allowed.join_from(
            _cell,
            t.swatch,
            (_cell.c.lightness_step == t.LIGHTNESS_STEP)
            & (_cell.c.a_step == t.A_STEP)
            & s.b.between(_cell.c.b_low, _cell.c.b_high)
            & s.lightness.between(_cell.c.lightness_low, _cell.c.lightness_high)
            & s.a.between(_cell.c.a_low, _cell.c.a_high),
        )
        schemas = connection.get_execution_options().get("schema_translate_map")
        self._boxed = str(
            boxed.compile(
                dialect=connection.dialect,
                compile_kwargs={"literal_binds": True},
                schema_translate_map=schemas,
                render_schema_translate=schemas is not None,
            )
        )
        self._steps: list[tuple[float, float]] = []

    @cached_property
    def size(self) -> int:
        """The number of the last swatch; about how many there are."""
        return self._connection.execute(select(func.max(t.swatch.c.id))).scalar_one() or 0

    def inside(self, box: Box) -> Sequence[Candidate]:
        """(swatch id, mix id, L*, a*, b*) of the allowed swatches in a box."""
        box = Box(
            *(min(max(value, low), high) for value, (low, high) in zip(box, _ENDS, strict=True))
        )
        a_steps = _steps(box.a_low, box.a_high)
        return self._of_cells(
            (step, a_step, *box)
            for step in _steps(box.lightness_low, box.lightness_high)
            for a_step in a_steps
        )

    def within_pillars(self, pieces: Iterable[tuple[int, Box]]) -> Sequence[Candidate]:
        """The same of those in parts of pillars, each with the place of its pillar."""
        return self._of_cells((*self._steps[place], *box) for place, box in pieces)

    def _of_cells(self, cells: Iterable[tuple[float, ...]]) -> Sequence[Candidate]:
        rows = ",".join(f"({','.join(map(repr, cell))})" for cell in cells)
        if not rows:
            return ()
        names = ", ".join(_cell.c.keys())
        return self._rows(text(f"WITH cell({names}) AS (VALUES {rows}) {self._boxed}"))

    def all(self) -> Sequence[Candidate]:
        """The same of all that are allowed."""
        return self._rows(self._allowed)

    def few(self) -> Sequence[Candidate] | None:
        """The same of all that are allowed, where they are few; else None."""
        found = self._rows(self._allowed.limit(FEW + 1))
        return found if len(found) <= FEW else None

    def pillars(self) -> Sequence[Box]:
        """A box for each step of L* and of a* that there are swatches of, as deep as their b*."""
        swatch = t.swatch
        level = (
            select(func.min(t.LIGHTNESS_STEP).label("step"))
            .select_from(swatch)
            .cte("level", recursive=True)
        )
        above = (
            select(func.min(t.LIGHTNESS_STEP))
            .select_from(swatch)
            .where(level.c.step < t.LIGHTNESS_STEP)
        )
        level = level.union_all(select(above.scalar_subquery()).where(level.c.step.is_not(None)))
        beside = (
            select(func.min(t.A_STEP)).select_from(swatch).where(level.c.step == t.LIGHTNESS_STEP)
        )
        pillar = (
            select(level.c.step.label("lightness"), beside.scalar_subquery().label("a"))
            .where(level.c.step.is_not(None))
            .cte("pillar", recursive=True)
        )
        of_pillar = pillar.c.lightness == t.LIGHTNESS_STEP
        after = (
            select(func.min(t.A_STEP)).select_from(swatch).where(of_pillar, pillar.c.a < t.A_STEP)
        )
        pillar = pillar.union_all(
            select(pillar.c.lightness, after.scalar_subquery()).where(pillar.c.a.is_not(None))
        )
        here = pillar.c.lightness == t.LIGHTNESS_STEP, pillar.c.a == t.A_STEP
        low = select(func.min(swatch.c.b)).where(*here).scalar_subquery()
        high = select(func.max(swatch.c.b)).where(*here).scalar_subquery()
        rows = self._connection.execute(
            select(pillar.c.lightness, pillar.c.a, low, high).where(pillar.c.a.is_not(None))
        )
        found = [tuple(row) for row in rows]
        self._steps = [(lightness, a) for lightness, a, _, _ in found]
        half = t.STEP / 2.0 + 1e-9
        return [
            Box(
                lightness * t.STEP - half, lightness * t.STEP + half,
                a * t.STEP - half, a * t.STEP + half,
                b_low, b_high,
            )
            for lightness, a, b_low, b_high in found
        ]  # fmt: skip

    def _rows(self, statement: Select[Any] | TextClause) -> list[Candidate]:
        # Plain tuples from the driver: making Rows of them would take longer than finding them.
        with self._connection.execute(statement) as result:
            return list(result.cursor.fetchall())


def _steps(low: float, high: float) -> range:
    """The steps that values between two may be rounded to, whichever way a half is rounded."""
    low, high = low / t.STEP, high / t.STEP
    return range(math.ceil(low - 0.5 - 1e-9), math.floor(high + 0.5 + 1e-9) + 1)


def _conditions(
    wanted: SwatchFilter, mix_id: ColumnElement[int], paints: Sequence[int]
) -> list[ColumnElement[bool]]:
    s = t.swatch.c
    conditions = list(_of_paints(wanted, mix_id, paints))
    if wanted.dry_only:
        conditions.append(s.state == State.DRY)
    if wanted.paper_id is not None:
        conditions.append(s.paper_id + 0 == wanted.paper_id)
    if wanted.not_swatch is not None:
        conditions.append(s.id != wanted.not_swatch)
    return [*conditions, KEPT]


def _of_paints(
    wanted: SwatchFilter, mix_id: ColumnElement[int], paints: Sequence[int]
) -> Iterator[ColumnElement[bool]]:
    """By the marks of a swatch; by the paints of its mix only where a bit may be of another paint.

    Args:
        wanted: what is asked of the paints.
        mix_id: the mix of a swatch.
        paints: the ids of all paints.
    """
    part = t.mix_component.alias("part")
    of_mix: Select[Any] = (
        select(literal_column("1")).select_from(part).where(part.c.mix_id == mix_id)
    )
    barred = marks_of(wanted.barred_paints)
    allowed = marks_of(paint for paint in paints if paint not in wanted.barred_paints)
    yield from have_none(barred & ~allowed)
    if barred & allowed:
        shared = [p for p in sorted(wanted.barred_paints) if marks_of((p,)) & allowed]
        # The sum keeps SQLite from looking for each barred paint in the index of a mix's paints,
        # where it is quicker to look at the two or three that the mix has.
        holds = part.c.paint_id + 0
        yield or_(
            and_(*have_none(barred & allowed)),
            ~of_mix.where(holds.in_(shared)).exists(),
        )
    yield from have_all(marks_of(wanted.required_paints))
    for paint in sorted(wanted.required_paints):
        if any(other != paint and marks_of((other,)) == marks_of((paint,)) for other in paints):
            yield of_mix.where(part.c.paint_id == paint).exists()

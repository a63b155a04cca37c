"""Plan a painting for a class: without what stays at home, for so many students."""

import math
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from typing import Final

from studio.actions.advise_care import document_of
from studio.actions.match_colour import Wanted
from studio.actions.paint_model import PaintModel
from studio.actions.painting.candidates import NEAR
from studio.actions.painting.class_plan import (
    ClassPlan,
    LeftHome,
    PaperSupply,
    Simpler,
    SmallParts,
    Supply,
)
from studio.actions.painting.plan import Plan
from studio.actions.painting.plan_painting import open_search, planned
from studio.actions.painting.shopping import shopping_for
from studio.actions.painting.substitutes import substitutes_for
from studio.actions.painting.weigh import Search
from studio.catalogue.care import Work
from studio.catalogue.care_points import care_of
from studio.catalogue.paint import Paint, Status
from studio.catalogue.painting import Painting
from studio.catalogue.paper import Paper
from studio.catalogue.stock import Unit
from studio.catalogue.swatch import Application
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork

RESERVE: Final = 0.25
"""Share added for strips and mishaps (common practice, no source)."""
SMALL_PARTS: Final = 4
"""Parts of paint in a child's well at most: what is counted out without losing count (common
practice, no source). Two paints then stand 1:1, 1:2 or 1:3, three 1:1:1 or 2:1:1."""
_PLANNING: Final = 0.6
"""Share of the search that the plans take; the rest looks for substitutes."""
_ROUNDING: Final = 1e-9


def plan_class(  # noqa: PLR0913 - who paints what, from what, and who is told
    work: UnitOfWork,
    model: PaintModel,
    painting: Painting,
    wanted: Wanted,
    *,
    students: int,
    kind: Work,
    today: date,
    tell: Callable[[float], None] | None = None,
) -> ClassPlan:
    """What a class needs to paint a painting.

    What is on record of its pigments keeps a paint out of such a class as in `advise_class`; the
    painting is then planned anew without it. Children get wells of `SMALL_PARTS` at most, of
    recorded mixes wherever one is near.

    Args:
        work: the studio.
        model: its paints.
        painting: what is painted.
        wanted: what may be mixed.
        students: how many.
        kind: a class of adults or of children.
        today: the day that data sheets and stock are looked at.
        tell: is told from time to time which share of the search is done.

    Raises:
        BadInput: the painting has no colours, or no paint passes or may come along.
    """

    def part(begin: float, end: float) -> Callable[[float], None]:
        def told(share: float) -> None:
            if tell is not None:
                tell(begin + (end - begin) * share)

        return told

    own = planned(open_search(work, model, painting, wanted), part(0.0, _PLANNING / 2))[0]
    barred = _barred(work, kind)
    search = _without(work, model, painting, wanted, barred)
    middle = _PLANNING * (0.75 if kind is Work.CHILDREN else 1.0)
    plan, weighed = planned(search, part(_PLANNING / 2, middle))
    small = None
    if kind is Work.CHILDREN:
        free, search = plan, open_search(work, model, painting, search.wanted, SMALL_PARTS)
        plan, weighed = planned(search, part(middle, _PLANNING))
        small = _small_parts(free, plan)
    supplies = tuple(_supply(need.paint, need.ml, students) for need in plan.palette)
    paper = paper_supply(painting, plan.paper, students)
    needed = {each.paint.facts.code: each.all_ml for each in supplies}
    needed[plan.paper.facts.code] = paper.needed
    spattered = [each for each in painting.passages if each.technique is Application.SPATTER]
    return ClassPlan(
        plan=plan,
        students=students,
        kind=kind,
        reserve=RESERVE,
        left_home=_left_home(own, plan, barred, kind),
        supplies=supplies,
        paper=paper,
        shopping=shopping_for(work, plan, today, more=needed),
        substitutes=substitutes_for(search, plan, weighed, part(_PLANNING, 1.0)),
        care=care_of(plan.paints, kind),
        documents=tuple(document_of(paint, today) for paint in plan.paints),
        no_spatter=tuple(spattered) if kind is Work.CHILDREN else (),
        small=small,
        never=tuple(
            p for p in work.paints.all() if p.never_use and p.facts.status is Status.IN_USE
        ),
    )


def _small_parts(free: Plan, plan: Plan) -> SmallParts:
    """What a plan in small parts costs beside one of the same paints in any."""
    near = max(plan.painting.tolerance, NEAR)
    colours = (
        Simpler(each, before.delta_e)
        for before, each in zip(free.colours, plan.colours, strict=True)
        if before.mix is not None and before.delta_e is not None
    )
    return SmallParts(SMALL_PARTS, near, tuple(colours))


def _barred(work: UnitOfWork, kind: Work) -> tuple[Paint, ...]:
    """The paints that stay at home, by caution or until label and data sheet are read."""
    return tuple(paint for paint in work.paints.all() if care_of([paint], kind).avoid)


def _without(
    work: UnitOfWork,
    model: PaintModel,
    painting: Painting,
    wanted: Wanted,
    barred: tuple[Paint, ...],
) -> Search:
    allowed = replace(wanted, without=[*wanted.without, *barred])
    try:
        return open_search(work, model, painting, allowed)
    except BadInput:
        msg = (
            "no paint in use may come to this class, by a caution on record or because label and "
            "data sheet are not read; studio care --class adults, or children, tells what to do"
        )
        raise BadInput(msg) from None


def _left_home(
    own: Plan, plan: Plan, barred: tuple[Paint, ...], kind: Work
) -> tuple[LeftHome, ...]:
    left = []
    for paint in own.paints:
        if paint in barred:
            colours = (
                anew
                for before, anew in zip(own.colours, plan.colours, strict=True)
                if before.chosen is not None and paint.id in before.chosen.paints
            )
            left.append(LeftHome(paint, care_of([paint], kind), tuple(colours)))
    return tuple(left)


def _supply(paint: Paint, each_ml: float, students: int) -> Supply:
    all_ml = each_ml * students * (1.0 + RESERVE)
    size = paint.facts.volume_ml
    return Supply(
        paint, each_ml, all_ml, None if not size else math.ceil(all_ml / size - _ROUNDING)
    )


def paper_supply(painting: Painting, paper: Paper, students: int) -> PaperSupply:
    """The paper that so many students need, each a piece of the size of the painting.

    A sheet is cut into pieces that all lie one way; strips for tests come from what is left of it.
    Of a roll, pieces are cut one after the other by their shorter side.

    Args:
        painting: what is painted.
        paper: on what.
        students: how many.
    """
    pieces = math.ceil(students * (1.0 + RESERVE) - _ROUNDING)
    short, long = sorted((painting.width_mm, painting.height_mm))
    if paper.stock.unit is Unit.MM:
        return PaperSupply(pieces, None, pieces * short)
    sides = paper.facts.sheet_width_mm, paper.facts.sheet_height_mm
    if sides[0] is None or sides[1] is None:
        return PaperSupply(pieces, None, float(pieces))
    width, height = sides[0], sides[1]
    each = max(
        int((width + _ROUNDING) // across) * int((height + _ROUNDING) // down)
        for across, down in ((short, long), (long, short))
    )
    return PaperSupply(pieces, each, float(math.ceil(pieces / each) if each else pieces))

"""What to take where a paint of a plan is missing, by the same search that made the plan."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from studio.actions.painting.palette import Option, fewest_paints
from studio.actions.painting.plan import Candidate, Plan
from studio.actions.painting.weigh import Search, Weighed
from studio.catalogue.paint import Paint


@dataclass(frozen=True, slots=True)
class Instead:
    """What a colour is mixed from where a paint is missing."""

    weighed: Weighed
    candidate: Candidate


@dataclass(frozen=True, slots=True)
class Substitute:
    """How the colours of a plan are made without one of its paints.

    Args:
        paint: the paint that is missing.
        more: the paints to bring for it; none where the others of the palette do.
        mixes: what each of its colours is then mixed from.
        lost: its colours that nothing makes within tolerance without it.
    """

    paint: Paint
    more: tuple[Paint, ...]
    mixes: tuple[Instead, ...]
    lost: tuple[Weighed, ...]


def substitutes_for(
    search: Search,
    plan: Plan,
    weighed: Sequence[Weighed],
    tell: Callable[[float], None] | None = None,
) -> tuple[Substitute, ...]:
    """For each paint of a palette the fewest others that make its colours within tolerance.

    Of as many paints those whose mixes come nearest are named.

    Args:
        search: where the plan was looked for.
        plan: the plan.
        weighed: what was weighed for each colour of it, in its order.
        tell: is told from time to time which share is done.
    """
    found = []
    for done, paint in enumerate(plan.paints):
        if tell is not None:
            tell(done / len(plan.paints))
        found.append(_substitute(search, plan, weighed, paint))
    return tuple(found)


def _substitute(search: Search, plan: Plan, weighed: Sequence[Weighed], paint: Paint) -> Substitute:
    rest = frozenset(each.id for each in plan.paints) - {paint.id}
    made: list[tuple[Weighed, list[Candidate]]] = []
    lost = []
    for planned, each in zip(plan.colours, weighed, strict=True):
        if planned.chosen is None or paint.id not in planned.chosen.paints:
            continue
        others = [one for one in each.candidates if paint.id not in one.paints]
        if not any(one.paints <= rest for one in others):
            without = search.weigh(
                each.passage, each.number, each.colour, without=frozenset({paint.id})
            )
            others += without.candidates
        if others:
            made.append((each, others))
        else:
            lost.append(each)
    options = [
        [Option(one.paints - rest, one.expected, one.well) for one in others] for _, others in made
    ]
    choice = fewest_paints(options)
    return Substitute(
        paint,
        tuple(search.work.paints.by_id(key) for key in sorted(choice.paints)),
        tuple(
            Instead(each, others[place])
            for (each, others), place in zip(made, choice.options, strict=True)
        ),
        tuple(lost),
    )

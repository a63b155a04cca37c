"""The fewest paints that make every colour, by integer programs that HiGHS solves.

Choosing sets of paints so that every colour has a mix whose paints are all chosen is a set cover
with alternatives, so it is NP-hard; a painting's is small. Two programs run one after the other:
the first finds the least number of paints, the second, among all choices that need no more, the one
with the least expected ΔE00 and the fewest wells. Both weigh every candidate at once, so no choice
for one colour bars a better one for another.
"""

from collections import defaultdict
from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

from studio.actions.reach import JUST_SEEN

WORTH: Final = JUST_SEEN
"""ΔE00, summed over the colours, that a well saved among colours alike may cost."""
SECONDS: Final = 10.0
"""How long each program may take; none of a painting of usual size comes near it."""

_HALF: Final = 0.5
"""What a whole number between 0 and 1 is told by."""

_Rows = list[tuple[dict[int, float], float, float]]
"""Constraints: weight of each variable, lower bound, upper bound."""


@dataclass(frozen=True, slots=True)
class Option:
    """A way to make a colour.

    Args:
        paints: ids of the paints it takes.
        cost: the ΔE00 to expect.
        well: what it shares with an option of another colour that comes from the same well.
    """

    paints: frozenset[int]
    cost: float
    well: Hashable


@dataclass(frozen=True, slots=True)
class Choice:
    """What was chosen.

    Args:
        options: for each colour, the place of its option.
        paints: ids of all the paints that these take.
        proven: whether no choice takes fewer paints.
    """

    options: tuple[int, ...]
    paints: frozenset[int]
    proven: bool


def fewest_paints(
    colours: Sequence[Sequence[Option]], alike: Sequence[int] = (), seconds: float = SECONDS
) -> Choice:
    """One option for each colour, so that all together take the fewest paints.

    Of the choices with the fewest paints the one with the least sum of costs is taken, where each
    well that colours alike share may cost `WORTH`.

    Args:
        colours: the options of each colour, at least one.
        alike: a number for each colour; colours of one number hardly differ. Empty: none do.
        seconds: how long each of two programs may take.
    """
    if not colours:
        return Choice((), frozenset(), proven=True)
    groups = list(alike) or list(range(len(colours)))
    palette, proven = _smallest_palette(colours, seconds)
    chosen = _least_cost(colours, groups, len(palette), seconds) or _cheapest(colours, palette)
    return Choice(tuple(chosen), _paints(colours, chosen), proven)


def _cheapest(colours: Sequence[Sequence[Option]], palette: frozenset[int]) -> list[int]:
    """The option of least cost for each colour that takes paints of a palette alone."""
    return [
        min(
            (at for at, option in enumerate(each) if option.paints <= palette),
            key=lambda at: each[at].cost,
        )
        for each in colours
    ]


def _paints(colours: Sequence[Sequence[Option]], chosen: Sequence[int]) -> frozenset[int]:
    options = (each[at] for each, at in zip(colours, chosen, strict=True))
    return frozenset().union(*(option.paints for option in options))


def _smallest_palette(
    colours: Sequence[Sequence[Option]], seconds: float
) -> tuple[frozenset[int], bool]:
    """The fewest paints that make every colour, and whether they are proven to be.

    Where the time ends before any were found, every paint is taken and nothing is proven.
    """
    # Which sets of paints make a colour is all that counts here, and no set that holds another.
    families = dict.fromkeys(frozenset(_smallest(each)) for each in colours)
    paints = {paint: at for at, paint in enumerate(_paint_ids(colours))}
    rows: _Rows = []
    size = len(paints)
    for family in families:
        takes: dict[int, dict[int, float]] = defaultdict(dict)
        own = {}
        for paints_of in sorted(family, key=sorted):
            own[size] = 1.0
            for paint in paints_of:
                takes[paint][size] = 1.0
            size += 1
        rows.append((own, 1.0, np.inf))
        rows += _only_with(takes, paints)
    costs = np.zeros(size)
    costs[: len(paints)] = 1.0
    # With the paints whole, fractions of sets would only share out what whole sets do.
    whole = np.zeros(size)
    whole[: len(paints)] = 1.0
    found, proven = _solved(costs, rows, whole, seconds)
    if found is None:
        return frozenset(paints), False
    return frozenset(paint for paint, at in paints.items() if found[at] > _HALF), proven


def _least_cost(
    colours: Sequence[Sequence[Option]], groups: Sequence[int], number: int, seconds: float
) -> list[int] | None:
    """The options of least cost that take no more than a number of paints; None out of time."""
    kept = _undominated(colours, groups)
    paints = {paint: at for at, paint in enumerate(_paint_ids(colours))}
    shared = _shared_wells(colours, groups)
    wells = {each: len(paints) + at for at, each in enumerate(shared)}
    size = len(paints) + len(wells)
    costs = [0.0] * len(paints) + [WORTH] * len(wells)
    rows: _Rows = [(dict.fromkeys(range(len(paints)), 1.0), 0.0, float(number))]
    places = []
    for options, group, ats in zip(colours, groups, kept, strict=True):
        takes: dict[int, dict[int, float]] = defaultdict(dict)
        draws: dict[int, dict[int, float]] = defaultdict(dict)
        own = {}
        for at in ats:
            option = options[at]
            well = wells.get((group, option.well))
            costs.append(option.cost + (WORTH if well is None else 0.0))
            own[size] = 1.0
            for paint in option.paints:
                takes[paint][size] = 1.0
            if well is not None:
                draws[well][size] = 1.0
            places.append(at)
            size += 1
        rows.append((own, 1.0, 1.0))
        rows += _only_with(takes, paints)
        rows += [({**of, well: -1.0}, -np.inf, 0.0) for well, of in draws.items()]
    found, _ = _solved(np.array(costs), rows, np.ones(size), seconds)
    if found is None:
        return None
    first, chosen = len(paints) + len(wells), []
    for ats in kept:
        own_part = found[first : first + len(ats)]
        chosen.append(ats[int(np.argmax(own_part))])
        first += len(ats)
    return chosen


def _paint_ids(colours: Sequence[Sequence[Option]]) -> list[int]:
    return sorted(frozenset().union(*(option.paints for each in colours for option in each)))


def _only_with(takes: dict[int, dict[int, float]], paints: dict[int, int]) -> _Rows:
    """What takes a paint is chosen only where the paint is."""
    return [({**of, paints[paint]: -1.0}, -np.inf, 0.0) for paint, of in takes.items()]


def _smallest(options: Sequence[Option]) -> list[frozenset[int]]:
    """The sets of paints of a colour, without those that hold another of them."""
    kept: list[frozenset[int]] = []
    for paints in sorted({option.paints for option in options}, key=len):
        if not any(other <= paints for other in kept):
            kept.append(paints)
    return kept


def _shared_wells(
    colours: Sequence[Sequence[Option]], groups: Sequence[int]
) -> dict[tuple[int, Hashable], int]:
    """(group, well) that at least two colours of the group may draw from, with how many may."""
    draw: dict[tuple[int, Hashable], set[int]] = defaultdict(set)
    for number, (options, group) in enumerate(zip(colours, groups, strict=True)):
        for option in options:
            draw[group, option.well].add(number)
    return {each: len(of) for each, of in draw.items() if len(of) > 1}


def _undominated(colours: Sequence[Sequence[Option]], groups: Sequence[int]) -> list[list[int]]:
    """The places of the options worth weighing: none that another beats in paints and in cost.

    One whose well another colour of its group may draw from stays, for it may save that well.
    """
    shared = _shared_wells(colours, groups)
    every = []
    for options, group in zip(colours, groups, strict=True):
        kept: list[int] = []
        for at in sorted(range(len(options)), key=lambda at: (options[at].cost, at)):
            option = options[at]
            beaten = any(options[other].paints <= option.paints for other in kept)
            if not beaten or (group, option.well) in shared:
                kept.append(at)
        every.append(kept)
    return every


def _solved(
    costs: npt.NDArray[np.float64], rows: _Rows, whole: npt.NDArray[np.float64], seconds: float
) -> tuple[npt.NDArray[np.float64] | None, bool]:
    """The best values found between 0 and 1, and whether they are proven to be the best."""
    from scipy.optimize import Bounds, LinearConstraint, milp  # noqa: PLC0415 - heavy
    from scipy.sparse import csr_array  # noqa: PLC0415

    values = [value for weights, _, _ in rows for value in weights.values()]
    down = [at for at, (weights, _, _) in enumerate(rows) for _ in weights]
    across = [variable for weights, _, _ in rows for variable in weights]
    matrix = csr_array((values, (down, across)), shape=(len(rows), len(costs)))
    found = milp(
        costs,
        integrality=whole,
        bounds=Bounds(0.0, 1.0),
        constraints=LinearConstraint(
            matrix, [low for _, low, _ in rows], [high for *_, high in rows]
        ),
        options={"time_limit": seconds, "mip_rel_gap": 0.0},
    )
    return found.x, found.status == 0

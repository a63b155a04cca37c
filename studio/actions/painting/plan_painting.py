"""Plan a painting: a mix for each of its colours, of the fewest paints, and what it takes."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Final

from studio.actions.match_colour import Wanted, barred
from studio.actions.paint_model import PaintModel
from studio.actions.painting.assemble import plan_of
from studio.actions.painting.candidates import sure_enough
from studio.actions.painting.palette import SECONDS, Choice, Option, fewest_paints
from studio.actions.painting.plan import Basis, Candidate, Plan
from studio.actions.painting.weigh import Search, Weighed, weigh_colours
from studio.actions.reach import JUST_SEEN
from studio.catalogue.painting import Painting
from studio.colour.difference import ciede2000
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork

FEW: Final = 12
"""Paints of a palette up to which predictions from it alone are weighed as well."""
_BEFORE_CHOICE: Final = 0.8
"""Share of the search that is done when every colour was weighed."""


def plan_painting(  # noqa: PLR0913 - what is planned, from what, and who is told
    work: UnitOfWork,
    model: PaintModel,
    painting: Painting,
    wanted: Wanted,
    *,
    tell: Callable[[float], None] | None = None,
    seconds: float = SECONDS,
) -> Plan:
    """How to paint a painting from what the studio knows.

    Args:
        work: the studio.
        model: its paints.
        painting: what is planned; its tolerance decides what passes.
        wanted: what may be mixed; its paper counts for nothing, as the painting has one.
        tell: is told from time to time which share of the search is done.
        seconds: how long each of two programs that choose the palette may take.

    Raises:
        BadInput: the painting has no colours, or no paint passes.
    """
    search = open_search(work, model, painting, wanted)
    return planned(search, tell, seconds)[0]


def planned(
    search: Search, tell: Callable[[float], None] | None = None, seconds: float = SECONDS
) -> tuple[Plan, list[Weighed]]:
    """The plan of a search, with what was weighed for each colour."""

    def begun(share: float) -> None:
        if tell is not None:
            tell(_BEFORE_CHOICE * share)

    weighed = weigh_colours(search, begun)
    choice, weighed = choose(search, weighed, seconds)
    return plan_of(search, weighed, choice), weighed


def open_search(
    work: UnitOfWork,
    model: PaintModel,
    painting: Painting,
    wanted: Wanted,
    together: int | None = None,
) -> Search:
    """A search for the mixes of a painting, of so many parts of paint together at most.

    Raises:
        BadInput: the painting has no colours, or no paint passes.
    """
    if not painting.passages:
        msg = f"{painting.code} has no passage yet; add what you paint first to last, then plan it"
        raise BadInput(msg)
    if not any(passage.colours for passage in painting.passages):
        msg = f"no passage of {painting.code} has a colour yet; give each the colours it is to have"
        raise BadInput(msg)
    search = Search(work, model, painting, wanted, together)
    paints = work.paints.all()
    if not paints:
        msg = "no paint is on record yet; record one first with: studio paint add"
        raise BadInput(msg)
    if len(barred(paints, search.wanted)) == len(paints):
        msg = "no paint in use passes these filters; take one away"
        raise BadInput(msg)
    return search


def choose(
    search: Search, weighed: list[Weighed], seconds: float = SECONDS
) -> tuple[Choice, list[Weighed]]:
    """One candidate for each colour that has any, of the fewest paints; and all that were weighed.

    Where colours have to be predicted, the recipes that the palette found first gives for them are
    weighed too, as the best recipes of all paints seldom agree on a few.
    """
    choice = _chosen(weighed, seconds)
    guessed = [
        at
        for at, each in enumerate(weighed)
        if each.candidates and not any(one.basis is Basis.RECORDED for one in each.candidates)
    ]
    if guessed and 1 < len(choice.paints) <= FEW:
        more = list(weighed)
        for at in guessed:
            own = {one.well: one for one in weighed[at].candidates}
            for one in search.predicted_of(weighed[at], choice.paints):
                own.setdefault(one.well, one)
            kept = sure_enough(tuple(own.values()), search.painting.tolerance)
            more[at] = replace(weighed[at], candidates=kept)
        weighed = more
        choice = _chosen(weighed, seconds)
    return choice, weighed


def _chosen(weighed: Sequence[Weighed], seconds: float) -> Choice:
    some = [each for each in weighed if each.candidates]
    options = [[_option(one) for one in each.candidates] for each in some]
    return fewest_paints(options, _alike(some), seconds)


def _option(candidate: Candidate) -> Option:
    return Option(candidate.paints, candidate.expected, candidate.well)


def _alike(weighed: Sequence[Weighed]) -> list[int]:
    """A number for each colour; those of one number are all just seen apart, or less."""
    groups: list[list[int]] = []
    numbers = []
    for at, each in enumerate(weighed):
        own = each.colour.lab.coordinates
        for number, group in enumerate(groups):
            labs = (weighed[other].colour.lab.coordinates for other in group)
            if all(ciede2000(own, lab) <= JUST_SEEN for lab in labs):
                group.append(at)
                numbers.append(number)
                break
        else:
            groups.append([at])
            numbers.append(len(groups) - 1)
    return numbers

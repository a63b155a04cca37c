"""Find the past mixes nearest a target colour."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from studio.actions.fade_results import FadeResult, own_tests
from studio.actions.read_target import Target
from studio.catalogue.lightfastness import LightfastnessRating
from studio.catalogue.mix import Mix
from studio.catalogue.paint import Paint, worst_of
from studio.catalogue.paper import Paper
from studio.catalogue.swatch import Swatch
from studio.colour.difference import CIEDE2000, Metric, ciede2000
from studio.colour.nearest import Near, nearest
from studio.colour.words import Separation, separation
from studio.storage.search import SwatchFilter
from studio.storage.unit_of_work import UnitOfWork

if TYPE_CHECKING:
    from studio.actions.between_tints import TintsBetween
    from studio.actions.drying_shift import ExpectedDry
    from studio.colour.metamerism import UnderLight

ANOTHER_COLOUR = 5.0
"""Above this ΔE00 a painter sees another colour (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a match may answer with.

    Args:
        paper: only swatches on this paper.
        in_stock: only mixes all of whose paints are on the shelf.
        only: only mixes of these paints; empty for any.
        using: only mixes that hold all of these paints.
        without: no mix that holds one of these paints.
        lightfast: the worst category allowed, as a rank 1 to 5; unrated paints are left out.
        hazards: hazard classes that no paint may have, `any` for all; paints of which nobody knows
            are left out too.
        proposing: for what is proposed, not only shown: no paint that is never to be used.
        dry_only: only swatches that were read dry.
    """

    paper: Paper | None = None
    in_stock: bool = False
    only: Sequence[Paint] = ()
    using: Sequence[Paint] = ()
    without: Sequence[Paint] = ()
    lightfast: int | None = None
    hazards: frozenset[str] = field(default_factory=frozenset)
    dry_only: bool = True
    proposing: bool = False


@dataclass(frozen=True, slots=True)
class Ingredient:
    """A paint of a recipe with its parts."""

    paint: Paint
    parts: int


class OfPaints:
    """What follows from the paints of a recipe, recorded or predicted."""

    __slots__ = ()
    recipe: tuple[Ingredient, ...]

    @property
    def out_of_stock(self) -> tuple[Paint, ...]:
        """The paints of the recipe that are not on the shelf."""
        return tuple(part.paint for part in self.recipe if not part.paint.in_stock)

    @property
    def never_use(self) -> tuple[Paint, ...]:
        """The paints of the recipe that are never to be used."""
        return tuple(part.paint for part in self.recipe if part.paint.never_use)

    @property
    def worst_rating(self) -> LightfastnessRating | None:
        """The worst rating of its paints; None unless every paint has one."""
        ratings = [part.paint.worst_rating for part in self.recipe]
        return None if None in ratings else worst_of(ratings)


@dataclass(frozen=True, slots=True)
class Match(OfPaints):
    """A past mix and how near its swatch comes.

    Args:
        rank: 1 for the nearest.
        difference: by the metric of the search.
        swatch: the swatch that was compared.
        mix: its mix.
        recipe: paints and parts of the mix.
        paper: the paper of the swatch.
        separation: how the swatch looks beside the target.
        own_tests: the owner's fade tests of the mix and its paints that have been read.
        lights: how it stands to the target under the lights that were asked for; None where it has
            no spectrum.
    """

    rank: int
    difference: float
    swatch: Swatch
    mix: Mix
    recipe: tuple[Ingredient, ...]
    paper: Paper
    separation: Separation
    own_tests: tuple[FadeResult, ...] = ()
    lights: "tuple[UnderLight, ...] | None" = None


@dataclass(frozen=True, slots=True)
class MatchResult:
    """What a search found.

    Args:
        target: the wanted colour.
        metric: the difference that ranks.
        matches: nearest first.
        nearest: the nearest allowed swatch by CIEDE2000, however far; None when none is allowed.
        lights: the CIE illuminants that the matches were looked at under.
        drying: how the target follows from a wet patch; None where it was given dry.
        between: tints between recorded ones; None where they were not asked for.
    """

    target: Target
    metric: Metric
    matches: tuple[Match, ...]
    nearest: Match | None
    lights: tuple[str, ...] = ()
    drying: "ExpectedDry | None" = None
    between: "TintsBetween | None" = None

    @property
    def is_near(self) -> bool:
        """Whether anything allowed lies within ΔE00 5."""
        return self.nearest is not None and self.nearest_delta_e00 <= ANOTHER_COLOUR

    @property
    def nearest_delta_e00(self) -> float:
        """ΔE00 of the nearest allowed swatch, infinite when there is none."""
        if self.nearest is None:
            return math.inf
        return ciede2000(self.target.lab.coordinates, self.nearest.swatch.lab.coordinates)


def match_colour(  # noqa: PLR0913 - the options of a search
    work: UnitOfWork,
    target: Target,
    wanted: Wanted,
    *,
    metric: Metric = CIEDE2000,
    count: int = 10,
    within: float = math.inf,
    every_swatch: bool = False,
    lights: Sequence[str] = (),
    wet: bool = False,
) -> MatchResult:
    """The nearest past mixes to a target, each by its best swatch.

    Args:
        work: the studio.
        target: the wanted colour.
        wanted: what may be answered.
        metric: the difference that ranks.
        count: how many to return.
        within: leave out what differs by more.
        every_swatch: rank swatches, not mixes.
        lights: CIE illuminants to look at each match under, for a target with a spectrum.
        wet: the target is a wet test patch, and what it is expected to dry to is matched.

    Raises:
        BadInput: nothing is known of other lights or of drying.
    """
    drying = seen_under = None
    if wet:
        from studio.actions.drying_shift import expected_dry  # noqa: PLC0415

        drying = expected_dry(work, target, wanted.paper, wanted.using)
    if lights:
        from studio.actions.compare_swatches import lighting  # noqa: PLC0415

        seen_under = lighting(work, target, lights, wet=wet)
    target = drying.target if drying else target
    candidates = work.swatches.searched(
        allowed_swatches(work, target, wanted), each_its_own=every_swatch
    )
    reference = target.lab.coordinates

    def search(by: Metric, how_many: int, limit: float) -> list[Near]:
        return nearest(reference, candidates, by, how_many, within=limit)

    found = search(metric, count, within)
    first = found[:1] if metric is CIEDE2000 and found else search(CIEDE2000, 1, math.inf)
    swatches = work.swatches.by_ids(near.key for near in (*found, *first))
    mixes = work.mixes.by_ids({swatch.mix_id for swatch in swatches.values()})
    under = seen_under(swatches.values()) if seen_under else {}

    def match(rank: int, near: Near) -> Match:
        swatch = swatches[near.key]
        mix = mixes[swatch.mix_id]
        recipe = ingredients(work, mix)
        return Match(
            rank=rank,
            difference=near.difference,
            swatch=swatch,
            mix=mix,
            recipe=recipe,
            paper=work.papers.by_id(swatch.paper_id),
            separation=separation(reference, swatch.lab.coordinates),
            own_tests=own_tests(work, (part.paint for part in recipe), mix),
            lights=under.get(swatch.id),
        )

    matches = tuple(match(rank, near) for rank, near in enumerate(found, start=1))
    nearest_match = match(1, first[0]) if first else None
    return MatchResult(target, metric, matches, nearest_match, tuple(lights), drying)


def allowed_swatches(work: UnitOfWork, target: Target, wanted: Wanted) -> SwatchFilter:
    """Which swatches a search may answer with; never the one that is the target."""
    return SwatchFilter(
        paper_id=wanted.paper.id if wanted.paper else None,
        dry_only=wanted.dry_only,
        barred_paints=barred(work.paints.all(), wanted),
        required_paints=frozenset(paint.id for paint in wanted.using),
        not_swatch=target.swatch_id,
    )


def ingredients(work: UnitOfWork, mix: Mix) -> tuple[Ingredient, ...]:
    """The paints of a mix with their parts, in the order of its recipe."""
    return tuple(Ingredient(work.paints.by_id(key), parts) for key, parts in mix.recipe.parts)


def barred(paints: Sequence[Paint], wanted: Wanted) -> frozenset[int]:
    """The ids of those paints that no answer may hold, by everything that is wanted but `using`."""
    only = {paint.id for paint in wanted.only}
    without = {paint.id for paint in wanted.without}
    return frozenset(
        paint.id
        for paint in paints
        if (only and paint.id not in only)
        or paint.id in without
        or (wanted.in_stock and not paint.in_stock)
        or (wanted.lightfast is not None and not _lasts(paint, wanted.lightfast))
        or (wanted.hazards and _has(paint, wanted.hazards))
        or (wanted.proposing and paint.never_use)
    )


def _lasts(paint: Paint, rank: int) -> bool:
    return paint.worst_rating is not None and paint.worst_rating.rank <= rank


def _has(paint: Paint, classes: frozenset[str]) -> bool:
    if paint.unread or ("any" in classes and paint.hazards):
        return True
    return bool(classes & paint.hazard_classes)

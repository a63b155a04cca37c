"""The studio's colours as points: what was reached, and where a target lies among them."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from studio.actions.match_colour import Match, Wanted, allowed_swatches, match_colour
from studio.actions.reach import HUE_WINDOW, LIGHTNESS_WINDOW, Reach, reach_of
from studio.actions.read_target import Target
from studio.catalogue.paper import Paper
from studio.colour.difference import Triple
from studio.colour.lab import Lab
from studio.colour.outline import (
    chroma_by_hue,
    chroma_by_lightness,
    near_hue,
    near_lightness,
)
from studio.colour.words import NEUTRAL_CHROMA
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork


class Point(NamedTuple):
    """A dry swatch of the plane: its code and colour."""

    code: str
    lab: Lab


@dataclass(frozen=True, slots=True)
class ColourPlane:
    """The dry swatches that pass some filters.

    Args:
        points: in the order they were recorded.
        papers: the papers they are on, with how many on each.
        by_hue: the highest C*ab near each whole degree of h_ab; of those near the target's
            value, where there is a target.
        by_lightness: the highest C*ab near each whole L* from 0 to 100, 0 beyond the darkest and
            the lightest; of those near the target's hue, where there is a target that has one.
        target: the colour among them.
        nearest: the recorded mix nearest to it, by the filters.
        reach: the target against all the studio's records; None without a target.
    """

    points: tuple[Point, ...]
    papers: Mapping[int, tuple[Paper, int]]
    by_hue: tuple[float, ...]
    by_lightness: tuple[float, ...]
    target: Target | None = None
    nearest: Match | None = None
    reach: Reach | None = None

    def has_value(self, lab: Lab) -> bool:
        """Whether a colour is near the target's value; without a target every one is."""
        return self.target is None or bool(_of_value([lab.coordinates], self.target))

    def has_hue(self, lab: Lab) -> bool:
        """Whether a colour is near the target's hue; of a grey or without a target every one is."""
        return self.target is None or bool(_of_hue([lab.coordinates], self.target))


def colour_plane(work: UnitOfWork, wanted: Wanted, target: Target | None = None) -> ColourPlane:
    """The dry swatches that pass the filters, in their places.

    Args:
        work: the studio.
        wanted: which swatches; always dry ones.
        target: a colour to look for among them.

    Raises:
        BadInput: none passes.
    """
    anywhere = target or Target(Lab(50.0, 0.0, 0.0), "")
    allowed = allowed_swatches(work, Target(anywhere.lab, anywhere.given), wanted)
    found = sorted(work.swatches.searched(allowed, each_its_own=True).all())
    if not found:
        raise BadInput(_none(work))
    labels = work.swatches.labels()
    points = tuple(Point(labels[key].code, Lab(light, a, b)) for key, _, light, a, b in found)
    counts: dict[int, int] = {}
    for key, *_ in found:
        paper_id = labels[key].paper_id
        counts[paper_id] = counts.get(paper_id, 0) + 1
    papers = {key: (work.papers.by_id(key), count) for key, count in counts.items()}
    triples = [point.lab.coordinates for point in points]
    of_value = _of_value(triples, target) if target else triples
    of_hue = _of_hue(triples, target) if target else triples
    by_hue = chroma_by_hue(of_value, int(HUE_WINDOW))
    by_lightness = _within(of_hue, chroma_by_lightness(of_hue, int(LIGHTNESS_WINDOW)))
    if target is None:
        return ColourPlane(points, papers, by_hue, by_lightness)
    near = match_colour(work, target, wanted, count=1).nearest
    (reach,) = reach_of(work, [target.lab])
    return ColourPlane(points, papers, by_hue, by_lightness, target, near, reach)


def _of_value(labs: list[Triple], target: Target) -> list[Triple]:
    return near_lightness(labs, target.lab.lightness, LIGHTNESS_WINDOW)


def _of_hue(labs: list[Triple], target: Target) -> list[Triple]:
    if target.lab.chroma < NEUTRAL_CHROMA:
        return labs
    return near_hue(labs, target.lab.hue, HUE_WINDOW)


def _within(labs: list[Triple], chroma: tuple[float, ...]) -> tuple[float, ...]:
    """Nothing below the darkest of some colours and above the lightest."""
    lightness = [lab[0] for lab in labs]
    low, high = min(lightness, default=101.0), max(lightness, default=-1.0)
    return tuple(
        each if math.floor(low) <= step <= math.ceil(high) else 0.0
        for step, each in enumerate(chroma)
    )


def _none(work: UnitOfWork) -> str:
    if work.swatches.count_dry() == 0:
        return "no dry swatch is on record yet; log one with: studio swatch log"
    return "no dry swatch passes these filters; take one away"

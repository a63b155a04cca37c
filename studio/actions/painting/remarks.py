"""What a plan remarks on: distance, order, glazes, lifting, and how its mixes were judged.

Every remark is one sentence about common practice; a painter may well mean it so.
"""

import math
from collections.abc import Sequence
from typing import Final

from studio.actions.painting.plan import Basis, PlannedColour
from studio.catalogue.paint import Degree, Transparency
from studio.catalogue.painting import Passage
from studio.catalogue.painting_rules import is_on_paper
from studio.catalogue.swatch import Application
from studio.colour.lab import Lab

PRACTICE: Final = "common practice, no source"
STEP: Final = 10.0
"""L* of one step of Munsell value, and as much in chroma and warmth: less is no matter of plan."""
MUCH: Final = 1.5 * STEP
"""From this L* on a wash that was laid before shows through a lighter one."""
WARMEST: Final = 60.0
"""The hue angle h_ab, degrees, of an orange: warmth is what of a colour lies towards it."""
_AGAINST: Final = 2
"""Of value, chroma and warmth, how many have to speak against distance."""

Main = tuple[int, Passage, Lab]
"""A passage with its number and its main colour."""


def remarks_on(passages: Sequence[Passage], colours: Sequence[PlannedColour]) -> list[str]:
    """The remarks on a plan, a sentence each.

    Args:
        passages: in working order, those without a colour as well.
        colours: what was planned.
    """
    numbered = list(enumerate(passages, start=1))
    mains = [(number, each, each.colours[0].lab) for number, each in numbered if each.colours]
    bare = [f"{number} {each.name}" for number, each in numbered if not each.colours]
    found = []
    if bare:
        found.append(f"Without a colour, and left out: {_listed(bare)}.")
    found += _distance(mains)
    found += _light_to_dark(mains)
    for number, each in numbered:
        found += _over(number, each, passages)
    for planned in colours:
        found += _below_a_lifted(planned, colours)
        found += _as_judged(planned)
    return list(dict.fromkeys(found))


def warmth(lab: Lab) -> float:
    """How much of a colour lies towards orange; below 0 it is cool."""
    angle = math.radians(WARMEST)
    return lab.a * math.cos(angle) + lab.b * math.sin(angle)


def _distance(mains: Sequence[Main]) -> list[str]:
    """Passages that stand out against those in front of them, taken from back to front.

    Each on bare paper is held against the mean of those after it; one is named where two of value,
    chroma and warmth are against distance by a step, since any one alone is a matter of motif.
    """
    ground = [each for each in mains if is_on_paper(each[1])]
    against = []
    for at, (number, passage, lab) in enumerate(ground[:-1]):
        front = [other for *_, other in ground[at + 1 :]]
        count = len(front)
        apart = {
            "darker": sum(other.lightness for other in front) / count - lab.lightness,
            "more intense": lab.chroma - sum(other.chroma for other in front) / count,
            "warmer": warmth(lab) - sum(map(warmth, front)) / count,
        }
        words = [word for word, step in apart.items() if step > STEP]
        if len(words) >= _AGAINST:
            against.append(f"{number} {passage.name} is {' and '.join(words)}")
    if not against:
        return []
    said = f"Compared with what lies in front, {_listed(against)}"
    return [f"{said}; distance is usually lighter, cooler and duller ({PRACTICE})."]


def _light_to_dark(mains: Sequence[Main]) -> list[str]:
    """Passages on bare paper that are laid after a much darker one; where they touch, it shows."""
    ground = [each for each in mains if is_on_paper(each[1])]
    late = []
    for at, (number, passage, lab) in enumerate(ground):
        before = min(ground[:at], key=lambda each: each[2].lightness, default=None)
        if before is not None and lab.lightness - before[2].lightness > MUCH:
            late.append(f"{number} {passage.name} (after {before[0]} {before[1].name})")
    if not late:
        return []
    said = f"Lighter and yet later: {_listed(late)}"
    return [f"{said}; where they touch, the lighter is usually laid first ({PRACTICE})."]


def _over(number: int, passage: Passage, passages: Sequence[Passage]) -> list[str]:
    """What a passage that goes over another has to be watched for."""
    if passage.over is None:
        return []
    places = {each.id: at for at, each in enumerate(passages, start=1)}
    below = places.get(passage.over)
    if below is None or below == number:
        return []
    name, under = f"{number} {passage.name}", passages[below - 1]
    verb = "is lifted from" if passage.technique is Application.LIFTED else "goes over"
    if below > number:
        return [f"{name} {verb} {below} {under.name}, which comes after it: change the order."]
    found = []
    dry = any(each.dry_before_next for each in passages[below - 1 : number - 1])
    if not dry and passage.technique in {Application.GLAZE, Application.DRY_BRUSH}:
        found.append(f"{name} {verb} {below} {under.name}, which has no time to dry before it.")
    if passage.technique is Application.LIFTED or not (passage.colours and under.colours):
        return found
    if passage.colours[0].lab.lightness - under.colours[0].lab.lightness > STEP:
        found.append(
            f"{name} is lighter than {below} {under.name}, which it goes over: a transparent wash "
            f"only darkens ({PRACTICE})."
        )
    return found


def _below_a_lifted(planned: PlannedColour, colours: Sequence[PlannedColour]) -> list[str]:
    """The staining paints that something is to be lifted from."""
    if planned.passage.technique is not Application.LIFTED or planned.passage.over is None:
        return []
    below = [each for each in colours if each.passage.id == planned.passage.over and each.mix]
    paints = {part.paint for each in below if each.mix for part in each.mix.recipe}
    name = f"{planned.number} {planned.passage.name}"
    stains = [p.facts.name for p in paints if p.facts.staining in {Degree.MEDIUM, Degree.HIGH}]
    unknown = [p.facts.name for p in paints if p.facts.staining is None]
    found = []
    if stains:
        found.append(f"{name} is lifted from staining paint: {_listed(sorted(stains))}.")
    if unknown:
        found.append(
            f"{name}: how strongly {_listed(sorted(unknown))} stains is not on record; try "
            "first whether it lifts."
        )
    return found


def _as_judged(planned: PlannedColour) -> list[str]:
    """Where a mix was judged otherwise than it is to be laid."""
    chosen, passage = planned.chosen, planned.passage
    if chosen is None or planned.mix is None:
        return []
    name, letter = f"{planned.number} {passage.name}", planned.mix.letter
    found = []
    if chosen.layers != passage.layers and passage.technique is not Application.LIFTED:
        found.append(
            f"{name} has {_layers(passage.layers)}, but {letter} was judged at "
            f"{_layers(chosen.layers)}: lay as many, or test it first."
        )
    if passage.technique is Application.GLAZE:
        if chosen.basis is not Basis.RECORDED or not chosen.is_try:
            found.append(
                f"{name} is a glaze, but {letter} was not judged over what lies below it: test it "
                "there."
            )
        opaque = [
            part.paint.facts.name
            for part in chosen.recipe
            if part.paint.facts.transparency in {Transparency.SEMI_OPAQUE, Transparency.OPAQUE}
        ]
        if opaque:
            found.append(f"{name} is a glaze of paint that covers: {_listed(opaque)}.")
    return found


def _layers(count: int) -> str:
    return "1 layer" if count == 1 else f"{count} layers"


def _listed(words: Sequence[str]) -> str:
    """Words one after the other; of many the first few."""
    few = 4
    if len(words) > few:
        return f"{', '.join(words[:few])} and {len(words) - few} more"
    return ", ".join(words)

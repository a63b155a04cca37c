"""A recipe that no one has laid yet, with all that is said of it."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from studio.actions.fade_results import FadeResult, own_tests
from studio.actions.match_colour import Ingredient, OfPaints
from studio.catalogue.mix import Mix
from studio.catalogue.paint import Paint
from studio.catalogue.paper import Paper
from studio.catalogue.recipe import Recipe
from studio.colour.difference import ciede2000
from studio.colour.lab import Lab
from studio.colour.metamerism import UnderLight
from studio.colour.words import Separation, separation
from studio.mixing.settings import is_too_uncertain
from studio.storage.unit_of_work import UnitOfWork

if TYPE_CHECKING:
    from studio.mixing.characterisation import Characterisation
    from studio.mixing.proposal import Proposal
    from studio.mixing.ranges import FloatArray


@dataclass(frozen=True, slots=True)
class Rest:
    """What is known of a paint in a recipe.

    Args:
        paint: the paint.
        alone: swatches of it alone.
        mixed: swatches of mixes that it is in.
        estimated: how many of these have a spectrum estimated from Lab.
    """

    paint: Paint
    alone: int
    mixed: int
    estimated: int


@dataclass(frozen=True, slots=True)
class LightShift:
    """How a colour itself changes under another light, each seen in its own white.

    Args:
        light: the CIE illuminant.
        delta_e: ΔE00 between the colour under D50 and under it.
        separation: how it looks there beside itself under D50.
    """

    light: str
    delta_e: float
    separation: Separation


@dataclass(frozen=True, slots=True)
class ProposedMix(OfPaints):
    """A predicted recipe.

    Args:
        rank: 1 for the best.
        recipe: paints and whole parts, most first.
        water: parts of water to one of paint.
        lab: predicted colour, D50/2°.
        delta_e: ΔE00 of the predicted colour from the target.
        expected_error: the ΔE00 that about 68 % of such predictions stay within.
        separation: how the predicted colour looks beside the target.
        rests: what it rests on, in the order of the recipe.
        strangers: pairs of its paints that were never mixed with each other.
        mix: the recorded mix of this recipe, laid with other water or on other paper.
        own_tests: the owner's fade tests of its paints and of the mix.
        spectral_error: root mean square difference in reflectance from the target, 0 to 1; None
            where the target has no spectrum.
        lights: how it stands to the target under other lights; None where that has no spectrum.
        shifts: how its own colour changes under other lights.
    """

    rank: int
    recipe: tuple[Ingredient, ...]
    water: Fraction
    lab: Lab
    delta_e: float
    expected_error: float
    separation: Separation
    rests: tuple[Rest, ...]
    strangers: tuple[tuple[Paint, Paint], ...]
    mix: Mix | None
    own_tests: tuple[FadeResult, ...]
    spectral_error: float | None = None
    lights: tuple[UnderLight, ...] | None = None
    shifts: tuple[LightShift, ...] = ()

    @property
    def is_too_uncertain(self) -> bool:
        """Whether it is no ground to act on."""
        return is_too_uncertain(self.expected_error)


@dataclass(frozen=True, slots=True)
class LayFirst:
    """The test patch that would tell most of recipes that are too uncertain.

    Args:
        recipe: its paints and parts.
        water: parts of water to one of paint.
        paper: what it is laid on; None where no paper is on record.
        before: mean expected error of those recipes as things are, ΔE00.
        after: the same once the patch is read, as far as it can be told beforehand.
    """

    recipe: tuple[Ingredient, ...]
    water: float
    paper: Paper | None
    before: float
    after: float


def lay_first(
    work: UnitOfWork,
    known: "Characterisation",
    doubtful: "Sequence[Proposal]",
    paper: Paper | None,
    ground: "FloatArray",
) -> LayFirst | None:
    """The test patch that would tell most of recipes that are too uncertain; None without any.

    Args:
        work: the studio.
        known: its paints.
        doubtful: the recipes.
        paper: what they are laid on.
        ground: its reflectance, (wavelengths,).
    """
    if not doubtful:
        return None
    import numpy as np  # noqa: PLC0415 - as below

    from studio.mixing.improve import most_telling  # noqa: PLC0415 - numpy
    from studio.mixing.predict import recipes_of  # noqa: PLC0415

    shares = recipes_of(known, [{key: float(n) for key, n in each.parts} for each in doubtful])
    waters = np.array([float(each.water) for each in doubtful])
    found = most_telling(known, shares, waters, ground, doubtful[0].layers)
    recipe = tuple(Ingredient(work.paints.by_id(key), int(parts)) for key, parts in found.parts)
    return LayFirst(recipe, found.water, paper, found.before, found.after)


def proposed_mix(
    work: UnitOfWork, known: "Characterisation", target: Lab, proposal: "Proposal", rank: int
) -> ProposedMix:
    """A predicted recipe with all that is said of it, under D50 alone."""
    recipe = tuple(Ingredient(work.paints.by_id(key), parts) for key, parts in proposal.parts)
    paints = [part.paint for part in recipe]
    lab = Lab(*proposal.lab)
    mix = work.mixes.with_recipe(Recipe(proposal.parts))
    return ProposedMix(
        rank=rank,
        recipe=recipe,
        water=proposal.water,
        lab=lab,
        delta_e=ciede2000(target.coordinates, lab.coordinates),
        expected_error=proposal.expected,
        separation=separation(target.coordinates, lab.coordinates),
        rests=tuple(_rest(known, paint) for paint in paints),
        strangers=_strangers(known, paints),
        mix=mix,
        own_tests=own_tests(work, paints, mix),
    )


def _rest(known: "Characterisation", paint: Paint) -> Rest:
    support = known.of(paint.id)
    return Rest(paint, support.alone, support.mixed, support.estimated)


def _strangers(
    known: "Characterisation", paints: Sequence[Paint]
) -> tuple[tuple[Paint, Paint], ...]:
    return tuple(
        (one, other)
        for place, one in enumerate(paints)
        for other in paints[place + 1 :]
        if not known.pair_seen((one.id, other.id))
    )

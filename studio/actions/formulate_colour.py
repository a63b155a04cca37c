"""Recipes for a colour that no one has mixed yet, predicted from the studio's own swatches."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import numpy as np

from studio.actions.beyond_paints import BeyondPaints, beyond_paints
from studio.actions.compare_swatches import no_spectrum_text, spectra_of
from studio.actions.match_colour import (
    ANOTHER_COLOUR,
    Match,
    Wanted,
    match_colour,
)
from studio.actions.model_inputs import WAVELENGTHS
from studio.actions.paint_model import PaintModel
from studio.actions.paints_to_mix import PaintsToMix, paints_to_mix
from studio.actions.paper_ground import GroundBasis, mean_spectrum
from studio.actions.proposed_mix import (
    LayFirst,
    LightShift,
    ProposedMix,
    lay_first,
    proposed_mix,
)
from studio.actions.read_target import Target
from studio.catalogue.paper import Paper
from studio.colour.difference import ciede2000
from studio.colour.lab import Lab
from studio.colour.metamerism import PASSES, under_light
from studio.colour.words import separation
from studio.errors import BadInput
from studio.mixing.formulate import formulate
from studio.mixing.goal import Goal
from studio.mixing.proposal import Choice, Formulation, Proposal
from studio.storage.unit_of_work import UnitOfWork

if TYPE_CHECKING:
    from studio.mixing.characterisation import Characterisation
    from studio.mixing.ranges import FloatArray

NAMED_FIRST: Final = 3
"""Recorded mixes that are named before anything is predicted."""
SEEN_FROM: Final = 3
"""So many times the wanted number of recipes are looked at under other lights."""


@dataclass(frozen=True, slots=True)
class Laying:
    """How a recipe is to be laid, and judged.

    Args:
        most: paints in one recipe, 1 to 4.
        layers: layers, each dry before the next.
        paper: the paper; None for a usual white.
        spectral: whether the spectrum of the target is to be come near as well.
        lights: CIE illuminants to look at each recipe under.
        together: parts of paint in one recipe at most; None for any number.
    """

    most: int = 3
    layers: int = 1
    paper: Paper | None = None
    spectral: bool = False
    lights: tuple[str, ...] = ()
    together: int | None = None


@dataclass(frozen=True, slots=True)
class FormulateResult:
    """What was predicted for a target.

    Args:
        target: the wanted colour.
        laying: how the recipes are laid.
        ground: where the reflectance of the paper comes from.
        proposals: ranked, the best first; none is too uncertain.
        nearest: the recipe whose predicted colour is nearest, whatever its rank; one that is too
            uncertain only where every one is.
        doubtful: recipes that would stand among them if they were not too uncertain.
        lay_first: the test patch that would tell most of these; None where there are none.
        beyond: what fails; None where the target can be reached, or nobody can tell.
        reached: ΔE00 of the nearest colour that any amounts reach, before they are rounded.
        recorded: the mixes on record that are near already.
        paints: which paints took part.
        combinations: how many combinations of them were searched.
        measured: swatches with a measured spectrum that the model rests on.
        estimated: swatches whose spectrum was estimated from their Lab.
    """

    target: Target
    laying: Laying
    ground: GroundBasis
    proposals: tuple[ProposedMix, ...]
    nearest: ProposedMix
    doubtful: tuple[ProposedMix, ...]
    lay_first: LayFirst | None
    beyond: BeyondPaints | None
    reached: float
    recorded: tuple[Match, ...]
    paints: PaintsToMix
    combinations: int
    measured: int
    estimated: int

    @property
    def within_reach(self) -> bool | None:
        """Whether the paints come near the target; None where too uncertain recipes alone might."""
        if self.beyond is not None:
            return False
        if self.nearest.is_too_uncertain:
            return None
        return None if self.doubtful and self.nearest.delta_e > PASSES else True


def formulate_colour(  # noqa: PLR0913 - what a recipe may be, and who is told
    work: UnitOfWork,
    model: PaintModel,
    target: Target,
    wanted: Wanted,
    laying: Laying,
    *,
    count: int = 5,
    tell: Callable[[float], None] | None = None,
) -> FormulateResult:
    """The recipes that are predicted best for a target.

    Args:
        work: the studio.
        model: its paints.
        target: the wanted colour.
        wanted: which paints may take part; its paper narrows the recorded mixes alone.
        laying: how they are laid.
        count: how many recipes at most.
        tell: is told from time to time which share of the search is done.

    Raises:
        BadInput: nothing can be predicted with these paints, or the target has no spectrum where
            one is needed.
    """
    paints = paints_to_mix(model, wanted)
    known = model.known
    assert known is not None  # noqa: S101 - some paint is left, so it is known
    if len(wanted.using) > laying.most:
        msg = (
            f"every recipe is to hold {len(wanted.using)} paints, but may have only {laying.most}; "
            f"ask for more with --paints {len(wanted.using)}"
        )
        raise BadInput(msg)
    spectrum = _spectrum_of(work, target, needed=laying.spectral)
    ground = model.ground(laying.paper)
    goal = Goal(
        np.array(target.lab.coordinates),
        ground.reflectance,
        spectrum if laying.spectral else None,
    )
    choice = Choice(
        tuple(paint.id for paint in paints.paints),
        laying.most,
        frozenset(paint.id for paint in wanted.using),
        laying.layers,
        together=laying.together,
    )
    looked = count * SEEN_FROM if laying.lights else count
    found = formulate(known, goal, choice, count=looked, tell=tell)
    look = _looking(known, spectrum, laying.lights)

    def line(proposal: Proposal) -> ProposedMix:
        return look(proposed_mix(work, known, target.lab, proposal, 0), proposal)

    nearest = line(found.nearest)
    doubtful = found.doubtful[:count]
    lines = _worth_showing([line(each) for each in found.proposals], nearest)
    lines.sort(key=lambda each: any(under.breaks for under in each.lights or ()))
    uncertain = tuple(map(line, doubtful))
    beyond, reached = _beyond(target, nearest, uncertain, found)
    return FormulateResult(
        target,
        laying,
        ground.basis,
        tuple(replace(each, rank=rank) for rank, each in enumerate(lines[:count], start=1)),
        nearest,
        uncertain,
        lay_first(work, known, doubtful, laying.paper, ground.reflectance),
        beyond,
        reached,
        match_colour(work, target, wanted, count=NAMED_FIRST, within=PASSES).matches,
        paints,
        found.combinations,
        model.measured,
        model.estimated,
    )


def _spectrum_of(work: UnitOfWork, target: Target, *, needed: bool) -> "FloatArray | None":
    """The mean spectrum of a target that is a swatch; None where it has none."""
    if target.swatch_id is None:
        if needed:
            msg = (
                "a colour alone has no spectrum to come near; with --spectral the target is a "
                "swatch that was read by a spectrophotometer, such as S12"
            )
            raise BadInput(msg)
        return None
    swatch = work.swatches.by_ids([target.swatch_id])[target.swatch_id]
    if not spectra_of(swatch):
        if needed:
            raise BadInput(no_spectrum_text(swatch))
        return None
    readings = [each for each in swatch.readings if each.state is swatch.state and each.spectrum]
    return np.minimum(mean_spectrum(readings), 1.0)


def _worth_showing(lines: Sequence[ProposedMix], nearest: ProposedMix) -> list[ProposedMix]:
    """Those that are no other colour than the target; where none is, those about as near as any."""
    limit = max(ANOTHER_COLOUR, nearest.delta_e + 1.0)
    return [each for each in lines if each.delta_e <= limit]


def _beyond(
    target: Target,
    nearest: ProposedMix,
    doubtful: Sequence[ProposedMix],
    found: Formulation,
) -> tuple[BeyondPaints | None, float]:
    """What fails where even unrounded amounts do not pass for the target.

    Where a recipe that is too uncertain may pass, by its error, nobody can tell.
    """
    reached = min(found.reached, nearest.delta_e)
    may = any(each.delta_e - each.expected_error <= PASSES for each in doubtful)
    if reached <= PASSES or may or nearest.is_too_uncertain:
        return None, reached
    return beyond_paints(target.lab.coordinates, nearest.lab.coordinates), reached


def _looking(
    known: "Characterisation",
    spectrum: "FloatArray | None",
    lights: Sequence[str],
) -> Callable[[ProposedMix, Proposal], ProposedMix]:
    """Adds to a predicted recipe how it looks under other lights and beside a spectrum."""
    weights = {}
    if lights:
        # Half a second of colour-science, for other lights alone.
        from studio.colour.science import tristimulus  # noqa: PLC0415

        weights = {light: tristimulus(WAVELENGTHS, light) for light in lights}

    def seen(curve: "FloatArray", light: str) -> Lab:
        lightness, a, b = weights[light].lab(curve).tolist()
        return Lab(lightness, a, b, light)

    def look(line: ProposedMix, proposal: Proposal) -> ProposedMix:
        curve = proposal.spectrum
        if spectrum is None:
            return replace(line, shifts=tuple(_shift(line.lab, seen(curve, x)) for x in lights))
        lightness, a, b = known.light.lab(spectrum).tolist()
        here = Lab(lightness, a, b)
        return replace(
            line,
            spectral_error=float(np.sqrt(((curve - spectrum) ** 2).mean())),
            lights=tuple(
                under_light(here, line.lab, seen(spectrum, x), seen(curve, x)) for x in lights
            ),
        )

    return look


def _shift(here: Lab, there: Lab) -> LightShift:
    pair = here.coordinates, there.coordinates
    return LightShift(there.illuminant, ciede2000(*pair), separation(*pair))

"""What the model of the paints is computed from: every dry patch of an even film, in plain numbers.

Nothing here computes with spectra, so that a digest tells at little cost whether a result that was
kept still holds.
"""

import hashlib
import json
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from studio.catalogue.mix import Mix
from studio.catalogue.paint import Paint, Status
from studio.catalogue.paper import Paper
from studio.catalogue.reading import Backing, Method, Reading, State
from studio.catalogue.swatch import Application, Swatch
from studio.mixing.settings import DEFAULT
from studio.storage.unit_of_work import UnitOfWork

MODEL: Final = "film 1"
"""Names the model; a change of its numbers that the settings do not show makes it another."""

WAVELENGTHS: Final = tuple(400.0 + 10.0 * step for step in range(31))
"""What nearly every instrument reads, nm; spectra are brought to these only to be computed with."""

UNEVEN: Final = (Application.DRY_BRUSH, Application.SPATTER, Application.LIFTED)
"""Bare paper shows between the paint, or paint was taken away: no film of one thickness."""

HALF: Final = (Application.GRADED_WASH, Application.WET_IN_WET)
"""Films whose thickness varies with the place that was read; they count half."""

BY_EYE_ERROR: Final = 5.0
DOUBT: Final = 3.0
"""ΔE00; a reading with such an error counts half as much as an exact one (assumed, no source)."""


@dataclass(frozen=True, slots=True)
class Patch:
    """A dry swatch as it was read over one backing.

    Args:
        swatch: the swatch.
        mix: what was mixed.
        readings: the dry readings that count: those with a spectrum, else those with Lab alone.
        white: the readings of what it was laid on; none where its paper was not read.
        weight: how much it counts, above 0 to 1.
    """

    swatch: Swatch
    mix: Mix
    readings: tuple[Reading, ...]
    white: tuple[Reading, ...]
    weight: float

    @property
    def code(self) -> str:
        """How messages name it."""
        return self.swatch.facts.code

    @property
    def estimated(self) -> bool:
        """Whether its spectrum is to be estimated from its Lab."""
        return self.readings[0].spectrum is None


@dataclass(frozen=True, slots=True)
class LeftAside:
    """A swatch that the model does not use.

    Args:
        swatch: the swatch.
        mix: what was mixed.
        why: the reason, as the end of a sentence that begins with its code.
    """

    swatch: Swatch
    mix: Mix
    why: str


@dataclass(frozen=True, slots=True)
class UnknownPaint:
    """A paint that the model says nothing of.

    Args:
        paint: the paint.
        why: what is on record, as a sentence without its full stop.
        missing: the swatch that would change it.
    """

    paint: Paint
    why: str
    missing: str


@dataclass(frozen=True, slots=True)
class ModelInputs:
    """All that the model is computed from.

    Args:
        patches: in the order they were recorded.
        left_aside: swatches it is not computed from.
        unknown: paints without enough swatches.
        papers: every paper.
        paints: every paint.
        sha256: digest of the model, its settings, the patches, the papers' whites, and which
            paints are retired.
    """

    patches: tuple[Patch, ...]
    left_aside: tuple[LeftAside, ...]
    unknown: tuple[UnknownPaint, ...]
    papers: tuple[Paper, ...]
    paints: tuple[Paint, ...]
    sha256: str

    @property
    def estimated(self) -> int:
        """How many patches have no spectrum of their own."""
        return sum(patch.estimated for patch in self.patches)


def model_inputs(work: UnitOfWork) -> ModelInputs:
    """What the studio's records hold for the model."""
    papers, paints = work.papers.all(), work.paints.all()
    of_paper = {paper.id: paper for paper in papers}
    swatches = work.swatches.all()
    mixes = work.mixes.by_ids({swatch.mix_id for swatch in swatches})
    patches: list[Patch] = []
    aside: list[LeftAside] = []
    for swatch in swatches:
        mix = mixes[swatch.mix_id]
        why = _why_not(swatch)
        if why is None:
            patches += _patches(swatch, mix, of_paper[swatch.paper_id])
        else:
            aside.append(LeftAside(swatch, mix, why))
    kept, unknown = _known_enough(paints, patches, aside)
    return ModelInputs(
        tuple(kept), tuple(aside), tuple(unknown), papers, paints, _digest(kept, papers, paints)
    )


def white_of(paper: Paper, *, black: bool) -> tuple[Reading, ...]:
    """The readings of a paper's white that count for a patch that was read over black or not.

    A sheet over black is darker than over white; where its white was not read so, any reading of
    it stands in. Of readings with a spectrum and others, those with a spectrum count.
    """
    alike = [each for each in paper.white if (each.backing is Backing.BLACK) is black]
    return _best(alike or paper.white)


def _why_not(swatch: Swatch) -> str | None:
    if swatch.state is State.WET:
        return "has not been read dry"
    if swatch.facts.application in UNEVEN:
        return f"is not an even film ({swatch.facts.application})"
    for reading in swatch.readings:
        if reading.state is State.DRY and reading.spectrum is not None:
            values = zip(reading.spectrum.wavelengths, reading.spectrum.values, strict=True)
            seen = [pair for pair in values if WAVELENGTHS[0] <= pair[0] <= WAVELENGTHS[-1]]
            nm, most = max(seen, key=lambda pair: pair[1])
            if most > 1.0:
                return (
                    f"fluoresces: it reflects {most:.3g} times the light at {nm:g} nm, which no "
                    "film of paint does by itself"
                )
    return None


def _patches(swatch: Swatch, mix: Mix, paper: Paper) -> list[Patch]:
    dry = [each for each in swatch.readings if each.state is State.DRY]
    found = []
    for black in (False, True):
        readings = _best([each for each in dry if (each.backing is Backing.BLACK) is black])
        if readings:
            weight = _trust(readings) * (0.5 if swatch.facts.application in HALF else 1.0)
            found.append(Patch(swatch, mix, readings, white_of(paper, black=black), weight))
    return found


def _best(readings: Sequence[Reading]) -> tuple[Reading, ...]:
    with_spectrum = tuple(each for each in readings if each.spectrum is not None)
    return with_spectrum or tuple(readings)


def _trust(readings: Sequence[Reading]) -> float:
    """How much readings count, by their mean error."""
    errors = [
        math.hypot(
            each.error
            if each.error is not None
            else (BY_EYE_ERROR if each.method is Method.BY_EYE else 0.0),
            each.adaptation_error or 0.0,
        )
        for each in readings
    ]
    mean = sum(errors) / len(errors)
    return 1.0 / (1.0 + (mean / DOUBT) ** 2)


def _known_enough(
    paints: Iterable[Paint], patches: Sequence[Patch], aside: Sequence[LeftAside]
) -> tuple[list[Patch], list[UnknownPaint]]:
    """The patches whose paints all have enough of them, and the paints that have not.

    A paint needs a wash of its own, or two different mixes. Leaving out the mixes of one paint may
    leave too few to another, so this goes on until nothing changes.
    """
    kept, unknown = list(patches), dict[int, UnknownPaint]()
    while True:
        lacking = [
            each for each in paints if each.id not in unknown and not _is_enough(each.id, kept)
        ]
        if not lacking:
            return kept, list(unknown.values())
        unknown |= {each.id: _unknown(each, kept, aside) for each in lacking}
        kept = [each for each in kept if not each.mix.recipe.paints & unknown.keys()]


def _is_enough(paint: int, patches: Iterable[Patch]) -> bool:
    recipes = {each.mix.recipe for each in patches if paint in each.mix.recipe.paints}
    return len(recipes) > 1 or any(len(recipe.paints) == 1 for recipe in recipes)


def _unknown(paint: Paint, patches: Iterable[Patch], aside: Iterable[LeftAside]) -> UnknownPaint:
    own = [each for each in patches if paint.id in each.mix.recipe.paints]
    others = [each for each in aside if paint.id in each.mix.recipe.paints]
    if own:
        why = f"it is in no wash of its own and in one mix alone ({own[0].mix.code})"
    elif others:
        why = f"{others[0].swatch.facts.code} {others[0].why}"
        if len(others) > 1:
            why = f"none of its {len(others)} swatches can be used: {why}"
    else:
        why = "no dry swatch holds it"
    name = paint.facts.name
    return UnknownPaint(paint, why, f"a flat wash of {name} alone, water 3:1, read when it is dry")


def _digest(patches: Iterable[Patch], papers: Iterable[Paper], paints: Iterable[Paint]) -> str:
    told = {
        "model": [MODEL, repr(DEFAULT), WAVELENGTHS],
        "patches": [
            [
                each.mix.recipe.key,
                each.swatch.facts.water,
                each.swatch.facts.layers,
                each.weight,
                _numbers(each.readings),
                _numbers(each.white),
            ]
            for each in patches
        ],
        "papers": [[paper.id, _numbers(white_of(paper, black=False))] for paper in papers],
        "retired": [paint.id for paint in paints if paint.facts.status is Status.RETIRED],
    }
    return hashlib.sha256(json.dumps(told).encode()).hexdigest()


def _numbers(readings: Iterable[Reading]) -> list[object]:
    return [
        [each.spectrum.start, each.spectrum.step, *each.spectrum.values]
        if each.spectrum
        else each.lab.coordinates
        for each in readings
    ]

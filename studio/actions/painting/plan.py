"""What a plan of a painting holds; `plan_painting.py` makes it."""

import math
from dataclasses import dataclass
from enum import StrEnum

from studio.actions.fade_results import FadeResult
from studio.actions.match_colour import Ingredient, OfPaints
from studio.catalogue.care_points import Care
from studio.catalogue.mix import Mix
from studio.catalogue.paint import Paint
from studio.catalogue.painting import Painting, Passage, PassageColour
from studio.catalogue.paper import Paper
from studio.catalogue.swatch import Swatch
from studio.colour.lab import Lab
from studio.colour.words import Separation


class Basis(StrEnum):
    """What a planned mix rests on, the surest first."""

    RECORDED = "recorded"
    TINT = "tint between"
    PREDICTED = "predicted"


@dataclass(frozen=True, slots=True)
class Candidate(OfPaints):
    """A mix that comes within tolerance of a colour, laid in a certain way.

    Args:
        recipe: its paints and parts.
        mix: the recorded mix of that recipe; None where it was never mixed.
        water: parts of water to one part of paint; None where the swatch does not say.
        layers: how many it was judged at.
        basis: what it rests on.
        swatch: the match itself, or the nearest of a tint; None where it is predicted.
        paper: what it was judged on.
        lab: its colour, measured or predicted, under D50/2°.
        delta_e: ΔE00 of that from the colour.
        error: expected ΔE00 of a prediction; None where it was measured.
        is_try: whether the swatch was made for this very colour.
    """

    recipe: tuple[Ingredient, ...]
    mix: Mix | None
    water: float | None
    layers: int
    basis: Basis
    swatch: Swatch | None
    paper: Paper
    lab: Lab
    delta_e: float
    error: float | None = None
    is_try: bool = False

    @property
    def expected(self) -> float:
        """The ΔE00 to expect when it is laid: a prediction may miss by its error as well."""
        return math.hypot(self.delta_e, self.error or 0.0)

    @property
    def paints(self) -> frozenset[int]:
        """Ids of its paints."""
        return frozenset(part.paint.id for part in self.recipe)

    @property
    def well(self) -> tuple[object, ...]:
        """What two candidates share that come from one well: recipe and water.

        Where the water is not known each swatch is one of its own.
        """
        parts = frozenset((part.paint.id, part.parts) for part in self.recipe)
        unknown = self.swatch.id if self.water is None and self.swatch else None
        return parts, self.water, unknown


@dataclass(frozen=True, slots=True)
class PlannedMix(OfPaints):
    """A mix to make, once for all the colours it serves; each of these keeps how it was judged.

    Args:
        letter: what plan and sheet call it: A, B, … Z, AA, in working order of its first use.
        recipe: its paints and parts.
        mix: the recorded mix of that recipe; None where it was never mixed.
        water: parts of water to one part of paint; None where the swatch does not say.
        layers: how many it was judged at, for the first colour it serves; so the next four.
        basis: what it rests on.
        swatch: the card to lay beside it: the match itself, or the nearest of a tint; None where it
            is predicted.
        lab: its colour, measured or predicted, under D50/2°.
        error: expected ΔE00 of a prediction; None where it was measured.
        paint_ml: paint in all, without water, for all it serves and what stays in the well.
        water_ml: water in all; None where the water is unknown.
    """

    letter: str
    recipe: tuple[Ingredient, ...]
    mix: Mix | None
    water: float | None
    layers: int
    basis: Basis
    swatch: Swatch | None
    lab: Lab
    error: float | None
    paint_ml: float
    water_ml: float | None


@dataclass(frozen=True, slots=True)
class PlannedColour:
    """A colour of a passage with the mix chosen for it.

    Args:
        passage: the passage.
        number: its place in the working order, from 1.
        colour: the colour it is to have.
        mix: what to mix; None where a test swatch is needed first.
        delta_e: ΔE00 of that mix, or of the nearest that there is; None where there is none.
        separation: how that mix looks beside the colour; None as above.
        needed: why a test swatch is needed, in one sentence; None where a mix was chosen.
        area_mm2: what it covers, assumed where the passage does not say.
        wash_ml: paint and water for it, all layers.
        chosen: how that mix was judged beside this colour; None where a test is needed.
    """

    passage: Passage
    number: int
    colour: PassageColour
    mix: PlannedMix | None
    delta_e: float | None
    separation: Separation | None
    needed: str | None
    area_mm2: float
    wash_ml: float
    chosen: Candidate | None = None


@dataclass(frozen=True, slots=True)
class PaintNeed:
    """What a plan takes of one paint.

    Args:
        paint: the paint.
        ml: without water.
        left_ml: what is on the shelf; None where it is not known.
    """

    paint: Paint
    ml: float
    left_ml: float | None

    @property
    def short_ml(self) -> float:
        """What has to be bought; 0 where there is enough or nobody knows."""
        return 0.0 if self.left_ml is None else max(0.0, self.ml - self.left_ml)


@dataclass(frozen=True, slots=True)
class Plan:
    """How to paint a painting from what the studio knows.

    Args:
        painting: what is planned.
        paper: its paper.
        colours: every colour of every passage, in working order.
        mixes: what to mix, in the order of first use.
        palette: the fewest paints that make all of them, with what each gives.
        fewest_proven: whether no smaller palette can do it, of the mixes that were weighed.
        remarks: on the order and on distance, a sentence each.
        assumptions: what amounts and times rest on, a sentence each, with their source.
        drying_steps: after which passages (numbers) to wait until dry.
        minutes: (at least, at most) for mixing, testing, laying and drying.
        own_tests: the owner's fade tests of the palette that have been read.
        cares: the usual cautions for the palette by brush, and for the paints that are spattered.
    """

    painting: Painting
    paper: Paper
    colours: tuple[PlannedColour, ...]
    mixes: tuple[PlannedMix, ...]
    palette: tuple[PaintNeed, ...]
    fewest_proven: bool
    remarks: tuple[str, ...]
    assumptions: tuple[str, ...]
    drying_steps: tuple[int, ...]
    minutes: tuple[float, float]
    own_tests: tuple[FadeResult, ...] = ()
    cares: tuple[Care, ...] = ()

    @property
    def paints(self) -> tuple[Paint, ...]:
        """The paints of the palette."""
        return tuple(need.paint for need in self.palette)

    @property
    def to_test(self) -> tuple[PlannedColour, ...]:
        """The colours that want a test swatch first."""
        return tuple(each for each in self.colours if each.mix is None)
